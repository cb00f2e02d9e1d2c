import { describe, expect, it } from "vitest";
import { elementAtOffset, elementOfSlot, elementSpan } from "../../../shared/source/arrays.ts";
import { readSource } from "../../../shared/source/read.ts";
import { rewriteElements, writeOut } from "../../../shared/source/rewrite.ts";
import { applyEdits } from "../../../shared/source/text.ts";
import { firstArray, read } from "./reading.ts";

/** The text after elements got new values; the reason where that is refused. */
function rewritten(text: string, changes: Record<number, number | bigint>, perLine = 16): string {
  const wanted = Object.entries(changes).map(([slot, value]) => ({ slot: Number(slot), bits: BigInt(value) }));
  const result = rewriteElements(text, firstArray(text), wanted, perLine);
  return "refused" in result ? result.refused : applyEdits(text, result.edits);
}

/** [list in an array of bytes, changes by index, list afterwards] */
const styles: [string, Record<number, number>, string][] = [
  ["{ 0x0f, 1 }", { 0: 255 }, "{ 0xff, 1 }"],
  ["{ 0X0F, 1 }", { 0: 255 }, "{ 0XFF, 1 }"],
  ["{ 0xA, 1 }", { 0: 255 }, "{ 0xFF, 1 }"],
  ["{ 0x00, 0x3C }", { 0: 255 }, "{ 0xFF, 0x3C }"],
  ["{ 0x3c, 0x00 }", { 1: 255 }, "{ 0x3c, 0xff }"],
  ["{ 0b0011, 1 }", { 0: 8 }, "{ 0b1000, 1 }"],
  ["{ B00110000, 1 }", { 0: 15 }, "{ B00001111, 1 }"],
  ["{ 017, 1 }", { 0: 8 }, "{ 010, 1 }"],
  ["{ 0x0Fu, 1ul }", { 0: 16, 1: 2 }, "{ 0x10u, 2ul }"],
  ["{ 1'0, 1 }", { 0: 255 }, "{ 25'5, 1 }"],
  ["{ 'A', '\\n' }", { 0: 66, 1: 67 }, "{ 'B', 'C' }"],
  ["{ 'A', 1 }", { 0: 7 }, "{ 7, 1 }"],
  ["{ 'A', 0x01 }", { 0: 7 }, "{ 0x07, 0x01 }"],
  ["{ 1 }", { 0: 1 }, "{ 1 }"],
  ["{ 257 }", { 0: 1 }, "{ 257 }"],
  ["{ 1 + 2, 0x10 }", { 0: 3 }, "{ 1 + 2, 0x10 }"],
  ["{ 1 + 2, 0x10 }", { 0: 4 }, "{ 0x04, 0x10 }"],
  ["{ (1), 5 }", { 0: 9 }, "{ 9, 5 }"],
  ["{ /* a */ 1 /* b */, // c\n  2 }", { 0: 3, 1: 4 }, "{ /* a */ 3 /* b */, // c\n  4 }"],
  ["{ -1, 2 }", { 0: 254, 1: 255 }, "{ 254, 255 }"],
];

describe("only the literal whose value changes, in its own style", () => {
  it.each(styles)("%s with %o", (list, changes, after) => {
    expect(rewritten(`const uint8_t a[] = ${list};`, changes)).toBe(`const uint8_t a[] = ${after};`);
  });

  it.each<[string, Record<number, bigint>, string]>([
    ["const int8_t a[] = { -5, 5, 0x0A };", { 0: 5n, 1: 251n, 2: 251n }, "const int8_t a[] = { 5, -5, 0xFB };"],
    ["const int16_t a[] = { 1, 0x000A };", { 0: 0xffffn, 1: 0xffffn }, "const int16_t a[] = { -1, 0xFFFF };"],
    ["const bool a[] = { true, false, 1 };", { 0: 0n, 1: 1n, 2: 0n }, "const bool a[] = { false, true, 0 };"],
    ["const uint64_t a[] = { 0x0ULL };", { 0: 2n ** 63n }, "const uint64_t a[] = { 0x8000000000000000ULL };"],
    ["const uint32_t a[] = { 4294967295 };", { 0: 1n }, "const uint32_t a[] = { 1 };"],
  ])("%s", (text, changes, after) => {
    expect(rewritten(text, changes)).toBe(after);
  });

  it("every other byte stays: BOM, CR LF, tabs, no line end at the end", () => {
    const text = "\ufeff// gr\u00fcn\r\nconst uint8_t a[] PROGMEM = {\r\n\t0x01,\t0x0A,  \r\n\t0x03\r\n};";
    expect(rewritten(text, { 1: 255 })).toBe(text.replace("0x0A", "0xFF"));
  });
});

