/**
 * Every state of the page in its four themes, one below the other, compared with the picture kept in `references/`. Where one
 * differs, tests/out has the new picture and one of the differences. RENEW_REFERENCES=1 keeps the new ones instead.
 */
import { existsSync } from "node:fs";
import { mkdir, readdir, readFile, writeFile } from "node:fs/promises";
import type { Browser } from "playwright-core";
import { PNG } from "pngjs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { comparePictures, smallPng, stacked } from "../support/comparePictures.ts";
import { bundle, type Code, changeTheme, launch, type Opened, openPage, STEADY, settled } from "../support/page.ts";
import { COLOUR_STATES, LEVEL_STATES, loadState, SELECTION_STATES, type State } from "../support/pageStates.ts";
import { drop } from "../support/pictures.ts";
import type { ThemeName } from "../support/themes.ts";

const KEPT = new URL("references/", import.meta.url);
const OUT = new URL("../out/", import.meta.url);
const RENEW = process.env.RENEW_REFERENCES === "1";
/** A window that no state fills, so that nothing is cut off or scrolled. */
const HIGH = 2600;
const THEMES: readonly ThemeName[] = ["dark", "light", "contrast", "contrastLight"];
/**
 * The package `unifont`, which the tests need anyway, brings the font: so letters are the same on every machine. Its
 * letters of 16 pixels stand for the page's usual 12, so that most of their edges need no smoothing.
 */
const FONT = "Reference";
const FACE = `@font-face { font-family: ${FONT}; src: local("Unifont"); size-adjust: 133.4% }`;
const STATES: readonly State[] = [...LEVEL_STATES, ...SELECTION_STATES, ...COLOUR_STATES];

let browser: Browser;
let open: Opened;
beforeAll(async () => {
  let code: Code;
  [browser, code] = await Promise.all([launch(STEADY), bundle()]);
  open = await openPage(browser, code, drop(), { width: 320, height: HIGH });
  await Promise.all([mkdir(KEPT, { recursive: true }), mkdir(OUT, { recursive: true })]);
});
afterAll(() => browser.close());

test.each<State>(STATES)("%s looks as it did", async (...state) => {
  const [name] = state;
  await load(state);
  if (open.shown.frames.length > 1) await open.page.evaluate(() => customElements.whenDefined("vscode-button").then());
  const pictures: PNG[] = [];
  for (const theme of THEMES) pictures.push(await picture(open, theme));
  const whole = stacked(pictures);
  const file = new URL(`${name}.png`, KEPT);
  if (RENEW) return writeFile(file, smallPng(whole));
  expect([name, existsSync(file)], "RENEW_REFERENCES=1 makes it").toEqual([name, true]);
  const { why, difference } = comparePictures(PNG.sync.read(await readFile(file)), whole);
  if (why !== undefined) {
    await writeFile(new URL(`new-${name}.png`, OUT), smallPng(whole));
    if (difference) await writeFile(new URL(`difference-${name}.png`, OUT), PNG.sync.write(difference));
  }
  expect([name, why]).toEqual([name, undefined]);
});

test("no picture is kept of a state that is gone", async () => {
  expect((await readdir(KEPT)).sort()).toEqual(STATES.map(([name]) => `${name}.png`).sort());
});

describe("the comparison", () => {
  let before: PNG;
  beforeAll(async () => {
    await load(LEVEL_STATES.find(([name]) => name === "faulty") as State);
    before = await picture(open, "dark");
  });

  test("finds nothing between two pictures of one page, nor where letters are smoothed a little otherwise", async () => {
    expect(comparePictures(before, await picture(open, "dark"))).toMatchObject({ worst: 0 });
    const other = PNG.sync.read(smallPng(before));
    for (let i = 0; i < other.data.length; i++)
      if (i % 4 < 3) other.data[i] = Math.min(255, Math.max(0, (other.data[i] ?? 0) + ((i * 7919) % 47) - 23));
    expect(comparePictures(before, other).why).toBeUndefined();
  });

  test.each([
    ["a row that moved by a pixel", ".options { transform: translateY(1px) }"],
    ["words that moved by a pixel", ".options label { transform: translateX(1px) }"],
    ["a mark of a finding that is missing", ".work .findings li:nth-child(2)::before { content: none }"],
    ["a mark in another colour", ".work .findings li:nth-child(2)::before { color: var(--information) }"],
    ["a rung without its warning", ".rung.found:nth-child(2) .count::before { content: none }"],
    ["a rung in another colour", ".rung:nth-child(8) .swatch { filter: hue-rotate(40deg) }"],
    ["the chosen rung without its frame", ".rung[aria-checked] { outline: none }"],
    ["the chosen tool without its line", ".tool[aria-pressed] { border-color: transparent }"],
    ["words too faint", ".tool { opacity: 0.5 }"],
    ["a line that is not drawn", ".rungs .cap { border-color: transparent }"],
  ])("finds %s", async (_, css) => {
    await restyle(open, css);
    expect(comparePictures(before, await picture(open, "dark")).why).toMatch(/^\d+ pixels differ/);
    await restyle(open, "");
  });

  test("tells a page of another height", async () => {
    await restyle(open, ".options { margin-bottom: 18px }");
    const { width, height } = before;
    expect(comparePictures(before, await picture(open, "dark")).why).toBe(
      `${width}×${height + 18} instead of ${width}×${height} pixels`,
    );
  });
});

/** A state without what moves by itself. */
async function load(state: State): Promise<void> {
  await open.page.mouse.move(0, 0);
  await loadState(open, state);
  await restyle(open, "");
}

async function restyle({ page }: Opened, css: string): Promise<void> {
  await page.evaluate(
    ({ more, face }) => {
      const sheet = new CSSStyleSheet();
      sheet.replaceSync(`${face} * { animation: none !important; transition: none !important; caret-color: transparent !important }
      ${more}`);
      document.adoptedStyleSheets = [sheet];
    },
    { more: css, face: FACE },
  );
}

/** What the page fills of the window. */
async function picture(open: Opened, theme: ThemeName): Promise<PNG> {
  await changeTheme(open, theme, FONT);
  await settled(open);
  const { height, letter } = await open.page.evaluate(() => {
    const context = document.createElement("canvas").getContext("2d");
    if (context) context.font = `12px ${getComputedStyle(document.body).fontFamily}`;
    const filled = document.querySelector("#dotwright")?.getBoundingClientRect().bottom ?? 0;
    return { height: Math.ceil(filled), letter: context?.measureText("i").width ?? 0 };
  });
  expect(height).toBeLessThan(HIGH);
  expect(Math.round(letter), `the font ${FONT} is missing: npm run setup`).toBe(8);
  return PNG.sync.read(await open.page.screenshot({ clip: { x: 0, y: 0, width: 320, height } }));
}
