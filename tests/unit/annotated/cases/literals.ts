import { type ArrayCase, named } from "./arrayCase.ts";

/** Spellings of one row of grey values: what stands before the array, its elements, the values. */
const greyRows: [what: string, before: string, elements: string, values: number[], file?: string][] = [
  ["hexadecimal of mixed case and width", "", "0X0A, 0xfF, 0x7, 0x0040", [10, 255, 7, 64]],
  ["decimal with suffixes", "", "10u, 20UL, 30ll, 0", [10, 20, 30, 0]],
  ["octal", "", "017, 0377, 00", [15, 255, 0]],
  ["binary", "", "0b00001111, 0B1", [15, 1]],
  ["digit separators", "", "0b0011'1100, 2'55, 0x4'0", [60, 255, 64]],
  ["characters", "", String.raw`'A', '\n', '\x7f', '\'', '"', '{', '\0'`, [65, 10, 127, 39, 34, 123, 0]],
  ["casts", "", "(uint8_t)300, uint8_t(7), static_cast<uint8_t>(9)", [44, 7, 9]],
  ["expressions", "", "1 << 3, (0x0f | 0x80), ~0xf0 & 0xff, 255 / 4, 3 > 2 ? 9 : 1", [8, 143, 15, 63, 9]],
  ["macros", "#define OFF 0\n#define ON 255\n#define HALF (ON / 2)\n", "OFF, ON, HALF, ON - 5", [0, 255, 127, 250]],
  ["enumerators", "enum { DARK, DIM = 16, WARM };\n", "DARK, DIM, WARM", [0, 16, 17]],
  ["scoped to a type", "enum Level : uint8_t { DARK = 3, DIM };\n", "DARK, DIM | 8", [3, 12]],
  ["constants", "const uint8_t GLOW = 128;\nstatic constexpr int EMBER = GLOW / 4;\n", "GLOW, EMBER", [128, 32]],
  ["a call macro", "#define PERCENT(p) ((p) * 255 / 100)\n", "PERCENT(0), PERCENT(50), PERCENT(100)", [0, 127, 255]],
];

/** Spellings of the same two bytes as the body of an array of bytes. */
const bodies: [what: string, before: string, body: string, file?: string][] = [
  ["bit macros of the core", "", "B10000001,\n  B01000010", "lantern.ino"],
  ["short bit macros of the core", "", "B10000001, B1000010", "lantern.ino"],
  ["a flag joined to a value", "#define EDGE 0x80\n", "0b00000001|EDGE, 0x42"],
  ["names that draw the row", "#define X______X 0x81\n#define _X____X_ 0x42\n", "X______X,\n  _X____X_,"],
  [
    "rows drawn with one macro a pixel",
    "#define s ((((((((0\n#define _ )*2\n#define X )*2+1\n",
    "s X _ _ _ _ _ _ X ,\n  s _ X _ _ _ _ X _ ,",
  ],
  ["a row commented out", "", "0x81,\n  // 0xff, 0xff,\n  0x42,"],
  ["a row commented out in a block", "", "/* 0xff, */ 0x81, /* 0xff,\n  0xff, */ 0x42"],
  ["glyph characters in comments", "", `0x81, /* '{' */\n  0x42, // "\\""`],
  ["closing braces in comments", "", "0x81, // }; the lower edge: '\n  0x42  /* }; */"],
  ["labels and drawings of the rows", "", "0x81, /* 0: #......# */\n  0x42, /* 1: .#....#. */"],
  ["no blanks and a trailing comma", "", "0x81,0x42,"],
  ["a branch that is left out", "", "#if 0\n  0xff, 0xff,\n#endif\n  0x81, 0x42"],
  ["a branch chosen by a macro of this file", "#define TALL 1\n", "#if TALL\n  0x81,\n#else\n  0xff,\n#endif\n  0x42"],
];

const around = (declaration: string, before = "") => `${before}// @bitmap 8x2 mono1\n${declaration}`;
const vent = named("vent", "#......#\n.#....#.");

export const literals: ArrayCase[] = [
  ...greyRows.map(([what, before, elements, values, file]) => ({
    what: `grey values: ${what}`,
    ...(file === undefined ? {} : { file }),
    source: `${before}// @bitmap ${values.length}x1 gray8\nconst uint8_t row[] = { ${elements} };`,
    pictures: named("row", values.join(" ")),
  })),
  ...bodies.map(([what, before, body, file]) => ({
    what: `bits: ${what}`,
    ...(file === undefined ? {} : { file }),
    source: around(`const uint8_t vent[] = {\n  ${body.startsWith("#") ? "\n" : ""}${body}\n};`, before),
    pictures: vent,
  })),
];
