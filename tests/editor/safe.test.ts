/** No work is lost in the real editor: whatever else changes the file, text and picture end in agreement. */
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Locator } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import type { Editor } from "../support/editor.ts";
import { SOON, startEditor } from "../support/editor.ts";
import { drag, focusPixel, gridOf, paint, paintPage } from "../support/paintEditor.ts";

const TIDY = fileURLToPath(new URL("../support/tidy/", import.meta.url));
const ART = `#include "board.h"

// @panel hut 3x3 gray8 cap=64
// @bitmap hut frames=2
const uint8_t hook_icon[18] = {
   0, 26,  0,
   0, 26, 15,
   7, 26,  0,

   0,  0,  0,
   0,  1,  0,
   0,  0,  0,
};
`;

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor(
    { "[c]": { "editor.formatOnSave": false }, "[cpp]": { "editor.formatOnSave": false } },
    {
      extensions: [TIDY],
      prepare: (folder) => {
        for (const name of ["undo", "rename", "disk", "restart", "tidy"])
          writeFileSync(join(folder, `${name}_art.h`), ART);
      },
    },
  );
});
afterAll(() => editor?.stop());
afterEach(async ({ task }) => {
  if (task.result?.state === "fail") await editor.picture(`failed-${task.name.replace(/\W+/g, "-")}`);
});

const group = (index: number) => editor.page.locator(".editor-group-container").nth(index);
const source = () => group(0).locator(".view-lines");
const text = async () => ((await source().textContent()) ?? "").replaceAll("\u00a0", " ");
const page = () => paintPage(editor.page);

async function beside(name: string): Promise<Locator> {
  // What a test that failed has left behind is not to hold up the next one.
  if ((await editor.page.locator(".tab.dirty").count()) > 0) await editor.save();
  await editor.command("View: Close All Editors");
  await editor.page.locator(".tab").first().waitFor({ state: "detached" });
  await editor.open(name, 5, 1);
  return paint(editor, "hook_icon");
}

/** The raw values of a frame's first row, as the page tells them. */
async function firstRow(): Promise<string[]> {
  const said: string[] = [];
  // By the editor's own key: it looks only four times a second whether a page has the focus, and a script is faster.
  await editor.page.keyboard.press("Control+2");
  await expect.poll(() => group(1).evaluate((element) => element.classList.contains("active")), SOON).toBe(true);
  await focusPixel(page());
  await editor.page.keyboard.press("Control+Home");
  for (let column = 1; column <= 3; column++) {
    if (column > 1) await editor.page.keyboard.press("ArrowRight");
    const cell = page().locator(`[role=row][aria-rowindex="1"] [role=gridcell][aria-colindex="${column}"]`);
    await cell.waitFor();
    said.push(/level (\d+)/.exec((await cell.getAttribute("aria-label")) ?? "")?.[1] ?? "");
  }
  return said;
}

/** Waits until the first row is this, in the text and in the picture. */
async function agree(row: readonly number[]): Promise<void> {
  await expect.poll(text, SOON).toMatch(new RegExp(`\\{ *${row.join(", *")},`));
  await expect.poll(firstRow, SOON).toEqual(row.map(String));
}

test("undo and redo go through strokes and typing in one line, from either editor", async () => {
  const grid = await beside("undo_art.h");
  await drag(editor.page, grid, [0, 0], [0, 0]);
  await agree([64, 26, 0]);
  await source()
    .locator(".view-line")
    .filter({ hasText: /64,.26/ })
    .getByText("26")
    .first()
    .dblclick();
  await editor.page.keyboard.type("33");
  await agree([64, 33, 0]);
  await drag(editor.page, grid, [2, 0], [2, 0]);
  await agree([64, 33, 64]);
  const step = async (key: string, row: readonly number[]) => {
    await editor.page.keyboard.press(key);
    await agree(row);
  };
  const intoText = () =>
    source()
      .locator(".view-line")
      .first()
      .click({ position: { x: 20, y: 8 } });
  // From the page, which has the keyboard, and from the text.
  await step("Control+z", [64, 33, 0]);
  await intoText();
  await step("Control+z", [64, 26, 0]);
  await step("Control+z", [0, 26, 0]);
  await step("Control+y", [64, 26, 0]);
  await intoText();
  await step("Control+y", [64, 33, 0]);
  await step("Control+y", [64, 33, 64]);
  await editor.save();
  expect(editor.onDisk("undo_art.h").toString()).toBe(ART.replace("   0, 26,  0,", "  64, 33, 64,"));
});

