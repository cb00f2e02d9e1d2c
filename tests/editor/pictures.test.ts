/** Pictures and text out of the real editor, the gallery, and comparing with the last commit, in a Git repository. */
import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from "vitest";
import type { Editor } from "../support/editor.ts";
import { SOON, startEditor } from "../support/editor.ts";
import { gridOf, paintPage } from "../support/paintEditor.ts";

const FILE = "lantern_art.h";

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor(
    {},
    {
      prepare(cwd) {
        const git = (...args: string[]) =>
          execFileSync("git", ["-c", "user.name=gardener", "-c", "user.email=gardener@example.invalid", ...args], {
            cwd,
          });
        git("init", "--quiet");
        git("add", ".");
        git("commit", "--quiet", "--message", "Plant");
      },
    },
  );
  await editor.page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
});
afterAll(() => editor?.stop());
beforeEach(async () => {
  await editor.command("View: Close All Editors");
  await editor.page.locator(".tab").first().waitFor({ state: "detached" });
  await editor.open(FILE, 14, 18);
  await editor.page.locator(".codelens-decoration").filter({ hasText: "drop_icon" }).waitFor({ timeout: 60_000 });
});
afterEach(async ({ task }) => {
  if (task.result?.state === "fail") await editor.picture(`failed-${task.name.replace(/\W+/g, "-")}`);
});

/** Runs a command that asks something at once: the list of commands is not seen to close. */
async function begin(title: string): Promise<void> {
  const { page } = editor;
  await page.keyboard.press("F1");
  await page.locator(".quick-input-widget input[type=text]").fill(`>${title}`);
  await page.locator(".quick-input-widget .monaco-list-row.focused").filter({ hasText: title }).waitFor();
  await page.keyboard.press("Enter");
}

/** Takes the row that holds these words in the list that the editor shows for the question asked. */
async function answer(question: string, typed: string): Promise<void> {
  const { page } = editor;
  const widget = page.locator(".quick-input-widget");
  await widget.locator(`input[placeholder="${question}"]`).waitFor();
  await widget.locator("input[type=text]").fill(typed);
  await widget.locator(".monaco-list-row.focused").filter({ hasText: typed }).waitFor();
  await page.keyboard.press("Enter");
}

test("the gallery shows the workspace, opens and paints, and follows the text", async () => {
  const { page } = editor;
  const header = page.locator(".pane-header").filter({ hasText: "Bitmaps" });
  await header.click();
  const gallery = paintPage(page);
  await gallery
    .getByRole("status")
    .filter({ hasText: /^38 bitmaps$/ })
    .waitFor({ timeout: 60_000 });
  await gallery.locator("li img").first().waitFor();
  await gallery.getByRole("searchbox").fill("frost_icon");
  await gallery.getByRole("button", { name: /^frost_icon/ }).click();
  await page.locator(".statusbar-item:has-text('Ln 98, Col ')").first().waitFor();
  await gallery.getByRole("searchbox").fill("drop_icon");
  await gallery.getByText("peak 64 of cap 64").waitFor();
  await editor.open(FILE, 15, 4);
  await page.keyboard.press("Delete");
  await page.keyboard.type("99");
  await gallery.getByText("peak 99 of cap 64").waitFor();
  await gallery.getByText("warning").waitFor();
  for (const _ of ["the digits", "what they took the place of"]) await page.keyboard.press("Control+z");
  await page.locator(".tab.dirty").first().waitFor({ state: "detached" });
  await gallery.getByText("peak 64 of cap 64").waitFor();
  await gallery.getByRole("searchbox").fill("sun_icon");
  await gallery.getByRole("button", { name: /^sun_icon/ }).hover();
  await gallery.getByRole("button", { name: "Paint sun_icon" }).click();
  await gridOf(paintPage(page, 1), "sun_icon").waitFor();
  await editor.picture("gallery");
  // What is painted is meant then, whatever the text cursor stands in.
  await begin("Dotwright: Copy as C Text…");
  await page.locator(".quick-input-widget").getByText("Copy sun_icon as C text").waitFor();
  await page.keyboard.press("Escape");
  await header.click();
});

test("a picture is written where the user says", async () => {
  const { page } = editor;
  await begin("Dotwright: Export Picture…");
  await answer("What the picture shows", "PGM");
  await page.locator(".quick-input-widget").getByText("Export drop_icon").waitFor();
  await page.keyboard.press("Enter");
  await expect.poll(() => existsSync(join(editor.folder, "drop_icon.pgm")), SOON).toBe(true);
  const written = editor.onDisk("drop_icon.pgm");
  expect(written.subarray(0, 11).toString("latin1")).toBe("P5\n9 9\n255\n");
  expect([...written.subarray(11, 20)]).toEqual([0, 0, 0, 0, 15, 0, 0, 0, 0]);
});

test("a bitmap goes to the clipboard in another format", async () => {
  const { page } = editor;
  await begin("Dotwright: Copy as C Text…");
  await answer("Format of a pixel", "gray4");
  await answer("How pixels become numbers", "gray4 bits=lsb");
  await page.getByText("drop_icon is on the clipboard as gray4 bits=lsb.").first().waitFor();
  expect(await page.evaluate(() => navigator.clipboard.readText())).toMatch(/^\/\/ @bitmap 9x9 gray4 bits=lsb cap=3\n/);
});

test("what has changed since the last commit is shown, and follows the text", async () => {
  const { page, webview } = editor;
  await editor.open(FILE, 15, 4);
  await page.keyboard.press("Delete");
  await page.keyboard.type("9");
  await editor.command("Dotwright: Compare Bitmaps with HEAD");
  await webview.locator(".words").getByText("1 of 81 pixels changed, up to +9").waitFor();
  await webview.getByText(`${FILE} · HEAD → now · 1 bitmap differs`).waitFor();
  await editor.picture("compare-head");
  await webview.getByRole("button", { name: "Go to the source" }).click();
  await page.locator(`.editor-group-container.active .tab[data-resource-name="${FILE}"]`).waitFor();
  for (const _ of ["the digit", "what it took the place of"]) await page.keyboard.press("Control+z");
  await page.locator(".tab.dirty").first().waitFor({ state: "detached" });
  await webview.getByText(`No bitmap of ${FILE} looks otherwise than in: HEAD.`).waitFor();
});

// The last one: it leaves the file changed.
test("both sides of a diff editor have hovers with the picture", async () => {
  const { page } = editor;
  await editor.open(FILE, 15, 4);
  await page.keyboard.press("Delete");
  await page.keyboard.type("9");
  await editor.save();
  await page.locator(".explorer-folders-view [aria-label*=Modified]").first().waitFor();
  // Several commands have this title: the one for this file is told apart by its name.
  await page.keyboard.press("F1");
  const list = page.locator(".quick-input-widget");
  await list.locator("input[type=text]").fill(">Git: Open Changes");
  await list.locator(".monaco-list-row").filter({ hasText: "git.openChange" }).click();
  await page.locator(".monaco-diff-editor .editor.modified .view-line").first().waitFor();
  for (const side of ["original", "modified"]) {
    const half = page.locator(`.monaco-diff-editor .editor.${side}`);
    await half
      .locator(".view-line")
      .filter({ hasText: "drop_icon" })
      .locator("span > span")
      .filter({ hasText: "drop_icon" })
      .first()
      .hover();
    await page.locator(".monaco-hover:visible img[src^='data:image/png']").first().waitFor();
    await editor.picture(`diff-${side}`);
    await page.mouse.move(5, 5);
    await page.locator(".monaco-hover:visible img").first().waitFor({ state: "hidden" });
  }
});
