import type { Span } from "./text.ts";

/** The compiler that stores the array: it decides the widths of `int`, `long` and the sign of `char`. */
export type Target = "avr" | "arm32" | "host";

/** An integer type as the compiler stores it. */
export interface IntType {
  readonly kind: "int";
  readonly bits: 8 | 16 | 32 | 64;
  readonly signed: boolean;
  /** `bool`: every value but 0 is stored as 1. */
  readonly truth?: true;
}

/** A type that an initialiser can have, as far as this file tells. */
export type CType =
  | IntType
  | {
      readonly kind: "array";
      readonly of: CType;
      readonly count: number | undefined;
      /** Where the size of a `std::array` stands. */
      readonly span?: Span;
      /** The struct that a `std::array` in another one is: an array of one array, as far as braces go. */
      readonly shell?: true;
    }
  | {
      readonly kind: "struct";
      readonly members: readonly { readonly name: string; readonly type: CType }[];
      /** It is a `std::array`. */
      readonly standard?: true;
    }
  | { readonly kind: "other"; readonly why: string; readonly pointer?: true };

/** An integer with its type, as constant expressions compute it. */
export interface Typed {
  readonly value: bigint;
  readonly bits: number;
  readonly signed: boolean;
  /** C and C++ (or the choice of an enum's type) give it different sizes, so `sizeof` says nothing sure of it. */
  readonly unsized?: true;
}

interface Widths {
  readonly int: 16 | 32;
  readonly long: 32 | 64;
  readonly pointer: 16 | 32 | 64;
  readonly charSigned: boolean;
}

/** Data models: avr-gcc and AAPCS32 ABIs, and the LP64 model of x86-64 System V. */
export const WIDTHS: Readonly<Record<Target, Widths>> = {
  avr: { int: 16, long: 32, pointer: 16, charSigned: true },
  arm32: { int: 32, long: 32, pointer: 32, charSigned: false },
  host: { int: 32, long: 64, pointer: 64, charSigned: true },
};

const TYPE_WORDS = new Set(["char", "short", "int", "long", "signed", "unsigned", "bool", "_Bool"]);

/** Whether the word is part of the name of a built-in integer type. */
export function isTypeWord(word: string): boolean {
  return TYPE_WORDS.has(word);
}

/** The built-in integer type that a set of words such as `unsigned long` names; undefined for another set. */
export function builtinType(words: readonly string[], target: Target): IntType | undefined {
  const count = (word: string) => words.filter((w) => w === word).length;
  const widths = WIDTHS[target];
  const unsigned = count("unsigned") > 0;
  const longs = count("long");
  if (count("bool") + count("_Bool") > 0) {
    return words.length === 1 ? { kind: "int", bits: 8, signed: false, truth: true } : undefined;
  }
  if (unsigned && count("signed") > 0) return undefined;
  if (count("char") > 0) {
    const signed = count("signed") > 0 || (!unsigned && widths.charSigned);
    return longs + count("short") > 0 ? undefined : { kind: "int", bits: 8, signed };
  }
  if (count("short") > 0) return longs > 0 ? undefined : { kind: "int", bits: 16, signed: !unsigned };
  if (longs > 2) return undefined;
  const bits = longs === 2 ? 64 : longs === 1 ? widths.long : widths.int;
  return { kind: "int", bits, signed: !unsigned };
}

