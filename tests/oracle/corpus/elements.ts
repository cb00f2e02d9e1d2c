import { wrap } from "./arithmetic.ts";
import { literal, STYLES } from "./literals.ts";
import type { Random } from "./random.ts";
import { atom, cast, expression, perTarget, type Term } from "./terms.ts";
import { type ElementType, isBool } from "./types.ts";
import type { Vocabulary } from "./vocabulary.ts";

export const KINDS = [...STYLES, "cast", "name", "expression", "negative", "out-of-range", "mixed"] as const;
export type Kind = (typeof KINDS)[number];

/** The source text of one element of an array of the type, in the kind of spelling that its array has. */
export function elementText(random: Random, type: ElementType, kind: Kind, names: Vocabulary): string {
  return term(random, type, kind, names).text;
}

function term(random: Random, type: ElementType, kind: Kind, names: Vocabulary): Term {
  const bits = Math.min(type.bits.avr, type.bits.host);
  const value = () => (isBool(type) ? BigInt(random.int(0, 1)) : magnitude(random, type.signed ? bits - 1 : bits));
  switch (kind) {
    case "mixed":
      return term(random, type, random.pick(KINDS.filter((other) => other !== "mixed")), names);
    case "name":
      return random.chance(0.7) ? random.pick(names.values) : literal(random, value(), "decimal");
    case "cast":
      return cast(random, literal(random, magnitude(random, 16), random.pick(["hex", "decimal", "binary"])));
    case "negative":
      return negative(
        literal(random, magnitude(random, Math.min(bits - 1, 15)), random.pick(["decimal", "hex", "suffix"])),
      );
    case "out-of-range":
      return literal(random, magnitude(random, Math.min(64, bits + 8)), random.pick(["hex", "decimal", "suffix"]));
    case "expression":
      return expression(random, () => leaf(random, bits, names), random.int(1, 3));
    default:
      return isBool(type) && random.chance(0.4) ? truth(random) : literal(random, value(), kind);
  }
}

/** What operators work on: small numbers, numbers about the edges of 16 bits, characters and the file's names. */
function leaf(random: Random, bits: number, names: Vocabulary): Term {
  const roll = random.int(0, 9);
  if (roll < 2) return random.pick(names.values);
  if (roll < 4)
    return literal(
      random,
      BigInt(random.pick([0x7fff, 0x8000, 0xffff, 0x10000, 40000, 32767, 32768])),
      random.pick(["hex", "decimal", "suffix"]),
    );
  if (roll < 6) return literal(random, magnitude(random, Math.min(bits, 16)), random.pick(STYLES));
  return literal(random, BigInt(random.int(0, 17)), random.pick(["decimal", "hex", "octal", "suffix", "binary"]));
}

function negative(operand: Term): Term {
  return {
    ...operand,
    text: `-${operand.text}`,
    worth: perTarget((t) => wrap(-operand.worth[t].value, operand.worth[t].bits, true)),
  };
}

function truth(random: Random): Term {
  const on = random.chance(0.5);
  return atom(
    String(on),
    perTarget(() => ({ value: on ? 1n : 0n, bits: 8, signed: false })),
  );
}

/** A value below 2^bits; small ones, both ends and single bits come up often. */
function magnitude(random: Random, bits: number): bigint {
  const most = (1n << BigInt(bits)) - 1n;
  const roll = random.int(0, 9);
  if (roll === 0) return most;
  if (roll === 1) return 0n;
  if (roll === 2) return 1n << BigInt(random.int(0, bits - 1));
  const limbs = [0, 1, 2, 3].map(() => BigInt(random.int(0, 0xffff)));
  return limbs.reduce((all, limb) => (all << 16n) | limb, 0n) & most;
}
