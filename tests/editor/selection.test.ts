/** Selected pixels in the real editor: in step with what is selected in the text, and through the system's clipboard. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import type { Editor } from "../support/editor.ts";
import { SOON, startEditor } from "../support/editor.ts";
import { drag, gridOf, paint, paintPage } from "../support/paintEditor.ts";

const ART = `// @panel hut 4x3 gray8 cap=64
// @bitmap hut
const uint8_t hook_icon[12] = {
   0, 26,  0,  1,
   0, 26, 15,  2,
   7, 26,  0,  3,
};

// @bitmap 4x3 gray4
const uint8_t fan_icon[6] = {
  0x00, 0x0F,
  0x00, 0x00,
  0xF0, 0x00,
};
`;

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({}, { prepare: (folder) => writeFileSync(join(folder, "hut_art.h"), ART) });
  await editor.page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
});
afterAll(() => editor?.stop());
afterEach(async ({ task }) => {
  if (task.result?.state === "fail") await editor.picture(`failed-${task.name.replace(/\W+/g, "-")}`);
});

const page = () => paintPage(editor.page);
const source = () => editor.page.locator(".editor-group-container").nth(0).locator(".view-lines");
const text = async () => ((await source().textContent()) ?? "").replaceAll("\u00a0", " ");
const note = (words: string) => page().locator(".note").filter({ hasText: words }).waitFor();
const press = async (...keys: string[]) => {
  for (const key of keys) await editor.page.keyboard.press(key);
};
/** Goes into the page by its tab: the editor looks only now and then whether a page has the focus. */
const focusGrid = async () => {
  const group = editor.page.locator(".editor-group-container").nth(1);
  await group.locator(".tab").click();
  await group.and(editor.page.locator(".active")).waitFor();
  await page().locator("[role=gridcell]").focus();
};

test("selected pixels become selected numbers, one run a line", async () => {
  await editor.open("hut_art.h", 3, 20);
  const grid = await paint(editor, "hook_icon");
  await press("s");
  await drag(editor.page, grid, [1, 0], [2, 1]);
  await note("2×2 pixels selected at column 1, row 0");
  await expect
    .poll(() => editor.page.locator(".editor-group-container").first().locator(".selected-text").count(), SOON)
    .toBe(2);
  await editor.picture("selection-in-text");
});

test("selected numbers become selected pixels, and single ones take that back", async () => {
  await editor.page.keyboard.press("Escape");
  const line = source().locator(".view-line").filter({ hasText: /7,.26/ });
  await line.getByText("7").first().click();
  await press("Home", "Shift+End");
  await page().locator(".what").filter({ hasText: "4×1 at 0,2" }).waitFor();
  await press("Home");
  await page().locator(".what").filter({ hasText: "the whole frame" }).waitFor();
});

test("pixels copied from one bitmap are pasted into another of another format, saved, and undone as one step", async () => {
  await focusGrid();
  await press("Control+Home", "ArrowRight", "Shift+ArrowRight", "Shift+ArrowDown");
  await note("2×2 pixels selected at column 1, row 0");
  await press("Control+c");
  await note("2×2 pixels copied, as an array in C and as a picture");
  expect(await editor.page.evaluate(() => navigator.clipboard.readText())).toBe(
    "// @bitmap 2x2 gray8 cap=64\nconst uint8_t hook_icon_2[4] = {\n  26,  0,\n  26, 15,\n};\n",
  );
  await page().getByRole("combobox", { name: "Bitmap of this file" }).selectOption({ label: "fan_icon" });
  await gridOf(page(), "fan_icon").waitFor();
  await focusGrid();
  await press("Control+Home", "Control+v");
  await note("2×2 pixels pasted");
  await press("ArrowDown");
  await note("2×2 pixels at column 0, row 1");
  await editor.picture("selection-pasted");
  await press("Enter");
  // 26 and 15 of 255 are 2 and 1 of 15.
  await expect.poll(text, SOON).toContain("0x20, 0x00,");
  expect(await text()).toContain("0x21, 0x00,");
  await editor.save();
  const after = ART.replace("  0x00, 0x00,\n  0xF0, 0x00,", "  0x20, 0x00,\n  0x21, 0x00,");
  expect(editor.onDisk("hut_art.h").toString()).toBe(after);
  await press("Control+z");
  await editor.page.locator(".tab.dirty").first().waitFor();
  await editor.save();
  expect(editor.onDisk("hut_art.h").toString()).toBe(ART);
});

test("Ctrl+A selects all pixels and no words of the page", async () => {
  await focusGrid();
  await press("Control+a");
  await note("4×3 pixels selected at column 0, row 0");
  await press("Control+c");
  await note("4×3 pixels copied, as an array in C and as a picture");
  expect(
    await page()
      .locator("body")
      .evaluate(() => getSelection()?.isCollapsed),
  ).toBe(true);
  await press("Escape");
});

test("what is copied in the text editor is pasted as pixels", async () => {
  await source().getByText("hook_icon").first().click();
  await gridOf(page(), "hook_icon").waitFor();
  await source().locator(".view-line").filter({ hasText: /7,.26/ }).getByText("7").first().click();
  await press("Home", "Shift+End", "Control+c");
  await focusGrid();
  await press("Escape", "Control+Home", "Control+v");
  await note("4×1 pixels pasted");
  await press("Enter");
  await expect.poll(text, SOON).toMatch(/\{ +7, 26, {2}0, {2}3,/);
  await press("Control+z");
  await expect.poll(text, SOON).toMatch(/\{ +0, 26, {2}0, {2}1,/);
});

test("a picture on the clipboard is pasted as levels, white as the cap", async () => {
  await editor.page.evaluate(async () => {
    const canvas = document.createElement("canvas");
    canvas.width = 2;
    canvas.height = 1;
    const white = new Uint8ClampedArray([255, 255, 255, 255, 0, 0, 0, 255]);
    canvas.getContext("2d")?.putImageData(new ImageData(white, 2, 1), 0, 0);
    const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, "image/png"));
    if (blob) await navigator.clipboard.write([new ClipboardItem({ "image/png": blob })]);
  });
  await focusGrid();
  await press("Escape", "Control+Home", "Control+v");
  await note("2×1 pixels pasted");
  await press("Enter");
  await expect.poll(text, SOON).toMatch(/\{ +64, {2}0, {2}0, {2}1,/);
  await press("Control+z");
  await expect.poll(text, SOON).toMatch(/\{ +0, 26, {2}0, {2}1,/);
});

test("cropping rewrites annotation, length and rows as one step of undo", async () => {
  await focusGrid();
  await press("Escape", "Control+Home", "ArrowRight", "Shift+ArrowRight", "Shift+ArrowDown");
  await note("2×2 pixels selected at column 1, row 0");
  await page().getByRole("button", { name: "Size", exact: true }).click();
  await page().getByRole("button", { name: "Crop to selection" }).click();
  await expect.poll(text, SOON).toContain("const uint8_t hook_icon[4] =");
  await editor.save();
  const cropped = "// @bitmap hut 2x2\nconst uint8_t hook_icon[4] = {\n  26,  0,\n  26, 15,\n};\n";
  expect(editor.onDisk("hut_art.h").toString()).toContain(cropped);
  await editor.picture("selection-cropped");
  await press("Control+z");
  await expect.poll(text, SOON).toContain("const uint8_t hook_icon[12] =");
  await editor.save();
  expect(editor.onDisk("hut_art.h").toString()).toBe(ART);
});