test("an array renamed under the paint editor is painted by its new name", async () => {
  const grid = await beside("rename_art.h");
  await drag(editor.page, grid, [0, 0], [0, 0]);
  await agree([64, 26, 0]);
  await source().getByText("hook_icon").first().dblclick();
  await editor.page.keyboard.type("coat_icon");
  const renamed = gridOf(page(), "coat_icon");
  await renamed.waitFor();
  await drag(editor.page, renamed, [2, 0], [2, 0]);
  await agree([64, 26, 64]);
  await editor.save();
  const saved = editor.onDisk("rename_art.h").toString();
  expect(saved).toBe(ART.replace("hook_icon", "coat_icon").replace("   0, 26,  0,", "  64, 26, 64,"));
});

test("a change on the disk under unsaved strokes loses neither: the editor asks on saving", async () => {
  const grid = await beside("disk_art.h");
  await drag(editor.page, grid, [0, 0], [0, 0]);
  await agree([64, 26, 0]);
  // A file of the same size would pass for the same one in the editor's own check.
  writeFileSync(join(editor.folder, "disk_art.h"), `${ART}int after_art;\n`);
  await editor.page.keyboard.press("Control+s");
  const asked = editor.page.locator(".notifications-toasts").filter({ hasText: "disk_art.h" });
  await asked.getByText(/content of the file is newer/).waitFor();
  await editor.picture("changed-on-disk");
  expect(editor.onDisk("disk_art.h").toString()).toContain("after_art");
  await agree([64, 26, 0]);
  await asked.getByRole("button", { name: "Overwrite" }).click();
  await editor.page.locator(".tab.dirty").first().waitFor({ state: "detached" });
  expect(editor.onDisk("disk_art.h").toString()).toBe(ART.replace("   0, 26,  0,", "  64, 26,  0,"));
  await agree([64, 26, 0]);
});

test("tool, level, frame, view, ghosts and speed are as they were after the window is loaded again", async () => {
  await beside("restart_art.h");
  await page().locator("canvas.strip").focus();
  await editor.page.keyboard.press("End");
  await page().getByRole("button", { name: "As cells" }).click();
  await page().getByRole("button", { name: "There and back" }).click();
  await focusPixel(page());
  await editor.page.keyboard.press("l");
  await editor.page.keyboard.press("h");
  await editor.page.keyboard.press(".");
  await page().getByText("frame 1 of 0–1").waitFor();
  const speed = () => page().getByLabel("Frames a second").inputValue();
  await expect.poll(speed, SOON).toBe("12");
  await editor.command("Developer: Reload Window");
  await gridOf(page(), "hook_icon").waitFor();
  await page().getByText("frame 1 of 0–1").waitFor();
  const pressed = (name: string) => page().getByRole("button", { name, exact: true }).getAttribute("aria-pressed");
  expect(await pressed("Line")).toBe("true");
  expect(await pressed("As cells")).toBe("true");
  await expect.poll(() => pressed("There and back"), SOON).toBe("true");
  expect([await pressed("Ghost"), await speed()]).toEqual(["true", "12"]);
});

test("a stroke just before saving is in the file that a formatter has gone through", async () => {
  const on = { "editor.formatOnSave": true, "editor.defaultFormatter": "tests.tidy" };
  mkdirSync(join(editor.folder, ".vscode"), { recursive: true });
  writeFileSync(join(editor.folder, ".vscode/settings.json"), JSON.stringify({ "[c]": on, "[cpp]": on }));
  const grid = await beside("tidy_art.h");
  await drag(editor.page, grid, [0, 0], [0, 0]);
  // No waiting: the stroke may still be on its way when the file is saved.
  await expect
    .poll(async () => {
      await editor.save();
      return editor.onDisk("tidy_art.h").toString();
    }, SOON)
    .toMatch(/ {2}64, 26, 0,\n {2}0, 26, 15,\n/);
  await agree([64, 26, 0]);
  await drag(editor.page, grid, [2, 0], [2, 0]);
  await agree([64, 26, 64]);
  await editor.save();
  const tidy = ART.replace("   0, 26,  0,", "  64, 26, 64,")
    .replace(/,[ \t]+/g, ", ")
    .replace(/^[ \t]+(?=\d)/gm, "  ");
  await expect.poll(() => editor.onDisk("tidy_art.h").toString(), SOON).toBe(tidy);
});
