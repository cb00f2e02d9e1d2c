/** The gallery's page: rows as they come, filter, groups, keyboard, and only what is in view. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import type { GalleryToHost, GalleryToPage } from "../../shared/protocol/galleryPage.ts";
import { faintWords, overflow } from "../support/faint.ts";
import { galleryFiles, galleryPicture, sampleGallery } from "../support/galleryFiles.ts";
import { changeTheme, launch } from "../support/page.ts";
import { openSmallPage, type SmallPage } from "../support/smallPage.ts";

let browser: Browser;
let open: SmallPage<GalleryToPage>;
const opened: unknown[] = [];
const painted: unknown[] = [];
const asked: { uri: string; wanted: readonly { name: string }[] }[] = [];
beforeAll(async () => {
  browser = await launch();
  open = await openSmallPage<GalleryToHost, GalleryToPage>(
    browser,
    "gallery",
    (rpc) => ({
      ready: async () => {
        await rpc().call("files", { files: await sampleGallery(), gone: [], left: 0 });
        return {};
      },
      pictures: async (params) => {
        asked.push(params);
        return { pictures: await Promise.all(params.wanted.map(({ name }) => galleryPicture(params.uri, name))) };
      },
      open: (which) => {
        opened.push(which);
        return {};
      },
      paint: (which) => {
        painted.push(which);
        return {};
      },
    }),
    { width: 300, height: 700 },
  );
  await open.page.getByRole("button", { name: /^drop_icon/ }).waitFor();
});
afterAll(() => browser.close());
beforeEach(async () => {
  opened.length = 0;
  painted.length = 0;
  await open.page.getByRole("searchbox").fill("");
});

/** Bitmaps of the sample workspace. */
const all = async () => (await sampleGallery()).flatMap((file) => file.bitmaps).length;
const status = () => open.page.getByRole("status").textContent();
const names = () => open.page.locator("li .name").allTextContents();
const headings = () => open.page.getByRole("heading").allTextContents();
const focused = () => open.page.evaluate(() => document.activeElement?.textContent);

describe("what it shows", () => {
  test("all bitmaps by file, with facts, findings and pictures", async () => {
    const { page } = open;
    expect(await status()).toBe(`${await all()} bitmaps`);
    expect((await headings()).slice(0, 2)).toEqual(["colour_grid.h · 2", "font5x7.h · 1"]);
    const drop = page.getByRole("listitem").filter({ has: page.getByText("drop_icon", { exact: true }) });
    expect(await drop.locator(".facts").allTextContents()).toEqual([
      "9×9 gray8 · 81 bytes",
      "peak 64 of cap 64 · about 22 mA · 0.16 ms a frame",
    ]);
    await drop.locator("img").waitFor();
    // 48 pixels high, in whole numbers.
    expect(await drop.locator("img").evaluate((i: HTMLImageElement) => [i.width, i.height])).toEqual([45, 45]);
    expect(await page.getByRole("button", { name: /^drop_icon/ }).getAttribute("aria-label")).toBe(
      "drop_icon, 9×9 gray8, 81 bytes, peak 64 of cap 64, about 22 mA, 0.16 ms a frame, lantern_art.h line 14",
    );
    expect(open.errors).toEqual([]);
  });

  test("what the filter leaves, by all its words", async () => {
    const { page } = open;
    await page.getByRole("searchbox").fill("lantern_art ICON cap");
    await expect.poll(status).toBe(`8 of ${await all()} bitmaps`);
    expect(await headings()).toEqual(["lantern_art.h · 8"]);
    await page.getByRole("searchbox").fill("error");
    await expect.poll(names).toEqual(["broken_frame", "too_bright_to_exist"]);
    expect(await page.locator(".mark").allTextContents()).toEqual(["error", "error"]);
    await page.getByRole("searchbox").fill("nothing like it");
    await page.getByText("No bitmap has these words.").waitFor();
  });

  test("the same by panel, those without one last", async () => {
    const { page } = open;
    await page.getByRole("button", { name: "by panel" }).click();
    await expect.poll(headings).toContain("lantern · 11");
    const found = page.getByRole("listitem").filter({ has: page.getByText("drop_icon", { exact: true }) });
    expect(await found.locator(".facts").last().textContent()).toBe("lantern_art.h");
    await page.getByRole("searchbox").fill("screen");
    await expect.poll(headings).toEqual(["no panel · 3"]);
    await page.getByRole("button", { name: "by file" }).click();
  });

  test("what has changed, and what is gone", async () => {
    const [first, ...others] = await sampleGallery();
    if (!first) throw new Error("no files");
    const bitmaps = first.bitmaps.map((b, i) => (i === 0 ? { ...b, facts: "8×8 palette2 · grown · much" } : b));
    await open.rpc.call("files", { files: [{ ...first, bitmaps }], gone: others.map((f) => f.uri), left: 2 });
    await expect.poll(status).toBe("2 bitmaps, 2 files to read");
    await open.page.getByText("8×8 palette2 · grown").waitFor();
    await open.rpc.call("files", { files: [first, ...others], gone: [], left: 0 });
    await expect.poll(status).toBe(`${await all()} bitmaps`);
  });
});

