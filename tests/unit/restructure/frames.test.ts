/** Frames added, doubled, taken away and moved: texts before and after, written by hand. */
import { describe, expect, test } from "vitest";
import { framed } from "./restructuring.ts";

const EYE = `// @bitmap 2x2 frames=3 fps=4 -- blink
const uint8_t eye[12] PROGMEM = {
  // frame 0: shut
  0, 0,
  3, 0,

  // frame 1: half
  0, 6, // lid
  7, 8,

  // frame 2: open
  9, 10,
  0, 12
}; // end
`;

describe("rows of the source go with their frame", () => {
  test("in another order, with their comments and numbered anew", () => {
    expect(framed(EYE, [2, 0, 1])).toBe(`// @bitmap 2x2 frames=3 fps=4 -- blink
const uint8_t eye[12] PROGMEM = {
  // frame 0: open
  9, 10,
  0, 12,

  // frame 1: shut
  0, 0,
  3, 0,

  // frame 2: half
  0, 6, // lid
  7, 8
}; // end
`);
  });

  test("a dark frame has the setting of the one before, and no comment of it but the number", () => {
    expect(framed(EYE, [0, 1, "dark", 2])).toBe(
      EYE.replace("frames=3", "frames=4")
        .replace("[12]", "[16]")
        .replace("  // frame 2: open", "  // frame 2\n  0, 0,\n  0, 0,\n\n  // frame 3: open"),
    );
  });

  test("the last one goes, and the comma before it", () => {
    expect(framed(EYE, [0, 1])).toBe(
      EYE.replace("frames=3", "frames=2")
        .replace("[12]", "[8]")
        .replace("7, 8,\n\n  // frame 2: open\n  9, 10,\n  0, 12\n", "7, 8\n"),
    );
  });

  test("one that stays alone needs no number of frames", () => {
    expect(framed(EYE, [1])).toBe(`// @bitmap 2x2 fps=4 -- blink
const uint8_t eye[4] PROGMEM = {
  // frame 0: half
  0, 6, // lid
  7, 8
}; // end
`);
  });

  test.each([
    ["counted from 1", "  1, // Step 1: up\n  2, // Step 2: down\n", "  2, // Step 1: down\n  1, // Step 2: up\n"],
    ["bare numbers", "  1, /* 0 */\n  2, /* 1 */\n", "  2, /* 0 */\n  1, /* 1 */\n"],
    ["that count something else", "  1, // row 0\n  2, // row 0\n", "  2, // row 0\n  1, // row 0\n"],
    ["that are no counts", "  1, // 0x0\n  2, // 0x1\n", "  2, // 0x1\n  1, // 0x0\n"],
  ])("comments %s", (_, list, listed) => {
    const text = `// @bitmap 1x1 frames=2\nconst uint8_t a[] = {\n${list}};\n`;
    expect(framed(text, [1, 0])).toBe(text.replace(list, listed));
  });

  test("nothing changes where the order stays", () => {
    expect(framed(EYE, [0, 1, 2])).toBe(EYE);
  });
});

describe("one picture becomes an animation", () => {
  test.each([
    [
      "in columns",
      "// @bitmap 3x2 cap=64\nconst uint8_t one[6] = {\n    0,  12,   3, // top\n   64,   0,   0,\n};\n",
      "// @bitmap 3x2 cap=64 frames=2\nconst uint8_t one[12] = {\n    0,  12,   3, // top\n   64,   0,   0,\n    0,   0,   0,\n    0,   0,   0,\n};\n",
    ],
    [
      "on one line",
      "// @bitmap 2x1 mono1 pack=each\nconst bool_t a[] = {1,0};".replace("bool_t", "uint8_t"),
      "// @bitmap 2x1 mono1 pack=each frames=2\nconst uint8_t a[] = {1,0,0,0};",
    ],
    [
      "with CR LF and a line comment at the end",
      "// @bitmap 2x1\r\nconst uint8_t a[2] = {\r\n\t1, 2 // both\r\n};\r\n",
      "// @bitmap 2x1 frames=2\r\nconst uint8_t a[4] = {\r\n\t1, 2, // both\r\n\t0, 0\r\n};\r\n",
    ],
    [
      "with names for its values",
      "#define OFF 0\n#define ON 1\n// @bitmap 2x1\nconst uint8_t a[] = { ON, OFF };\n",
      "#define OFF 0\n#define ON 1\n// @bitmap 2x1 frames=2\nconst uint8_t a[] = { ON, OFF, OFF, OFF };\n",
    ],
    [
      "inverted, where dark is all ones",
      "// @bitmap 8x1 mono1 invert\nconst uint8_t a[1] = {0x0f};\n",
      "// @bitmap 8x1 mono1 invert frames=2\nconst uint8_t a[2] = {0x0f, 0xff};\n",
    ],
    [
      "that the compiler fills with zero",
      "// @bitmap 9x9\nuint8_t a[81] = {0};\n",
      "// @bitmap 9x9 frames=2\nuint8_t a[162] = {0};\n",
    ],
  ])("%s", (_, before, after) => {
    expect(framed(before, [0, "dark"])).toBe(after);
  });
});

