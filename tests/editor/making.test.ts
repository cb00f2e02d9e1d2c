/** New bitmaps in the real editor: by the command, taken back by one undo, and by completion under an annotation. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import type { Editor } from "../support/editor.ts";
import { SOON, startEditor } from "../support/editor.ts";

const FILE = "lantern_art.h";
/** The umlaut in ISO 8859-1 is one byte that UTF-8 does not know. */
const LATIN = Buffer.from("int kettles; /* K\u00fcbel */\n", "latin1");

let editor: Editor;
beforeAll(async () => {
  const prepare = (folder: string) => writeFileSync(join(folder, "latin_art.h"), LATIN);
  editor = await startEditor({ "files.defaultLanguage": "cpp" }, { prepare });
});
afterAll(() => editor?.stop());
afterEach(async ({ task }) => {
  if (task.result?.state === "fail") await editor.picture(`failed-${task.name.replace(/\W+/g, "-")}`);
});

const quickInput = () => editor.page.locator(".quick-input-widget");
const input = () => quickInput().locator("input[type=text]");
const asks = (title: RegExp) => quickInput().locator(".quick-input-title").filter({ hasText: title }).waitFor();

/** The lines in view, in their order on the screen. */
const lines = () =>
  editor.page.locator(".editor-group-container.active .view-line").evaluateAll((all) =>
    all
      .map((line) => ({ top: line.getBoundingClientRect().top, text: line.textContent ?? "" }))
      .sort((a, b) => a.top - b.top)
      .map(({ text }) => text.replaceAll("\u00a0", " ")),
  );
const selected = (line: number, column: number, count: number) =>
  editor.page.locator(`.statusbar-item:has-text("Ln ${line}, Col ${column} (${count} selected)")`).first().waitFor();

/** Takes the row of the list that what is typed leaves. */
async function choose(typed: string, row: RegExp): Promise<void> {
  await input().fill(typed);
  await quickInput().locator(".monaco-list-row.focused").filter({ hasText: row }).waitFor();
  await editor.page.keyboard.press("Enter");
}

/** Runs the command, which then asks for a panel or a size. */
async function begin(): Promise<void> {
  await editor.page.keyboard.press("F1");
  await choose(">New Bitmap", /Dotwright: New Bitmap/);
  await quickInput().locator("input[placeholder='Panel or size']").waitFor();
}

const pixelFormat = () => quickInput().locator("input[placeholder='Format of a pixel']").waitFor();

/** The step that asks for frames: one is there already, and is selected to be typed over. */
async function frames(typed?: string): Promise<void> {
  await quickInput().getByText("Number of frames").waitFor();
  const [start, end, value] = await input().evaluate((e) => {
    const { selectionStart, selectionEnd, value } = e as HTMLInputElement;
    return [selectionStart, selectionEnd, value];
  });
  expect([start, end, value]).toEqual([0, 1, "1"]);
  if (typed !== undefined) await input().fill(typed);
  await editor.page.keyboard.press("Enter");
}

test("the command makes a bitmap in an untitled file, in one step of undo", async () => {
  // The palette that is open takes up no commands of extensions that come later.
  await editor.open(FILE);
  await editor.page.locator(".codelens-decoration a").first().waitFor();
  await editor.page.keyboard.press("Control+Alt+n");
  await editor.page.locator(".tab.active").filter({ hasText: "Untitled-1" }).waitFor();
  await begin();
  await choose("8×8", /^8×8/);
  await pixelFormat();
  await choose("pages", /mono1 pack=pages/);
  await frames();
  await asks(/New bitmap: 8x8 mono1 pack=pages, 8 elements/);
  await input().fill("int");
  await quickInput().getByText("`int` is a keyword of C or C++.").waitFor();
  await editor.picture("making-name");
  await input().fill("kettle");
  await quickInput().getByText("`int` is a keyword").waitFor({ state: "hidden" });
  await editor.page.keyboard.press("Enter");
  // The name is selected, to be typed over.
  await selected(2, 21, 6);
  await expect
    .poll(lines, SOON)
    .toEqual([
      "// @bitmap 8x8 mono1 pack=pages",
      "const uint8_t kettle[8] = {",
      "  0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00,",
      "};",
      "",
    ]);
  await editor.picture("making-made");
  await editor.page.keyboard.press("Control+z");
  await expect.poll(lines).toEqual([""]);
});

test("several frames are a step of their own, before what the words say in free text", async () => {
  await begin();
  await choose("Other", /^Other…/);
  await quickInput().getByText("The words after").waitFor();
  await input().fill("2x1 cap=9 -- the kettle boils");
  await editor.page.keyboard.press("Enter");
  await pixelFormat();
  await editor.page.keyboard.press("Enter");
  await quickInput().getByText("Number of frames").waitFor();
  for (const [typed, words] of [
    ["0", "A whole number of 1 or more is needed here."],
    ["two", "A whole number of 1 or more is needed here."],
    ["9000000", "with 9000000 frames is larger than can be laid out"],
  ] as const) {
    await input().fill(typed);
    await quickInput().getByText(words).waitFor();
  }
  await editor.picture("making-frames");
  await input().fill("3");
  await quickInput().getByText("larger than can be laid out").waitFor({ state: "hidden" });
  await editor.page.keyboard.press("Enter");
  await asks(/New bitmap: 2x1 cap=9 frames=3 -- the kettle boils, 6 elements/);
  await editor.page.keyboard.press("Enter");
  await selected(2, 24, 9);
  await expect
    .poll(lines, SOON)
    .toEqual([
      "// @bitmap 2x1 cap=9 frames=3 -- the kettle boils",
      "const uint8_t animation[6] = {",
      "  0, 0, /* frame 0 */",
      "  0, 0, /* frame 1 */",
      "  0, 0, /* frame 2 */",
      "};",
      "",
    ]);
  await editor.page.keyboard.press("Control+z");
  await expect.poll(lines).toEqual([""]);
});

