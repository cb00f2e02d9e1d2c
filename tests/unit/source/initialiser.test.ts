import { describe, expect, it } from "vitest";
import { elementSpan, storedValues } from "../../../shared/source/arrays.ts";
import { readSource } from "../../../shared/source/read.ts";
import { type Read, read } from "./reading.ts";

const bytes = "const uint8_t a[] = ";
const next = "const uint8_t b[] = { 7, 8 };";

describe("a list that breaks off", () => {
  /** A list that is being typed, before the next declaration. */
  it.each([
    "{",
    "{ 1",
    "{ 1,",
    "{ 1, 2,",
    "{ 1, 0x",
    "{ 1, 2\n}",
    "{ { 1, 2 }, { 3",
    "{ 1, 2 ]",
    "{ 1, 2 )",
    '{ 1, "two',
    "{ 1, 'x",
    "{ [0] =",
    "{ .w = 1,",
    "{ 1, 2;",
    "{ 1, 2 };",
    "{ 1 // two };",
    "{ 1,\n#define ON 2",
  ])("%j: the next declaration keeps its name, type and values", (half) => {
    expect(read(`${bytes}${half}\nconst int16_t b[] = { 300, -1 };`).b).toEqual([300, -1]);
  });

  it.each(["{ 1, (2 +", "{ 1, f(", "{ 1, [2"])("%j: the declaration after the next statement is still read", (half) => {
    expect(read(`${bytes}${half}\nint x;\n${next}`).b).toEqual([7, 8]);
  });

  it.each(["{ 1, 2,", "{ 1, 2", "{ { 1, 2 }, { 3", "{ 1, 2;", `{ 1, 2,\n${next}`])("%j can't be edited", (half) => {
    const { arrays } = readSource(bytes + half, { target: "host" });
    expect(arrays[0]?.name).toBe("a");
    expect(arrays[0]?.readOnly).toMatch(/\w/);
  });

  it.each([
    "/* never closed",
    '"',
    "'",
    "(((((",
    "{{{{{",
    "[[[[",
    "\\",
    "#if",
    "#include",
    "{ [",
    "{ .",
    "{ =",
    "{ ,,,",
  ])("%j at the end of the text is no trouble", (end) => {
    expect(readSource(`${next}\n${bytes}{ 1, ${end}`, { target: "host" }).arrays[0]?.name).toBe("b");
  });
});

/** [what, list, values or reason] */
const lists: [string, string, Read][] = [
  ["nothing", "{}", []],
  ["one", "{ 1 }", [1]],
  ["a trailing comma", "{ 1, 2, }", [1, 2]],
  ["no blanks", "{1,2,3}", [1, 2, 3]],
  ["blanks before commas", "{ 1 , 2\t,\n3 }", [1, 2, 3]],
  ["comments with commas and braces", "{ 1, /* , 9 } */ 2, // { 9,\n 3 }", [1, 2, 3]],
  ["a comment with a quote", "{ 1, // it's \"\n 2 }", [1, 2]],
  ["a comment that goes on after a backslash", "{ 1, // \\\n 9,\n 2 }", [1, 2]],
  ["row labels", "{ /* 0 */ 1, /* '{' */ 2 }", [1, 2]],
  ["data commented out", "{ 1,\n// 2, 3,\n 4 }", [1, 4]],
  ["every base", "{ 0x0F, 0b101, B11, 017, 9, '\\n', 1'0 }", [15, 5, 3, 15, 9, 10, 10]],
  ["suffixes", "{ 1u, 2UL, 0x3ull, 4L }", [1, 2, 3, 4]],
  ["expressions with commas inside", "{ (1 + 1), ((2), 3) }", "`((2), 3)` uses the comma operator"],
  ["values that wrap", "{ 256, -1, 511, 0x1FF }", [0, 255, 255, 255]],
  ["a joined line", "{ 1, \\\n 2 }", [1, 2]],
  ["an element that is missing", "{ 1, , 2 }", "an element is missing here"],
  ["only a comma", "{ , }", "an element is missing here"],
  ["a string among numbers", '{ 1, "x" }', "a string stands where a number belongs"],
  ["a raw string among numbers", '{ 1, R"(}, 2)", 3 }', "a string stands where a number belongs"],
  ["designators", "{ [1] = 5, 6 }", [0, 5, 6]],
  ["a call that makes several elements", "{ ROW(1), 2 }", "`ROW(…)` is not known in this file"],
  ["== is no designator", "{ 1 == 1, 2 != 3, 4 <= 3, 4 >= 3 }", [1, 1, 0, 1]],
];

