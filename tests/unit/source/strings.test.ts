import { describe, expect, it } from "vitest";
import { elementSpan } from "../../../shared/source/arrays.ts";
import { readSource } from "../../../shared/source/read.ts";
import { rewriteElements } from "../../../shared/source/rewrite.ts";
import { applyEdits } from "../../../shared/source/text.ts";
import { firstArray, type Read, read } from "./reading.ts";

// C17 6.4.4.4, 6.4.5 and 6.7.9; the values are also judged by compiling (tests/oracle).
const strings: [string, string, Read][] = [
  ["an implicit NUL", 'const char a[] = "ab";', [97, 98, 0]],
  ["exactly full, as C allows", 'const uint8_t a[2] = "ab";', [97, 98]],
  ["zero-filled", 'const uint8_t a[5] = "ab";', [97, 98, 0, 0, 0]],
  ["escapes of each kind", String.raw`const uint8_t a[] = "\x41\101\n\0\\\"\377";`, [65, 65, 10, 0, 92, 34, 255, 0]],
  ["hexadecimal takes all digits, octal three", String.raw`const uint8_t a[] = "\x4g\1018";`, [4, 103, 65, 56, 0]],
  ["in pieces, with comments between", 'const uint8_t a[] = "a" /* "x" */\n  "b" // "c"\n "d";', [97, 98, 100, 0]],
  ["a piece ends an escape", String.raw`const uint8_t a[] = "\x4" "1";`, [4, 49, 0]],
  ["UTF-8", 'const uint8_t a[] = "\u00fc\u2744";', [195, 188, 226, 157, 132, 0]],
  ["a universal name", String.raw`const uint8_t a[] = "\u00fc";`, [195, 188, 0]],
  ["u8", 'const uint8_t a[] = u8"a";', [97, 0]],
  ["raw", String.raw`const uint8_t a[] = R"x(\n")")x";`, [92, 110, 34, 41, 34, 0]],
  ["raw with CR LF is one newline", 'const uint8_t a[] = R"(a\r\nb)";', [97, 10, 98, 0]],
  ["16 bits", String.raw`const char16_t a[] = u"a\x1234\U0001F331";`, [97, 0x1234, 0xd83c, 0xdf31, 0]],
  ["32 bits", 'const char32_t a[] = U"\u2744";', [0x2744, 0]],
  ["wide", 'const wchar_t a[] = L"ab";', [97, 98, 0]],
  ["joined over lines", 'const uint8_t a[] = "a\\\nb";', [97, 98, 0]],
  ["in braces", 'const uint8_t a[] = { "ab" };', [97, 98, 0]],
  ["rows of strings", 'const char a[3][4] = { "abc", "de" };', [97, 98, 99, 0, 100, 101, 0, 0, 0, 0, 0, 0]],
  ["rows of strings and numbers", 'const char a[2][2] = { "a", { 1 } };', [97, 0, 1, 0]],
  ["undecodable bytes", 'const uint8_t a[] = "a\ufffd";', "it holds bytes that are no text in this file's encoding"],
  ["an escape that is none", String.raw`const uint8_t a[] = "\q";`, "`\\q` is no escape that can be read"],
  ["too narrow", 'const uint16_t a[] = "ab";', "a string of 8-bit characters is given to elements of 16 bits"],
];

describe("strings", () => {
  it.each(strings)("%s", (_what, source, expected) => {
    expect(read(source, "host").a).toEqual(expected);
  });

  it("the bytes of a file that is not UTF-8 are what the compiler copies", () => {
    const [array] = readSource('const uint8_t a[] = "\u00fc";', { target: "host", bytes: true }).arrays;
    expect(array?.list?.values[0]).toBe(0xfc);
  });

  it("each unit has its own place", () => {
    const text = String.raw`const char a[] = "x\x41" "\7";`;
    const array = firstArray(text);
    const tokens = [0, 1, 2].map((i) => text.slice(elementSpan(array, i).start, elementSpan(array, i).end));
    expect(tokens).toEqual(["x", "\\x41", "\\7"]);
  });

  it("a string that is no initialiser of an array is none", () => {
    expect(Object.keys(read('const char *p = "a"; char c = "b"[0]; void f(const char a[] = "x");'))).toEqual([]);
  });
});

/** Source, element, new value, source after. */
const rewritten: [string, string, number, number, string][] = [
  ["hexadecimal", String.raw`"\x1F\x20"`, 0, 0xab, String.raw`"\xAB\x20"`],
  ["hexadecimal in lower case", String.raw`"\x1f"`, 0, 0xab, String.raw`"\xab"`],
  ["octal", String.raw`"\001\2"`, 0, 0xff, String.raw`"\377\2"`],
  ["short octal before a digit", String.raw`"\2z7"`, 1, 0x37, String.raw`"\2\0677"`],
  ["a character", '"abc"', 1, 122, '"azc"'],
  ["a character to a quote", '"abc"', 1, 34, String.raw`"a\"c"`],
  ["a character to none", '"abc"', 1, 1, String.raw`"a\001c"`],
  ["a character to none, among hexadecimal escapes", String.raw`"\x01 gz"`, 1, 2, String.raw`"\x01\x02gz"`],
  ["before a hexadecimal digit", String.raw`"\x01 bc"`, 1, 2, String.raw`"\x01\002bc"`],
  ["a digit after a hexadecimal escape", String.raw`"\x01z"`, 1, 97, String.raw`"\x01\x61"`],
  ["after a piece, a digit stands alone", String.raw`"\x01" "z"`, 1, 97, String.raw`"\x01" "a"`],
  ["a simple escape", String.raw`"\n"`, 0, 9, String.raw`"\t"`],
  ["no trigraph", '"a?b="', 2, 63, String.raw`"a?\?="`],
  ["part of a UTF-8 character", '"\u00fcx"', 0, 0xc4, String.raw`"\304\274x"`],
  ["in a raw string", 'R"(ab)"', 0, 99, 'R"(cb)"'],
];

describe("strings written back", () => {
  it.each(rewritten)("%s", (_what, string, slot, value, after) => {
    const text = `const uint8_t a[] = ${string};`;
    const edited = rewriteElements(text, firstArray(text), [{ slot, bits: BigInt(value) }]);
    if ("refused" in edited) throw new Error(edited.refused);
    const now = applyEdits(text, edited.edits);
    expect(now).toBe(`const uint8_t a[] = ${after};`);
    expect((read(now).a as number[])[slot]).toBe(value);
  });

  it("writes up to the NUL that C++ keeps", () => {
    const text = 'const uint8_t a[5] = "x";';
    const array = firstArray(text);
    const edited = rewriteElements(text, array, [{ slot: 3, bits: 7n }]);
    expect("edits" in edited && applyEdits(text, edited.edits)).toBe(String.raw`const uint8_t a[5] = "x\000\000\007";`);
    expect(rewriteElements(text, array, [{ slot: 4, bits: 7n }])).toEqual({
      refused: "element 4 of a can't be edited: it is the NUL that ends a string",
    });
  });

  it("a raw string has no way to write a control character", () => {
    const text = 'const uint8_t a[] = R"(ab)";';
    expect(rewriteElements(text, firstArray(text), [{ slot: 0, bits: 1n }])).toEqual({
      refused: "a can't be edited there: a raw string has no escapes",
    });
  });
});