describe("the declared size", () => {
  const rows = (n: number) => Array.from({ length: n }, (_, i) => `{{${i}, 2}, {3, 4}}`).join(", ");
  test.each([
    ["a number", "", "[2]", "", "[3]", "1, 2", "1, 2, 2"],
    ["hexadecimal", "", "[0x02]", "", "[0x03]", "1, 2", "1, 2, 2"],
    ["none", "", "[]", "", "[]", "1, 2", "1, 2, 2"],
    ["a define", "#define COUNT 2\n", "[COUNT]", "#define COUNT 3\n", "[COUNT]", "1, 2", "1, 2, 2"],
    ["a constant", "constexpr int N = 2u;\n", "[N]", "constexpr int N = 3u;\n", "[N]", "1, 2", "1, 2, 2"],
    ["an enumerator", "enum { A = 9, N = 2 };\n", "[N]", "enum { A = 9, N = 3 };\n", "[N]", "1, 2", "1, 2, 2"],
    ["a product", "#define FRAMES 2\n", "[FRAMES * 1]", "#define FRAMES 3\n", "[FRAMES * 1]", "1, 2", "1, 2, 2"],
    ["brackets for each frame", "", "[2][1]", "", "[3][1]", "{1}, {2}", "{1}, {2}, {2}"],
  ])("follows: %s", (_, define, size, defined, sized, list, listed) => {
    const text = `${define}// @bitmap 1x1 frames=2\nconst uint8_t a${size} = {${list}};\n`;
    expect(framed(text, [0, 1, 1])).toBe(`${defined}// @bitmap 1x1 frames=3\nconst uint8_t a${sized} = {${listed}};\n`);
  });

  test("of frames of rows of pixels", () => {
    const text = `// @bitmap 2x2 frames=2\nconst uint8_t a[2][2][2] = {${rows(2)}};\n`;
    expect(framed(text, [0, 1, "dark"])).toBe(
      `// @bitmap 2x2 frames=3\nconst uint8_t a[3][2][2] = {${rows(2)}, {{0, 0}, {0, 0}}};\n`,
    );
  });

  test("from the name that says frames, where two have the same value", () => {
    const text =
      "#define FRAMES 2\n#define ROWS 2\n// @bitmap 8x2 mono1 frames=2\nconst uint8_t a[FRAMES * ROWS] = {1, 2, 3, 4};\n";
    expect(framed(text, [0])).toBe(
      "#define FRAMES 1\n#define ROWS 2\n// @bitmap 8x2 mono1\nconst uint8_t a[FRAMES * ROWS] = {1, 2};\n",
    );
  });

  test.each([
    [
      "a size that another array shares",
      "#define N 2\nint times[N] = {5, 6};\n// @bitmap 1x1 frames=2\nconst uint8_t a[N] = {1, 2};\n",
      "refused: times would change with it",
    ],
    [
      "a size from elsewhere",
      "// @bitmap 1x1 frames=2\nconst uint8_t a[sizeof(short)] = {1, 2};\n",
      "refused: the size `sizeof(short)` of a can't be followed to a number of this file",
    ],
    [
      "a size of which either number could be meant",
      "#define A 2\n#define B 2\n// @bitmap 8x2 mono1 frames=2\nconst uint8_t a[A * B] = {1, 2, 3, 4};\n",
      "refused: it is not clear which number of the size `A * B` of a is to change",
    ],
  ])("can't follow %s", (_, text, reason) => {
    expect(framed(text, [0, 1, 1])).toBe(reason);
  });
});

