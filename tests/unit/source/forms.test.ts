import { describe, expect, it } from "vitest";
import type { Included } from "../../../shared/source/read.ts";
import { readSource } from "../../../shared/source/read.ts";
import { rewriteElements } from "../../../shared/source/rewrite.ts";
import { applyEdits } from "../../../shared/source/text.ts";
import { firstArray, type Read, read, readAll } from "./reading.ts";

const byValue = (cases: [string, string, Read][]) =>
  it.each(cases)("%s", (_what, source, expected) => {
    expect(read(source).a).toEqual(expected);
  });

// C17 6.7.9; the ranges are GNU's.
describe("designators", () => {
  byValue([
    ["an index", "uint8_t a[] = { [2] = 7, 8, [1] = 5 };", [0, 5, 7, 8]],
    ["a character", "uint8_t a['D'] = { ['A'] = 1 };", [...new Array(65).fill(0), 1, 0, 0]],
    ["a range", "uint8_t a[6] = { [1 ... 3] = 9, 4 };", [0, 9, 9, 9, 4, 0]],
    ["a later one counts", "uint8_t a[3] = { 1, 2, 3, [0] = 9, 8 };", [9, 8, 3]],
    ["rows", "int8_t a[3][2] = { [1] = { 1, 2 }, [2][1] = -3, [0] = { [1] = 4 } };", [0, 4, 1, 2, 0, -3]],
    ["a row clears what was there", "uint8_t a[2][2] = { 1, 2, 3, 4, [0] = { 9 } };", [9, 0, 3, 4]],
    ["a row as a string", 'char a[2][3] = { [1] = "ab" };', [0, 0, 0, 97, 98, 0]],
    ["an expression", "enum { AT = 1 }; uint8_t a[] = { [AT + 1] = 3 };", [0, 0, 3]],
    ["outside", "uint8_t a[2] = { [2] = 1 };", "a designator lies outside its array"],
    ["unknown", "uint8_t a[2] = { [WHERE] = 1 };", "`WHERE` is not defined in this file"],
    ["a range of lists", "uint8_t a[2][2] = { [0 ... 1] = { 1, 2 } };", "a list is given to a range of elements"],
  ]);

  it("a lone quote is a string that is not closed, right there", () => {
    const text = 'char a[2][4] = { "ab", "\n};\n';
    const [array] = readSource(text, { target: "host" }).arrays;
    expect(array?.readOnly).toBe("a string is not closed");
    const { start = -1, end = -1 } = array?.readOnlySpan ?? {};
    expect([(array?.base ?? 0) + start, (array?.base ?? 0) + end]).toEqual([text.length - 4, text.length - 4]);
  });

  it("things without members end the reading of a list, which would hold any number of them", () => {
    const { arrays } = readSource("struct Seed {}; Seed a[] = { 1, 2 }; uint8_t b[] = { 3 };", { target: "host" });
    expect(arrays.map((a) => a.name)).toEqual(["b"]);
  });

  it("elements of a range have no text of their own; others have", () => {
    const text = "uint8_t a[] = { [1 ... 2] = 7, 5 };";
    const array = firstArray(text);
    expect(rewriteElements(text, array, [{ slot: 1, bits: 1n }])).toEqual({
      refused: "element 1 of a can't be edited: `7` makes several",
    });
    const edited = rewriteElements(text, array, [{ slot: 3, bits: 1n }]);
    expect("edits" in edited && applyEdits(text, edited.edits)).toBe("uint8_t a[] = { [1 ... 2] = 7, 1 };");
  });
});

