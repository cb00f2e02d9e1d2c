/** The paint editor beside the source in the real editor: strokes, undo, saving, and the two cursors in step. */
import type { Locator } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import type { Editor } from "../support/editor.ts";
import { SOON, startEditor } from "../support/editor.ts";
import { drag, focusPixel, gridOf, paint, paintPage } from "../support/paintEditor.ts";

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
  // The word at the cursor by key: the pointer still stands on it, and a hover may open between two clicks.
  await editor.page.keyboard.press("Control+d");
  await source().locator("..").locator(".selected-text").first().waitFor();
  await editor.page.keyboard.type("0x11");
  await editor.webview.locator("[role=gridcell][aria-label*='level 17 of 255']").waitFor();
});

test("text typed right after a stroke and the stroke are both kept", async () => {
  await named("sun_icon").waitFor();
  await drag(editor.page, grid, [0, 8], [1, 8]);
  // No waiting here: the stroke may still be on its way when the text changes under it.
  await source()
    .locator(".view-line")
    .filter({ hasText: /air.temperature/ })
    .click({ position: { x: 20, y: 8 } });
  await editor.page.keyboard.press("Home");
  await editor.page.keyboard.type("int typed; ");
  // On the disk, as the stroke's row may have gone out of view.
  const saved = async () => {
    await editor.save();
    return editor.onDisk(FILE).toString("latin1");
  };
  await expect.poll(saved, SOON).toContain("\n  0x40, 0x40, 0x00, 0x00, 0x1A, 0x00, 0x00, 0x00, 0x00,\n};");
  expect(await saved()).toContain("int typed; /* air temperature */");
  await editor.picture("paint-and-type");
});

test("arrays picked together are painted as the frames of one set, each in its own place", async () => {
  const before = editor.onDisk(FILE).toString("latin1");
  await source().getByText("sun_icon").first().click();
  await named("sun_icon").waitFor();
  await editor.webview.getByText("together with other arrays").click();
  const group = editor.webview.getByRole("group", { name: "Arrays shown together" });
  await group.getByRole("checkbox", { name: "drop_icon" }).check();
  await named("drop_icon … sun_icon").waitFor();
  await editor.webview.locator("canvas.strip").focus();
  await editor.page.keyboard.press("Home");
  await editor.webview.getByText("drop_icon, frame 0 of 0–1").waitFor();
  await drag(editor.page, grid, [0, 1], [1, 1]);
  await editor.webview.locator("canvas.strip").focus();
  await editor.page.keyboard.press("End");
  await editor.webview.getByText("sun_icon, frame 1 of 0–1").waitFor();
  await drag(editor.page, grid, [8, 8], [7, 8]);
  await editor.picture("paint-together");
  const saved = async () => {
    await editor.save();
    return editor.onDisk(FILE).toString("latin1");
  };
  const rows = (text: string, name: string) =>
    text
      .slice(text.indexOf(`${name}[`))
      .split("};")[0]
      ?.split("\n") ?? [];
  await expect.poll(async () => rows(await saved(), "sun_icon")[9], SOON).toMatch(/, 0x40, 0x40,$/);
  expect(rows(await saved(), "drop_icon")[2]).toMatch(/^ +64, +64, /);
  // Two strokes, two steps back.
  await editor.page.keyboard.press("Control+z");
  await editor.page.keyboard.press("Control+z");
  await expect.poll(saved, SOON).toBe(before);
  // Frames and sizes of all arrays in one step each: what they hold changes places, one more is made, all are cropped.
  const drops = rows(before, "drop_icon").slice(1, 10);
  await editor.page.keyboard.press("<");
  await editor.webview.getByText("sun_icon and drop_icon have changed places").waitFor();
  await expect
    .poll(async () => rows(await saved(), "sun_icon").slice(1, 10), SOON)
    .not.toEqual(rows(before, "sun_icon").slice(1, 10));
  const numbers = (lines: readonly string[]) => lines.map((line) => (line.match(/\w+/g) ?? []).map(Number).join(" "));
  expect(numbers(rows(await saved(), "sun_icon").slice(1, 10))).toEqual(numbers(drops));
  await editor.page.keyboard.press("Control+z");
  await expect.poll(saved, SOON).toBe(before);
  await editor.webview.locator("canvas.strip").focus();
  await editor.page.keyboard.press("End");
  await editor.page.keyboard.press("Shift+N");
  await editor.webview.getByText("sun_icon copied behind it").waitFor();
  await editor.webview.getByText("sun_icon_2, frame 2 of 0–2").waitFor();
  await editor.picture("paint-together-more");
  await editor.page.keyboard.press("Control+z");
  await editor.webview.getByText("sun_icon, frame 1 of 0–1").waitFor();
  await expect.poll(saved, SOON).toBe(before);
  await focusPixel(editor.webview);
  await editor.page.keyboard.press("Control+Home");
  for (const key of ["ArrowRight", "ArrowRight", "ArrowDown"]) await editor.page.keyboard.press(`Shift+${key}`);
  await editor.webview.getByRole("button", { name: "Size", exact: true }).click();
  await editor.webview.getByRole("button", { name: "Crop to selection" }).click();
  await editor.webview.getByText("cropped to 3×2").waitFor();
  const cropped = await saved();
  for (const name of ["drop_icon", "sun_icon"])
    expect(numbers(rows(cropped, name).slice(1, 3))).toEqual(
      numbers(rows(before, name).slice(1, 3)).map((line) => line.split(" ").slice(0, 3).join(" ")),
    );
  await editor.page.keyboard.press("Control+z");
  await expect.poll(saved, SOON).toBe(before);
});

