/** Packing, orientation, width and spelling: texts before and after, written by hand. */
import { describe, expect, test } from "vitest";
import { converted, offered } from "./converting.ts";

describe("packing", () => {
  test.each([
    [
      "rows to columns: column x, its top row in the lowest bit",
      "pack:columns",
      // ##.
      // .#.
      "// @bitmap 3x2 mono1\nconst uint8_t a[2] = {\n  0xC0,\n  0x40,\n};\n",
      "// @bitmap 3x2 mono1 pack=columns\nconst uint8_t a[3] = {\n  0x01, 0x03, 0x00,\n};\n",
    ],
    [
      "rows to pages: rows 8 and 9 in a second band",
      "pack:pages",
      "// @bitmap 1x10 mono1\nconst uint8_t a[] = {0x80,0,0,0,0,0,0,0,0x80,0x80};\n",
      "// @bitmap 1x10 mono1 pack=pages\nconst uint8_t a[] = {\n  0x01,\n  0x03\n};\n",
    ],
    [
      "columns to rows, in CR LF and tabs, an own bit order kept",
      "pack:rows",
      "\t/* @bitmap 2x3 mono1 pack=columns bits=lsb */\r\n\tconst uint8_t a[2] = {\r\n\t\t0x05, 0x02,\r\n\t};\r\n",
      "\t/* @bitmap 2x3 mono1 bits=lsb */\r\n\tconst uint8_t a[3] = {\r\n\t\t0x01,\r\n\t\t0x02,\r\n\t\t0x01,\r\n\t};\r\n",
    ],
    [
      "one pixel to an element",
      "pack:each",
      "// @bitmap 2x2 gray4 pad=byte\nconst uint8_t a[2] = {\n  0x1F,\n  0x20,\n};\n",
      "// @bitmap 2x2 gray4 pack=each\nconst uint8_t a[4] = {\n  0x01, 0x0F,\n  0x02, 0x00,\n};\n",
    ],
    [
      "against the panel, in so many words",
      "pack:rows",
      "// @panel status 2x2 mono1 pack=columns bits=msb\n// @bitmap status\nconst uint8_t a[] = {0x80, 0x40};\n",
      "// @panel status 2x2 mono1 pack=columns bits=msb\n// @bitmap status pack=rows\nconst uint8_t a[] = {0x80, 0x40};\n",
    ],
    [
      "the other bit first, in its place",
      "bits:lsb",
      "// @bitmap 9x1 mono1\nconst uint8_t a[2] = {\n  0xC0, 0x80, // ##......#\n};\n",
      "// @bitmap 9x1 mono1 bits=lsb\nconst uint8_t a[2] = {\n  0x03, 0x01, // ##......#\n};\n",
    ],
    [
      "whole pixels by columns",
      "scan:columns",
      "// @bitmap 2x2 -- a leaf\nconst uint8_t a[4] = {\n   1, 20,\n 100,  4,\n};\n",
      "// @bitmap 2x2 scan=columns -- a leaf\nconst uint8_t a[4] = {\n   1, 100,\n  20,   4,\n};\n",
    ],
    [
      "inverted, the unused bits still 0",
      "invert",
      "// @bitmap 4x1 mono1\nconst uint8_t a[1] = {0x90};\n",
      "// @bitmap 4x1 mono1 invert\nconst uint8_t a[1] = {0x60};\n",
    ],
    [
      "no longer inverted",
      "invert",
      "// @bitmap 4x1 invert mono1\nconst uint8_t a[1] = {0x60};\n",
      "// @bitmap 4x1 mono1\nconst uint8_t a[1] = {0x90};\n",
    ],
  ])("%s", (_, id, before, after) => {
    expect(converted(before, id)).toBe(after);
  });

  test("comments that can't stay are counted, those that name frames are written again", () => {
    const text =
      "// @bitmap 2x1 mono1 frames=2\nconst uint8_t a[2] = {\n  0x80, /* frame 0 */\n  // dark then\n  0x00, /* frame 1 */\n};\n";
    expect(offered(text).get("pack:columns")).toBe("Pack by columns: drops 1 comment in the list");
    expect(converted(text, "pack:columns")).toBe(
      "// @bitmap 2x1 mono1 pack=columns frames=2\nconst uint8_t a[4] = {\n  0x01, 0x00, /* frame 0 */\n  0x00, 0x00, /* frame 1 */\n};\n".replace(
        "mono1 pack=columns frames=2",
        "mono1 frames=2 pack=columns",
      ),
    );
  });

  test.each([
    [
      "rows",
      "turn:clockwise",
      "// @bitmap 3x2\nconst uint8_t a[2][3] = {\n  {1, 2, 3},\n  {4, 5, 6},\n};\n",
      "// @bitmap 2x3\nconst uint8_t a[3][2] = {\n  {4, 1},\n  {5, 2},\n  {6, 3},\n};\n",
    ],
    [
      "frames",
      "pack:rows",
      "// @bitmap 2x3 mono1 pack=columns frames=2 first='A'\nconst uint8_t a[][2] = {\n\t{0x05, 0x02}, /* 'A' */\n\t{0x07, 0x00}, /* 'B' */\n};\n",
      "// @bitmap 2x3 mono1 frames=2 first='A'\nconst uint8_t a[][3] = {\n\t/* 'A' */\n\t{0x80,\n\t 0x40,\n\t 0x80},\n\t/* 'B' */\n\t{0x80,\n\t 0x80,\n\t 0x80},\n};\n",
    ],
    [
      "rows without braces of their own",
      "format:gray4",
      "// @bitmap 2x2\nconst uint8_t a[2][2] = { 17, 34, 51, 68 };\n",
      "// @bitmap 2x2 gray4\nconst uint8_t a[2][1] = {\n  0x12,\n  0x34\n};\n",
    ],
  ])("an array of arrays whose inner ones are %s stays one", (_, id, before, after) => {
    expect(converted(before, id)).toBe(after);
  });

  test("bands that went over several lines still do", () => {
    const before = "// @bitmap 6x8 mono1 pack=pages\nconst uint8_t a[6] = {\n  1, 2,\n  4, 8,\n  16, 32,\n};\n";
    expect(converted(before, "format:gray8")).toBe(
      `// @bitmap 6x8 gray8\nconst uint8_t a[48] = {\n${Array.from({ length: 8 }, (_, y) =>
        [0, 2, 4].map((x) => `  ${[x, x + 1].map((at) => (at === y ? "255" : "  0")).join(", ")},\n`).join(""),
      ).join("")}};\n`,
    );
  });

  test("an annotation on the line of the brace stays there", () => {
    expect(converted("const uint8_t a[2] = { // @bitmap 3x2 mono1\n  0xC0, 0x40 };\n", "pack:columns")).toBe(
      "const uint8_t a[3] = { // @bitmap 3x2 mono1 pack=columns\n  0x01, 0x03, 0x00\n};\n",
    );
  });

  test("what stands before the pixels keeps its values", () => {
    expect(converted("// @bitmap 3x2 mono1 skip=2\nconst uint8_t a[] = {3, 2, 0xC0, 0x40};\n", "pack:columns")).toBe(
      "// @bitmap 3x2 mono1 skip=2 pack=columns\nconst uint8_t a[] = {\n  0x03, 0x02,\n  0x01, 0x03, 0x00\n};\n",
    );
  });
});

