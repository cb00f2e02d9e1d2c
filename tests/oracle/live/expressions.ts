/** Random expressions of mixed types, as functions of C: what they give is told apart to the last bit. */
import type { Random } from "../corpus/random.ts";

const NARROW = ["a", "b", "c", "d", "e", "g"] as const;
const WIDE = ["h", "k"] as const;
const CASTS = ["int8_t", "uint8_t", "int16_t", "uint16_t", "int32_t", "uint32_t", "int", "unsigned", "bool"];
const LITERALS = [
  "0",
  "1",
  "2",
  "3",
  "7",
  "10",
  "100",
  "127",
  "128",
  "255",
  "256",
  "1000",
  "32767",
  "0x8000",
  "65535",
  "40000",
  "70000",
  "100000L",
  "5U",
  "0xFFu",
  "0xFFFFFFFF",
  "-1",
  "-128",
  "2147483647",
  "'A'",
  "0b101",
  "017",
];
const PLAIN = ["+", "-", "*", "&", "|", "^", "==", "!=", "<", ">", "<=", ">=", "&&", "||"];

/** Parameters of every function. */
export const PARAMETERS =
  "int8_t a, uint8_t b, int16_t c, uint16_t d, int32_t e, uint32_t g, int64_t h, uint64_t k, float p, float q";

/** An integer expression; shifts and divisions are kept where C defines them. */
export function whole(random: Random, depth: number, wide: boolean): string {
  const one = () => whole(random, depth - 1, wide);
  if (depth <= 0 || random.chance(0.12)) {
    if (random.chance(0.35)) return random.pick(LITERALS);
    return wide && random.chance(0.4) ? random.pick(WIDE) : random.pick(NARROW);
  }
  switch (random.int(0, 8)) {
    case 0:
      return `(${random.pick(CASTS)})(${one()})`;
    case 1:
      return `${random.pick(["-", "~", "!", "+"])}(${one()})`;
    case 2:
      return `((${one()}) / (((${one()}) & 15) + 1))`;
    case 3:
      return `((${one()}) % (((${one()}) & 7) + 3))`;
    case 4:
      return `((${one()}) ${random.pick(["<<", ">>"])} ((${one()}) & 7))`;
    case 5:
      return `(${one()} ? ${one()} : ${one()})`;
    default: {
      // Without parentheses inside, so that precedence is judged too.
      const text = `${one()} ${random.pick(PLAIN)} ${one()}`;
      return random.chance(0.6) ? `(${text})` : text;
    }
  }
}

/** A float expression of the operations that are rounded correctly. */
export function real(random: Random, depth: number): string {
  const one = () => real(random, depth - 1);
  if (depth <= 0 || random.chance(0.1))
    return random.pick([
      "p",
      "q",
      "p",
      "q",
      "0.1f",
      "3.0f",
      "1.5f",
      "1e-3f",
      "(float)c",
      "(float)b",
      "(float)e",
      "(float)g",
    ]);
  switch (random.int(0, 7)) {
    case 0:
      return `sqrtf(fabsf(${one()}))`;
    case 1:
      return `(-(${one()}))`;
    case 2:
      return `((${one()}) < (${one()}) ? (${one()}) : (${one()}))`;
    case 3:
      return `((${one()}) / (${one()}))`;
    default:
      return `((${one()}) ${random.pick(["+", "-", "*"])} (${one()}))`;
  }
}
