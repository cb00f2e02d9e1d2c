/** Every state of the page that a user may see, each with how to get to it. */
import { readFileSync } from "node:fs";
import { expect, vi } from "vitest";
import type { Shown } from "../../shared/protocol/webview.ts";
import { COLOUR_ART } from "./colourArt.ts";
import { glyphsFrom } from "./glyphSets.ts";
import { afresh, begin, drag, edits, type Opened, setLevel } from "./page.ts";
import { drop, dropOn, falling, faultyDrop, glyphs, mono, rings } from "./pictures.ts";
import { shownFrom } from "./shownFrom.ts";

/** Its name, what is shown, and what is done then. */
export type State = readonly [name: string, shown: () => Shown, then: Then];

/** Shows a state on a page that shows something else. */
export async function showState(open: Opened, [name, shown, then]: State): Promise<void> {
  await afresh(open, shown(), levelFor(name));
  await then(open);
}

/** The same on a page that is loaded anew for it, so that it shows nothing of what was done before. */
export async function loadState(open: Opened, [name, shown, then]: State): Promise<void> {
  open.answer = edits;
  open.glyphs = glyphsFrom();
  open.shown = shown();
  await open.page.reload();
  await begin(open, levelFor(name));
  await then(open);
}

/** One that is known in every format. */
function levelFor(state: string): string {
  return state.startsWith("colour") ? "1" : "64";
}

/** As it was, for the next state. */
export async function leaveState({ page }: Opened): Promise<void> {
  await page.keyboard.press("Escape");
  await page.locator("[role=gridcell]").focus();
  await pressAll(page, "Escape", "d", "Shift+W", "Shift+W");
  const off = page.getByRole("group", { name: "symmetry" }).getByRole("button", { name: "off" });
  if (await off.isVisible()) await off.click();
  const wiring = page.getByRole("button", { name: "Wiring", pressed: true });
  if (await wiring.isVisible()) await wiring.click();
  for (const word of ["As lit", "As seen", "Fit"])
    if (await page.getByRole("button", { name: word, exact: true }).isVisible())
      await page.getByRole("button", { name: word, exact: true }).click();
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

/** A supply that is too small, and a bus that is fast enough. */
const OVERDRAWN = { supply: { full: 5, idle: 0, duty: 1, budget: 20 }, sending: 0.0018, fps: 20 } as const;

/** Where the lattice matters not. */
const SQUARE = { lattice: "square" } as const;

const LANTERN = readFileSync(`${process.cwd()}/sample-workspace/lantern_art.h`, "utf8");

type Then = (open: Opened) => Promise<unknown>;
const asItIs: Then = async () => undefined;
const letters = Array.from({ length: 96 }, (_, i) => 32 + i);
const jumpTo =
  (character: string): Then =>
  async ({ page }) => {
    await page.keyboard.press("j");
    await page.keyboard.type(character);
  };
export const LEVEL_STATES = [
  ["drop", drop, asItIs],
  ["cells", drop, ({ page }) => page.keyboard.press("a")],
  ["driven", drop, ({ page }) => page.keyboard.press("Shift+A")],
  ["faulty", faultyDrop, asItIs],
  ["faulty-cells", faultyDrop, ({ page }) => page.keyboard.press("a")],
  ["rows", () => dropOn(SQUARE, { findings: [lines] }), asItIs],
  ["turned", () => dropOn({ lattice: "square", dot: "square", mount: 90 }), asItIs],
  ["falling", () => falling({}, { findings: [falls] }), asItIs],
  [
    "playing",
    () => falling({ fps: 0.01, ...SQUARE }),
    ({ page }) => page.getByRole("button", { name: "Play" }).click(),
  ],
  ["flashing", () => falling({ fps: 40, ...SQUARE }), ({ page }) => page.getByRole("button", { name: "Play" }).click()],
  ["meters", () => falling({ ...SQUARE, ...OVERDRAWN }), ({ page }) => pressAll(page, "PageDown", "PageDown")],
  ["ghosts", () => falling({ fps: 12, ...SQUARE }), ({ page }) => pressAll(page, "PageDown", "PageDown", "h", "c")],
  ["glyph", () => glyphs({ characters: letters, widths: letters.map((c) => 2 + (c % 4)) }), jumpTo("A")],
  ["status", () => mono(128, 32), asItIs],
  ["screen", () => mono(128, 64), asItIs],
  ["closer", () => mono(128, 64), ({ page }) => page.getByRole("button", { name: "Closer" }).click({ clickCount: 4 })],
  ["glyphs", glyphs, asItIs],
  ["rings", () => rings(320, 240), asItIs],
  ["read-only", () => dropOn(SQUARE, { readOnly: true }), asItIs],
  [
    "away",
    () => dropOn(SQUARE),
    ({ rpc }) => rpc.call("nothing", { why: "drop_icon: a number is missing before the comma on line 17." }),
  ],
  ["refused", () => dropOn(SQUARE), refuse],
  ["brush", drop, ({ page }) => pressAll(page, "w", "w", "m", "m", "m")],
  ["symmetry-square", () => dropOn({ lattice: "square", dot: "square" }), ({ page }) => pressAll(page, "d", "m")],
  ["oval", () => mono(128, 64), shape("o")],
  ["gradient", () => dropOn(SQUARE), shape("g")],
  ["text", () => mono(128, 32), typeText],
  ["no-glyphs", () => dropOn(SQUARE), noGlyphs],
  [
    "edge",
    () => shownFrom(LANTERN, "drop_reveal"),
    ({ page }) => pressAll(page, ...new Array<string>(7).fill("PageDown")),
  ],
  ["edge-stale", () => shownFrom(LANTERN.replace("soft=90", "soft=40"), "drop_reveal"), edgeFocused],
  ["wiring", wired, ({ page }) => page.keyboard.press("y")],
  ["probing", wired, probing],
] satisfies State[];

/** The soft width at hand. */
async function edgeFocused({ page }: Opened): Promise<void> {
  await pressAll(page, "PageDown", "PageDown", "PageDown");
  await page.getByRole("slider", { name: "Soft width" }).focus();
}

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
  await vi.waitFor(async () => expect(await open.page.locator(".note").textContent()).toContain("Not painted"), {
    timeout: 10_000,
  });
}

