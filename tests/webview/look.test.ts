/** How the page looks in four themes and several widths; the screenshots go to tests/out for a person to look at. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { Shown } from "../../shared/protocol/webview.ts";
import { bundle, colourAt, launch, openPage } from "../support/page.ts";
import { drop, falling, faultyDrop, mono } from "../support/pictures.ts";
import type { ThemeName } from "../support/themes.ts";

let browser: Browser;
let code: { script: string; style: string };
beforeAll(async () => {
  [browser, code] = await Promise.all([launch(), bundle()]);
});
afterAll(() => browser.close());

const LOOKS: readonly (readonly [string, () => Shown, ThemeName, number])[] = [
  ["drop-dark", drop, "dark", 420],
  ["faulty-dark-narrow", faultyDrop, "dark", 260],
  ["faulty-light", faultyDrop, "light", 420],
  ["faulty-contrast", faultyDrop, "contrast", 420],
  ["faulty-contrast-light", faultyDrop, "contrastLight", 420],
  ["falling-dark", falling, "dark", 420],
  ["falling-light-narrow", falling, "light", 260],
  ["status-dark", () => mono(128, 32), "dark", 640],
  ["status-light-narrow", () => mono(128, 32), "light", 300],
];

test.each(LOOKS)(
  "%s has no error, nothing wider than the page and its pixels on the canvas",
  async (name, shown, theme, width) => {
    const open = await openPage(browser, code, shown(), { theme, width });
    await open.screenshot(name);
    const overflow = await open.page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    expect(overflow).toBeLessThanOrEqual(0);
    const lit = open.shown.frames[0]?.indexOf(Math.min(64, open.shown.bitmap.most)) ?? -1;
    if (lit >= 0) {
      const w = open.shown.bitmap.width;
      const [a, b] = [await colourAt(open, lit % w, Math.floor(lit / w)), await colourAt(open, 1, 1)];
      expect(a).not.toEqual(b);
    }
    expect(open.errors).toEqual([]);
    await open.close();
  },
);
