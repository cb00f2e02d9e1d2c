/** What is done to the whole workspace, of files that are not open too: checked, and brought within cap and budget. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Editor, SOON, startEditor } from "../support/editor.ts";

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor();
  // The window is there before it knows the commands of extensions; then it has their views too.
  await editor.page.locator(".pane-header").filter({ hasText: "Bitmaps" }).waitFor(SOON);
});
afterAll(() => editor.stop());

const toast = (words: RegExp) => editor.page.locator(".notification-list-item").filter({ hasText: words });

test("Check Workspace tells how many findings there are", async () => {
  await editor.command("Dotwright: Check Workspace");
  const told = toast(/Files with annotations or X bitmaps: \d+\. Errors: [1-9]/);
  await told.waitFor(SOON);
  await told.getByRole("button", { name: "Show Problems" }).click();
  await editor.page.locator(".markers-panel").getByText("mistakes.h").first().waitFor(SOON);
});

test("Dim Workspace names the bitmaps that it would change, and changes those that stay ticked", async () => {
  const { page } = editor;
  const rows = page.locator(".quick-input-widget .monaco-list-row");
  await page.keyboard.press("F1");
  await page.locator(".quick-input-widget input[type=text]").fill(">Dotwright: Dim Workspace");
  await rows.and(page.locator(".focused")).filter({ hasText: "Dim Workspace" }).waitFor();
  await page.keyboard.press("Enter");
  await rows.filter({ hasText: "Cut off" }).click();
  await rows.filter({ hasText: "glaring_centre" }).filter({ hasText: "from 96 to 64 (clamp)" }).waitFor(SOON);
  await editor.picture("workspace-dim");
  await rows.filter({ hasText: "all_lamps" }).click();
  await page.getByRole("button", { name: "OK" }).click();
  await editor.open("mistakes.h", 113, 1);
  const text = page.locator(".view-lines").first();
  await text.getByText("26,", { exact: false }).first().waitFor();
  await page.locator(".tab.dirty").filter({ hasText: "mistakes.h" }).waitFor(SOON);
  await editor.save();
  const written = editor.onDisk("mistakes.h").toString().split("\n");
  expect(written[112]).toBe("   7, 26, 64, 26,  7,");
  // What was not ticked is over its budget still.
  expect(written.join("\n")).toContain("64, 64, 64, 64, 64,");
});