/** The lantern on its strip, with pixels as they are numbered. */
function wired(): Shown {
  const numbers = Array.from({ length: 81 }, (_, i) => i % 64).join(", ");
  const text = `// @panel lantern 9x9 cap=64 wire=serpentine;bottom-right\n// @bitmap lantern\nconst uint8_t drop[81] = {${numbers}};\n`;
  return shownFrom(text, "drop", true);
}

async function probing({ page }: Opened): Promise<void> {
  await pressAll(page, "y");
  await page.getByRole("button", { name: "Find the wiring by probing" }).click();
  await page.getByRole("button", { name: "Next", exact: true }).click();
  await page.getByText(/Light pattern [1-9]/).waitFor();
}

const GRID = readFileSync(`${process.cwd()}/sample-workspace/colour_grid.h`, "utf8");

/** 256 colours, as many as an index of 8 bits can mean, and a picture of every fourth. */
function manyColours(): Shown {
  const colours = Array.from({ length: 256 }, (_, i) => ((i >> 5) << 13) | (((i >> 2) & 7) << 8) | ((i & 3) << 3));
  const pixels = Array.from({ length: 64 }, (_, i) => 4 * i);
  const text = `// @palette rgb565\nconst uint16_t all[256] = {${colours}};\n// @bitmap 8x8 palette8 palette=all\nconst uint8_t chart[64] = {${pixels}};\n`;
  return shownFrom(text, "chart");
}

export const COLOUR_STATES = [
  ["colour-dawn", () => shownFrom(GRID, "dawn"), chosen("#402030", "a")],
  ["colour-dawn-lit", () => shownFrom(GRID, "dawn"), chosen("#123456")],
  ["colour-seedling", () => shownFrom(GRID, "seedling"), chosen("2", "a")],
  ["colour-over-the-cap", () => shownFrom(COLOUR_ART, "dawn"), chosen("#fff", "a")],
  ["colour-chart", manyColours, chosen("77", "a")],
  ["colour-berries", () => shownFrom(COLOUR_ART, "berries"), chosen("0xE3")],
  ["colour-petals", () => shownFrom(COLOUR_ART, "petals"), chosen("#c86432")],
  ["colour-no-palette", () => shownFrom(COLOUR_ART, "unnamed"), chosen("11")],
  ["colour-replace-index", () => shownFrom(COLOUR_ART, "seedling"), chosen("1", "x")],
  ["colour-replace-level", () => falling(SQUARE), chosen("20", "x")],
] satisfies State[];

/** With this level or colour chosen, and a key pressed. */
function chosen(level: string, ...keys: string[]): Then {
  return async (open) => {
    await setLevel(open, level);
    await pressAll(open.page, ...keys);
  };
}

async function selected(open: Opened): Promise<void> {
  await pressAll(open.page, "s");
  await drag(open, [
    [2, 2],
    [5, 4],
  ]);
}

/** A selected piece that the pointer holds. */
async function moving(open: Opened): Promise<void> {
  await selected(open);
  await pressAll(open.page, "Enter", "ArrowUp", "ArrowRight");
}

export const SELECTION_STATES = [
  ["selected", drop, selected],
  ["selected-frames", () => falling(SQUARE), selected],
  ["moving", () => dropOn({ lattice: "square", dot: "square" }), moving],
  ["all-of-a-level", () => dropOn({ lattice: "square", mount: 90, dot: "square" }), ({ page }) => pressAll(page, "v")],
  ["changes", falling, ({ page }) => pressAll(page, "PageDown", "PageDown", "h", "c", "a")],
  ["keys", () => mono(8, 4), ({ page }) => page.getByText("? keys").click()],
] satisfies State[];
