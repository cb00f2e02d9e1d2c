/** How the page looks in four themes and several widths; the screenshots go to tests/out for a person to look at. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import type { Shown } from "../../shared/protocol/webview.ts";
import { faintWords } from "../support/faint.ts";
import {
  afresh,
  bundle,
  type Code,
  changeTheme,
  colourAt,
  drag,
  launch,
  type Opened,
  openPage,
  settled,
} from "../support/page.ts";
import { drop, dropOn, falling, faultyDrop, glyphs, mono, rings } from "../support/pictures.ts";
import type { ThemeName } from "../support/themes.ts";

let browser: Browser;
let open: Opened;
beforeAll(async () => {
  let code: Code;
  [browser, code] = await Promise.all([launch(), bundle()]);
  open = await openPage(browser, code, drop());
});
afterAll(() => browser.close());

async function look(shown: Shown, theme: ThemeName, width: number): Promise<void> {
  await changeTheme(open, theme);
  await open.page.setViewportSize({ width, height: 900 });
  await afresh(open, shown);
}

const falls = {
  severity: "warning",
  message: "Frame 3 is brighter than frame 2 by more than half.",
  place: { on: "frame", frame: 3 },
} as const;
const lines = {
  severity: "warning",
  message: "9 lines of 12 elements fit a width of 12.",
  place: { on: "rows", frame: 0, rows: [2] },
} as const;

/** Every state of the page that a user may see. */
type Then = (open: Opened) => Promise<unknown>;
const asItIs: Then = async () => undefined;
const letters = Array.from({ length: 96 }, (_, i) => 32 + i);
const jumpTo =
  (character: string): Then =>
  async ({ page }) => {
    await page.keyboard.press("j");
    await page.keyboard.type(character);
  };
const STATES = [
  ["drop", drop, asItIs],
  ["cells", drop, ({ page }) => page.keyboard.press("a")],
  ["faulty", faultyDrop, asItIs],
  ["faulty-cells", faultyDrop, ({ page }) => page.keyboard.press("a")],
  ["rows", () => dropOn({ lattice: "square" }, { findings: [lines] }), asItIs],
  ["turned", () => dropOn({ lattice: "square", dot: "square", mount: 90 }), asItIs],
  ["falling", () => falling({}, { findings: [falls] }), asItIs],
  ["playing", () => falling({ fps: 12 }), ({ page }) => page.getByRole("button", { name: "Play" }).click()],
  ["flashing", () => falling({ fps: 40 }), ({ page }) => page.getByRole("button", { name: "Play" }).click()],
  ["ghosts", () => falling({ fps: 12 }), ({ page }) => pressAll(page, "PageDown", "PageDown", "h", "c")],
  ["glyph", () => glyphs({ characters: letters, widths: letters.map((c) => 2 + (c % 4)) }), jumpTo("A")],
  ["status", () => mono(128, 32), asItIs],
  ["screen", () => mono(128, 64), asItIs],
  ["closer", () => mono(128, 64), ({ page }) => page.getByRole("button", { name: "Closer" }).click({ clickCount: 4 })],
  ["glyphs", glyphs, asItIs],
  ["rings", () => rings(320, 240), asItIs],
  ["read-only", () => drop({ readOnly: true }), asItIs],
  [
    "away",
    drop,
    ({ rpc }) => rpc.call("nothing", { why: "drop_icon: a number is missing before the comma on line 17." }),
  ],
  ["refused", drop, refuse],
  ["brush", drop, ({ page }) => pressAll(page, "w", "w", "m", "m", "m")],
  ["symmetry-square", () => dropOn({ lattice: "square", dot: "square" }), ({ page }) => pressAll(page, "d", "m")],
  ["oval", () => mono(128, 64), shape("o")],
  ["gradient", drop, shape("g")],
  ["text", () => mono(128, 32), typeText],
  ["no-glyphs", drop, noGlyphs],
] satisfies [string, () => Shown, Then][];

async function pressAll(page: Opened["page"], ...keys: string[]): Promise<void> {
  for (const key of keys) await page.keyboard.press(key);
}

