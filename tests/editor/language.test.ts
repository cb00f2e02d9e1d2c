/** What the language server gives, seen in the real editor: pictures, findings and their fixes, coloured numbers. */
import { PNG } from "pngjs";
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import type { Editor } from "../support/editor.ts";
import { SOON, startEditor } from "../support/editor.ts";
import { activation, marksOfLine, thumbnailIn } from "../support/workbench.ts";

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor();
});
afterAll(() => editor?.stop());
afterEach(async ({ task }) => {
  if (task.result?.state === "fail") await editor.picture(`failed-${task.name.replace(/\W+/g, "-")}`);
});

/** The numbers of an array of the file on the disk, read by a rule of this test alone. */
function numbersOf(file: string, array: string): number[] {
  const body = new RegExp(`\\b${array}\\[[^\\]]*\\][^=;]*=\\s*\\{([^}]*)\\}`).exec(editor.onDisk(file).toString())?.[1];
  return (body?.match(/\b(?:0x[0-9a-f]+|\d+)\b/gi) ?? []).map(Number);
}

const lineOf = (file: string, piece: string) => {
  const before = editor.onDisk(file).toString().split(piece);
  if (before.length < 2) throw new Error(`${piece} is not in ${file}`);
  return (before[0] as string).split("\n").length;
};

test("the hover on a name shows its picture, pixel by pixel", async () => {
  const line = lineOf("lantern_art.h", "drop_icon[81]");
  await editor.open("lantern_art.h", line, "const uint8_t drop".length);
  await editor.page.locator(".codelens-decoration").filter({ hasText: "drop_icon" }).first().waitFor();
  await editor.page.keyboard.press("Control+k");
  await editor.page.keyboard.press("Control+i");
  const image = editor.page.locator(".monaco-hover img[src^='data:image/png']").first();
  await image.waitFor();
  await editor.picture("hover");
  const source = (await image.getAttribute("src")) ?? "";
  const png = PNG.sync.read(Buffer.from(source.slice(source.indexOf(",") + 1), "base64"));
  const scale = png.width / 9;
  expect([Number.isInteger(scale), png.height]).toEqual([true, 9 * scale]);
  const values = numbersOf("lantern_art.h", "drop_icon");
  expect(values.length).toBe(81);
  // The panel's tint #ffb84d at value / cap of linear light, as sRGB (IEC 61966-2-1).
  const decode = (c: number) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
  const encode = (l: number) => (l <= 0.0031308 ? 12.92 * l : 1.055 * l ** (1 / 2.4) - 0.055);
  const expected = (value: number) =>
    [0xff, 0xb8, 0x4d].map((c) => Math.round(255 * encode((decode(c / 255) * value) / 64)));
  for (let y = 0; y < png.height; y++) {
    for (let x = 0; x < png.width; x++) {
      const at = (y * png.width + x) * 4;
      const value = values[Math.floor(y / scale) * 9 + Math.floor(x / scale)] as number;
      expect([...png.data.subarray(at, at + 4)]).toEqual([...expected(value), 255]);
    }
  }
  await editor.page.keyboard.press("Escape");
});

test("findings are in Problems, and a quick fix mends missing_row", async () => {
  expect(numbersOf("mistakes.h", "missing_row").length).toBe(20);
  const line = lineOf("mistakes.h", "missing_row[25]");
  await editor.open("mistakes.h", line + 5, 1);
  await editor.page.keyboard.press("Control+Shift+m");
  const problems = editor.page.locator(".markers-panel .monaco-list-row");
  const finding = problems.filter({ hasText: "5 of 25 elements of missing_row are not written" });
  await finding.waitFor();
  await editor.picture("problems");
  await editor.open("mistakes.h", line + 5, 1);
  await editor.page.keyboard.press("Control+.");
  const fix = editor.page
    .locator(".action-widget .monaco-list-row.action.focused")
    .filter({ hasText: "Write the missing zeros out" });
  await fix.waitFor();
  await editor.picture("quick-fix");
  await editor.page.keyboard.press("Enter");
  await editor.page.locator(".tab.active.dirty").waitFor();
  await editor.save();
  const mended = numbersOf("mistakes.h", "missing_row");
  expect(mended.slice(20)).toEqual([0, 0, 0, 0, 0]);
  await finding.waitFor({ state: "detached" });
  await editor.page.keyboard.press("Control+Shift+m");
});

test("numbers are coloured by level", async () => {
  const line = lineOf("lantern_art.h", "drop_icon[81]");
  await editor.open("lantern_art.h", line, 1);
  // Row 2 of the drop holds 0 0 0 26 64 26 0 0 0.
  await expect.poll(() => marksOfLine(editor.page, line + 3), SOON).toHaveLength(3);
  const [left, middle, right] = await marksOfLine(editor.page, line + 3);
  expect(left?.alpha).toBe(right?.alpha);
  expect(middle?.alpha).toBeGreaterThan(left?.alpha ?? 1);
  await editor.picture("heatmap");
});

test("a number over the cap has a dotted frame besides", async () => {
  const line = lineOf("mistakes.h", "glaring_centre[25]");
  await editor.open("mistakes.h", line, 1);
  const dotted = async () => (await marksOfLine(editor.page, line + 3)).filter((m) => m.style === "dotted").length;
  await expect.poll(dotted, SOON).toBe(1);
  await editor.picture("over-cap");
});

test("a thumbnail stands beside the declaration", async () => {
  const line = lineOf("lantern_art.h", "drop_icon[81]");
  await editor.open("lantern_art.h", line, 1);
  await expect.poll(() => thumbnailIn(editor.page), SOON).not.toBe("");
});

test("the editor says how long the extension took to start", async () => {
  // The figure is for the reader: how fast it is depends on what else the machine does.
  const spent = await activation(editor);
  console.log(`activation: ${spent} ms`);
  expect(spent).toBeGreaterThanOrEqual(0);
});
