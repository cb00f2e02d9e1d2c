import { describe, expect, it } from "vitest";
import type { IntType, Target } from "../../../shared/source/types.ts";
import { builtinType, limits, namedType, stored, storedNumber } from "../../../shared/source/types.ts";

const shown = (type: IntType | undefined) => type && `${type.truth ? "bool" : type.signed ? "s" : "u"}${type.bits}`;

/** Widths of the avr-gcc ABI, AAPCS32 and the System V x86-64 ABI. [words, avr, arm32, host] */
const builtin: [string, ...(string | undefined)[]][] = [
  ["char", "s8", "u8", "s8"],
  ["signed char", "s8", "s8", "s8"],
  ["unsigned char", "u8", "u8", "u8"],
  ["short", "s16", "s16", "s16"],
  ["unsigned short int", "u16", "u16", "u16"],
  ["int", "s16", "s32", "s32"],
  ["unsigned", "u16", "u32", "u32"],
  ["long", "s32", "s32", "s64"],
  ["long int unsigned", "u32", "u32", "u64"],
  ["long long", "s64", "s64", "s64"],
  ["bool", "bool8", "bool8", "bool8"],
  ["_Bool", "bool8", "bool8", "bool8"],
  ["unsigned bool", undefined, undefined, undefined],
  ["signed unsigned", undefined, undefined, undefined],
  ["long char", undefined, undefined, undefined],
  ["long short", undefined, undefined, undefined],
  ["long long long", undefined, undefined, undefined],
];

/** <stdint.h>, <stddef.h> and the core of sketches. [name, avr, arm32, host] */
const named: [string, ...(string | undefined)[]][] = [
  ["uint8_t", "u8", "u8", "u8"],
  ["int64_t", "s64", "s64", "s64"],
  ["uint_least16_t", "u16", "u16", "u16"],
  ["uint_fast8_t", "u8", "u32", "u8"],
  ["int_fast16_t", "s16", "s32", "s64"],
  ["uint_fast32_t", "u32", "u32", "u64"],
  ["wchar_t", "s16", "u32", "s32"],
  ["uintmax_t", "u64", "u64", "u64"],
  ["int_fast8_t", "s8", "s32", "s8"],
  ["char8_t", "u8", "u8", "u8"],
  ["char16_t", "u16", "u16", "u16"],
  ["char32_t", "u32", "u32", "u32"],
  ["size_t", "u16", "u32", "u64"],
  ["ptrdiff_t", "s16", "s32", "s64"],
  ["byte", "u8", "u8", "u8"],
  ["boolean", "bool8", "bool8", "bool8"],
  ["word", "u16", "u32", "u32"],
  ["uint24_t", undefined, undefined, undefined],
  ["float", undefined, undefined, undefined],
];

const targets: Target[] = ["avr", "arm32", "host"];

describe("types of each target", () => {
  it.each(builtin)("%s", (words, ...expected) => {
    expect(targets.map((target) => shown(builtinType(words.split(" "), target)))).toEqual(expected);
  });

  it.each(named)("%s", (name, ...expected) => {
    expect(targets.map((target) => shown(namedType(name, target)))).toEqual(expected);
  });
});

/** [type, value, as stored]: two's complement, truncated; a bool is 0 or 1. */
const values: [IntType, bigint, bigint][] = [
  [{ kind: "int", bits: 8, signed: false }, 256n, 0n],
  [{ kind: "int", bits: 8, signed: false }, -1n, 255n],
  [{ kind: "int", bits: 8, signed: true }, 128n, -128n],
  [{ kind: "int", bits: 16, signed: true }, 65535n, -1n],
  [{ kind: "int", bits: 32, signed: false }, -1n, 4294967295n],
  [{ kind: "int", bits: 32, signed: true }, 2147483648n, -2147483648n],
  [{ kind: "int", bits: 32, signed: false }, 4294967296n, 0n],
  [{ kind: "int", bits: 8, signed: false, truth: true }, -7n, 1n],
  [{ kind: "int", bits: 8, signed: false, truth: true }, 0n, 0n],
];

describe("what is stored", () => {
  it.each(values)("%o: %s is %s", (type, value, expected) => {
    expect(stored(value, type)).toBe(expected);
    expect(storedNumber(Number(value), type)).toBe(Number(expected));
    const { least, most } = limits(type);
    expect(expected >= least && expected <= most).toBe(true);
    expect([stored(least, type), stored(most, type)]).toEqual([least, most]);
  });
});
