/** Pictures brought in, in the real editor: by the command, by pasting, by dropping; each one step of undo. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import { encodePng } from "../../server/png.ts";
import type { Editor } from "../support/editor.ts";
import { SOON, startEditor } from "../support/editor.ts";

const FILE = "lantern_art.h";
const PNG = encodePng({
  width: 9,
  height: 9,
  channels: 1,
  data: Uint8Array.from({ length: 81 }, (_, i) => (i % 9) * 28),
});

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor(
    { "files.simpleDialog.enable": true },
    { prepare: (folder) => writeFileSync(join(folder, "slope.png"), PNG) },
  );
});
afterAll(() => editor?.stop());
afterEach(async ({ task }) => {
  if (task.result?.state === "fail") await editor.picture(`failed-${task.name.replace(/\W+/g, "-")}`);
});

const tab = () => editor.page.locator(".tab").filter({ hasText: "Import slope.png" });
const code = () => editor.webview.locator("h1 code");
const line = (text: string) => editor.page.locator(".view-line").filter({ hasText: text }).first();
const writes = () => editor.webview.getByRole("button", { name: "Write it" });

/** What the page would write is there to see; then it is written, and taken back by one undo. */
async function write(name: string): Promise<void> {
  await code().filter({ hasText: "// @bitmap lantern" }).waitFor(SOON);
  expect(await line(`const uint8_t ${name}[81]`).count()).toBe(0);
  await writes().click();
  await tab().waitFor({ state: "detached", ...SOON });
  await line(`const uint8_t ${name}[81]`).waitFor(SOON);
  await editor.page.keyboard.press("Control+z");
  await line(`const uint8_t ${name}[81]`).waitFor({ state: "detached", ...SOON });
  await editor.page.waitForFunction(() => document.querySelector(".tab.dirty") === null);
}

/** Lets the page believe that a file is dropped on, or pasted into, the element under the text cursor. */
async function give(kind: "drop" | "paste", selector: string): Promise<void> {
  await editor.page.evaluate(
    ([how, where, bytes]) => {
      const target = document.querySelector(where);
      if (!target) throw new Error(`no ${where}`);
      const transfer = new DataTransfer();
      transfer.items.add(new File([Uint8Array.from(bytes)], "slope.png", { type: "image/png" }));
      const box = (document.querySelector(".editor-group-container.active .cursor") ?? target).getBoundingClientRect();
      const at = { clientX: box.left + 2, clientY: box.top + 4, bubbles: true, cancelable: true };
      if (how === "paste") target.dispatchEvent(new ClipboardEvent("paste", { clipboardData: transfer, ...at }));
      else
        for (const type of ["dragover", "drop"])
          target.dispatchEvent(new DragEvent(type, { dataTransfer: transfer, shiftKey: true, ...at }));
    },
    [kind, selector, [...PNG]] as const,
  );
}

test("the command asks for a file, and shows what becomes of it beside the source", async () => {
  await editor.open(FILE, 12);
  await editor.page.locator(".codelens-decoration a").first().waitFor();
  await editor.command("Dotwright: Import Picture…");
  const dialog = editor.page.locator(".quick-input-widget").filter({ hasText: "Import Picture" });
  const rows = dialog.locator(".monaco-list-row");
  // Until it has listed the folder the dialog puts its own words over what is typed.
  await rows.filter({ hasText: "slope.png" }).waitFor(SOON);
  await rows.filter({ hasText: "board.h" }).waitFor(SOON);
  await dialog.locator("input[type=text]").fill(join(editor.folder, "slope.png"));
  await expect.poll(() => dialog.locator("input[type=text]").inputValue(), SOON).toMatch(/slope\.png$/);
  await rows.filter({ hasText: "slope.png" }).first().waitFor(SOON);
  await editor.page.keyboard.press("Enter");
  await tab().waitFor(SOON);
  await code().waitFor(SOON);
  await editor.picture("import-page");
  await editor.webview.getByRole("button", { name: "Levels" }).click();
  await editor.webview.getByText("inverted", { exact: true }).click();
  await write("slope");
});

test("a picture that is pasted into the source opens the page, with the last choices for the panel", async () => {
  await editor.open(FILE, 12);
  await give("paste", ".editor-group-container.active .monaco-editor textarea");
  await tab().waitFor(SOON);
  await code().waitFor(SOON);
  await editor.webview.locator(".answer").filter({ hasText: "inverted" }).waitFor(SOON);
  await editor.webview.getByRole("button", { name: "Leave it" }).click();
  await tab().waitFor({ state: "detached", ...SOON });
});

test("a picture that is dropped on the source goes where it was dropped", async () => {
  await editor.open(FILE, 12);
  await give("drop", ".editor-group-container.active .monaco-editor .view-lines");
  await tab().waitFor(SOON);
  await write("slope");
});
