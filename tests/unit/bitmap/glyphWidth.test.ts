import { expect, test } from "vitest";
import { editWidth } from "../../../shared/bitmap/glyphWidth.ts";
import { openText } from "../../../shared/bitmap/open.ts";
import { applyEdits } from "../../../shared/source/text.ts";

const FONT = `const uint8_t columns[] = { 3, 0x05, WIDE };
#define WIDE 5
// @bitmap 5x2 mono1 frames=3 first='A' widths=columns
const uint8_t font[] = { 0x80, 0x40, 0xF8, 0x08, 0x20, 0x20 };
`;

function changed(text: string, frame: number, width: number): string {
  const file = openText(text, "font.h");
  const bitmap = file.bitmaps.find((b) => b.array.name === "font");
  if (!bitmap) throw new Error("there is no font");
  const edited = editWidth(file, bitmap, frame, width);
  return "refused" in edited ? edited.refused : (applyEdits(text, edited.edits).split("\n")[0] ?? "");
}

const KNOWN = FONT.replace("#define WIDE 5\n", "").replace("const", "#define WIDE 5\nconst");
const line = (text: string) => text.replace("#define WIDE 5\n", "");

test("a width is written as its literal was", () => {
  const text = line(KNOWN).replace("WIDE", "5");
  expect(changed(text, 0, 4)).toBe("const uint8_t columns[] = { 4, 0x05, 5 };");
  expect(changed(text, 1, 2)).toBe("const uint8_t columns[] = { 3, 0x02, 5 };");
  expect(changed(text, 2, 5)).toBe("const uint8_t columns[] = { 3, 0x05, 5 };");
});

test.each([
  [0, 6, "6 is no width of a glyph of font, which is 5 columns wide"],
  [0, -1, "-1 is no width of a glyph of font, which is 5 columns wide"],
  [0, 1.5, "1.5 is no width of a glyph of font, which is 5 columns wide"],
  [3, 1, "font has no frame 3"],
])("glyph %i is not made %d columns wide", (frame, width, why) => {
  expect(changed(line(KNOWN).replace("WIDE", "5"), frame, width)).toBe(why);
});

test("a set without widths, or with widths that can't be written, says so", () => {
  expect(changed(FONT.replace(" widths=columns", ""), 0, 1)).toBe("font has no array of widths");
  expect(changed(FONT, 0, 1)).toBe("font has no array of widths");
});
