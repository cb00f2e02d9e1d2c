/** The paint editor and the text stay in step in the real editor, whoever changes the file; and files not to be written. */
import { chmodSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Locator } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import type { Editor } from "../support/editor.ts";
import { SOON, startEditor } from "../support/editor.ts";
import { drag, focusPixel, gridOf, paint, paintPage } from "../support/paintEditor.ts";

const ART = `#include "board.h"

// @panel hut 3x3 gray8 cap=64
// @bitmap hut
const uint8_t hook_icon[9] = {
   0, 26,  0,
   0, 26, 15,
   7, 26,  0,
};
int after_art;
`;
/** The umlaut in ISO 8859-1 is one byte that UTF-8 does not know. */
const LATIN = Buffer.from(ART.replace("int after_art", "/* K\u00fcbel */ int after_art"), "latin1");

let editor: Editor;
beforeAll(async () => {
  const settings = { "files.readonlyInclude": { "**/kept_art.h": true }, "files.readonlyFromPermissions": true };
  editor = await startEditor(settings, {
    prepare: (folder) => {
      for (const name of ["hut_art.h", "kept_art.h", "locked_art.h"]) writeFileSync(join(folder, name), ART);
      writeFileSync(join(folder, "latin_art.h"), LATIN);
      writeFileSync(join(folder, "named_art.h"), ART.replace("0, 26, 15", "0, 26, GLOW").replace("board.h", "glow.h"));
      writeFileSync(join(folder, "glow.h"), '#include "board.h"\n#define GLOW 15\n');
      chmodSync(join(folder, "locked_art.h"), 0o444);
    },
  });
});
afterAll(() => editor?.stop());
afterEach(async ({ task }) => {
  if (task.result?.state === "fail") await editor.picture(`failed-${task.name.replace(/\W+/g, "-")}`);
});

const group = (index: number) => editor.page.locator(".editor-group-container").nth(index);
const source = () => group(0).locator(".view-lines");
/** The text of the source in view; the editor shows spaces as no-break spaces. */
const text = async () => ((await source().textContent()) ?? "").replaceAll("\u00a0", " ");
const pixel = (row: number, column: number, index = 0) =>
  paintPage(editor.page, index).locator(
    `[role=row][aria-rowindex="${row}"] [role=gridcell][aria-colindex="${column}"]`,
  );
const tab = (name: string) => editor.page.locator(`.tab[data-resource-name="${name}"]`);

/** Opens a file alone, with its paint editor beside it. */
async function beside(name: string): Promise<Locator> {
  await editor.command("View: Close All Editors");
  await editor.page.locator(".tab").first().waitFor({ state: "detached" });
  await editor.open(name, 5, 1);
  return paint(editor, "hook_icon");
}

/** Puts the pixel cursor on a pixel by the keyboard, rows and columns from 0, and says what it is. */
async function saysOf(row: number, column: number, index = 0): Promise<string> {
  await focusPixel(paintPage(editor.page, index));
  await editor.page.keyboard.press("Control+Home");
  for (let i = 0; i < row; i++) await editor.page.keyboard.press("ArrowDown");
  for (let i = 0; i < column; i++) await editor.page.keyboard.press("ArrowRight");
  const cell = pixel(row + 1, column + 1, index);
  await cell.waitFor();
  return (await cell.getAttribute("aria-label")) ?? "";
}

test("typing changes the picture", async () => {
  await beside("hut_art.h");
  expect(await saysOf(1, 2)).toContain("level 15 of 255");
  await source()
    .locator(".view-line")
    .filter({ hasText: /26,.15/ })
    .getByText("15")
    .first()
    .dblclick();
  await editor.page.keyboard.type("42");
  await paintPage(editor.page).locator("[role=gridcell][aria-label*='level 42 of 255']").waitFor();
  await editor.save();
});

test("a change on the disk is followed", async () => {
  writeFileSync(join(editor.folder, "hut_art.h"), ART.replace("26, 15", "26, 33"));
  await paintPage(editor.page).locator("[role=gridcell][aria-label*='level 33 of 255']").waitFor();
  expect(await text()).toContain("0, 26, 33");
});

test("two paint editors of one file show the same", async () => {
  await tab("hut_art.h").last().click();
  await editor.command("View: Split Editor Down");
  const first = gridOf(paintPage(editor.page, 0), "hook_icon");
  const second = gridOf(paintPage(editor.page, 1), "hook_icon");
  await second.waitFor();
  await drag(editor.page, second, [0, 0], [0, 0]);
  await expect.poll(text, SOON).toMatch(/ 64, 26, {2}0,/);
  expect(await saysOf(0, 0, 0)).toContain("level 64 of 255");
  expect(await saysOf(0, 0, 1)).toContain("level 64 of 255");
  await drag(editor.page, first, [2, 0], [2, 0]);
  await expect.poll(text, SOON).toMatch(/ 64, 26, 64,/);
  expect(await saysOf(0, 2, 1)).toContain("level 64 of 255");
  await editor.picture("two-paint-editors");
  await editor.save();
});