test("frames that the words give are not asked for", async () => {
  await begin();
  await choose("Other", /^Other…/);
  await quickInput().getByText("The words after").waitFor();
  await input().fill("2x1 mono1 frames=2");
  await editor.page.keyboard.press("Enter");
  await asks(/New bitmap: 2x1 mono1 frames=2, 2 elements/);
  await editor.page.keyboard.press("Escape");
  await quickInput().waitFor({ state: "hidden" });
  await expect.poll(lines, SOON).toEqual([""]);
});

test("under an annotation the whole array is offered, with its name to type over", async () => {
  await editor.page.keyboard.type("// @bitmap 3x2 cap=9");
  await editor.page.keyboard.press("Escape");
  await editor.page.keyboard.press("Enter");
  await editor.page.keyboard.press("Control+Space");
  const offer = editor.page
    .locator(".suggest-widget .monaco-list-row.focused")
    .filter({ hasText: "Array for 3×2 gray8" });
  await offer.waitFor();
  await editor.picture("making-offer");
  await editor.page.keyboard.press("Enter");
  await selected(2, 22, 7);
  await editor.page.keyboard.type("drop");
  await expect
    .poll(lines)
    .toEqual(["// @bitmap 3x2 cap=9", "const uint8_t drop[6] = {", "  0, 0, 0,", "  0, 0, 0,", "};"]);
});

test("Escape at any step leaves the file alone", async () => {
  await editor.open(FILE, 16, 3);
  await begin();
  await editor.page.keyboard.press("Escape");
  await quickInput().waitFor({ state: "hidden" });
  await begin();
  await choose("5×7", /^5×7/);
  await pixelFormat();
  await editor.page.keyboard.press("Escape");
  await quickInput().waitFor({ state: "hidden" });
  await begin();
  await choose("lantern", /lantern/);
  await quickInput().getByText("Number of frames").waitFor();
  await editor.page.keyboard.press("Escape");
  await quickInput().waitFor({ state: "hidden" });
  await begin();
  await choose("lantern", /lantern/);
  await frames();
  await asks(/New bitmap: lantern, 81 elements/);
  await editor.page.keyboard.press("Escape");
  await quickInput().waitFor({ state: "hidden" });
  expect(await editor.page.locator(`.tab.dirty[data-resource-name="${FILE}"]`).count()).toBe(0);
});

test("with the cursor among numbers, the new bitmap stands after them, in the style of the file", async () => {
  const before = editor.onDisk(FILE).toString("latin1");
  await begin();
  await choose("lantern", /lantern/);
  await frames();
  await asks(/New bitmap: lantern, 81 elements/);
  await input().fill("kettle_icon");
  await editor.page.keyboard.press("Enter");
  await editor.page.locator(`.tab.dirty[data-resource-name="${FILE}"]`).waitFor();
  await editor.page.keyboard.press("Control+s");
  await editor.page.locator(`.tab.dirty[data-resource-name="${FILE}"]`).waitFor({ state: "hidden" });
  const row = "   0,  0,  0,  0,  0,  0,  0,  0,  0,\n";
  const made = `\n// @bitmap lantern\nconst uint8_t kettle_icon[81] PROGMEM = {\n${row.repeat(9)}};\n`;
  const at = before.indexOf("};\n") + 3;
  expect(editor.onDisk(FILE).toString("latin1")).toBe(before.slice(0, at) + made + before.slice(at));
});

test("a file with bytes that the editor can't decode is changed only after a warning, once", async () => {
  const dialog = editor.page.locator(".monaco-dialog-box").filter({ hasText: "bytes that its encoding does not know" });
  const tab = editor.page.locator('.tab.active.dirty[data-resource-name="latin_art.h"]');
  const make = async (name: string) => {
    await begin();
    await choose("8×8", /^8×8/);
    await pixelFormat();
    await editor.page.keyboard.press("Enter");
    await frames();
    await asks(/New bitmap: 8x8, 64 elements/);
    await input().fill(name);
    await editor.page.keyboard.press("Enter");
  };
  await editor.open("latin_art.h");
  const before = await lines();
  await make("kettle");
  await dialog.waitFor();
  await editor.picture("making-undecodable");
  await dialog.getByText("Cancel").click();
  await dialog.waitFor({ state: "detached" });
  await expect.poll(lines, SOON).toEqual(before);
  expect(await tab.count()).toBe(0);
  // To say no is no error.
  expect(await editor.page.locator(".notification-toast").filter({ hasText: "Dotwright" }).count()).toBe(0);
  await make("kettle");
  await dialog.getByText("Change the file anyway").click();
  await tab.waitFor();
  expect((await lines()).join("\n")).toContain("const uint8_t kettle[64]");
  // Asked once for each file.
  await make("lid");
  await expect.poll(async () => (await lines()).join("\n")).toContain("const uint8_t lid[64]");
  expect(await dialog.count()).toBe(0);
  expect(editor.onDisk("latin_art.h").equals(LATIN)).toBe(true);
});