/** Names: only where this array already uses them as a bare element. [lines before, list, changes, list afterwards] */
const names: [string, string, Record<number, number>, string][] = [
  ["#define ON 64\n#define OFF 0", "{ ON, OFF, OFF }", { 1: 64, 0: 0 }, "{ OFF, ON, OFF }"],
  ["#define ON 64\n#define OFF 0", "{ ON, ON }", { 0: 0 }, "{ 0, ON }"],
  ["#define ON 64\n#define OFF 0", "{ 0x40, OFF }", { 1: 64 }, "{ 0x40, 0x40 }"],
  ["#define ON 64", "{ ON / 2, 0x01 }", { 1: 64 }, "{ ON / 2, 0x40 }"],
  ["#define ON 64", "{ ON / 2, 0x01 }", { 0: 64 }, "{ 0x40, 0x01 }"],
  ["const uint8_t ON = 64;", "{ ON, 7 + 1 }", { 1: 64 }, "{ ON, ON }"],
  ["#define ON 64", "{ ON, 7 }", { 1: 64 }, "{ ON, 64 }"],
  ["#define ON 64", "{ (ON), 7 + 1 }", { 1: 64 }, "{ (ON), 64 }"],
];

describe("names for values", () => {
  it.each(names)("%s: %s with %o", (before, list, changes, after) => {
    const text = `${before}\nconst uint8_t a[] = ${list};`;
    const array = readSource(text, { target: "host" }).arrays[0];
    const wanted = Object.entries(changes).map(([slot, value]) => ({ slot: Number(slot), bits: BigInt(value) }));
    const result = array && rewriteElements(text, array, wanted);
    expect(result && "edits" in result && applyEdits(text, result.edits)).toBe(
      `${before}\nconst uint8_t a[] = ${after};`,
    );
  });
});

/** [what, text, changes, text afterwards] */
const gaps: [string, string, Record<number, number>, string, number?][] = [
  ["one line", "uint8_t a[4] = { 1, 2 };", { 3: 9 }, "uint8_t a[4] = { 1, 2, 0, 9 };"],
  ["a trailing comma", "uint8_t a[4] = { 1, 2, };", { 2: 9 }, "uint8_t a[4] = { 1, 2, 9, 0, };"],
  ["no blanks", "uint8_t a[4] = {1,2};", { 2: 9 }, "uint8_t a[4] = {1,2,9,0};"],
  ["an empty list", "uint8_t a[3] = {};", { 1: 9 }, "uint8_t a[3] = {0, 9, 0};"],
  ["an empty list with a blank", "uint8_t a[2] = { };", { 1: 9 }, "uint8_t a[2] = {0, 9 };"],
  ["just 0", "uint8_t a[3] = { 0 };", { 2: 9 }, "uint8_t a[3] = { 0, 0, 9 };"],
  ["in hexadecimal", "uint8_t a[3] = { 0x0F };", { 1: 9 }, "uint8_t a[3] = { 0x0F, 0x09, 0x00 };"],
  ["the given one as well", "uint8_t a[3] = { 0x0F };", { 0: 1, 2: 9 }, "uint8_t a[3] = { 0x01, 0x00, 0x09 };"],
  ["zeros stay unwritten", "uint8_t a[3] = { 1 };", { 2: 0 }, "uint8_t a[3] = { 1 };"],
  ["lines", "uint8_t a[6] = {\n  1, 2, 3,\n};", { 5: 9 }, "uint8_t a[6] = {\n  1, 2, 3,\n  0, 0, 9,\n};", 3],
  [
    "lines with CR LF and tabs",
    "uint8_t a[4] = {\r\n\t1, 2\r\n};",
    { 2: 9 },
    "uint8_t a[4] = {\r\n\t1, 2,\r\n\t9, 0\r\n};",
    2,
  ],
  ["a line that is not full", "uint8_t a[4] = {\n  1,\n};", { 1: 9 }, "uint8_t a[4] = {\n  1, 9,\n  0, 0,\n};", 2],
  ["before a comment", "uint8_t a[3] = { 1, 2 /* two */ };", { 2: 9 }, "uint8_t a[3] = { 1, 2, 9 /* two */ };"],
  ["inner list", "uint8_t a[2][2] = { { 1 }, { 2, 3 } };", { 1: 9 }, "uint8_t a[2][2] = { { 1, 9 }, { 2, 3 } };"],
  ["inner empty list", "uint8_t a[2][2] = { {}, { 2, 3 } };", { 0: 9 }, "uint8_t a[2][2] = { {9, 0}, { 2, 3 } };"],
  [
    "lists that are missing",
    "uint8_t a[3][2] = { { 1, 2 } };",
    { 5: 9 },
    "uint8_t a[3][2] = { { 1, 2 }, {0, 0}, {0, 9} };",
  ],
  [
    "lists that are missing, by lines",
    "uint8_t a[3][2] = {\n  { 1, 2 },\n};",
    { 5: 9 },
    "uint8_t a[3][2] = {\n  { 1, 2 },\n  {0, 0},\n  {0, 9},\n};",
  ],
  ["braces left out", "uint8_t a[2][2] = { 1, 2 };", { 3: 9 }, "uint8_t a[2][2] = { 1, 2, 0, 9 };"],
  ["mixed braces", "uint8_t a[2][2] = { { 1 }, 2 };", { 3: 9 }, "uint8_t a[2][2] = { { 1 }, 2, 9 };"],
  ["lists for all", "uint8_t a[2][2] = {};", { 2: 9 }, "uint8_t a[2][2] = {0, 0, 9, 0};"],
];