/** The integer types that `<stdint.h>`, `<stddef.h>` and the core of sketches name. */
export function namedType(name: string, target: Target): IntType | undefined {
  const exact = /^(u?)int(?:_(least|fast))?(8|16|32|64)_t$/.exec(name);
  if (exact) {
    const least = Number(exact[3]) as IntType["bits"];
    return { kind: "int", bits: exact[2] === "fast" ? fastBits(least, target) : least, signed: exact[1] === "" };
  }
  const widths = WIDTHS[target];
  const unsigned = (bits: IntType["bits"]): IntType => ({ kind: "int", bits, signed: false });
  switch (name) {
    case "byte":
    case "char8_t":
      return unsigned(8);
    case "boolean":
      return { kind: "int", bits: 8, signed: false, truth: true };
    case "char16_t":
      return unsigned(16);
    case "char32_t":
      return unsigned(32);
    case "wchar_t":
      return wideCharacter(target);
    case "word":
      return unsigned(widths.int);
    case "uintmax_t":
      return unsigned(64);
    case "intmax_t":
      return { kind: "int", bits: 64, signed: true };
    case "size_t":
    case "uintptr_t":
      return unsigned(widths.pointer);
    case "ptrdiff_t":
    case "intptr_t":
    case "ssize_t":
      return { kind: "int", bits: widths.pointer, signed: true };
    default:
      return undefined;
  }
}

/**
 * Width of `int_fastN_t`: avr-gcc takes the exact widths and glibc on x86-64 8 or 64 (both judged by compiling);
 * newlib on Arm takes `int` up to 32 bits (from memory of GCC's newlib-stdint.h).
 */
function fastBits(least: IntType["bits"], target: Target): IntType["bits"] {
  if (target === "host") return least === 8 ? 8 : 64;
  return target === "arm32" && least < 32 ? 32 : least;
}

/** `wchar_t`: int for avr-gcc and on x86-64 Linux, unsigned int under AAPCS32. */
export function wideCharacter(target: Target): IntType {
  return { kind: "int", bits: WIDTHS[target].int, signed: target !== "arm32" };
}

/** Bytes of a type; undefined where they are not known, also for structs that may have padding. */
export function bytesOf(type: CType, target: Target): number | undefined {
  if (type.kind === "int") return type.bits / 8;
  if (type.kind === "array") {
    const one = bytesOf(type.of, target);
    return type.count === undefined || one === undefined ? undefined : type.count * one;
  }
  if (type.kind !== "struct" || type.members.length === 0) return undefined;
  const sizes = type.members.map((m) => bytesOf(m.type, target));
  if (sizes.some((s) => s === undefined)) return undefined;
  const total = (sizes as number[]).reduce((sum, s) => sum + s, 0);
  // Without padding there is no doubt: avr-gcc aligns nothing, and bytes need no alignment.
  return target === "avr" || type.members.every((m) => isBytes(m.type)) ? total : undefined;
}

function isBytes(type: CType): boolean {
  if (type.kind === "array") return isBytes(type.of);
  return type.kind === "int" ? type.bits === 8 : type.kind === "struct" && type.members.every((m) => isBytes(m.type));
}

/** The value that the compiler stores for `value` in an element of this type (two's complement, truncated). */
export function stored(value: bigint, type: IntType): bigint {
  if (type.truth) return value === 0n ? 0n : 1n;
  return type.signed ? BigInt.asIntN(type.bits, value) : BigInt.asUintN(type.bits, value);
}

/** `stored` for numbers that a double holds exactly and elements of at most 32 bits. */
export function storedNumber(value: number, type: IntType): number {
  if (type.truth) return value === 0 ? 0 : 1;
  if (type.bits === 64 || !Number.isSafeInteger(value)) return Number(stored(BigInt(value), type));
  const unsigned = type.bits === 32 ? value >>> 0 : value & ((1 << type.bits) - 1);
  if (!type.signed) return unsigned;
  return type.bits === 32 ? unsigned | 0 : (unsigned << (32 - type.bits)) >> (32 - type.bits);
}

/** Smallest and largest value of an integer type. */
export function limits(type: IntType): { readonly least: bigint; readonly most: bigint } {
  if (type.truth) return { least: 0n, most: 1n };
  return type.signed
    ? { least: -(1n << BigInt(type.bits - 1)), most: (1n << BigInt(type.bits - 1)) - 1n }
    : { least: 0n, most: (1n << BigInt(type.bits)) - 1n };
}
