/** A bitmap's motion on the page: flanks dragged, stepped and typed, frames along time, and what is asked for it. */
import { readFileSync } from "node:fs";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { overflow } from "../support/faint.ts";
import { afresh, bundle, type Code, launch, type Opened, openPage, settled } from "../support/page.ts";
import { drop } from "../support/pictures.ts";
import { shownFrom } from "../support/shownFrom.ts";
import { until } from "../support/until.ts";

const LANTERN = readFileSync(`${process.cwd()}/sample-workspace/lantern_art.h`, "utf8");

let browser: Browser;
let open: Opened;
let text = LANTERN;
beforeAll(async () => {
  let code: Code;
  [browser, code] = await Promise.all([launch(), bundle()]);
  open = await openPage(browser, code, drop(), { height: 1600 });
});
afterAll(() => browser.close());
beforeEach(async () => {
  text = LANTERN;
  await afresh(open, drop());
  await afresh(open, shownFrom(LANTERN, "drop_reveal"));
  // What the extension does: the words are written, and the picture is shown anew.
  open.moved = async ({ words }) => {
    for (const [key, value] of Object.entries(words))
      text = text.replace(new RegExp(`(@motion .*)\\b${key}=\\S+`), `$1${key}=${value}`);
    await open.show({ ...shownFrom(text, "drop_reveal"), version: open.shown.version + 1 });
  };
});

const panel = () => open.page.getByRole("region", { name: "Motion" });
const slider = (name: string) => panel().getByRole("slider", { name, exact: true });
const valueAt = async (name: string) => Number(await slider(name).getAttribute("aria-valuenow"));
const words = () => open.motions.map((m) => m.words);
const field = (name: string) => panel().getByRole("textbox", { name, exact: true });
const note = () => open.page.locator(".note").textContent();

async function dragBy(name: string, dx: number): Promise<void> {
  const box = await slider(name).boundingBox();
  if (!box) throw new Error(`${name} is not to be seen`);
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await open.page.mouse.move(x, y);
  await open.page.mouse.down();
  await open.page.mouse.move(x + dx / 2, y, { steps: 3 });
  await open.page.mouse.move(x + dx, y, { steps: 3 });
  await settled(open);
}

describe("the flanks", () => {
  test("the soft width is dragged, shown at once, and written once it is let go", async () => {
    await dragBy("Soft width", 20);
    const dragged = await valueAt("Soft width");
    expect(dragged).toBeLessThan(80);
    expect(await field("soft").inputValue()).toBe(String(dragged));
    expect(open.motions).toEqual([]);
    await open.page.mouse.up();
    await until(async () => expect(words()).toEqual([{ soft: String(dragged) }]));
    const { version, bitmap } = shownFrom(LANTERN, "drop_reveal");
    expect(open.motions[0]).toMatchObject({ identity: bitmap.identity });
    expect(open.motions[0]?.version).toBeGreaterThan(version);
    await until(async () =>
      expect(await panel().getByRole("button", { name: "Bake 16 frames" }).isVisible()).toBe(true),
    );
  });

  test("the rim stays within the soft edge", async () => {
    await slider("Rim").focus();
    await open.page.keyboard.press("End");
    await until(async () => expect(words()).toEqual([{ rim: "90" }]));
    await until(async () => expect(await slider("Soft width").getAttribute("aria-valuemin")).toBe("90"));
    await slider("Soft width").focus();
    await open.page.keyboard.press("PageDown");
    await settled(open);
    expect(await valueAt("Soft width")).toBe(90);
    expect(words()).toHaveLength(1);
  });

  test("a key that is held down is one step, with Shift ten at a time", async () => {
    await slider("Rim").focus();
    for (let i = 0; i < 3; i++) await open.page.keyboard.down("ArrowRight");
    await settled(open);
    expect([await valueAt("Rim"), words()]).toEqual([11, []]);
    await open.page.keyboard.up("ArrowRight");
    await until(async () => expect(words()).toEqual([{ rim: "11" }]));
    await settled(open);
    await open.page.keyboard.press("Shift+ArrowRight");
    await until(async () => expect(words()[1]).toEqual({ rim: "21" }));
  });

  test("the ends are dragged too", async () => {
    await dragBy("Where it ends", 12);
    const dragged = await valueAt("Where it ends");
    expect(dragged).toBeGreaterThan(-90);
    await open.page.mouse.up();
    await until(async () => expect(words()).toEqual([{ to: String(dragged) }]));
  });

  test("what is refused goes back, with the reason", async () => {
    open.moved = () => Promise.reject(new Error("the document has moved on"));
    await slider("Rim").focus();
    await open.page.keyboard.press("ArrowRight");
    await until(async () => expect(await note()).toBe("Not changed: the document has moved on"));
    await until(async () => expect(await valueAt("Rim")).toBe(8));
  });
});

