/** A panel of one file used in others: going to it, renaming it, and findings of files that are not open. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import type { Editor } from "../support/editor.ts";
import { SOON, startEditor } from "../support/editor.ts";

const FILES = {
  "lamp_board.h": "// The lamp over the door.\n// @panel lamp 2x1 gray8 cap=9\n",
  "lamp_art.h": "// @bitmap lamp\nconst unsigned char dusk[] = { 1, 2 };\n",
  "lamp_more.h": "// @bitmap lamp\nconst unsigned char dawn[] = { 9, 10 };\n",
};

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor(
    {},
    {
      prepare(folder) {
        for (const [name, text] of Object.entries(FILES)) writeFileSync(join(folder, name), text);
      },
    },
  );
});
afterAll(() => editor?.stop());
afterEach(async ({ task }) => {
  if (task.result?.state === "fail") await editor.picture(`failed-${task.name.replace(/\W+/g, "-")}`);
});

test("a panel is gone to and renamed over three files, and what is found in closed ones is in Problems", async () => {
  const { page } = editor;
  await editor.open("lamp_art.h", 1, 13);
  await page.keyboard.press("Control+Shift+m");
  // By the panel of the one file, and the number in another; neither is open. Only rows in view are there.
  await page.locator(".viewpane-filter input").fill("cap of 9");
  const problems = page.locator(".markers-panel .monaco-list-row");
  await problems.filter({ hasText: "Pixel 1,0 is 10, over the cap of 9." }).waitFor();
  await page.keyboard.press("Control+Shift+m");

  await editor.open("lamp_art.h", 1, 13);
  await page.keyboard.press("F12");
  await page.locator('.tab.active[data-resource-name="lamp_board.h"]').waitFor();
  await page.locator('.statusbar-item:has-text("Ln 2, Col 11")').first().waitFor();

  await editor.open("lamp_art.h", 1, 13);
  await page.keyboard.press("F2");
  const box = page.locator(".rename-box input");
  await box.waitFor();
  expect(await box.inputValue()).toBe("lamp");
  await box.fill("porch");
  await editor.picture("rename");
  await page.keyboard.press("Enter");
  await page.locator(".tab.dirty").first().waitFor();
  await editor.command("File: Save All");
  const renamed = () => Object.keys(FILES).map((name) => editor.onDisk(name).toString());
  await expect
    .poll(renamed, SOON)
    .toEqual(
      Object.values(FILES).map((text) =>
        text.replace("@bitmap lamp", "@bitmap porch").replace("@panel lamp", "@panel porch"),
      ),
    );

  await editor.command("Dotwright: Check Workspace");
  const told = page.locator(".notification-toast").filter({ hasText: "Files with annotations or X bitmaps: " });
  await told.waitFor();
  // It has counted what Problems shows.
  const [errors, warnings, notes] = (await page.locator("#status\\.problems").textContent())?.match(/\d+/g) ?? [];
  expect(await told.textContent()).toContain(`Errors: ${errors}, warnings: ${warnings}, notes: ${notes}.`);
  await editor.picture("checked");
});