describe("sizes", () => {
  byValue([
    ["of a type", "uint8_t a[] = { sizeof(uint32_t), sizeof(int), sizeof (unsigned char) };", [4, 4, 1]],
    [
      "of an array",
      "uint16_t m[3] = { 1 }; uint8_t a[] = { sizeof(m), sizeof m, sizeof(m[0]), sizeof *m };",
      [6, 6, 2, 2],
    ],
    ["of an array without a size", "uint8_t m[] = { 1, 2 }; uint8_t a[sizeof(m) + 1] = { 5 };", [5, 0, 0]],
    ["of rows", "uint8_t m[][2] = { 1, 2, 3 }; uint8_t a[] = { sizeof(m) / sizeof(m[0]) };", [2]],
    ["of an expression", "uint8_t a[] = { sizeof(1L + 1), sizeof 'a' + 0 };", "its size differs between C and C++"],
    ["of what is not known", "uint8_t a[] = { sizeof(other) };", "`other` is not defined in this file"],
  ]);
});

describe("macros", () => {
  byValue([
    ["several elements", "#define TWO(w) (w) >> 8, (w) & 0xFF\nuint8_t a[] = { TWO(0x1234), 5 };", [0x12, 0x34, 5]],
    ["a list by name", "#define ROWS 1, 2,\nuint8_t a[] = { ROWS 3 };", [1, 2, 3]],
    ["pasted", "#define CAT(x, y) x##y\n#define B(x) CAT(0b, x)\nuint8_t a[] = { CAT(1, 2), B(101) };", [12, 5]],
    ["all arguments", "#define ALL(...) __VA_ARGS__\nuint8_t a[] = { ALL(1, 2), ALL(3) };", [1, 2, 3]],
    ["called by what it becomes", "#define F(x) ((x) + 1)\n#define G F\nuint8_t a[] = { G(3), G (4) };", [4, 5]],
    ["a list in braces", "#define P {1, 2}\nuint8_t a[] = { P };", "`{` is not expected here"],
    ["a name of the file", "const int T = 5; namespace n { const int T = 6; uint8_t a[] = { T, ::T }; }", [6, 5]],
    ["characters with a prefix", "uint16_t a[] = { u'a', L'b', U'\\x12' };", [97, 98, 18]],
  ]);
});

describe("std::array", () => {
  byValue([
    ["one pair of braces", "std::array<uint8_t, 3> a = { 1, 2 };", [1, 2, 0]],
    ["two pairs", "constexpr std::array<uint16_t, 2 * 1> a{{ 1, 0x1234 }};", [1, 0x1234]],
    [
      "of others, all braces",
      "std::array<std::array<uint8_t, 3>, 2> a = {{ {{ 1, 2, 3 }}, {{ 4 }} }};",
      [1, 2, 3, 4, 0, 0],
    ],
    [
      "of others, rows in one pair",
      "std::array<std::array<uint8_t, 3>, 2> a{{ { 1, 2 }, { 4 } }};",
      [1, 2, 0, 4, 0, 0],
    ],
    ["of others, no inner braces", "std::array<std::array<uint8_t, 3>, 2> a{ 1, 2, 3, 4 };", [1, 2, 3, 4, 0, 0]],
    ["a size that is not known", "std::array<uint8_t, N> a = { 1, 2 };", undefined as unknown as Read],
  ]);
});

describe("rows of an array, annotated one by one", () => {
  it("have the index that they have in C, also where they are empty", () => {
    const text = "// @bitmap 2x1 entries\nuint8_t a[5][2] = { {}, { 1 }, {}, {}, { 2, 3 } };";
    const { arrays, annotations } = readSource(text, { target: "host" });
    const rows = annotations[0]?.arrays.map((at) => arrays[at]?.name);
    expect(rows).toEqual(["a[0]", "a[1]", "a[2]", "a[3]", "a[4]"]);
  });
});

