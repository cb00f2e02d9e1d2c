/** How the page looks in four themes and several widths; the screenshots go to tests/out for a person to look at. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { Shown } from "../../shared/protocol/webview.ts";
import { afresh, bundle, changeTheme, colourAt, launch, type Opened, openPage } from "../support/page.ts";
import { drop, falling, faultyDrop, mono } from "../support/pictures.ts";
import type { ThemeName } from "../support/themes.ts";

let browser: Browser;
let open: Opened;
beforeAll(async () => {
  let code: { script: string; style: string };
  [browser, code] = await Promise.all([launch(), bundle()]);
  open = await openPage(browser, code, drop());
});
afterAll(() => browser.close());

async function look(shown: Shown, theme: ThemeName, width: number): Promise<void> {
  await changeTheme(open, theme);
  await open.page.setViewportSize({ width, height: 900 });
  await afresh(open, shown);
}

const LOOKS: readonly (readonly [string, () => Shown, ThemeName, number])[] = [
  ["drop-dark", drop, "dark", 420],
  ["faulty-dark-narrow", faultyDrop, "dark", 260],
  ["faulty-light", faultyDrop, "light", 420],
  ["faulty-contrast", faultyDrop, "contrast", 420],
  ["faulty-contrast-light", faultyDrop, "contrastLight", 420],
  ["falling-light-narrow", falling, "light", 260],
  ["status-dark", () => mono(128, 32), "dark", 640],
  ["status-light-narrow", () => mono(128, 32), "light", 300],
];

test.each(LOOKS)(
  "%s: nothing is wider than the page, and lit pixels differ from dark ones",
  async (name, shown, theme, width) => {
    await look(shown(), theme, width);
    const overflow = await open.page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    expect(overflow).toBeLessThanOrEqual(0);
    const { bitmap, frames } = open.shown;
    const index = (value: number) => frames[0]?.indexOf(value) ?? -1;
    const colour = (at: number) => colourAt(open, at % bitmap.width, Math.floor(at / bitmap.width));
    expect(await colour(index(Math.min(64, bitmap.most)))).not.toEqual(await colour(index(0)));
    await open.screenshot(name);
  },
);

test("the brightest level within the cap has the panel's own colour, in a high-contrast theme the foreground", async () => {
  // #ffb84d over a face that is nearly black: no channel is off by more than the face's own light.
  await look(drop(), "dark", 420);
  const [r = 0, g = 0, b = 0] = await colourAt(open, 4, 2);
  expect([r, Math.abs(g - 0xb8) < 4, Math.abs(b - 0x4d) < 4]).toEqual([255, true, true]);
  await changeTheme(open, "contrast");
  expect(await colourAt(open, 4, 2)).toEqual([255, 255, 255]);
  expect(await colourAt(open, 0, 0)).toEqual([0, 0, 0]);
});

test("half the light of the cap is shown as half the light, not as half the code value", async () => {
  // IEC 61966-2-1: linear .5 is code 188. White tint; the face adds a little.
  const shown = drop();
  const frames = [shown.frames[0]?.map((value) => (value === 42 ? 32 : value)) ?? []];
  const { tint: _, ...bitmap } = shown.bitmap;
  await look({ ...shown, frames, bitmap }, "dark", 420);
  const [r = 0] = await colourAt(open, 4, 1);
  expect(Math.abs(r - 188)).toBeLessThanOrEqual(3);
});

test("pixels over the cap have a corner cut off, pixels that are not written are hatched, both also without colour", async () => {
  await look(faultyDrop(), "contrast", 420);
  // Pixel 4,2 is over the cap: its square is filled but for the upper right corner.
  expect(await colourAt(open, 4, 2, 0.1, 0.85)).toEqual([255, 255, 255]);
  expect(await colourAt(open, 4, 2, 0.85, 0.12)).toEqual([0, 0, 0]);
  // Pixel 4,4 is at the cap: a dot, whose corners are all dark.
  expect(await colourAt(open, 4, 4, 0.1, 0.85)).toEqual([0, 0, 0]);
  const row = async (y: number) => {
    const colours = new Set<string>();
    for (let i = 2; i < 7; i++) colours.add(String(await colourAt(open, 8, y, i / 11, 0.5)));
    return colours.size;
  };
  expect([await row(8), await row(0)].map((n) => n > 1)).toEqual([true, false]);
});

test("what lies over the cap is told in words at the cap, and the findings where the picture is", async () => {
  await look(faultyDrop(), "light", 420);
  const { page } = open;
  expect(await page.locator(".cap").textContent()).toBe("cap 64 · 2 over");
  expect(await page.locator(".meters dd").first().textContent()).toBe("200 of cap 64, over");
  expect(await page.locator(".findings li").allTextContents()).toEqual(
    open.shown.findings.map((f) => `${f.severity} ${f.message}`),
  );
  expect(await page.locator(".rung.over").count()).toBe(5);
});

test("the page never broke its content security policy nor threw", () => {
  expect(open.errors).toEqual([]);
});
