/** The page of an import in Chromium: the preview follows every answer, nothing is written before it is wanted. */

import type { Browser } from "playwright-core";
import { PNG } from "pngjs";
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import { encodePng } from "../../server/png.ts";
import { openText } from "../../shared/bitmap/open.ts";
import { pixelsOf } from "../../shared/bitmap/resolve.ts";
import { faintWords, overflow } from "../support/faint.ts";
import { bundleImport, type ImportCode, type OpenedImport, openImport } from "../support/importPage.ts";
import { bundle, launch, openPage } from "../support/page.ts";
import { falling } from "../support/pictures.ts";
import { until } from "../support/until.ts";

let browser: Browser;
let code: ImportCode;
let open: OpenedImport | undefined;
beforeAll(async () => {
  [browser, code] = await Promise.all([launch(), bundleImport()]);
});
afterAll(() => browser.close());
afterEach(async () => {
  expect(open?.errors ?? []).toEqual([]);
  await open?.close();
  open = undefined;
});

/** A seedling: green leaves and a brown pot, soft at their edges, on a transparent ground. */
function seedling(side = 64): Uint8Array {
  const png = new PNG({ width: side, height: side });
  for (let y = 0; y < side; y++) {
    for (let x = 0; x < side; x++) {
      const [u, v] = [(x + 0.5) / side, (y + 0.5) / side];
      const leaf = Math.max(inside(u, v, 0.32, 0.34, 0.22, 0.13), inside(u, v, 0.68, 0.34, 0.22, 0.13));
      const stem = Math.abs(u - 0.5) < 0.04 && v > 0.34 && v < 0.7 ? 1 : 0;
      const pot = v > 0.68 && v < 0.95 && Math.abs(u - 0.5) < 0.3 - 0.25 * (v - 0.68) ? 1 : 0;
      const green = Math.max(leaf, stem);
      const rgb = pot ? [176, 104, 60] : [70, 180, 80];
      png.data.set([...rgb, Math.round(255 * Math.max(green, pot))], 4 * (y * side + x));
    }
  }
  return PNG.sync.write(png);
}

/** 1 inside an ellipse, falling to 0 at its edge. */
function inside(u: number, v: number, x: number, y: number, a: number, b: number): number {
  return Math.max(0, Math.min(1, (1 - Math.hypot((u - x) / a, (v - y) / b)) * 4));
}

const mask = (): Uint8Array => {
  const png = new PNG({ width: 9, height: 9 });
  for (let i = 0; i < 81; i++) png.data.set([255, 255, 255, i * 3], 4 * i);
  return PNG.sync.write(png);
};
const ramp = encodePng({ width: 9, height: 9, channels: 1, data: Uint8Array.from({ length: 81 }, (_, i) => 3 * i) });

const question = (word: string) => open?.page.getByRole("button", { name: word, exact: true });
const choice = (label: string) =>
  open?.page.locator(".pick").filter({ has: open.page.getByText(label, { exact: true }) });
const answerOf = (word: string) => open?.page.locator(`.said:has(button:text-is("${word}")) .answer`).textContent();
const idle = () => open?.page.locator("[aria-busy=false]").waitFor();
/** Number of pixels of the result that are lit. */
const litPixels = () =>
  open?.page.locator("figure:nth-child(2) canvas").evaluate((canvas: HTMLCanvasElement) => {
    const { data } = canvas.getContext("2d")?.getImageData(0, 0, canvas.width, canvas.height) ?? { data: [] };
    let lit = 0;
    for (let i = 0; i < data.length; i += 4) if ((data[i] ?? 0) > 90) lit++;
    return lit;
  });

async function answer(word: string, ...labels: string[]): Promise<void> {
  await question(word)?.click();
  for (const label of labels) await choice(label)?.click();
  await idle();
}