describe("lists", () => {
  it.each(lists)("%s", (_what, list, expected) => {
    expect(read(`${bytes}${list};`, "host")).toEqual({ a: expected });
  });

  it("CR LF, lone CR and a byte-order mark are white space", () => {
    expect(read(`\ufeff${bytes}{\r\n1,\r2,\n3\r\n};`)).toEqual({ a: [1, 2, 3] });
  });

  it("several thousand elements, and values beyond 32 bits", () => {
    const many = Array.from({ length: 10_000 }, (_, i) => i);
    expect(read(`const uint32_t a[] = { ${many.join(", ")} };`)).toEqual({ a: many });
    expect(read("const uint32_t a[] = { 0xFFFFFFFF, 4294967296, 2147483648 };")).toEqual({
      a: [4294967295, 0, 2147483648],
    });
    expect(read("const uint64_t a[] = { 0xFFFFFFFFFFFFFFFFull, 0x123456789ABCDEFull, -1 };")).toEqual({
      a: ["18446744073709551615", "81985529216486895", "18446744073709551615"],
    });
    expect(read("const int64_t a[] = { -9007199254740993 };")).toEqual({ a: ["-9007199254740993"] });
  });

  it("spans are those of the literals", () => {
    const text = `${bytes}{ 0x0F, /* , */ 'x',\n  (1 + 2) };`;
    const array = readSource(text, { target: "host" }).arrays[0];
    const { starts, lengths } = array?.list ?? { starts: [], lengths: [] };
    const begins = Array.from(starts, (s) => (array?.base ?? 0) + s);
    expect(begins.map((b, i) => text.slice(b, b + (lengths[i] ?? 0)))).toEqual(["0x0F", "'x'", "(1 + 2)"]);
  });

  it("a literal longer than a byte can count keeps its whole span", () => {
    const long = `0x${"0".repeat(300)}1F`;
    const text = `${bytes}{ 1, ${long}, 300 };`;
    const array = readSource(text, { target: "host" }).arrays[0];
    if (!array) throw new Error("the array is missing");
    const { start, end } = elementSpan(array, 1);
    expect(text.slice(start, end)).toBe(long);
    expect(storedValues(array)).toEqual([1, 0x1f, 300 % 256]);
  });
});

describe("a new version of a text", () => {
  /** [before, after]: what is read of the second is the same with the first at hand. */
  it.each([
    [`${bytes}{ 1, 2 };\n${next}`, `${bytes}{ 1, 3 };\n${next}`],
    [`${bytes}{ 1, 2 };\n${next}`, `int x;\n${bytes}{ 1, 2 };\n${next}`],
    [`${bytes}{ 1, 2 };\n${next}`, `${next}`],
    [`${bytes}{ 1, 2 };\n${next}`, `${bytes}{ 1, 2, `],
    [`#define ON 1\n${bytes}{ ON };`, `#define ON 2\n${bytes}{ ON };`],
    [`${bytes}{ 1, 2 };`, `/* ${bytes}{ 1, 2 }; */`],
    [`const uint8_t a[] = { 1, 2 };`, `const uint16_t a[3] = { 1, 2 };`],
    ["", `${bytes}{ 1 };`],
  ])("%j -> %j", (before, after) => {
    const first = readSource(before, { target: "host" });
    const second = readSource(after, { target: "host", previous: first });
    const anew = readSource(after, { target: "host" });
    const shown = (file: typeof anew) => file.arrays.map((a) => [a.name, a.base, a.readOnly, storedValues(a)]);
    expect(shown(second)).toEqual(shown(anew));
  });
});
