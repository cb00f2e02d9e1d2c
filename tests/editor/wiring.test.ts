/** The probe answered in the real editor: what it finds lands in the file as one step of undo. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { Editor } from "../support/editor.ts";
import { SOON, startEditor } from "../support/editor.ts";
import { focusPixel, paint } from "../support/paintEditor.ts";

const FILE = "sill.h";
const TEXT = "// @panel sill 2x2 cap=64\n// @bitmap sill\nconst unsigned char sprout[4] = {1, 2, 3, 4};\n";
/** The addresses that are to be found, and the pixels that each of the patterns 1 and 2 lights. */
const FOUND = "bottom-right";
const LIT: readonly (readonly number[])[] = [
  [0, 2],
  [0, 1],
];

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({}, { prepare: (folder) => writeFileSync(join(folder, FILE), TEXT) });
});
afterAll(() => editor?.stop());

test("the wiring that the answers give is written, shown, and taken back by one undo", async () => {
  await editor.open(FILE, 3, 1);
  await paint(editor, "sprout");
  await focusPixel(editor.webview);
  await editor.page.keyboard.press("y");
  const view = editor.webview.getByRole("region", { name: "Wiring" });
  const button = (name: string) => view.getByRole("button", { name, exact: true });
  await view.getByText("Nothing is said of the wiring of sill").waitFor();
  await button("Find the wiring by probing").click();
  await button("Next").click();
  const board = view.locator(".board canvas").first();
  for (const _ of LIT) {
    const question = view.locator(".question").filter({ hasText: /pattern [12] / });
    await question.waitFor();
    const pattern = Number(/pattern (\d)/.exec((await question.textContent()) ?? "")?.[1]);
    const side = ((await board.boundingBox())?.width ?? 0) / 2;
    for (const pixel of LIT[pattern - 1] ?? [])
      await board.click({ position: { x: ((pixel % 2) + 0.5) * side, y: (Math.floor(pixel / 2) + 0.5) * side } });
    await question.filter({ hasText: "2 so far" }).waitFor();
    await button("Next").click();
  }
  await view.getByText(`Found: wire=${FOUND}`).waitFor();
  await editor.picture("wiring-found");
  await button("Write it into the source").click();
  await view.getByText(`sill: wire=${FOUND}`).waitFor();
  await view.getByText(/address [0-3]$/).waitFor();
  await editor.save();
  expect(editor.onDisk(FILE).toString()).toBe(TEXT.replace("cap=64", `cap=64 wire=${FOUND}`));
  await focusPixel(editor.webview);
  await editor.page.keyboard.press("Control+z");
  await view.getByText("Nothing is said of the wiring of sill").waitFor();
  await editor.save();
  await expect.poll(() => editor.onDisk(FILE).toString(), SOON).toBe(TEXT);
});