describe("a picture", () => {
  test("is seen beside what it becomes, and written only when that is wanted", async () => {
    open = await openImport(browser, code, [["seedling.png", seedling()]]);
    const { page } = open;
    expect(await page.locator("h1 code").textContent()).toBe("// @bitmap lantern");
    expect(await page.locator(".facts").textContent()).toBe("seedling · 9×9 · gray8 · 81 bytes");
    expect(await page.locator("figcaption").allTextContents()).toEqual(["seedling.png 64×64", "seedling"]);
    const sizes = await page
      .locator(".pair canvas")
      .evaluateAll((all) => all.map((c) => [c.clientWidth, c.clientHeight]));
    expect(sizes[0]).toEqual(sizes[1]);
    expect(open.wrote).toEqual([]);
    await page.getByRole("button", { name: "Write it" }).click();
    await until(() => expect(open?.wrote.length).toBe(1));
    const [{ text, key } = { text: "", key: "" }] = open.wrote;
    expect(key).toBe("lantern");
    const bitmap = openText(text, "lantern_art.h").bitmaps.find((b) => b.array.name === "seedling");
    expect(bitmap && Math.max(...(pixelsOf(bitmap, 0) ?? []))).toBeGreaterThan(20);
  });

  test("changes with each answer, one question open at a time", async () => {
    open = await openImport(browser, code, [["seedling.png", seedling()]]);
    const { page } = open;
    const before = await litPixels();
    await answer("Levels", "inverted");
    expect(await page.locator(".asked").count()).toBe(1);
    await until(async () => expect(await litPixels()).toBeGreaterThan(before ?? 0));
    await answer("Light", "alpha");
    await answer("Way up", "90°", "left to right");
    await answer("Fit", "fills the frame", "nearest pixel");
    await answer("Steps", "ordered 4×4");
    expect(await Promise.all(["Levels", "Light", "Way up", "Fit", "Steps"].map(answerOf))).toEqual([
      "inverted, white is the cap",
      "alpha",
      "90°, mirrored left to right",
      "fills the frame, nearest pixel",
      "ordered 4×4",
    ]);
    expect(open.previews.at(-1)).toEqual({
      invert: true,
      channel: "alpha",
      turn: 90,
      mirror: "left-right",
      fit: "cover",
      resample: "nearest",
      dither: "ordered-4",
    });
  });

  test("whose channel is the same everywhere gets the one that varies offered", async () => {
    open = await openImport(browser, code, [["mask.png", mask()]], { place: { kind: "new", words: "lantern" } });
    await answer("Ground", "nothing");
    const { page } = open;
    expect(await page.locator(".notes").textContent()).toContain("luminance is the same everywhere (100 %)");
    await page.getByRole("button", { name: "Take alpha" }).click();
    await idle();
    expect(await answerOf("Light")).toBe("alpha");
    await until(async () => expect(await page.locator(".notes").textContent()).not.toContain("everywhere"));
  });

  test("goes into a bitmap that is there, or behind its frames", async () => {
    open = await openImport(browser, code, [["ramp.png", ramp]]);
    const { page } = open;
    await answer("Place", "in place of a frame");
    await page.locator("select[name=home]").selectOption({ label: "drip · 9×9 gray8 · 16 frames" });
    await page.locator("input[name=frame]").fill("3");
    await idle();
    expect(await answerOf("Place")).toBe("in place of frame 3 of drip");
    await until(async () => expect(await page.locator("figcaption").nth(1).textContent()).toBe("drip frame 3"));
    await page.locator("input[name=frame]").fill("99");
    await page.locator(".why:not([hidden])").waitFor();
    expect(await page.locator(".why").textContent()).toContain("drip has 16 frames, numbered from 0");
    expect(await page.getByRole("button", { name: "Write it" }).isDisabled()).toBe(true);
    await answer("Place", "behind the last frame");
    await until(async () => expect(await page.locator("h1 code").textContent()).toContain("frames=17"));
    await page.keyboard.press("Control+Enter");
    await until(() => expect(open?.wrote[0]?.text).toContain("drip[17][81]"));
  });

  test("takes size, format and name, and says what is wrong with them", async () => {
    open = await openImport(browser, code, [["ramp.png", ramp]]);
    const { page } = open;
    await answer("Form", "16×16", "palette2");
    expect(await page.locator("input[name=words]").inputValue()).toBe("16x16 palette2");
    await until(async () =>
      expect(await page.locator("h1 code").textContent()).toBe("// @bitmap 16x16 palette2 palette=ramp_colours"),
    );
    await answer("Steps", "2");
    await until(() => expect(open?.previews.at(-1)).toEqual({ colours: 2 }));
    await question("Form")?.click();
    await page.locator("input[name=words]").fill("16x16 grey8");
    await page.locator(".why:not([hidden])").waitFor();
    expect(await page.locator(".why").textContent()).toContain("grey8");
    await page.locator("input[name=words]").fill("16x16 gray8");
    await page.locator("input[name=name]").fill("drop_icon");
    await until(async () =>
      expect(await page.locator(".why").textContent()).toBe("`drop_icon` is already taken in this file."),
    );
    await page.locator("input[name=name]").fill("slope");
    await until(async () =>
      expect(await page.locator(".facts").textContent()).toBe("slope · 16×16 · gray8 · 256 bytes"),
    );
  });

  test("that holds several, or comes with others, becomes frames", async () => {
    open = await openImport(browser, code, [["ramp.png", ramp]], { place: { kind: "new", words: "gray8" } });
    await answer("Frames", "a sheet of cells");
    await open.page.locator(".why:not([hidden])").waitFor();
    for (const name of ["width", "height"]) await open.page.locator(`input[name=${name}]`).fill("3");
    await until(async () =>
      expect(await open?.page.locator("h1 code").textContent()).toBe("// @bitmap 3x3 gray8 frames=9"),
    );
    await open.page.getByRole("button", { name: "Later" }).click();
    expect(await open.page.locator(".steps").textContent()).toContain("picture 2 of 9");
    expect(open.wrote).toEqual([]);
  });

  test("remembers what was chosen for the panel, and forgets it for another", async () => {
    open = await openImport(browser, code, [["ramp.png", ramp]], {
      remembered: { lantern: { invert: true }, "9x9 gray8": { turn: 180 } },
    });
    expect(open.previews[0]).toEqual({ invert: true });
    await open.page.keyboard.press("Escape");
    await question("Form")?.click();
    await open.page.locator("input[name=words]").fill("9x9 gray8");
    await until(() => expect(open?.previews.at(-1)).toEqual({ turn: 180 }));
  });

  test("is followed by keys alone: Enter goes on, Ctrl+Enter writes", async () => {
    open = await openImport(browser, code, [["seedling.png", seedling()]]);
    const { page } = open;
    await question("Way up")?.focus();
    await page.keyboard.press("Enter");
    await page.keyboard.press("ArrowRight");
    await until(() => expect(open?.previews.at(-1)).toEqual({ turn: 90 }));
    await page.keyboard.press("Enter");
    expect(await page.locator(".asked legend").textContent()).toBe("How does it fit?");
    await idle();
    await page.keyboard.press("Control+Enter");
    await until(() => expect(open?.wrote[0]?.choices).toEqual({ turn: 90 }));
    await page.getByRole("button", { name: "Leave it" }).click();
    await until(() => expect(open?.left).toBe(1));
  });

  test("keeps what was chosen while the page is hidden", async () => {
    open = await openImport(browser, code, [["seedling.png", seedling()]]);
    await answer("Light", "alpha");
    await open.page.reload();
    await idle();
    expect(await answerOf("Light")).toBe("alpha");
    expect(await open.page.locator(".asked legend").textContent()).toBe("What of it becomes light?");
  });
});