test("colours: a stroke, another colour in the palette and a replacement are one step of undo each", async () => {
  const file = "colour_grid.h";
  const art = editor.onDisk(file).toString("latin1");
  await editor.command("View: Close All Editors");
  await editor.page.locator(".tab").first().waitFor({ state: "detached" });
  await editor.open(file, 13, 1);
  const seedling = await paint(editor, "seedling");
  const view = paintPage(editor.page);
  const saved = async () => {
    await editor.page.locator(".tab.dirty").first().waitFor();
    await editor.save();
    return editor.onDisk(file).toString("latin1");
  };
  // The brightest colour within the cap is the last one; two bits a pixel, four to a byte.
  await drag(editor.page, seedling, [0, 0], [0, 0]);
  const painted = art.replace("  0x00, 0x00,\n", "  0xC0, 0x00,\n");
  expect(await saved()).toBe(painted);
  const colour = view.getByRole("textbox", { name: "Colour of index 3 in seedling_colours" });
  await colour.fill("#123456");
  await colour.press("Enter");
  const recoloured = painted.replace("0x7A80", "0x11AA");
  expect(await saved()).toBe(recoloured);
  await expect.poll(() => colour.inputValue(), SOON).toBe("#103552");
  await editor.picture("paint-colours");
  await view.locator("[role=gridcell]").focus();
  // To index 1; the value under the pixel cursor is 3.
  for (const key of ["[", "[", "x"]) await editor.page.keyboard.press(key);
  await view.locator(".replacing select:focus").waitFor();
  for (const key of ["Tab", "Enter"]) await editor.page.keyboard.press(key);
  const replaced = recoloured
    .replace("  0xC0, 0x00,\n", "  0x40, 0x00,\n")
    .replace(/ {2}0x03, 0xC0,\n/g, "  0x01, 0x40,\n")
    .replace("  0x0F, 0xF0,\n", "  0x05, 0x50,\n");
  expect(await saved()).toBe(replaced);
  await view.locator("[role=gridcell]").focus();
  for (const before of [recoloured, painted, art]) {
    await editor.page.keyboard.press("Control+z");
    expect(await saved()).toBe(before);
  }
});
