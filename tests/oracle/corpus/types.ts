import { INT_BITS, LONG_BITS, type PerTarget } from "./arithmetic.ts";

/** An element type: how it is spelled, one entry a word, and how each compiler stores it. */
export interface ElementType {
  readonly words: readonly string[];
  readonly bits: PerTarget<number>;
  readonly signed: boolean;
}

const same = (bits: number): PerTarget<number> => ({ avr: bits, host: bits });
const type = (words: string, bits: PerTarget<number>, signed: boolean): ElementType => ({
  words: words.split(" "),
  bits,
  signed,
});

/**
 * Integer types of the language, `<stdint.h>` and the core of sketches, with their widths in the avr-gcc and LP64 data
 * models. The compilers confirm this table in harness.test.ts.
 */
export const TYPES: readonly ElementType[] = [
  ...[8, 16, 32, 64].flatMap((bits) => [
    type(`uint${bits}_t`, same(bits), false),
    type(`int${bits}_t`, same(bits), true),
    type(`uint_least${bits}_t`, same(bits), false),
  ]),
  type("unsigned char", same(8), false),
  type("signed char", same(8), true),
  type("char", same(8), true),
  type("bool", same(8), false),
  type("short", same(16), true),
  type("unsigned short", same(16), false),
  type("short int", same(16), true),
  type("unsigned short int", same(16), false),
  type("int", INT_BITS, true),
  type("signed", INT_BITS, true),
  type("unsigned", INT_BITS, false),
  type("unsigned int", INT_BITS, false),
  type("long", LONG_BITS, true),
  type("unsigned long", LONG_BITS, false),
  type("unsigned long int", LONG_BITS, false),
  type("long long", same(64), true),
  type("unsigned long long", same(64), false),
  type("byte", same(8), false),
  type("boolean", same(8), false),
  type("word", INT_BITS, false),
  type("size_t", { avr: 16, host: 64 }, false),
  type("uint_fast8_t", same(8), false),
  type("int_fast8_t", same(8), true),
  type("uint_fast16_t", { avr: 16, host: 64 }, false),
  type("int_fast32_t", { avr: 32, host: 64 }, true),
  type("wchar_t", INT_BITS, true),
];

/** The types that display arrays mostly have; the corpus draws from these more often. */
export const COMMON = TYPES.filter(({ words }) => /^(uint(8|16|32)_t|char|unsigned)$/.test(words.join(" ")));

export function isBool(type: ElementType): boolean {
  return ["bool", "boolean"].includes(type.words.join(" "));
}
