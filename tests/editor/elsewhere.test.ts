/** Where the source is no file of a trusted folder: restricted mode, a document not saved yet, a virtual workspace. */
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import type { Editor } from "../support/editor.ts";
import { SOON, startEditor } from "../support/editor.ts";
import { drag, gridOf, paint, paintPage } from "../support/paintEditor.ts";

const SHED = fileURLToPath(new URL("../support/shed", import.meta.url));
const ART = `// @bitmap 3x3 gray8 cap=64
const unsigned char pot_icon[9] = {
   0, 26,  0,
   0, 64, 15,
   7, 26,  0,
};
`;

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({}, { extensions: [SHED], asksForTrust: true });
});
afterAll(() => editor?.stop());
afterEach(async ({ task }) => {
  if (task.result?.state === "fail") await editor.picture(`failed-${task.name.replace(/\W+/g, "-")}`);
});

const source = () => editor.page.locator(".editor-group-container").first().locator(".view-lines");
const text = async () => ((await source().textContent()) ?? "").replaceAll("\u00a0", " ");
const lens = (name: string) => editor.page.locator(".codelens-decoration").filter({ hasText: name }).first();
const heated = () => editor.page.locator(".view-overlays .cdr[class*='ced-']");
const hovered = () => editor.page.locator(".monaco-hover img[src^='data:image/png']").first();

/** Hovers over a name in view by the keyboard. */
async function hover(name: string): Promise<void> {
  await source().getByText(name, { exact: true }).first().click();
  await editor.page.keyboard.press("Control+k");
  await editor.page.keyboard.press("Control+i");
  await hovered().waitFor();
  await editor.page.keyboard.press("Escape");
}

/** A file of a virtual workspace, which the quick open does not search. */
async function openFromExplorer(name: string): Promise<void> {
  await editor.page.locator(".explorer-folders-view .monaco-list-row").filter({ hasText: name }).dblclick();
  await editor.page.locator(`.tab.active[data-resource-name="${name}"]`).waitFor();
}

test("a folder that is not trusted is read and painted all the same", async () => {
  const dialog = editor.page.locator(".monaco-dialog-box").filter({ hasText: "trust the authors" });
  await dialog.getByRole("button", { name: /^No/ }).click();
  await dialog.waitFor({ state: "detached" });
  await editor.page.locator(".statusbar-item").filter({ hasText: "Restricted Mode" }).waitFor();
  await editor.open("lantern_art.h", 14, 1);
  await lens("drop_icon").waitFor();
  await heated().first().waitFor();
  await hover("drop_icon");
  const grid = await paint(editor, "drop_icon");
  await drag(editor.page, grid, [0, 0], [0, 0]);
  await editor.page.locator(".tab.dirty").first().waitFor();
  await editor.picture("restricted");
  await editor.save();
  expect(editor.onDisk("lantern_art.h").toString()).toContain("= {\n  64,  0,  0,  0, 15,  0,  0,  0,  0,\n");
});

test("a document that is not saved yet is read and painted", async () => {
  await editor.command("View: Close All Editors");
  await editor.page.locator(".tab").first().waitFor({ state: "detached" });
  await editor.page.keyboard.press("Control+Alt+n");
  await editor.page.locator(".tab.active").filter({ hasText: "Untitled-1" }).waitFor();
  await editor.page.keyboard.press("Control+k");
  await editor.pick("m", "C++", "C++");
  await editor.page.locator(".statusbar-item").filter({ hasText: "C++" }).waitFor();
  await editor.page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
  await editor.page.evaluate((art) => navigator.clipboard.writeText(art), ART);
  await editor.page.keyboard.press("Control+v");
  await lens("pot_icon").waitFor();
  await heated().first().waitFor();
  await hover("pot_icon");
  const grid = await paint(editor, "pot_icon");
  await drag(editor.page, grid, [0, 0], [0, 0]);
  await expect.poll(text, SOON).toMatch(/ 64, 26, {2}0,/);
  await editor.picture("untitled");
});

test("a virtual workspace is read, checked, painted and saved through its own file system", async () => {
  editor.page.once("dialog", (dialog) => dialog.accept());
  await editor.visit("shed:/");
  await openFromExplorer("shed_art.h");
  await lens("hook_icon").waitFor();
  await heated().first().waitFor();
  await hover("hook_icon");
  await editor.page.keyboard.press("Control+Shift+m");
  const finding = editor.page.locator(".markers-panel .monaco-list-row").filter({ hasText: "2 of 9 elements" });
  // The same is found in the other file, which is not open and which no search reaches here.
  await finding.nth(1).waitFor();
  const twice = editor.page.locator(".markers-panel .monaco-list-row").filter({ hasText: "is defined in" });
  await twice.filter({ hasText: "kept_art.h:3 too, in the same words" }).waitFor();
  await editor.page.keyboard.press("Control+Shift+m");
  await finding.first().waitFor({ state: "detached" });
  const grid = await paint(editor, "hook_icon");
  await drag(editor.page, grid, [0, 0], [0, 0]);
  await expect.poll(text, SOON).toMatch(/ 64, 26, {2}0,/);
  await editor.picture("virtual");
  await editor.save();
  const written = join(editor.served.storage, "tests.shed/shed_art.h");
  await expect.poll(() => existsSync(written), SOON).toBe(true);
  expect(readFileSync(written, "utf8")).toContain("= {\n  64, 26,  0,\n   0, 26, 15,\n");
});

test("a file that a virtual file system keeps from being written is shown and not painted", async () => {
  await editor.command("View: Close All Editors");
  await editor.page.locator(".tab").first().waitFor({ state: "detached" });
  await openFromExplorer("kept_art.h");
  const grid = await paint(editor, "hook_icon");
  await paintPage(editor.page).locator("header").getByText("read only").waitFor();
  const before = await text();
  await drag(editor.page, grid, [0, 0], [2, 0]);
  await gridOf(paintPage(editor.page), "hook_icon").and(editor.page.locator("[aria-readonly=true]")).waitFor();
  expect(await text()).toBe(before);
  expect(await editor.page.locator(".tab.dirty").count()).toBe(0);
});