describe("glyph sets", () => {
  const FONT = `const uint8_t wide[3] = {1, 2, 3};
// @bitmap 3x1 mono1 frames=3 first='A' widths=wide
const uint8_t font[3] = {
  0x20, // 'A'
  0x40, // 'B'
  0xE0, // 'C'
};
`;
  test("a glyph more at the end goes on with the characters, and is as wide as the cell", () => {
    expect(framed(FONT, [0, 1, 2, "dark"])).toBe(
      FONT.replace("wide[3] = {1, 2, 3}", "wide[4] = {1, 2, 3, 3}")
        .replace("frames=3", "frames=4")
        .replace("font[3]", "font[4]")
        .replace("\n};", "\n  0x00, // 'D'\n};"),
    );
  });

  test("the first one goes: the characters begin later", () => {
    expect(framed(FONT, [1, 2])).toBe(`const uint8_t wide[2] = {2, 3};
// @bitmap 3x1 mono1 frames=2 first='B' widths=wide
const uint8_t font[2] = {
  0x40, // 'B'
  0xE0, // 'C'
};
`);
  });

  test("another order is listed, and a copy is another character", () => {
    expect(framed(FONT, [2, 0, 0])).toBe(`const uint8_t wide[3] = {3, 1, 1};
// @bitmap 3x1 mono1 frames=3 widths=wide chars="CAD"
const uint8_t font[3] = {
  0xE0, // 'C'
  0x20, // 'A'
  0x20, // 'D'
};
`);
  });

  test.each([
    ['chars="0\\"9"', [2, 1, 0], 'chars="9\\"0"'],
    ['chars="/*+"', [1, 0, 2], 'chars="*\\u002F+"'],
    ["first=U+001F", [0, 2, 1], 'chars="\\u001F! "'],
  ] as const)("%s in the order %j is %s", (word, order, now) => {
    const text = `// @bitmap 1x1 frames=3 ${word}\nconst uint8_t a[] = {1, 2, 3};\n`;
    expect(framed(text, order).split("\n")[0]).toBe(`// @bitmap 1x1 frames=3 ${now}`);
  });

  test.each([
    [
      "widths that two sets share",
      `${FONT}// @bitmap 3x1 mono1 frames=3 widths=wide\nconst uint8_t other[3] = {1, 2, 3};\n`,
      "refused: 2 glyph sets share the widths in wide",
    ],
    [
      "widths of more glyphs",
      FONT.replace("wide[3] = {1, 2, 3}", "wide[4] = {1, 2, 3, 3}"),
      "refused: wide does not hold one width for each of the 3 glyphs",
    ],
  ])("can't change with %s", (_, text, reason) => {
    expect(framed(text, [0, 1])).toBe(reason);
  });
});

describe("tables of pointers", () => {
  const TABLE = `const uint8_t a[2] = {1, 2};
const uint8_t b[2] = {3, 4};
// @bitmap 2x1
const uint8_t* const both[2] = {
  a, // first
  b, // then
};
`;
  test("entries move and go", () => {
    expect(framed(TABLE, [1, 0])).toBe(TABLE.replace("  a, // first\n  b, // then", "  b, // then\n  a, // first"));
    expect(framed(TABLE, [1])).toBe(TABLE.replace("  a, // first\n", "").replace("both[2]", "both[1]"));
  });

  test("get no new frames", () => {
    expect(framed(TABLE, [0, 1, "dark"])).toBe(
      "refused: each frame of both is an array of its own: make a new bitmap, and name it in the table",
    );
  });
});

describe("refused in words", () => {
  test.each([
    ["no frame", "// @bitmap 1x1\nconst uint8_t a[] = {1};\n", [], "a keeps one frame at least"],
    ["a frame that is not there", "// @bitmap 1x1\nconst uint8_t a[] = {1};\n", [1], "a has no frame 1"],
    [
      "an X bitmap",
      "#define a_width 8\n#define a_height 1\nstatic char a_bits[] = {0x01};\n",
      [0, 0],
      "a_bits is an X bitmap, which has one frame: annotate it with @bitmap to give it more",
    ],
    ["a string", '// @bitmap 8x1 mono1\nconst char a[] = "x";\n', [0, 0], "a is a string"],
    [
      "conditions in the list",
      "// @bitmap 1x1 frames=2\nconst uint8_t a[] = {\n1,\n#ifdef X\n2,\n#else\n3,\n#endif\n};\n",
      [0],
      undefined,
    ],
    [
      "an entry of a struct",
      "struct I { uint8_t d[1]; };\n// @bitmap 1x1\nconst I a = {{1}};\n",
      [0, 0],
      "a.d is part of a larger initialiser",
    ],
    [
      "a table of structs",
      "struct I { uint8_t d[1]; };\n// @bitmap 1x1 entries\nconst I a[] = {{{1}}, {{2}}};\n",
      [0, 0],
      "a[0].d is part of a larger initialiser",
    ],
    [
      "a name that makes several numbers",
      "#define TWO 1, 2\n// @bitmap 2x1\nconst uint8_t a[] = { TWO };\n",
      [0, "dark"],
      "one name in a makes several of its numbers",
    ],
    ["too many", "// @bitmap 1024x1024\nuint8_t a[1048576] = {0};\n", [0, 0], "2 frames are more than 1048576 pixels"],
  ] as const)("%s", (_, text, order, reason) => {
    const said = framed(text, order);
    expect(said).toMatch(/^refused: ./);
    if (reason !== undefined) expect(said).toBe(`refused: ${reason}`);
  });
});