describe("by keyboard", () => {
  test("one stop of the Tab key; arrows, Home and End go from bitmap to bitmap", async () => {
    const { page } = open;
    await page.getByRole("searchbox").focus();
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("Home");
    expect(await focused()).toBe("seedling");
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("ArrowDown");
    // Headings are passed over.
    expect(await focused()).toBe("font5x7");
    await page.keyboard.press("ArrowUp");
    expect(await focused()).toBe("dawn");
    await page.keyboard.press("End");
    expect(await focused()).toBe("watering_can");
    await page.keyboard.press("PageUp");
    await page.keyboard.press("Home");
    expect(await focused()).toBe("seedling");
    expect(await page.locator("li [tabindex='0']").count()).toBe(1);
  });

  test("Enter opens the source at the array, P paints", async () => {
    const { page } = open;
    await page.getByRole("searchbox").fill("drop_icon");
    await expect.poll(names).toEqual(["drop_icon"]);
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("Enter");
    expect(opened).toEqual([{ uri: "file:///greenhouse/lantern_art.h", name: "drop_icon", ordinal: 0 }]);
    await page.keyboard.press("p");
    await page.keyboard.press("ArrowRight");
    expect(await focused()).toBe("Paint");
    await page.keyboard.press("Enter");
    const { identity } =
      (await sampleGallery()).flatMap((f) => f.bitmaps).find((b) => b.identity.name === "drop_icon") ?? {};
    const wish = { uri: "file:///greenhouse/lantern_art.h", identity };
    expect(painted).toEqual([wish, wish]);
  });

  test("the mouse does the same", async () => {
    const { page } = open;
    await page.getByRole("searchbox").fill("sun_icon");
    await expect.poll(names).toEqual(["sun_icon"]);
    await page.getByRole("button", { name: /^sun_icon/ }).click();
    expect(opened).toMatchObject([{ name: "sun_icon" }]);
    await page.getByRole("button", { name: "Paint sun_icon" }).click();
    expect(painted).toMatchObject([{ identity: { name: "sun_icon" } }]);
  });
});

test.each(["dark", "light", "contrast", "contrastLight"] as const)(
  "%s: nothing is too wide or too faint",
  async (theme) => {
    const { page } = open;
    await changeTheme(open, theme);
    for (const width of [200, 300]) {
      await page.setViewportSize({ width, height: 700 });
      await page.getByRole("searchbox").focus();
      await page.keyboard.press("ArrowDown");
      await page.keyboard.press("End");
      await expect.poll(() => page.locator("li img").count()).toBeGreaterThan(5);
      expect([width, await overflow(open), await faintWords(open)]).toEqual([width, [], []]);
      await page.keyboard.press("Home");
      await page.keyboard.press("ArrowDown");
      await open.screenshot(`gallery-${theme}-${width}`);
    }
    await page.getByRole("searchbox").fill("mistakes");
    await expect.poll(() => page.locator("li img").count()).toBeGreaterThan(5);
    await open.screenshot(`gallery-${theme}-findings`);
  },
);

test("of 2,000 bitmaps only those in view are there and asked for", async () => {
  const { page } = open;
  const gone = (await sampleGallery()).map((f) => f.uri);
  await open.rpc.call("files", { files: galleryFiles(40, 50), gone, left: 0 });
  await expect.poll(status).toBe("2000 bitmaps");
  expect(await page.locator("li").count()).toBeLessThan(60);
  asked.length = 0;
  const middle = await page.locator(".pane").evaluate((pane) => {
    pane.scrollTop = pane.scrollHeight / 2;
    return pane.scrollHeight;
  });
  expect(middle).toBe(40 * 26 + 2000 * 58);
  await expect.poll(() => page.locator("li.bitmap img").count()).toBeGreaterThan(5);
  expect(asked.reduce((sum, { wanted }) => sum + wanted.length, 0)).toBeLessThan(40);
  const first = page.locator("li.bitmap").first();
  expect(await first.getAttribute("aria-setsize")).toBe("2040");
  // Whoever has the focus keeps it, however far the list is scrolled.
  await page.getByRole("searchbox").focus();
  await page.keyboard.press("ArrowDown");
  const before = await focused();
  await page.locator(".pane").evaluate((pane) => {
    pane.scrollTop = 0;
  });
  await expect.poll(() => page.locator("li.heading").first().textContent()).toBe("art_0.h · 50");
  expect(await focused()).toBe(before);
});
