import {
  type Binary,
  binary,
  choose,
  INT_BITS,
  LONG_BITS,
  type PerTarget,
  TARGETS,
  type Target,
  type Typed,
  type Unary,
  unary,
  wrap,
} from "./arithmetic.ts";
import type { Random } from "./random.ts";

/** Source text of an expression, how tightly it binds, and what it is worth for each compiler. */
export interface Term {
  readonly text: string;
  readonly binds: number;
  readonly worth: PerTarget<Typed>;
}

const PRIMARY = 16;
const UNARY = 15;
const TERNARY = 3;
const LEVELS: readonly (readonly Binary[])[] = [
  ["||"],
  ["&&"],
  ["|"],
  ["^"],
  ["&"],
  ["==", "!="],
  ["<", ">", "<=", ">="],
  ["<<", ">>"],
  ["+", "-"],
  ["*", "/", "%"],
];
const BINDS = new Map(
  LEVELS.flatMap((operators, level) => operators.map((operator) => [operator, level + 4] as const)),
);
const BINARIES = LEVELS.flat();

/** Types that an expression may cast to. */
const CASTS: readonly { readonly words: string; readonly bits: PerTarget<number>; readonly signed: boolean }[] = [
  { words: "uint8_t", bits: { avr: 8, host: 8 }, signed: false },
  { words: "int8_t", bits: { avr: 8, host: 8 }, signed: true },
  { words: "uint16_t", bits: { avr: 16, host: 16 }, signed: false },
  { words: "int32_t", bits: { avr: 32, host: 32 }, signed: true },
  { words: "uint32_t", bits: { avr: 32, host: 32 }, signed: false },
  { words: "unsigned char", bits: { avr: 8, host: 8 }, signed: false },
  { words: "unsigned", bits: INT_BITS, signed: false },
  { words: "int", bits: INT_BITS, signed: true },
  { words: "unsigned long", bits: LONG_BITS, signed: false },
];

/** A term that needs no parentheses: a literal or a name. */
export function atom(text: string, worth: PerTarget<Typed>): Term {
  return { text, binds: PRIMARY, worth };
}

export function perTarget<T>(of: (target: Target) => T): PerTarget<T> {
  return { avr: of("avr"), host: of("host") };
}

/** An expression over the leaves, `depth` operators deep at most, with defined behaviour for both compilers. */
export function expression(random: Random, leaf: () => Term, depth: number): Term {
  if (depth === 0 || random.chance(0.15)) return leaf();
  const sub = () => expression(random, leaf, depth - 1);
  const kind = random.int(0, 11);
  const made =
    kind < 7
      ? joined(random, random.pick(BINARIES), sub(), sub())
      : kind < 9
        ? signed(random, sub())
        : kind < 11
          ? cast(random, sub())
          : ternary(random, sub(), sub(), sub());
  return made ?? sub();
}

function every(of: (target: Target) => Typed | undefined): PerTarget<Typed> | undefined {
  const [avr, host] = TARGETS.map(of);
  return avr && host ? { avr, host } : undefined;
}

function joined(random: Random, operator: Binary, left: Term, right: Term): Term | undefined {
  const worth = every((target) => binary(operator, left.worth[target], right.worth[target], target));
  const binds = BINDS.get(operator);
  if (!worth || binds === undefined) return undefined;
  const [a, b] = [within(random, left, binds), within(random, right, binds + 1)];
  // `0x1E+2` is one preprocessing number and `- -` must not become `--`: these keep their spaces.
  const tight = random.chance(0.3) && !"+-".includes(operator);
  return { text: tight ? `${a}${operator}${b}` : `${a} ${operator} ${b}`, binds, worth };
}

function signed(random: Random, operand: Term): Term | undefined {
  const operator = random.pick<Unary>(["-", "~", "!", "~", "-", "+"]);
  const worth = every((target) => unary(operator, operand.worth[target], target));
  const text = within(random, operand, UNARY);
  return worth && { text: `${operator}${/^[-+]/.test(text) ? " " : ""}${text}`, binds: UNARY, worth };
}

/** In C's notation, as a function call, or as `static_cast`. */
export function cast(random: Random, operand: Term): Term {
  const { words, bits, signed: sign } = random.pick(CASTS);
  const worth = perTarget((target) => wrap(operand.worth[target].value, bits[target], sign));
  const style = random.int(0, 5);
  if (style === 0) return { text: `static_cast<${words}>(${operand.text})`, binds: PRIMARY, worth };
  if (style === 1 && !words.includes(" ")) return { text: `${words}(${operand.text})`, binds: PRIMARY, worth };
  const space = random.chance(0.3) ? " " : "";
  return { text: `(${words})${space}${within(random, operand, UNARY)}`, binds: UNARY, worth };
}

function ternary(random: Random, condition: Term, yes: Term, no: Term): Term {
  const worth = perTarget((t) => choose(condition.worth[t], yes.worth[t], no.worth[t], t));
  const text = `${within(random, condition, TERNARY + 1)} ? ${yes.text} : ${within(random, no, TERNARY)}`;
  return { text, binds: TERNARY, worth };
}

/** The term's text as an operand: in parentheses where it binds less tightly than `binds`, or now and then anyway. */
function within(random: Random, term: Term, binds: number): string {
  if (term.binds < binds || random.chance(0.1)) return random.chance(0.2) ? `( ${term.text} )` : `(${term.text})`;
  return term.text;
}