describe("elements that the compiler fills with zero", () => {
  it.each(gaps)("%s", (_what, text, changes, after, perLine) => {
    expect(rewritten(text, changes, perLine)).toBe(after);
  });

  it.each(gaps)("%s: the compiler would store just the change", (_what, text, changes, _after, perLine) => {
    const before = read(text).a as number[];
    const wanted = before.map((value, slot) => changes[slot] ?? value);
    expect(read(rewritten(text, changes, perLine)).a).toEqual(wanted);
  });

  it("writeOut writes all of them out and none where there are none", () => {
    const all = (text: string) => applyEdits(text, writeOut(text, firstArray(text), 2));
    expect(all("uint8_t a[3][2] = {\n  { 1 },\n  { 2 },\n};")).toBe(
      "uint8_t a[3][2] = {\n  { 1, 0 },\n  { 2, 0 },\n  {0, 0},\n};",
    );
    expect(all("uint8_t a[2] = { 1, 2 };")).toBe("uint8_t a[2] = { 1, 2 };");
    expect(all("uint8_t a[2] = { GLOW };")).toBe("uint8_t a[2] = { GLOW };");
    expect(all("uint8_t a[70000000] = { 1 };")).toBe("uint8_t a[70000000] = { 1 };");
  });
});

describe("refused", () => {
  it.each([
    ["uint8_t a[] = { GLOW };", 0, "a can't be edited: `GLOW` is not defined in this file"],
    ["uint8_t a[] = { 1, 2", 0, expect.stringMatching(/^a can't be edited: /)],
    ["uint8_t a[] = { [1] = 2 };", 0, "a has no place for element 0"],
    ["uint8_t a[2] = { 1, 2 };", 2, "a has no element 2"],
    ["uint8_t a[2] = { 1, 2 };", -1, "a has no element -1"],
    [
      "uint8_t a[500002] = { 1 };",
      500000,
      "a can't be edited there: 500001 elements that are missing would have to be written out",
    ],
    [
      'char a[900000] = "x";',
      600000,
      "a can't be edited there: 600000 elements that are missing would have to be written out",
    ],
  ])("%s element %i", (text, slot, why) => {
    expect(rewriteElements(text, firstArray(text), [{ slot, bits: 1n }])).toEqual({ refused: why });
  });
});

describe("elements and places", () => {
  const text = "uint8_t a[3][2] = { { 1 }, { 22, 3 } };";
  const array = firstArray(text);

  it("an offset finds its element", () => {
    const at = (what: string) => elementAtOffset(array, text.indexOf(what));
    expect([at("1 "), at("22"), at("2,"), at("3 }"), at("{ 22"), at("uint8_t"), at(";")]).toEqual([
      0, 1, 1, 2, -1, -1, -1,
    ]);
  });

  it("a slot finds its element", () => {
    expect([0, 1, 2, 3, 4, 5].map((slot) => elementOfSlot(array, slot))).toEqual([0, -1, 1, 2, -1, -1]);
  });

  it("an element finds its text", () => {
    expect([0, 1, 2].map((i) => elementSpan(array, i)).map(({ start, end }) => text.slice(start, end))).toEqual([
      "1",
      "22",
      "3",
    ]);
  });
});
