/** Frames edited from the page in the real editor: the saved file, one step of undo, and text and picture in step. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Locator } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import { openText } from "../../shared/bitmap/open.ts";
import { pixelsOf } from "../../shared/bitmap/resolve.ts";
import { checkFile } from "../../shared/checks/all.ts";
import type { Editor } from "../support/editor.ts";
import { SOON, startEditor } from "../support/editor.ts";
import { drag, paint } from "../support/paintEditor.ts";

const FILE = "blink.h";
const TEXT = `#include <stdint.h>

#define BLINK_FRAMES 2
// @bitmap 3x2 cap=64 frames=2 fps=4 -- the lantern blinks
const uint8_t blink[BLINK_FRAMES * 6] = {
  /* frame 0: open */
   1,  2,  3, // upper row
   4,  5,  6,

  /* frame 1: shut */
   0,  0,  0,
  64, 64, 64,
};
`;

let editor: Editor;
let grid: Locator;
beforeAll(async () => {
  editor = await startEditor({}, { prepare: (folder) => writeFileSync(join(folder, FILE), TEXT) });
  await editor.open(FILE, 5, 1);
  grid = await paint(editor, "blink");
});
afterAll(() => editor?.stop());
afterEach(async ({ task }) => {
  if (task.result?.state === "fail") await editor.picture(`failed-${task.name.replace(/\W+/g, "-")}`);
});

const word = (name: string) => editor.webview.getByRole("button", { name, exact: true });
const said = (words: string) => expect.poll(() => editor.webview.locator(".note").textContent(), SOON).toBe(words);
const frames = () => editor.webview.locator(".strip").getAttribute("aria-valuemax");
const undo = async () => {
  await editor.webview.locator("[role=gridcell]").focus();
  await editor.page.keyboard.press("Control+z");
};

/** What the saved file holds, read as the command reads it, without a finding. */
function saved() {
  const file = openText(editor.onDisk(FILE).toString("utf8"), FILE);
  expect(checkFile(file)).toEqual([]);
  const [bitmap] = file.bitmaps;
  if (!bitmap) throw new Error("the bitmap is gone");
  return Array.from({ length: bitmap.frames }, (_, frame) => Array.from(pixelsOf(bitmap, frame) ?? []));
}

test("a new frame is written, shown and painted; define, annotation and numbers follow", async () => {
  await word("New").click();
  await said("dark frame added as 1 of 0–2");
  await editor.page.locator(".tab.dirty").first().waitFor();
  await editor.save();
  expect(editor.onDisk(FILE).toString("utf8")).toBe(
    TEXT.replace("FRAMES 2", "FRAMES 3")
      .replace("frames=2", "frames=3")
      .replace("  /* frame 1: shut */", "  /* frame 1 */\n   0,  0,  0,\n   0,  0,  0,\n\n  /* frame 2: shut */"),
  );
  expect(await editor.webview.locator(".strip").getAttribute("aria-valuenow")).toBe("1");
  await drag(editor.page, grid, [1, 1], [2, 1]);
  await expect
    .poll(() => editor.page.locator(".editor-group-container").first().locator(".view-lines").textContent(), SOON)
    .toMatch(/0,.64,.64,/u);
  await editor.save();
  expect(saved()).toEqual([
    [1, 2, 3, 4, 5, 6],
    [0, 0, 0, 0, 64, 64],
    [0, 0, 0, 64, 64, 64],
  ]);
  await editor.picture("frames-new");
});

test("each change is one step of undo, in which text and picture go back together", async () => {
  await undo();
  await undo();
  await expect.poll(frames, SOON).toBe("1");
  await editor.save();
  expect(editor.onDisk(FILE).toString("utf8")).toBe(TEXT);
});

test("copied, moved and deleted frames take their rows with them", async () => {
  await word("Duplicate").click();
  await said("frame 1 copied to 2 of 0–2");
  await word("Earlier").click();
  await said("frame 2 moved to 1 of 0–2");
  await editor.webview.locator("[role=gridcell]").focus();
  await editor.page.keyboard.press("PageUp");
  await editor.page.keyboard.press(">");
  await said("frame 0 moved to 1 of 0–2");
  await editor.page.keyboard.press("PageDown");
  await editor.page.keyboard.press("Shift+Delete");
  await said("frame 2 deleted, 2 are left");
  await editor.save();
  expect(editor.onDisk(FILE).toString("utf8")).toBe(
    TEXT.replace(/ {2}\/\* frame 0[\s\S]*(?=};)/, (list) => {
      const [open = "", shut = ""] = list.split("\n\n");
      return `${shut.replace("frame 1", "frame 0")}\n${open.replace("frame 0", "frame 1")}\n`;
    }),
  );
  expect(saved()).toEqual([
    [0, 0, 0, 64, 64, 64],
    [1, 2, 3, 4, 5, 6],
  ]);
  // What is shown is what is written: the first number of the frame at hand.
  await editor.webview.locator("[role=gridcell]").focus();
  await editor.page.keyboard.press("Control+Home");
  await editor.webview.locator("[role=gridcell][aria-label*='level 1 of 255, line 11']").waitFor();
  for (let i = 0; i < 4; i++) await undo();
  await expect.poll(frames, SOON).toBe("1");
  await editor.webview.locator("[role=gridcell][aria-label*='level 0 of 255, line 11']").waitFor();
  await editor.save();
  expect(editor.onDisk(FILE).toString("utf8")).toBe(TEXT);
});