test("an undo on the page brings the line of the change into view, and leaves focus and frame where they are", async () => {
  const { page } = editor;
  await editor.command("View: Close All Editors");
  await page.locator(".tab").first().waitFor({ state: "detached" });
  await editor.open("lantern_art.h", 212, 3);
  const grid = await paint(editor, "drip");
  const inView = async () =>
    (await group(0).locator(".line-numbers").allTextContents()).map(Number).sort((a, b) => a - b);
  await paintPage(page).locator("canvas.strip").focus();
  await page.keyboard.press("Home");
  await drag(page, grid, [4, 1], [4, 1]);
  await tab("lantern_art.h").and(page.locator(".dirty")).first().waitFor();
  const row = await paintPage(page).locator("[role=row] [role=gridcell]").getAttribute("aria-label");
  const line = Number(/line (\d+)/.exec(row ?? "")?.[1]);
  expect(line).toBeGreaterThan(200);
  await paintPage(page).locator("canvas.strip").focus();
  await page.keyboard.press("End");
  await paintPage(page).getByText("frame 15 of 0–15").first().waitFor();
  await expect.poll(inView, SOON).not.toContain(line);
  await page.keyboard.press("Control+z");
  await expect.poll(inView, SOON).toContain(line);
  expect(await page.locator(".tab.dirty").count()).toBe(0);
  expect(
    await paintPage(page)
      .locator("canvas.strip")
      .evaluate((e) => e === document.activeElement),
  ).toBe(true);
  expect(await paintPage(page).getByText("frame 15 of 0–15").count()).toBeGreaterThan(0);
  // Redone, it is brought back too; what is in view already is not moved.
  const before = await inView();
  await page.keyboard.press("Control+y");
  await page.locator(".tab.dirty").first().waitFor();
  expect(await inView()).toEqual(before);
  await page.keyboard.press("Control+z");
});

test("an array deleted under the paint editor is missed in words, and undo brings it back", async () => {
  await beside("hut_art.h");
  const before = await text();
  await source().getByText("hook_icon").first().click();
  await editor.page.keyboard.press("Control+a");
  await editor.page.keyboard.press("Delete");
  await paintPage(editor.page).getByText("This file holds no bitmap").filter({ visible: true }).first().waitFor();
  await editor.picture("array-deleted");
  await editor.page.keyboard.press("Control+z");
  await gridOf(paintPage(editor.page), "hook_icon").waitFor();
  expect(await text()).toBe(before);
});

test.for(["kept_art.h", "locked_art.h"])(
  "%s, which the editor keeps from being written, is shown and not painted",
  async (name) => {
    const grid = await beside(name);
    const page = paintPage(editor.page);
    await page.locator("header").getByText("read only").waitFor();
    expect(await grid.getAttribute("aria-readonly")).toBe("true");
    const before = await text();
    await drag(editor.page, grid, [0, 0], [2, 0]);
    await editor.page.keyboard.press("Space");
    expect(await saysOf(0, 0)).toContain("level 0 of 255");
    expect(await text()).toBe(before);
    expect(
      await tab(name)
        .filter({ has: editor.page.locator(".dirty") })
        .count(),
    ).toBe(0);
    expect(editor.onDisk(name).toString()).toBe(ART);
  },
);

test("a name comes from a file that is not open, and is followed when that file changes on the disk", async () => {
  await beside("named_art.h");
  expect(await saysOf(1, 2)).toContain("level 15 of 255");
  writeFileSync(join(editor.folder, "glow.h"), '#include "board.h"\n#define GLOW 33\n');
  await expect.poll(() => pixel(2, 3).getAttribute("aria-label"), SOON).toContain("level 33 of 255");
});

test("a file with bytes that the editor can't decode is painted only after a warning", async () => {
  const grid = await beside("latin_art.h");
  const dialog = editor.page.locator(".monaco-dialog-box").filter({ hasText: "bytes that its encoding does not know" });
  await drag(editor.page, grid, [0, 0], [0, 0]);
  await dialog.waitFor();
  await editor.picture("undecodable");
  await dialog.getByText("Cancel").click();
  await dialog.waitFor({ state: "detached" });
  await paintPage(editor.page).getByText("Nothing was written").first().waitFor();
  expect(await text()).toContain("0, 26,  0,");
  expect(await editor.page.locator(".tab.dirty").count()).toBe(0);
  expect(editor.onDisk("latin_art.h").equals(LATIN)).toBe(true);
  await drag(editor.page, grid, [0, 0], [0, 0]);
  await dialog.getByText("Change the file anyway").click();
  await expect.poll(text, SOON).toMatch(/ 64, 26, {2}0,/);
  // Asked once for each file.
  await drag(editor.page, grid, [2, 0], [2, 0]);
  await expect.poll(text, SOON).toMatch(/ 64, 26, 64,/);
  expect(await dialog.count()).toBe(0);
});
