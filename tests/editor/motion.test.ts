/** A motion changed and baked from the page in the real editor: the saved file, and one step of undo each. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import { openText } from "../../shared/bitmap/open.ts";
import { checkFile } from "../../shared/checks/all.ts";
import type { Editor } from "../support/editor.ts";
import { SOON, startEditor } from "../support/editor.ts";
import { paint } from "../support/paintEditor.ts";

const FILE = "fade.h";
const TEXT = `#include <stdint.h>

// @bitmap 2x1 cap=64
const uint8_t drop[2] = { 9, 64 };

// @motion image=drop mask=linear soft=0 level=0 from=256 to=0 step=128
// @bitmap 2x1 cap=64 frames=3 fps=4
const uint8_t fade[3 * 2] = {
  0,  0,
  0, 64,
  9, 64,
};
`;

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({}, { prepare: (folder) => writeFileSync(join(folder, FILE), TEXT) });
  await editor.open(FILE, 8, 16);
  await paint(editor, "fade");
});
afterAll(() => editor?.stop());
afterEach(async ({ task }) => {
  if (task.result?.state === "fail") await editor.picture(`failed-${task.name.replace(/\W+/g, "-")}`);
});

const panel = () => editor.webview.getByRole("region", { name: "Motion" });
const step = () => panel().getByRole("textbox", { name: "step" });
const frames = () => editor.webview.locator(".strip").getAttribute("aria-valuemax");
const onDisk = async () => {
  await editor.save();
  return editor.onDisk(FILE).toString("utf8");
};

test("a typed step is written into the annotation, and the frames are baked anew", async () => {
  await panel().waitFor();
  await step().fill("64");
  await step().press("Enter");
  const bake = panel().getByRole("button", { name: "Bake 5 frames" });
  await bake.waitFor();
  await bake.click();
  await expect.poll(frames, SOON).toBe("4");
  const text = await onDisk();
  expect(text).toBe(
    TEXT.replace("step=128", "step=64")
      .replace("frames=3", "frames=5")
      .replace("[3 * 2]", "[5 * 2]")
      .replace("  0,  0,\n  0, 64,\n", "  0,  0,\n  0, 64,\n  0, 64,\n  0, 64,\n"),
  );
  expect(checkFile(openText(text, FILE)).map((f) => f.code)).toEqual(["memory"]);
});

test("undo takes back the frames, then the word", async () => {
  await editor.webview.locator("[role=gridcell]").focus();
  await editor.page.keyboard.press("Control+z");
  await expect.poll(frames, SOON).toBe("2");
  await panel().getByRole("button", { name: "Bake 5 frames" }).waitFor();
  await editor.page.keyboard.press("Control+z");
  await expect.poll(() => step().inputValue(), SOON).toBe("128");
  expect(await onDisk()).toBe(TEXT);
});

test("a flank stepped by keys is one edit", async () => {
  await panel().getByRole("slider", { name: "Soft width" }).focus();
  await editor.page.keyboard.press("Shift+ArrowRight");
  await expect.poll(() => panel().getByRole("textbox", { name: "soft" }).inputValue(), SOON).toBe("10");
  await panel().getByRole("button", { name: /^Bake/ }).waitFor();
  expect(await onDisk()).toBe(TEXT.replace("soft=0", "soft=10"));
});