describe("element width", () => {
  test.each([
    [
      "two bytes of a row in one element",
      "width:16",
      "// @bitmap 9x2 mono1\nstatic const unsigned char a[4] PROGMEM = {\n  0x80, 0x80,\n  0x01, 0x00,\n};\n",
      "// @bitmap 9x2 mono1\nstatic const unsigned short a[2] PROGMEM = {\n  0x8080,\n  0x0100,\n};\n",
    ],
    [
      "levels keep an element each",
      "width:16",
      "// @bitmap 2x1\nconst byte a[] = {7, 64};\n",
      "// @bitmap 2x1 pack=each\nconst uint16_t a[] = {7, 64};\n",
    ],
    [
      "a colour in two bytes, the high one first",
      "width:8",
      "// @bitmap 2x1 rgb565\nconst uint16_t a[2] = { 0xF800, 0x001F };\n",
      "// @bitmap 2x1 rgb565\nconst uint8_t a[4] = { 0xF8, 0x00, 0x00, 0x1F };\n",
    ],
  ])("%s", (_, id, before, after) => {
    expect(converted(before, id)).toBe(after);
  });
});

describe("orientation", () => {
  test.each([
    ["clockwise", "4, 1,\n  5, 2,\n  6, 3,", "2x3"],
    ["anticlockwise", "3, 6,\n  2, 5,\n  1, 4,", "2x3"],
    ["half", "6, 5, 4,\n  3, 2, 1,", "3x2"],
    ["left-right", "3, 2, 1,\n  6, 5, 4,", "3x2"],
    ["top-bottom", "4, 5, 6,\n  1, 2, 3,", "3x2"],
  ])("%s", (turn, rows, size) => {
    const before = "// @bitmap 3x2\nconst uint8_t a[6] = {\n  1, 2, 3,\n  4, 5, 6,\n};\n";
    const after = `// @bitmap ${size}\nconst uint8_t a[6] = {\n  ${rows}\n};\n`;
    expect(converted(before, `turn:${turn}`)).toBe(after);
  });

  test("comments and drawings of a picture that keeps its size stay with it", () => {
    expect(
      converted(
        "// @bitmap 2x2 mono1\nconst uint8_t a[2] = {\n  0x80, /* #. */ // top\n  0x00, /* .. */\n};\n",
        "turn:clockwise",
      ),
    ).toBe("// @bitmap 2x2 mono1\nconst uint8_t a[2] = {\n  0x40, /* .# */ // top\n  0x00, /* .. */\n};\n");
  });

  test.each([
    ["a panel too low for it", "// @panel strip 3x2\n// @bitmap strip\nconst uint8_t a[6] = {1, 2, 3, 4, 5, 6};\n"],
    [
      "glyphs with widths",
      "const uint8_t w[] = {2};\n// @bitmap 3x2 widths=w\nconst uint8_t a[6] = {1, 2, 3, 4, 5, 6};\n",
    ],
    [
      "an X bitmap, whose defines would be wrong",
      "#define a_width 3\n#define a_height 2\nstatic unsigned char a_bits[] = {0x01, 0x02};\n",
    ],
  ])("%s is mirrored, not turned", (_, text) => {
    expect([...offered(text).keys()].filter((id) => /^turn/.test(id))).toEqual([
      "turn:half",
      "turn:left-right",
      "turn:top-bottom",
    ]);
  });

  test("a picture that fits its panel either way is turned", () => {
    const text = "// @panel lantern 9x9\n// @bitmap lantern 2x1\nconst uint8_t a[2] = {\n  1, 2,\n};\n";
    expect(converted(text, "turn:clockwise")).toBe(text.replace("2x1", "1x2").replace("1, 2,", "1,\n  2,"));
  });
});