/** A shape under way. */
function shape(key: string): Then {
  return async ({ page }) => {
    await pressAll(page, key, "Space", "End", "Control+End");
  };
}

async function typeText({ page }: Opened): Promise<void> {
  await pressAll(page, "t");
  await page.locator("input.typed:focus").waitFor();
  await pressAll(page, "ArrowDown", "ArrowDown", "ArrowRight", "ArrowRight");
  await page.keyboard.type("20 i10 i7");
}

async function noGlyphs(open: Opened): Promise<void> {
  open.glyphs = () => ({ sets: [], glyphs: [] });
  await pressAll(open.page, "t");
  await open.page.getByText("Text needs a glyph set").waitFor();
}

async function refuse(open: Opened): Promise<void> {
  open.answer = () => Promise.reject(new Error("The file changed while the stroke was on its way."));
  await drag(open, [[1, 1]]);
  await vi.waitFor(async () => expect(await open.page.locator(".note").textContent()).toContain("Not painted"));
}

const LOOKS = (["dark", "light", "contrast", "contrastLight"] as const).flatMap((theme) =>
  [320, 700].map((width) => [theme, width] as const),
);

test.each(STATES)(
  "%s, in every theme, narrow and wide: nothing is wider than the page or too faint to read",
  async (name, shown, then) => {
    await look(shown(), "dark", 700);
    await then(open);
    for (const [theme, width] of LOOKS) {
      await changeTheme(open, theme);
      await open.page.setViewportSize({ width, height: 900 });
      await settled(open);
      const overflow = await open.page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      expect([theme, width, overflow <= 0]).toEqual([theme, width, true]);
      expect([theme, await faintWords(open)]).toEqual([theme, []]);
      await open.screenshot(`${name}-${theme}-${width}`);
    }
    // As it was for the next one.
    await open.page.keyboard.press("Escape");
    await open.page.locator("[role=gridcell]").focus();
    await pressAll(open.page, "d", "Shift+W", "Shift+W");
    const off = open.page.getByRole("group", { name: "symmetry" }).getByRole("button", { name: "off" });
    if (await off.isVisible()) await off.click();
    for (const word of ["As lit", "Fit"]) await open.page.getByRole("button", { name: word, exact: true }).click();
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
  expect(await colourAt(open, 4, 2, 0.3, 0.7)).toEqual([255, 255, 255]);
  expect(await colourAt(open, 4, 2, 0.85, 0.12)).toEqual([0, 0, 0]);
  // Pixel 4,4 is at the cap: a dot, whose corners are all dark.
  expect(await colourAt(open, 4, 4, 0.1, 0.9)).toEqual([0, 0, 0]);
  // As cells, which have nothing else inside.
  await open.page.keyboard.press("a");
  const row = async (y: number) => {
    const colours = new Set<string>();
    for (let i = 2; i < 7; i++) colours.add(String(await colourAt(open, 8, y, i / 11, 0.5)));
    return colours.size;
  };
  expect([await row(8), await row(0)].map((n) => n > 1)).toEqual([true, false]);
  await open.page.keyboard.press("a");
});

test("what lies over the cap is told in words at the cap, and each finding where it is", async () => {
  await look(faultyDrop(), "light", 420);
  const { page } = open;
  expect(await page.locator(".cap").textContent()).toBe("cap 64 · 2 over");
  expect(await page.locator(".meters dd").first().textContent()).toBe("200 of cap 64, over");
  expect(
    await page.getByRole("list", { name: "Findings", exact: true }).getByRole("listitem").allTextContents(),
  ).toEqual(["information tint is given twice: the second one counts."]);
  const placed = page.getByRole("list", { name: "Findings in the picture" });
  expect(await placed.getByRole("listitem").allTextContents()).toEqual([
    "end of the array warning 72 elements are written, 81 are needed: the last 9 are 0.",
    "line 16 warning Pixel 4,2 is 200, over the cap of 64.",
    "line 17 warning Pixel 4,3 is 90, over the cap of 64.",
  ]);
  expect(await page.locator(".rung.over").count()).toBe(5);
});

test("the page never broke its content security policy nor threw", () => {
  expect(open.errors).toEqual([]);
});
