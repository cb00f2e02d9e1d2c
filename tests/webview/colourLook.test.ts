/** How colours look in four themes, narrow and wide; the screenshots go to tests/out for a person to look at. */
import { readFileSync } from "node:fs";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { Shown } from "../../shared/protocol/webview.ts";
import { COLOUR_ART } from "../support/colourArt.ts";
import { faintWords } from "../support/faint.ts";
import { afresh, bundle, changeTheme, launch, type Opened, openPage, setLevel, settled } from "../support/page.ts";
import { drop, falling } from "../support/pictures.ts";
import { shownFrom } from "../support/shownFrom.ts";

const GRID = readFileSync(new URL("../../sample-workspace/colour_grid.h", import.meta.url), "utf8");

let browser: Browser;
let open: Opened;
beforeAll(async () => {
  const [started, code] = await Promise.all([launch(), bundle()]);
  browser = started;
  open = await openPage(browser, code, drop());
});
afterAll(() => browser.close());

type Then = (open: Opened) => Promise<unknown>;
const asItIs: Then = async () => undefined;

/** 256 colours, as many as an index of 8 bits can mean. */
function manyColours(): Shown {
  const colours = Array.from({ length: 256 }, (_, i) => ((i >> 5) << 13) | (((i >> 2) & 7) << 8) | ((i & 3) << 3));
  const pixels = Array.from({ length: 256 }, (_, i) => i);
  const text = `// @palette rgb565\nconst uint16_t all[256] = {${colours}};\n// @bitmap 16x16 palette8 palette=all\nconst uint8_t chart[256] = {${pixels}};\n`;
  return shownFrom(text, "chart");
}

const STATES = [
  ["dawn", () => shownFrom(GRID, "dawn"), "#402030", ({ page }) => page.keyboard.press("a")],
  ["dawn-lit", () => shownFrom(GRID, "dawn"), "#123456", asItIs],
  ["seedling", () => shownFrom(GRID, "seedling"), "2", ({ page }) => page.keyboard.press("a")],
  ["over-the-cap", () => shownFrom(COLOUR_ART, "dawn"), "#fff", ({ page }) => page.keyboard.press("a")],
  ["chart", manyColours, "77", asItIs],
  ["berries", () => shownFrom(COLOUR_ART, "berries"), "0xE3", asItIs],
  ["petals", () => shownFrom(COLOUR_ART, "petals"), "#c86432", asItIs],
  ["no-palette", () => shownFrom(COLOUR_ART, "unnamed"), "11", asItIs],
  ["replace-index", () => shownFrom(COLOUR_ART, "seedling"), "1", ({ page }) => page.keyboard.press("x")],
  ["replace-level", falling, "20", ({ page }) => page.keyboard.press("x")],
] satisfies [string, () => Shown, string, Then][];

const THEMES = ["dark", "light", "contrast", "contrastLight"] as const;
/** The narrowest column in one theme, as themes differ in colour and not in width. */
const LOOKS = [
  ...THEMES.flatMap((theme) => [320, 700].map((width) => [theme, width] as const)),
  ["dark", 260] as const,
];

test.each(STATES)(
  "%s, in every theme, narrow and wide: nothing is wider than the page or too faint to read",
  async (name, shown, level, then) => {
    await changeTheme(open, "dark");
    await open.page.setViewportSize({ width: 700, height: 900 });
    await afresh(open, shown(), "1");
    await setLevel(open, level);
    await then(open);
    for (const [theme, width] of LOOKS) {
      await changeTheme(open, theme);
      await open.page.setViewportSize({ width, height: 900 });
      await settled(open);
      const overflow = await open.page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      expect([theme, width, overflow <= 0]).toEqual([theme, width, true]);
      expect([theme, await faintWords(open)]).toEqual([theme, []]);
      await open.screenshot(`colour-${name}-${theme}-${width}`);
    }
    await open.page.keyboard.press("Escape");
    await open.page.getByRole("button", { name: "As lit", exact: true }).click();
  },
);
