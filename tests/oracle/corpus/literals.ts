import { INT_BITS, LONG_BITS, type Typed } from "./arithmetic.ts";
import type { Random } from "./random.ts";
import { atom, perTarget, type Term } from "./terms.ts";

export const STYLES = [
  "hex",
  "hex-mixed",
  "decimal",
  "octal",
  "binary",
  "binary-macro",
  "character",
  "suffix",
  "separator",
] as const;
export type Style = (typeof STYLES)[number];

/** A literal of a value ≥ 0 in the style; where the style can't spell the value, in hex. */
export function literal(random: Random, value: bigint, style: Style): Term {
  switch (style) {
    case "hex":
      return number(hex(random, value, value < 256n ? 2 : 4), "");
    case "hex-mixed":
      return number(hex(random, value, random.pick([1, 2, 2, 4, 8])), "");
    case "decimal":
      return value > 0x7fff_ffff_ffff_ffffn ? number(hex(random, value, 16), "") : number(String(value), "");
    case "octal":
      return number(`0${value.toString(8)}`, "");
    case "binary":
      return number(`0${random.pick(["b", "b", "B"])}${value.toString(2).padStart(random.pick([1, 8, 8]), "0")}`, "");
    case "binary-macro":
      return value < 256n ? binaryMacro(random, Number(value)) : literal(random, value, "hex");
    case "character":
      return value < 256n ? character(random, Number(value)) : literal(random, value, "hex");
    case "suffix":
      return suffixed(random, value);
    case "separator":
      return separated(random, value);
  }
}

/** Text plus suffix, with the type that [lex.icon] table 8 gives it. */
function number(digits: string, suffix: string): Term {
  const value = BigInt(
    digits
      .replaceAll("'", "")
      .replace(/^0(?=[0-7])/, "0o")
      .toLowerCase(),
  );
  const decimal = !/^0./.test(digits);
  return atom(
    digits + suffix,
    perTarget((target) => {
      const unsignedOnly = /u/i.test(suffix);
      const widths = /ll/i.test(suffix)
        ? [64]
        : /l/i.test(suffix)
          ? [LONG_BITS[target], 64]
          : [INT_BITS[target], LONG_BITS[target], 64];
      for (const bits of widths) {
        if (!unsignedOnly && value < 1n << BigInt(bits - 1)) return { value, bits, signed: true };
        if ((unsignedOnly || !decimal) && value < 1n << BigInt(bits)) return { value, bits, signed: false };
      }
      throw new RangeError(`${digits}${suffix} has no type`);
    }),
  );
}

function hex(random: Random, value: bigint, digits: number): string {
  const text = value.toString(16).padStart(digits, "0");
  return (random.chance(0.1) ? "0X" : "0x") + (random.chance(0.5) ? text.toUpperCase() : text);
}

/** `B…` names of 1 to 8 digits, as the core of sketches defines them (binary.h); they expand to decimal literals. */
function binaryMacro(random: Random, value: number): Term {
  const digits = value.toString(2).padStart(random.pick([8, 8, 8, 1]), "0");
  return atom(
    `B${digits}`,
    perTarget((target): Typed => ({ value: BigInt(value), bits: INT_BITS[target], signed: true })),
  );
}

const ESCAPES: Readonly<Record<number, string>> = {
  0: "\\0",
  7: "\\a",
  8: "\\b",
  9: "\\t",
  10: "\\n",
  11: "\\v",
  12: "\\f",
  13: "\\r",
  34: '"',
  39: "\\'",
  63: "\\?",
  92: "\\\\",
};

/** A character literal of the byte; it has type `char`, signed for both compilers. */
function character(random: Random, byte: number): Term {
  const numeric = random.chance(0.5)
    ? `\\x${byte.toString(16)}`
    : `\\${byte.toString(8).padStart(random.pick([1, 3]), "0")}`;
  const plain = byte >= 32 && byte < 127 ? String.fromCharCode(byte) : undefined;
  const body = ESCAPES[byte] ?? (random.chance(0.8) ? plain : undefined) ?? numeric;
  return atom(
    `'${body}'`,
    perTarget(() => ({ value: BigInt.asIntN(8, BigInt(byte)), bits: 8, signed: true })),
  );
}

function suffixed(random: Random, value: bigint): Term {
  const wide = ["ULL", "ull", "uLL", "LLU", "llu"];
  const long = value < 1n << 31n ? ["L", "l", "UL", "ul", "uL", "LU", "LL", "ll"] : ["UL", "ul"];
  const suffix = random.pick(
    value < 1n << 15n ? ["u", "U", ...long, ...wide] : value < 1n << 32n ? [...long, ...wide] : wide,
  );
  const digits = random.pick([String(value), hex(random, value, 2), `0b${value.toString(2)}`]);
  return number(digits, suffix);
}

function separated(random: Random, value: bigint): Term {
  const group = (text: string, size: number) =>
    text.replace(new RegExp(`(?<=[0-9a-fA-F])(?=(?:[0-9a-fA-F]{${size}})+$)`, "g"), "'");
  if (value >= 1000n && value < 1n << 31n && random.chance(0.4)) return number(group(String(value), 3), "");
  if (random.chance(0.5)) return number(`0b${group(value.toString(2).padStart(8, "0"), 4)}`, "");
  return number(`0x${group(value.toString(16).padStart(4, "0"), 2)}`, "");
}
