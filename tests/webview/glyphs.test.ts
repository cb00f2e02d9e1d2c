/** Glyph sets on the page: the character at hand, jumping to another, and widths. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import { afresh, bundle, type Code, launch, type Opened, openPage, settled } from "../support/page.ts";
import { drop, glyphs } from "../support/pictures.ts";
import { until } from "../support/until.ts";

const characters = Array.from({ length: 96 }, (_, i) => 32 + i);
const widths = characters.map((c) => 1 + (c % 5));
const font = () => glyphs({ characters, widths });

let browser: Browser;
let open: Opened;
beforeAll(async () => {
  let code: Code;
  [browser, code] = await Promise.all([launch(), bundle()]);
  open = await openPage(browser, code, font());
});
afterAll(() => browser.close());
beforeEach(async () => {
  open.widths.length = 0;
  await afresh(open, font());
  await open.page.locator("[role=gridcell]").focus();
});

const row = () => open.page.getByRole("group", { name: "Glyph", exact: true });
const field = () => open.page.getByRole("textbox", { name: /^Jump to/ });
const note = () => open.page.locator(".note").textContent();

test("a character that is typed shows its glyph at once", async () => {
  await open.page.keyboard.press("j");
  await open.page.keyboard.type("A");
  await until(async () => expect(await row().textContent()).toContain("'A' U+0041"));
  expect(await note()).toBe("'A', frame 33");
  await open.page.keyboard.type("z");
  await until(async () => expect(await row().textContent()).toContain("'z' U+007A"));
  expect(await field().inputValue()).toBe("z");
  await open.page.keyboard.press("Escape");
  // The keys are those of the page again.
  await open.page.keyboard.press("e");
  const erase = open.page.getByRole("button", { name: "Erase", exact: true });
  await until(async () => expect(await erase.getAttribute("aria-pressed")).toBe("true"));
});

test("a code is taken with Enter, and what the set lacks is said", async () => {
  await open.page.keyboard.press("j");
  await open.page.keyboard.type("U+0042");
  await open.page.keyboard.press("Enter");
  await until(async () => expect(await row().textContent()).toContain("'B' U+0042"));
  await open.page.keyboard.type("ü");
  await until(async () => expect(await note()).toBe("The set has no 'ü'."));
  expect(await row().textContent()).toContain("'B' U+0042");
});

test("the width of the glyph is shown as a line in the grid, and sent when it is changed", async () => {
  const edge = open.page.locator(".widthEdge");
  await open.page.keyboard.press("j");
  await open.page.keyboard.type("A");
  const number = open.page.getByRole("spinbutton", { name: "Width of the glyph in columns" });
  await until(async () => expect(await number.inputValue()).toBe("1"));
  const grid = await open.page.locator("[role=grid]").boundingBox();
  const line = await edge.boundingBox();
  expect(Math.abs((line?.x ?? 0) - (grid?.x ?? 0) - (grid?.width ?? 0) / 5)).toBeLessThan(2.5);
  await number.fill("4");
  await number.press("Enter");
  await until(() => expect(open.widths).toEqual([{ identity: font().bitmap.identity, frame: 33, width: 4 }]));
  await number.fill("9");
  await number.press("Enter");
  await until(async () => expect(await note()).toBe("A width is a whole number from 0 to 5."));
  expect(open.widths).toHaveLength(1);
});

test("a glyph as wide as the picture has no line, and what is no glyph set has no row", async () => {
  await open.page.keyboard.press("j");
  await open.page.keyboard.type("E");
  await until(async () => expect(await row().textContent()).toContain("'E'"));
  await settled(open);
  expect(await open.page.locator(".widthEdge").isVisible()).toBe(false);
  await open.show(drop());
  await settled(open);
  expect(await row().isVisible()).toBe(false);
});
