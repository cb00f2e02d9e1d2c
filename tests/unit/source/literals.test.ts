import { describe, expect, it } from "vitest";
import {
  characterValue,
  literalStyle,
  literalValue,
  spellCharacter,
  spellLike,
} from "../../../shared/source/literals.ts";
import type { Target } from "../../../shared/source/types.ts";

/** [literal as written, new value, literal in the same style] */
const respelt: [string, bigint, string][] = [
  ["0x0f", 255n, "0xff"],
  ["0x0F", 255n, "0xFF"],
  ["0X0F", 255n, "0XFF"],
  ["0X0f", 255n, "0Xff"],
  ["0x00", 171n, "0xab"],
  ["0X00", 171n, "0XAB"],
  ["0xF", 10n, "0xA"],
  ["0xf", 16n, "0x10"],
  ["0xfF", 171n, "0xab"],
  ["0x001F", 0n, "0x0000"],
  ["0x001F", 65535n, "0xFFFF"],
  ["0x12345678", 1n, "0x00000001"],
  ["0xFFULL", 1n, "0x01ULL"],
  ["0xffu", 18n, "0x12u"],
  ["0xFFFFFFFFFFFFFFFFULL", 2n ** 63n, "0x8000000000000000ULL"],
  ["0b00110000", 5n, "0b00000101"],
  ["0B0011", 15n, "0B1111"],
  ["0b1", 2n, "0b10"],
  ["0b1111'0000", 15n, "0b0000'1111"],
  ["0x12'34", 5n, "0x00'05"],
  ["0x12'34", 0x12345n, "0x123'45"],
  ["B00110000", 129n, "B10000001"],
  ["B1", 5n, "B101"],
  ["B11111111", 256n, "0x100"],
  ["0102", 7n, "0007"],
  ["07", 255n, "0377"],
  ["00", 8n, "010"],
  ["0", 64n, "64"],
  ["64", 0n, "0"],
  ["255", 7n, "7"],
  ["7u", 12n, "12u"],
  ["0u", 12n, "12u"],
  ["1L", 300n, "300L"],
  ["1'000", 2500n, "2'500"],
  ["1'000", 64n, "64"],
  ["10'000'000", 1234567n, "1'234'567"],
  ["-5", 5n, "5"],
  ["5", -5n, "-5"],
  ["- 5", -7n, "-7"],
  ["+5", 7n, "7"],
];

describe("a literal in the style of another", () => {
  it.each(respelt)("%s for %s is %s", (before, value, after) => {
    const style = literalStyle(before);
    expect(style && spellLike(style, value)).toBe(after);
  });
});

const notLiterals = [
  "",
  "x",
  "1.5",
  "0x",
  "0b",
  "0b2",
  "B2",
  "B111111111",
  "B1u",
  "1e3",
  "08",
  "1uu",
  "1lul",
  "1Ll",
  "1''000",
  "0x'12",
  "0x12'",
  "0b1''0",
  "0'",
  "'A'",
  "1+1",
  "ON",
];

describe("not an integer literal", () => {
  it.each(notLiterals)("%j", (text) => {
    expect(literalStyle(text)).toBeUndefined();
  });
});

/** C17 6.4.4.1 paragraph 5 (clause from memory): the first type of the list that holds the value. [text, target, value, bits, signed] */
const typed: [string, Target, bigint, number, boolean][] = [
  ["32767", "avr", 32767n, 16, true],
  ["32768", "avr", 32768n, 32, true],
  ["32768", "host", 32768n, 32, true],
  ["0x7FFF", "avr", 32767n, 16, true],
  ["0x8000", "avr", 32768n, 16, false],
  ["0xFFFF", "avr", 65535n, 16, false],
  ["0x10000", "avr", 65536n, 32, true],
  ["0x8000", "host", 32768n, 32, true],
  ["0xFFFFFFFF", "host", 0xffffffffn, 32, false],
  ["4294967295", "host", 0xffffffffn, 64, true],
  ["4294967295", "arm32", 0xffffffffn, 64, true],
  ["2147483648", "avr", 2147483648n, 64, true],
  ["1u", "avr", 1n, 16, false],
  ["65536u", "avr", 65536n, 32, false],
  ["1l", "avr", 1n, 32, true],
  ["1L", "host", 1n, 64, true],
  ["1L", "arm32", 1n, 32, true],
  ["1ull", "arm32", 1n, 64, false],
  ["1LLU", "avr", 1n, 64, false],
  ["0377", "host", 255n, 32, true],
  ["0b1000'0000", "avr", 128n, 16, true],
  ["0", "avr", 0n, 16, true],
];

describe("value and type of a literal", () => {
  it.each(typed)("%s on %s", (text, target, value, bits, signed) => {
    expect(literalValue(text, target)).toEqual({ value, bits, signed });
  });

  it.each(["18446744073709551616", "9223372036854775808", "-1", "1.0"])("%s has none", (text) => {
    expect(literalValue(text, "host")).toBeUndefined();
  });
});

/** Escapes: C17 6.4.4.4 (clause from memory). [text, value on the host] */
const characters: [string, bigint | undefined][] = [
  ["'A'", 65n],
  ["' '", 32n],
  ["'\\0'", 0n],
  ["'\\n'", 10n],
  ["'\\t'", 9n],
  ["'\\\\'", 92n],
  ["'\\''", 39n],
  ["'\\x1f'", 31n],
  ["'\\xff'", -1n],
  ["'\\377'", -1n],
  ["'\\101'", 65n],
  ["'\\u0041'", 65n],
  ["'\\x100'", undefined],
  ["'\\400'", undefined],
  ["'\\q'", undefined],
  ["'ab'", undefined],
  ["'ä'", undefined],
  ["'\ufffd'", undefined],
  ["''", undefined],
  ["'A", undefined],
];

describe("value of a character literal", () => {
  it.each(characters)("%s is %s", (text, value) => {
    expect(characterValue(text, "host")?.value).toBe(value);
  });

  it("char is unsigned for ARM (AAPCS32, table of basic types)", () => {
    expect(characterValue("'\\xff'", "arm32")).toEqual({ value: 255n, bits: 8, signed: false });
  });
});

describe("a value as a character literal", () => {
  it.each([
    [65n, "'A'"],
    [32n, "' '"],
    [39n, "'\\''"],
    [92n, "'\\\\'"],
    [126n, "'~'"],
    [31n, undefined],
    [127n, undefined],
    [-1n, undefined],
  ] as [bigint, string | undefined][])("%s is %s", (value, text) => {
    expect(spellCharacter(value)).toBe(text);
  });
});