describe("members without braces", () => {
  const icon = "struct Icon { const char *key; uint8_t w; uint8_t rows[3]; uint8_t more : 4, odd : 4; void draw(); };";
  it.each<[string, string, [string, Read][]]>([
    ["of one struct", 'const Icon i = { "a", 1, 2, 3, 4 };', [["i.rows", [2, 3, 4]]]],
    [
      "of entries",
      'const Icon i[] = { { "a", 1, 2, 3 }, { "b", 1, { 4 } } };',
      [
        ["i[0].rows", [2, 3, 0]],
        ["i[1].rows", [4, 0, 0]],
      ],
    ],
    [
      "of a flat table",
      'const Icon i[] = { "a", 1, 2, 3, 4, 5, 6, "b", 7, 8, 9 };',
      [
        ["i[0].rows", [2, 3, 4]],
        ["i[1].rows", [8, 9, 0]],
      ],
    ],
    ["by name", 'const Icon i = { .rows = { 1 }, .key = "k" };', [["i.rows", [1, 0, 0]]]],
    ["by index", 'const Icon i[] = { [2] = { "a", 1, { 1 } } };', [["i[2].rows", [1, 0, 0]]]],
  ])("%s", (_what, source, expected) => {
    expect(readAll(`${icon}\n${source}`)).toEqual(expected);
  });
});

describe("included files", () => {
  const files: Record<string, string> = {
    "levels.h":
      '#pragma once\n#include "more.h"\n#define DIM (BASE + 1)\nenum { GLOW = 7 };\nconst uint8_t size[] = { 1, 2 };',
    "more.h": '#ifndef MORE\n#define MORE\n#include "levels.h"\n#define BASE 40\ntypedef uint8_t shade_t;\n#endif',
    "self.h": '#include "self.h"\n#define SELF 3',
    "rows.inc": "1, 2,\n0x03, // four is next\n",
    "odd.inc": "1, { 2 }",
  };
  const includes = (name: string): Included | undefined => {
    const text = files[name];
    return text === undefined ? undefined : { id: name, text };
  };
  const values = (source: string) =>
    readSource(source, { target: "host", includes }).arrays.map((a) => [
      a.readOnly,
      a.fixed,
      [...(a.list?.values ?? [])],
    ]);

  it("give macros, constants, types and sizes, each once", () => {
    const source = '#include "levels.h"\n#include "levels.h"\nconst shade_t a[] = { DIM, GLOW, sizeof(size) };';
    expect(values(source)).toEqual([[undefined, undefined, [41, 7, 2]]]);
    expect([...readSource(source, { target: "host", includes }).included.keys()].sort()).toEqual([
      "levels.h",
      "more.h",
    ]);
  });

  it("that include themselves end", () => {
    expect(values('#include "self.h"\nuint8_t a[] = { SELF };')).toEqual([[undefined, undefined, [3]]]);
  });

  it("under a condition that is not known give nothing sure", () => {
    const [[why]] = values('#ifdef BIG\n#include "self.h"\n#endif\nuint8_t a[] = { SELF };') as [[string]];
    expect(why).toBe("`SELF` depends on `#ifdef BIG`");
  });

  it("that hold elements give values that can't be written here", () => {
    expect(values('uint8_t a[] = {\n#include "rows.inc"\n};')).toEqual([
      [undefined, "its elements stand in `rows.inc`", [1, 2, 3]],
    ]);
    expect(values('uint8_t a[] = {\n 9,\n#include "rows.inc"\n 8\n};')[0]?.[2]).toEqual([9, 1, 2, 3, 8]);
    expect(values('uint8_t a[] = {\n#include "odd.inc"\n};')[0]?.[0]).toBe("`odd.inc` holds lists or designators");
    const text = 'uint8_t a[] = {\n#include "rows.inc"\n};';
    const [array] = readSource(text, { target: "host", includes }).arrays;
    expect(array && rewriteElements(text, array, [{ slot: 0, bits: 5n }])).toEqual({
      refused: "a can't be edited: its elements stand in `rows.inc`",
    });
  });

  it("that can't be had leave names unknown", () => {
    expect(values('#include "gone.h"\nuint8_t a[] = { DIM };')[0]?.[0]).toBe("`DIM` is not defined in this file");
  });
});