describe("literal style", () => {
  test.each([
    [
      "hexadecimal to binary, beside comments and names",
      "literal:binary",
      "#define ON 0xFF\n// @bitmap 8x3 mono1\nconst uint8_t a[] = {\n  0x0f, // low\n  ON, 7\n};\n",
      "#define ON 0xFF\n// @bitmap 8x3 mono1\nconst uint8_t a[] = {\n  0b00001111, // low\n  ON, 0b00000111\n};\n",
    ],
    [
      "columns of levels to hexadecimal and their spaces",
      "literal:hexadecimal",
      "// @bitmap 2x2\nconst uint8_t a[] = {\n    1,  20,\n  255,   4,\n};\n",
      "// @bitmap 2x2\nconst uint8_t a[] = {\n  0x01, 0x14,\n  0xFF, 0x04,\n};\n",
    ],
    [
      "to decimal columns",
      "literal:decimal",
      "// @bitmap 2x2\nconst uint8_t a[] = {\n  0x01u, 0x14u,\n  0xFFu, 0x04u,\n};\n",
      "// @bitmap 2x2\nconst uint8_t a[] = {\n    1u,  20u,\n  255u,   4u,\n};\n",
    ],
    [
      "of an X bitmap",
      "literal:decimal",
      "#define a_width 8\n#define a_height 1\nstatic unsigned char a_bits[] = {\n   0x81 };\n",
      "#define a_width 8\n#define a_height 1\nstatic unsigned char a_bits[] = {\n   129 };\n",
    ],
    [
      "one row to a line",
      "lines",
      "// @bitmap 2x2\nconst uint8_t a[] = {\n  1, 2, 3,\n  4 };\n",
      "// @bitmap 2x2\nconst uint8_t a[] = {\n  1, 2,\n  3, 4\n};\n",
    ],
  ])("%s", (_, id, before, after) => {
    expect(converted(before, id)).toBe(after);
  });

  test("negative numbers are not written in bits, which braces in C++ would refuse", () => {
    const keys = [...offered("// @bitmap 2x1\nconst int8_t a[] = {-1, 0x02};\n").keys()];
    expect(keys.filter((id) => id.startsWith("literal"))).toEqual(["literal:decimal"]);
  });
});

