import { describe, expect, it } from "vitest";
import { type Read, read } from "./reading.ts";

const table = (cases: [string, string, Record<string, Read>][]) =>
  it.each(cases)("%s", (_what, source, expected) => {
    expect(read(source)).toEqual(expected);
  });

describe("constants", () => {
  table([
    ["const int", "const int ON = 64;\nconst uint8_t a[] = { ON, ON / 2 };", { a: [64, 32] }],
    ["constexpr", "constexpr uint8_t ON = 300;\nuint8_t a[] = { ON };", { a: [44] }],
    ["in braces", "constexpr uint8_t ON{64};\nuint8_t a[] = { ON };", { a: [64] }],
    ["in parentheses", "const uint8_t ON(64);\nuint8_t a[] = { ON };", { a: [64] }],
    ["several in one statement", "const int LOW = 1, TOP = LOW + 1;\nuint8_t a[] = { LOW, TOP };", { a: [1, 2] }],
    ["not constant", "int ON = 64;\nuint8_t a[] = { ON };", { a: "`ON` is not defined in this file" }],
    [
      "not an integer",
      "const float ON = 2;\nuint8_t a[] = { ON };",
      { a: "`ON`: its type is not an integer known from this file" },
    ],
    ["as a size", "const int W = 3;\nconst int H = 2;\nconst uint8_t a[W * H] = { 1 };", { a: [1, 0, 0, 0, 0, 0] }],
    [
      "an unknown size",
      "const uint8_t a[WIDTH] = { 1 };",
      { a: "its size is not known: `WIDTH` is not defined in this file" },
    ],
    [
      "under a condition that is not known",
      "#ifdef DAY\nconst int ON = 64;\n#endif\nuint8_t a[] = { ON };",
      {
        a: "`ON`: it depends on `#ifdef DAY`",
      },
    ],
  ]);
});

describe("enumerations", () => {
  table([
    ["count on from 0", "enum { OFF, DIM, ON };\nuint8_t a[] = { ON, DIM, OFF };", { a: [2, 1, 0] }],
    [
      "count on from a value",
      "enum Level { OFF = 3, DIM, ON = OFF * 4 };\nuint8_t a[] = { OFF, DIM, ON };",
      {
        a: [3, 4, 12],
      },
    ],
    ["as a type", "enum Level : uint8_t { OFF, ON = 200 };\nconst Level a[] = { OFF, ON };", { a: [0, 200] }],
    ["scoped", "enum class Level { OFF, ON = 9 };\nuint8_t a[] = { (uint8_t)Level::ON };", { a: [9] }],
    [
      "scoped, without the name",
      "enum class Level { ON = 9 };\nuint8_t a[] = { ON };",
      {
        a: "`ON` is not defined in this file",
      },
    ],
    [
      "after one that is not known",
      "enum { OFF = GLOW, ON };\nuint8_t a[] = { ON };",
      {
        a: "`ON`: `GLOW` is not defined in this file",
      },
    ],
    ["with a trailing comma and comments", "enum { OFF, /* , ON = 5 */ ON, };\nuint8_t a[] = { ON };", { a: [1] }],
  ]);
});

describe("scopes", () => {
  table([
    ["a namespace", "namespace lantern { const int ON = 5; }\nuint8_t a[] = { lantern::ON };", { a: [5] }],
    [
      "a namespace, without its name",
      "namespace lantern { const int ON = 5; }\nuint8_t a[] = { ON };",
      {
        a: "`ON` is not defined in this file",
      },
    ],
    ["from inside", "namespace lantern { const int ON = 5; uint8_t a[] = { ON }; }", { a: [5] }],
    [
      "the inner name hides the outer one",
      "const int ON = 1;\nnamespace n { const int ON = 2; uint8_t a[] = { ON, n::ON }; }\nuint8_t b[] = { ON };",
      {
        a: [2, 2],
        b: [1],
      },
    ],
    ["a class member", "struct Lamp { static const int ON = 7; };\nuint8_t a[] = { Lamp::ON };", { a: [7] }],
    [
      "a block ends",
      "void f() { const int ON = 7; static const uint8_t a[] = { ON }; }\nuint8_t b[] = { ON };",
      {
        a: [7],
        b: "`ON` is not defined in this file",
      },
    ],
    [
      "a block hides and gives back",
      "const int ON = 1;\nvoid f() { const int ON = 2; }\nuint8_t a[] = { ON };",
      { a: [1] },
    ],
  ]);
});

describe("types", () => {
  table([
    ["typedef", "typedef unsigned short cell;\nconst cell a[] = { 65537 };", { a: [1] }],
    ["using", "using cell = int8_t;\nconst cell a[] = { 200 };", { a: [-56] }],
    ["a macro for a type", "#define CELL unsigned char\nconst CELL a[] = { 257 };", { a: [1] }],
    ["a typedef of an array", "typedef uint8_t row[3];\nconst row a[2] = { { 1 }, { 2 } };", { a: [1, 0, 0, 2, 0, 0] }],
    ["bool", "const bool a[] = { 0, 1, 7 };", { a: [0, 1, 1] }],
    ["words in any order", "long unsigned const int a[] = { 1 };", { a: ["1"] }],
    [
      "long double is no integer",
      "const long double a[] = { 1 };",
      { a: expect.stringMatching(/double/) as unknown as string },
    ],
    ["float", "const float a[] = { 1 };", { a: "its elements are float" }],
    [
      "unknown",
      "// @bitmap 1x1\nconst Cell a[] = { 1 };",
      {
        a: "its element type is not known from this file (`Cell`)",
      },
    ],
    [
      "macros and attributes round the name",
      '#define SECT(x) __attribute__((section(x)))\nstatic const uint8_t PROGMEM SECT(".a") a[2] __attribute__((aligned(4))) = { 1, 2 };',
      {
        a: [1, 2],
      },
    ],
    ["several declarators", "const uint8_t a[] = { 1 }, b[2] = { 2 };", { a: [1], b: [2, 0] }],
    ["direct initialisation", "const uint8_t a[2] { 1, 2 };", { a: [1, 2] }],
    [
      "members of a struct",
      "struct Icon { uint8_t w, h; uint8_t data[3]; };\nconst Icon drop = { 1, 3, { 7, 8, 9 } };",
      {
        "drop.data": [7, 8, 9],
      },
    ],
    [
      "a designated member",
      "struct Icon { uint8_t w; uint8_t data[3]; };\nconst Icon drop = { .data = { 7 } };",
      {
        "drop.data": [7, 0, 0],
      },
    ],
    [
      "a table of structs",
      'struct Icon { const char *name; uint8_t data[2]; };\nconst Icon icons[] = { { "a", { 1, 2 } }, { "b", { 3 } } };',
      {
        "icons[0].data": [1, 2],
        "icons[1].data": [3, 0],
      },
    ],
  ]);
});