/** Source after giving elements new values. */
function write(text: string, changes: Record<number, number>): string {
  const wanted = Object.entries(changes).map(([slot, value]) => ({ slot: Number(slot), bits: BigInt(value) }));
  const edited = rewriteElements(text, firstArray(text), wanted, 4);
  return "refused" in edited ? edited.refused : applyEdits(text, edited.edits);
}

describe("what surrounds a number", () => {
  const table = "uint8_t a[] = {\n   1,  12, 255,\n  10,   2,   3,\n};";
  it.each<[string, string, Record<number, number>, string]>([
    ["a longer number takes spaces", table, { 0: 100, 4: 77 }, "uint8_t a[] = {\n 100,  12, 255,\n  10,  77,   3,\n};"],
    ["a shorter one gives them", table, { 1: 3, 2: 9 }, "uint8_t a[] = {\n   1,   3,   9,\n  10,   2,   3,\n};"],
    [
      "columns that begin together",
      "uint8_t a[] = {\n1,   12,  255,\n10,  2,   3,\n};",
      { 0: 100, 4: 77 },
      "uint8_t a[] = {\n100, 12,  255,\n10,  77,  3,\n};",
    ],
    ["no columns, no spaces", "uint8_t a[] = {\n10, 20,\n1, 2,\n};", { 0: 5 }, "uint8_t a[] = {\n5, 20,\n1, 2,\n};"],
    [
      "a comment keeps its line",
      "uint8_t a[8] = {\n  1, 2, // row\n};",
      { 5: 9 },
      "uint8_t a[8] = {\n  1, 2, 0, 0, // row\n  0, 9, 0, 0,\n};",
    ],
    [
      "a comment without a comma before it",
      "uint8_t a[6] = {\n  1, 2, 3, 4 // row\n};",
      { 5: 9 },
      "uint8_t a[6] = {\n  1, 2, 3, 4, // row\n  0, 9\n};",
    ],
  ])("%s", (_what, before, changes, after) => {
    expect(write(before, changes)).toBe(after);
  });

  it("many neighbours become one edit, comments between stay", () => {
    const rows = Array.from({ length: 512 }, () => "  0x00, 0x00, 0x00, 0x00,").join("\n");
    const text = `uint8_t a[] = {\n${rows} // half\n${rows}\n};`;
    const all = Array.from({ length: 4096 }, (_, slot) => ({ slot, bits: 255n }));
    const edited = rewriteElements(text, firstArray(text), all);
    if ("refused" in edited) throw new Error(edited.refused);
    expect(edited.edits.length).toBe(2);
    expect(applyEdits(text, edited.edits)).toBe(text.replaceAll("0x00", "0xff"));
  });
});

describe("pixels drawn with macros", () => {
  const pixels = "#define _ )*2\n#define X )*2+1\n#define s ((((0\n";
  const rows = "#define ____ 0\n#define __X_ 2\n#define X___ 8\n#define X_X_ 10\n";
  it.each<[string, string, Record<number, number>, string]>([
    [
      "a name to a pixel",
      `${pixels}uint8_t a[] = { s _ X X _ , s X X X X };`,
      { 0: 9, 1: 0 },
      `${pixels}uint8_t a[] = { s X _ _ X , s _ _ _ _ };`,
    ],
    [
      "a name to a row",
      `${rows}uint8_t a[] = { ____, __X_ };`,
      { 0: 8, 1: 10 },
      `${rows}uint8_t a[] = { X___, X_X_ };`,
    ],
    ["a row without a name", `${rows}uint8_t a[] = { ____, __X_ };`, { 0: 7 }, `${rows}uint8_t a[] = { 7, __X_ };`],
    [
      "a name that has moved on",
      `${rows}uint8_t a[] = { ____, __X_ };\n#undef X___\n#define X___ 8`,
      { 0: 8 },
      `${rows}uint8_t a[] = { X___, __X_ };\n#undef X___\n#define X___ 8`.replace("X___, __X_ };", "8, __X_ };"),
    ],
  ])("%s", (_what, before, changes, after) => {
    expect(write(before, changes)).toBe(after);
  });
});