test("a picture dropped on the paint editor's page begins an import in place of its frame", async () => {
  const paint = await openPage(browser, await bundle(), falling());
  await paint.page.keyboard.press("PageDown");
  await paint.page.evaluate(() => {
    const transfer = new DataTransfer();
    transfer.items.add(new File([Uint8Array.of(1, 2, 255)], "leaf.png", { type: "image/png" }));
    for (const type of ["dragover", "drop"])
      document.body.dispatchEvent(new DragEvent(type, { dataTransfer: transfer, bubbles: true, cancelable: true }));
  });
  await until(() => expect(paint.dropped.length).toBe(1));
  expect(paint.dropped).toMatchObject([{ frame: 1, files: [{ name: "leaf.png", data: "AQL/" }] }]);
  expect(paint.dropped[0]?.identity).toEqual(paint.shown.bitmap.identity);
  expect(paint.errors).toEqual([]);
  await paint.close();
});

const SOFT = ["Place", "Form", "Fit", "Light", "Ground", "Levels", "Steps"];

test.each(["dark", "light", "contrast", "contrastLight"] as const)(
  "%s: every question is legible, narrow and wide",
  async (theme) => {
    open = await openImport(browser, code, [["seedling.png", seedling()]]);
    await open.theme(theme);
    for (const word of SOFT) {
      await answer(word);
      for (const width of [300, 560]) {
        await open.page.setViewportSize({ width, height: 820 });
        await until(async () =>
          expect([theme, word, width, await overflow(open as OpenedImport)]).toEqual([theme, word, width, []]),
        );
        expect([theme, word, await faintWords(open)]).toEqual([theme, word, []]);
      }
      if (word === "Place" || word === "Light" || word === "Form")
        await open.screenshot(`${word.toLowerCase()}-${theme}`);
    }
    await open.page.setViewportSize({ width: 300, height: 820 });
    await open.screenshot(`narrow-${theme}`);
  },
);
