/** The paint editor beside the source in the real editor: strokes, undo, saving, and the two cursors in step. */
import type { Locator } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import type { Editor } from "../support/editor.ts";
import { SOON, startEditor } from "../support/editor.ts";
import { drag, gridOf } from "../support/paintEditor.ts";

const FILE = "lantern_art.h";

let editor: Editor;
let grid: Locator;
let original: Buffer;
beforeAll(async () => {
  editor = await startEditor();
  grid = editor.webview.locator("[role=grid]");
  original = editor.onDisk(FILE);
});
afterAll(() => editor?.stop());
afterEach(async ({ task }) => {
  if (task.result?.state === "fail") await editor.picture(`failed-${task.name.replace(/\W+/g, "-")}`);
});

const named = (name: string) => gridOf(editor.webview, name);
/** So many numbers of the file that follow a mark in its text. */
const numbersAfter = (file: Buffer, mark: string, count: number) => {
  const text = file.toString("latin1");
  const after = text.slice(text.indexOf(mark) + mark.length).replace(/\/\*.*?\*\//gs, "");
  return (after.match(/0x[\dA-F]+|\d+/gi) ?? []).slice(0, count).map(Number);
};
const source = () => editor.page.locator(".editor-group-container").first().locator(".view-lines");

test("the lens above a declaration opens the paint editor beside it", async () => {
  await editor.open(FILE, 14, 1);
  await editor.page.locator(".codelens-decoration a").filter({ hasText: "Paint" }).first().click();
  await named("drop_icon").waitFor();
  expect(await editor.page.locator(".editor-group-container").count()).toBe(2);
  await editor.picture("paint-open");
});

test("text is written with the numerals of the same file, as one step of undo", async () => {
  const before = editor.onDisk(FILE);
  await editor.webview.locator("[role=gridcell]").focus();
  await editor.page.keyboard.press("Control+Home");
  await editor.page.keyboard.press("t");
  const field = editor.webview.locator("input.typed");
  await editor.webview.locator("input.typed:focus").waitFor();
  await editor.page.keyboard.type("2");
  // The glyphs come from the server; until then Enter says so and keeps what is typed.
  await expect
    .poll(async () => {
      await field.press("Enter");
      return field.inputValue();
    }, SOON)
    .toBe("");
  await editor.page.locator(".tab.dirty").first().waitFor();
  await editor.save();
  await editor.picture("paint-text");
  // The numerals are drawn up to the panel's cap of 64, and so is the level: each dot goes its share of the way there.
  const [glyph, was, is] = [
    numbersAfter(before, "/* '2' */", 35),
    numbersAfter(before, "drop_icon[81] PROGMEM = {", 81),
    numbersAfter(editor.onDisk(FILE), "drop_icon[81] PROGMEM = {", 81),
  ];
  const expected = was.map((value, i) => {
    const [x, y] = [i % 9, Math.floor(i / 9)];
    const dot = x < 5 && y < 7 ? (glyph[y * 5 + x] ?? 0) : 0;
    return Math.round(value + ((64 - value) * dot) / 64);
  });
  expect(is).toEqual(expected);
  expect(is).not.toEqual(was);
  await field.press("Escape");
  await editor.page.keyboard.press("Control+z");
  await editor.page.locator(".tab.dirty").first().waitFor();
  await editor.save();
  expect(editor.onDisk(FILE).equals(before)).toBe(true);
  await editor.page.keyboard.press("d");
});

test("a stroke lands in the file, and every other byte stays", async () => {
  await drag(editor.page, grid, [0, 0], [2, 0]);
  await editor.page.locator(".tab.dirty").first().waitFor();
  await editor.picture("paint-stroke");
  await editor.save();
  const text = editor.onDisk(FILE).toString("latin1");
  const before = original.toString("latin1");
  const row = "   0,  0,  0,  0, 15,  0,  0,  0,  0,\n";
  const at = before.indexOf(row);
  expect(text.slice(0, at)).toBe(before.slice(0, at));
  const painted = text.slice(at, text.indexOf("\n", at) + 1);
  expect(text.slice(at + painted.length)).toBe(before.slice(at + row.length));
  const [, first, second, third] = /^ +(\d+), +(\d+), +(\d+), {2}0, 15, {2}0, {2}0, {2}0, {2}0,\n$/.exec(painted) ?? [];
  expect(Number(first)).toBeGreaterThan(0);
  expect([second, third]).toEqual([first, first]);
});

test("Ctrl+Z in the page takes the whole stroke back, Ctrl+Y paints it again", async () => {
  const painted = editor.onDisk(FILE);
  await editor.page.keyboard.press("Control+z");
  await editor.page.locator(".tab.dirty").first().waitFor();
  await editor.save();
  expect(editor.onDisk(FILE).equals(original)).toBe(true);
  await editor.page.keyboard.press("Control+y");
  await editor.page.locator(".tab.dirty").first().waitFor();
  await editor.save();
  expect(editor.onDisk(FILE).equals(painted)).toBe(true);
});

test("the pixel cursor moves the text cursor", async () => {
  const cell = editor.webview.locator("[role=gridcell]");
  await cell.focus();
  await editor.page.keyboard.press("Control+Home");
  for (let i = 0; i < 4; i++) await editor.page.keyboard.press("ArrowRight");
  await editor.webview.locator("[role=gridcell][aria-colindex='5']").waitFor();
  // Selected is the number 15, two characters wide, in the first row.
  const selected = editor.page.locator(".editor-group-container").first().locator(".selected-text");
  await selected.first().waitFor();
  await editor.picture("paint-reveal");
});

test("the page follows the text cursor to another bitmap and marks its pixel", async () => {
  await source().getByText("sun_icon").first().click();
  await named("sun_icon").waitFor();
  await source()
    .locator(".view-line")
    .filter({ hasText: /0x1A,.0x01,.0x2A/ })
    .getByText("0x2A")
    .first()
    .click();
  await editor.webview.locator("[role=gridcell][aria-colindex='3']").waitFor();
  expect(await editor.webview.locator("[role=row]").getAttribute("aria-rowindex")).toBe("5");
  await editor.picture("paint-follow");
});

test("typing a number changes its pixel on the page", async () => {
  await source()
    .locator(".view-line")
    .filter({ hasText: /0x1A,.0x01,.0x2A/ })
    .getByText("0x2A")
    .first()
    .dblclick();
  await editor.page.keyboard.type("0x11");
  await editor.webview.locator("[role=gridcell][aria-label*='level 17 of 255']").waitFor();
});

test("text typed right after a stroke and the stroke are both kept", async () => {
  await named("sun_icon").waitFor();
  await drag(editor.page, grid, [0, 8], [1, 8]);
  // No waiting here: the stroke may still be on its way when the text changes under it.
  await source().getByText("temperature").first().click();
  await editor.page.keyboard.press("Home");
  await editor.page.keyboard.type("int typed; ");
  await expect.poll(async () => (await source().textContent()) ?? "", SOON).toMatch(/0x40,.0x40,.0x00,.0x00,.0x1A/);
  await editor.save();
  const text = editor.onDisk(FILE).toString("latin1");
  expect(text).toContain("int typed; /* air temperature */");
  expect(text).toContain("\n  0x40, 0x40, 0x00, 0x00, 0x1A, 0x00, 0x00, 0x00, 0x00,\n};");
  await editor.picture("paint-and-type");
});
