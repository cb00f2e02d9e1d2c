import { describe, expect, test } from "vitest";
import { canMakeLike, makeLike } from "../../../shared/bitmap/like.ts";
import { openText } from "../../../shared/bitmap/open.ts";
import type { Bitmap } from "../../../shared/bitmap/resolve.ts";
import { applyEdits } from "../../../shared/source/text.ts";

function like(text: string, at = 0): string | undefined {
  const file = openText(text, "art.h");
  const bitmap = file.bitmaps[at] as Bitmap;
  if (!canMakeLike(file, bitmap)) return undefined;
  const edit = makeLike(file, bitmap);
  return "refused" in edit ? edit.refused : applyEdits(text, [edit]);
}

describe("a bitmap like another", () => {
  test.each([
    [
      "is declared the same way, in columns",
      "// @bitmap 2x2 cap=64 -- a drop\nstatic const uint8_t PROGMEM drop[2 * 2] = {\n  10,  5,\n   0, 64,\n};",
      "// @bitmap 2x2 cap=64\nstatic const uint8_t PROGMEM drop_2[2 * 2] = {\n   0,  0,\n   0,  0,\n};",
    ],
    [
      "keeps inner lists, comments and the header before the pixels",
      "/* @bitmap 2x2 skip=1 */\nconst uint8_t a[5] = {\n  2, /* columns */\n  7, 7, // top\n  0x07, 7\n};",
      "/* @bitmap 2x2 skip=1 */\nconst uint8_t a_2[5] = {\n  2, /* columns */\n  0, 0, // top\n  0x00, 0\n};",
    ],
    [
      "keeps two dimensions",
      "// @bitmap 2x2\nconst uint8_t a[2][2] = {{1, 2}, {3, 4}};",
      "// @bitmap 2x2\nconst uint8_t a_2[2][2] = {{0, 0}, {0, 0}};",
    ],
    [
      "redraws drawings",
      "// @bitmap 4x1 mono1\nconst uint8_t a[1] = {\n  0x90, // #..#\n};",
      "// @bitmap 4x1 mono1\nconst uint8_t a_2[1] = {\n  0x00, // ....\n};",
    ],
    [
      "is dark where 0 is lit",
      "// @bitmap 4x1 mono1 invert\nconst uint8_t a[1] = {0xA0};",
      "// @bitmap 4x1 mono1 invert\nconst uint8_t a_2[1] = {0xF0};",
    ],
    [
      "keeps an annotation inside the list",
      "const uint8_t a[] = { // @bitmap 2x1\n  1, 2 };",
      "const uint8_t a_2[] = { // @bitmap 2x1\n  0, 0 };",
    ],
    [
      "of a format without pictures yet",
      "// @bitmap 2x1 rgb565\nconst uint16_t a[] = {0x1234, 0xFFFF};",
      "// @bitmap 2x1 rgb565\nconst uint16_t a_2[] = {0x0000, 0x0000};",
    ],
    [
      "of one whose values are not known",
      "// @bitmap 2x1 cap=9\nconst uint8_t a[2] = {UNKNOWN, 2};",
      "// @bitmap 2x1 cap=9\nconst uint8_t a_2[2] = {\n  0, 0\n};",
    ],
  ])("%s", (_, text, added) => {
    expect(like(text)).toBe(`${text}\n\n${added}`);
  });

  test("goes after the comment that ends the line, with a free name", () => {
    const text = "// @bitmap 1x1\nconst uint8_t a_2[1] = {1}; // drop\nint a_3;\nint b;\n";
    expect(like(text)).toBe(
      "// @bitmap 1x1\nconst uint8_t a_2[1] = {1}; // drop\n\n// @bitmap 1x1\nconst uint8_t a_4[1] = {0};\nint a_3;\nint b;\n",
    );
  });

  test.each([
    ["a row of an array", "const uint8_t a[2][1] = {\n  // @bitmap 1x1\n  {1}, {2} };"],
    ["a table of structs", "struct I { uint8_t d[1]; };\n// @bitmap 1x1 entries\nconst I t[] = {{{1}}, {{2}}};"],
    ["one of several declarators", "// @bitmap 1x1\nconst uint8_t a[1] = {1}, b[1] = {2};"],
    ["XBM", "#define a_width 8\n#define a_height 1\nstatic char a_bits[] = {0x01};"],
    ["a member of a class", "// @bitmap 1x1\nconst uint8_t Icons::a[1] = {1};"],
    ["a half-typed list", "// @bitmap 1x1\nconst uint8_t a[1] = {1,"],
  ])("is not made of %s", (_, text) => {
    expect(like(text)).toBeUndefined();
  });
});
