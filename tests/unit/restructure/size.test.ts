/** Pictures cropped and extended: texts before and after, written by hand. */
import { describe, expect, test } from "vitest";
import { framed, sized } from "./restructuring.ts";

const DROP = `// @bitmap 3x2 cap=64
const uint8_t drop[6] PROGMEM = {
    0,  12,   3, // top
   64,   0,   0,
};
`;

describe("levels in rows", () => {
  test("a column more at the right, and a row below", () => {
    expect(sized(DROP, [0, 0, 1, 1])).toBe(`// @bitmap 4x3 cap=64
const uint8_t drop[12] PROGMEM = {
    0,  12,   3,   0, // top
   64,   0,   0,   0,
    0,   0,   0,   0,
};
`);
  });

  test("a column more at the left, one fewer at the right", () => {
    expect(sized(DROP, [1, 0, -1, 0])).toBe(`// @bitmap 3x2 cap=64
const uint8_t drop[6] PROGMEM = {
    0,   0,  12, // top
    0,  64,   0,
};
`);
  });

  test("a row that is cut goes with its comment; the others stay as they are", () => {
    expect(sized(DROP, [0, -1, 0, 0])).toBe(
      "// @bitmap 3x1 cap=64\nconst uint8_t drop[3] PROGMEM = {\n   64,   0,   0,\n};\n",
    );
    expect(sized(DROP, [0, 1, 0, 0])).toBe(
      DROP.replace("3x2", "3x3").replace("[6]", "[9]").replace("{\n", "{\n    0,   0,   0,\n"),
    );
  });

  test("nothing is written where nothing changes", () => {
    expect(sized(DROP, [0, 0, 0, 0])).toBe(DROP);
  });

  test("names and expressions of pixels that stay, stay", () => {
    const text = "#define HI 9\n// @bitmap 2x2\nconst uint8_t a[4] = {\n  HI, 1 + 1, /* two */\n  0, HI\n};\n";
    expect(sized(text, [0, 0, 1, 0])).toBe(
      "#define HI 9\n// @bitmap 3x2\nconst uint8_t a[6] = {\n  HI, 1 + 1, 0, /* two */\n  0, HI, 0\n};\n",
    );
  });

  test("an annotation inside the list stays at its top", () => {
    const text = "const uint8_t a[2] = {\n  // @bitmap 2x1\n  /* only */\n  1, 2,\n};\n";
    expect(sized(text, [0, 1, 0, 0])).toBe(
      "const uint8_t a[4] = {\n  // @bitmap 2x2\n  0, 0,\n  /* only */\n  1, 2,\n};\n",
    );
    expect(framed(text, ["dark", 0])).toBe(
      "const uint8_t a[4] = {\n  // @bitmap 2x1 frames=2\n  0, 0,\n  /* only */\n  1, 2,\n};\n",
    );
  });

  test("what names a frame stays above its first row", () => {
    const text =
      "// @bitmap 1x2 frames=2\nconst uint8_t a[] = {\n  /* frame 0 */\n  1,\n  2,\n  /* frame 1 */\n  3,\n  4,\n};\n";
    expect(sized(text, [0, -1, 1, 0])).toBe(
      "// @bitmap 2x1 frames=2\nconst uint8_t a[] = {\n  /* frame 0 */\n  2, 0,\n  /* frame 1 */\n  4, 0,\n};\n",
    );
  });
});

describe("packed pixels", () => {
  test.each([
    [
      "rows of bits, with rows drawn beside them",
      "// @bitmap 4x2 mono1\nconst uint8_t a[2] = {\n  0x60, // .##.\n  0x90, // #..#\n};\n",
      [1, 1, 0, 0],
      "// @bitmap 5x3 mono1\nconst uint8_t a[3] = {\n  0x00,\n  0x30, // ..##.\n  0x48, // .#..#\n};\n",
    ],
    [
      "rows that take a byte more, one to a line",
      "// @bitmap 8x2 mono1\nconst uint8_t a[] = {\n  0x0F,\n  0xF0,\n};\n",
      [0, 0, 1, 0],
      "// @bitmap 9x2 mono1\nconst uint8_t a[] = {\n  0x0F, 0x00,\n  0xF0, 0x00,\n};\n",
    ],
    [
      "pages of eight rows",
      "// @bitmap 2x8 mono1 pack=pages\nconst uint8_t a[2] = {\n  0x01, 0x80, // page\n};\n",
      [0, 0, 1, 1],
      "// @bitmap 3x9 mono1 pack=pages\nconst uint8_t a[6] = {\n  0x01, 0x80, 0x00, // page\n  0x00, 0x00, 0x00,\n};\n",
    ],
    [
      "columns, the first one cut",
      "// @bitmap 3x7 mono1 pack=columns\nconst uint8_t a[3] = { 0x01, 0x02, 0x04 };\n",
      [-1, 0, 0, 0],
      "// @bitmap 2x7 mono1 pack=columns\nconst uint8_t a[2] = { 0x02, 0x04 };\n",
    ],
    [
      "colours in two bytes each",
      "// @bitmap 1x1 rgb565\nconst uint8_t a[2] = {0xF8, 0x01};\n",
      [1, 0, 0, 0],
      "// @bitmap 2x1 rgb565\nconst uint8_t a[4] = {0x00, 0x00, 0xF8, 0x01};\n",
    ],
    [
      "bottom rows first",
      "// @bitmap 1x2 from=bottom-left\nconst uint8_t a[2] = {\n  1, // lowest\n  2,\n};\n",
      [0, 0, 0, 1],
      "// @bitmap 1x3 from=bottom-left\nconst uint8_t a[3] = {\n  0,\n  1, // lowest\n  2,\n};\n",
    ],
    [
      "every second row backwards",
      "// @bitmap 2x2 scan=serpentine\nconst uint8_t a[4] = {\n  1, 2,\n  4, 3,\n};\n",
      [0, 1, 0, 0],
      "// @bitmap 2x3 scan=serpentine\nconst uint8_t a[6] = {\n  0, 0,\n  2, 1,\n  3, 4,\n};\n",
    ],
  ] as const)("%s", (_, before, sides, after) => {
    expect(sized(before, sides)).toBe(after);
  });
});