describe("the edge", () => {
  const told = () => panel().locator("p.small").first().textContent();

  test("stands where the frame at hand has it, and is moved by hand without a word", async () => {
    // 345 − 5 · 29.
    for (let i = 0; i < 5; i++) await open.page.keyboard.press("PageDown");
    await until(async () => expect(await valueAt("Edge")).toBe(200));
    await slider("Edge").focus();
    await open.page.keyboard.press("Home");
    await until(async () => expect(await told()).toBe("0 dark, 0 in the edge, 81 shown"));
    await open.page.keyboard.press("End");
    await until(async () => expect(await told()).toBe("81 dark, 0 in the edge, 0 shown"));
    expect(words()).toEqual([]);
  });

  test("pixels above the cap are counted before it holds them", async () => {
    const sum = panel().getByText(/^sum:/);
    expect(await sum.textContent()).toBe("sum: none above");
    for (let i = 0; i < 7; i++) await open.page.keyboard.press("PageDown");
    await until(async () => expect(await sum.textContent()).toBe("sum: 22 pixels above"));
  });
});

describe("along time", () => {
  const frame = async () => Number(await open.page.locator(".strip").getAttribute("aria-valuenow"));

  test("frames are gone to, also those that the array shares", async () => {
    await slider("Frame in time").focus();
    await open.page.keyboard.press("PageUp");
    await until(async () => expect([await frame(), await valueAt("Edge")]).toEqual([10, 55]));
    await open.page.keyboard.press("End");
    // There and back: the last of 30 frames is the second one again.
    await until(async () => expect([await valueAt("Frame in time"), await valueAt("Edge")]).toEqual([29, 316]));
    expect(await slider("Frame in time").getAttribute("aria-valuetext")).toBe("frame 29 of 0–29, edge at 316");
  });
});

describe("words", () => {
  test("numbers are typed; what is none is said", async () => {
    await field("step").fill("15");
    await field("step").press("Enter");
    await until(async () => expect(words()).toEqual([{ step: "15" }]));
    await until(async () => expect(await slider("Frame in time").getAttribute("aria-valuemax")).toBe("57"));
    await field("level").fill("bright");
    await field("level").press("Enter");
    await until(async () => expect(await note()).toBe("“bright” is no whole number for level"));
    await until(async () => expect(await field("level").inputValue()).toBe("64"));
    // A level above the cap becomes the cap, which it was: there is nothing to write.
    await field("level").fill("99");
    await field("level").press("Enter");
    await settled(open);
    expect(words()).toHaveLength(1);
  });

  test("how it goes and what comes after it is chosen", async () => {
    await panel().getByRole("button", { name: "Around" }).click();
    await until(async () => expect(words()).toEqual([{ loop: "around" }]));
    await panel().getByRole("button", { name: "Slow last" }).click();
    await until(async () => expect(words()[1]).toEqual({ ease: "cubic-out" }));
  });

  test("baking is offered where the frames are out of date", async () => {
    const bake = panel().getByRole("button", { name: /^Bake/ });
    expect(await bake.isVisible()).toBe(false);
    await open.show({
      ...shownFrom(LANTERN.replace("rim=8", "rim=20"), "drop_reveal"),
      version: open.shown.version + 1,
    });
    await bake.click();
    await until(async () => expect(open.bakes).toHaveLength(1));
  });
});

test("a file that can't be written shows the motion, and takes nothing", async () => {
  await open.show({ ...shownFrom(LANTERN, "drop_reveal"), readOnly: true, version: open.shown.version + 1 });
  await settled(open);
  expect(await slider("Rim").isVisible()).toBe(false);
  expect(await field("soft").isDisabled()).toBe(true);
  await slider("Edge").focus();
  await open.page.keyboard.press("ArrowLeft");
  await settled(open);
  expect(await valueAt("Edge")).toBe(344);
});

test.each([
  [128, 64],
  [320, 100],
  [1, 40],
])("a picture of %i×%i fits a narrow page", async (width, height) => {
  const list = (count: number) => Array.from({ length: count }, (_, i) => (i * 3) % 256).join(",");
  const art = `// @bitmap ${width}x${height}\nconst uint8_t art[] = {${list(width * height)}};
// @motion image=art step=200\n// @bitmap ${width}x${height} frames=2\nconst uint8_t drop_reveal[] = {${list(2 * width * height)}};\n`;
  await open.page.setViewportSize({ width: 320, height: 1600 });
  await open.show({ ...shownFrom(art, "drop_reveal"), version: open.shown.version + 1 });
  await panel()
    .getByText(/^held at/)
    .waitFor();
  await settled(open);
  expect(await overflow(open)).toEqual([]);
  const boxes = await panel()
    .locator("canvas")
    .evaluateAll((all) => all.map((c) => [c.clientWidth, c.clientHeight]));
  for (const [w = 0, h = 0] of boxes) expect([w > 0 && w <= 130, h > 0 && h <= 110]).toEqual([true, true]);
  await open.page.setViewportSize({ width: 420, height: 1600 });
});

test("a bitmap without a motion has no such part", async () => {
  await open.show({ ...drop(), version: open.shown.version + 1 });
  await settled(open);
  expect(await panel().count()).toBe(0);
  expect(open.errors).toEqual([]);
});