describe("what is not offered", () => {
  test.each([
    ["for an array whose values are not known", "// @bitmap 2x1\nconst uint8_t a[] = {UNKNOWN, 2};\n"],
    ["for a row of an array", "const uint8_t a[2][2] = {\n  // @bitmap 2x1\n  {1, 2}, {3, 4} };\n"],
    ["for a table of structs", "struct I { uint8_t d[2]; };\n// @bitmap 2x1 entries\nconst I t[] = {{{1, 2}}};\n"],
    ["for an array with too few elements", "// @bitmap 2x2\nconst uint8_t a[] = {1, 2};\n"],
    [
      "for a table of pointers",
      "// @bitmap 2x1\nconst uint8_t a[] = {1, 2};\n// @bitmap 2x1\nconst uint8_t *const t[] = {a};\n".replace(
        "// @bitmap 2x1\nconst uint8_t a",
        "const uint8_t a",
      ),
    ],
  ])("%s", (_, text) => {
    expect([...offered(text).keys()]).toEqual([]);
  });

  test.each([
    ["a size by name", "#define N 2\n// @bitmap 3x2 mono1\nconst uint8_t a[N] = {0xC0, 0x40};\n"],
    ["a string", '// @bitmap 3x2 mono1\nconst char a[] = "\\x40@";\n'],
    ["conditions in the list", "// @bitmap 3x2 mono1\nconst uint8_t a[2] = {\n#if 1\n 0xC0,\n#endif\n 0x40};\n"],
    ["arrays of half a row", "// @bitmap 16x1 mono1\nconst uint8_t a[2][1] = {{0xC0}, {0x40}};\n"],
  ])("with %s only what leaves the list as long as it is", (_, text) => {
    const ids = [...offered(text).keys()];
    expect(ids).toContain("bits:lsb");
    expect(ids).not.toContain("pack:columns");
    expect(ids).not.toContain("format:gray8");
  });

  test("another width where the type is not one plain word, or the statement declares more", () => {
    for (const text of [
      "typedef uint8_t u8;\n// @bitmap 2x1\nconst u8 a[] = {1, 2};\n",
      "// @bitmap 2x1\nconst int8_t a[] = {1, 2};\n",
      "// @bitmap 2x1\nconst uint8_t a[] = {1, 2}, b[] = {3};\n",
    ])
      expect([...offered(text).keys()].filter((id) => id.startsWith("width"))).toEqual([]);
  });

  test("bits beside colours are not thrown away", () => {
    expect(converted("// @bitmap 1x1 rgb888\nconst uint32_t a[] = {0xFF102030};\n", "format:rgb565")).toBeUndefined();
  });

  test("signed elements get no literal that they can't hold", () => {
    expect(converted("// @bitmap 8x1 mono1\nconst int8_t a[] = {0x01};\n", "bits:lsb")).toMatch(/signed/);
  });
});