describe("what declares the size", () => {
  test.each([
    [
      "defines for both sides",
      "#define W 2\n#define H 1\n// @bitmap 2x1\nconst uint8_t a[W * H] = {1, 2};\n",
      [0, 0, 1, 0],
      "#define W 3\n#define H 1\n// @bitmap 3x1\nconst uint8_t a[W * H] = {1, 2, 0};\n",
    ],
    [
      "a define made of defines",
      "#define ICON_W 8\n#define ICON_H 1\n#define ICON_BYTES (ICON_W * ICON_H / 8)\n// @bitmap 8x1 mono1\nconst uint8_t a[ICON_BYTES] = {1};\n",
      [0, 0, 0, 1],
      "#define ICON_W 8\n#define ICON_H 2\n#define ICON_BYTES (ICON_W * ICON_H / 8)\n// @bitmap 8x2 mono1\nconst uint8_t a[ICON_BYTES] = {1, 0};\n",
    ],
    [
      "brackets for rows and pixels",
      "// @bitmap 2x1\nconst uint8_t a[1][2] = {{1, 2}};\n",
      [0, 1, 1, 0],
      "// @bitmap 3x2\nconst uint8_t a[2][3] = {{0, 0, 0}, {1, 2, 0}};\n",
    ],
    [
      "brackets for frames, rows and pixels",
      "// @bitmap 1x2 frames=2\nconst uint8_t a[2][2][1] = {{{1}, {2}}, {{3}, {4}}};\n",
      [1, 0, 0, 0],
      "// @bitmap 2x2 frames=2\nconst uint8_t a[2][2][2] = {{{0, 1}, {0, 2}}, {{0, 3}, {0, 4}}};\n",
    ],
    [
      "the defines of an X bitmap",
      "#define a_width 8\n#define a_height 1\nstatic unsigned char a_bits[] = {\n   0x01 };\n",
      [0, 0, 1, 0],
      "#define a_width 9\n#define a_height 1\nstatic unsigned char a_bits[] = {\n   0x01, 0x00 };\n",
    ],
    [
      "a panel: the smaller size is written behind its name",
      "// @panel lantern 3x1\n// @bitmap lantern\nconst uint8_t a[3] = {1, 2, 3};\n",
      [-1, 0, 0, 0],
      "// @panel lantern 3x1\n// @bitmap lantern 2x1\nconst uint8_t a[2] = {2, 3};\n",
    ],
  ] as const)("%s", (_, before, sides, after) => {
    expect(sized(before, sides)).toBe(after);
  });
});

describe("refused in words", () => {
  const FONT = "const uint8_t w[] = {3};\n// @bitmap 3x2 mono1 widths=w\nconst uint8_t a[] = {\n0x20,\n0x40};\n";
  test.each([
    ["nothing left", DROP, [-3, 0, 0, 0], "nothing would be left of drop"],
    ["nothing left, though the other side grows", DROP, [-3, 0, 3, 0], "nothing would be left of drop"],
    [
      "more than the panel",
      "// @panel lantern 2x1\n// @bitmap lantern\nconst uint8_t a[2] = {1, 2};\n",
      [1, 0, 0, 0],
      "3x1 is larger than the panel lantern, which is 2x1",
    ],
    ["more than can be laid out", DROP, [0, 0, 70000, 0], "70003x2 with 1 frame is more than 1048576 pixels"],
    ["parts of a pixel", DROP, [0.5, 0, 0, 0], "sides are moved by whole numbers"],
    ["glyphs moved under their widths", FONT, [1, 0, 0, 0], "the widths of a count from the left side of its glyphs"],
    ["glyphs narrower than their widths", FONT, [0, 0, -1, 0], "a glyph of a is 3 wide"],
    [
      "comments that would be lost",
      "// @bitmap 3x2 mono1 pad=none\nconst uint8_t a[1] = { 0x20 /* both */ };\n",
      [0, 0, 1, 0],
      "the rows of a do not stand in elements of their own",
    ],
  ] as const)("%s", (_, text, sides, reason) => {
    expect(sized(text, sides)).toBe(`refused: ${reason}`);
  });
});
