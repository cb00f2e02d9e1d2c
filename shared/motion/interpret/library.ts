/**
 * Functions that a file need not define: of the C library, of the flash of AVR, and those that sketches have at hand.
 * What the file defines itself under one of these names comes first.
 */
import type { Span } from "../../source/text.ts";
import type { Context, Expr, Run } from "./context.ts";
import { refuse } from "./context.ts";
import { convert } from "./conversions.ts";
import { lround, REAL, REAL2, real } from "./libraryFloats.ts";
import { bytes, flash, needOf, uint } from "./libraryMemory.ts";
import { arithmetic, binary, chosen, negated } from "./operators.ts";
import { FLOAT, int, long } from "./types.ts";
import { fromWide, made } from "./values.ts";

export type Build = (cx: Context, args: readonly Expr[], span: Span) => Expr;

interface Entry {
  readonly takes: number | readonly [number, number];
  readonly build: Build;
}

/** A call of a function of the library; undefined where it has none of that name. */
export function libraryCall(cx: Context, name: string, args: readonly Expr[], span: Span): Expr | undefined {
  const entry = Object.hasOwn(LIBRARY, name) ? LIBRARY[name] : undefined;
  if (!entry) return undefined;
  const [least, most] = typeof entry.takes === "number" ? [entry.takes, entry.takes] : entry.takes;
  if (args.length < least || args.length > most)
    refuse(`\`${name}\` takes ${least === most ? least : `${least} to ${most}`} arguments, not ${args.length}.`, span);
  return entry.build(cx, args, span);
}

/** Builds on operands that are worked out once and in order, which macros of sketches would do twice. */
function on(args: readonly Expr[], build: (args: readonly Expr[]) => Expr): Expr {
  if (args.every((a) => a.constant !== undefined)) return build(args);
  const values: number[] = args.map(() => 0);
  const built = build(
    args.map(({ home: _, ...arg }, i) =>
      arg.constant === undefined ? { ...arg, run: () => values[i] as number, cost: 1 } : arg,
    ),
  );
  const { run } = built;
  const runs = args.map((arg) => arg.run);
  const { home: _, constant: __, ...rest } = built;
  return {
    ...rest,
    cost: args.reduce((sum, arg) => sum + arg.cost, built.cost),
    run: keeping(runs, values, run),
  };
}

/** All operands come before any is kept: working one out may come back here, where a function calls itself. */
function keeping(runs: readonly Run[], values: number[], run: Run): Run {
  const [a, b, c] = runs as [Run, Run, Run];
  if (runs.length === 1)
    return () => {
      values[0] = a();
      return run();
    };
  if (runs.length === 2)
    return () => {
      const first = a();
      const second = b();
      values[0] = first;
      values[1] = second;
      return run();
    };
  if (runs.length === 3)
    return () => {
      const first = a();
      const second = b();
      const third = c();
      values[0] = first;
      values[1] = second;
      values[2] = third;
      return run();
    };
  return () => {
    const found = runs.map((one) => one());
    for (let i = 0; i < found.length; i++) values[i] = found[i] as number;
    return run();
  };
}

const less: Build = (cx, args, span) =>
  on(args, ([a, b]) => chosen(cx, binary(cx, "<", a as Expr, b as Expr, span), a as Expr, b as Expr, span));
const more: Build = (cx, args, span) =>
  on(args, ([a, b]) => chosen(cx, binary(cx, ">", a as Expr, b as Expr, span), a as Expr, b as Expr, span));

/** `amt < low ? low : amt > high ? high : amt`. */
const within: Build = (cx, args, span) =>
  on(args, (list) => {
    const [x, low, high] = list as [Expr, Expr, Expr];
    const upper = chosen(cx, binary(cx, ">", x, high, span), high, x, span);
    return chosen(cx, binary(cx, "<", x, low, span), low, upper, span);
  });

const absolute: Build = (cx, args, span) =>
  on(args, (list) => {
    const [x] = list as [Expr];
    const type = arithmetic(x);
    if (type.kind === "float") return made(type, () => Math.abs(x.run()), [x], span);
    return chosen(cx, below(cx, x, span), negated(cx, x, span), x, span);
  });

function below(cx: Context, x: Expr, span: Span): Expr {
  return binary(cx, "<", x, { type: int(cx.target), run: () => 0, cost: 1, constant: 0, span }, span);
}

/** `a + (b − a) · t`, with the types as they come. */
const lerp: Build = (cx, args, span) =>
  on(args, (list) => {
    const [a, b, t] = list as [Expr, Expr, Expr];
    return binary(cx, "+", a, binary(cx, "*", binary(cx, "-", b, a, span), t, span), span);
  });

/** `(x − a)·(d − c) / (b − a) + c` in `long`. */
const map: Build = (cx, args, span) => {
  const type = long(cx.target);
  return on(
    args.map((arg) => convert(arg, type)),
    (list) => {
      const [x, a, b, c, d] = list as [Expr, Expr, Expr, Expr, Expr];
      const scaled = binary(cx, "*", binary(cx, "-", x, a, span), binary(cx, "-", d, c, span), span);
      return binary(cx, "+", binary(cx, "/", scaled, binary(cx, "-", b, a, span), span), c, span);
    },
  );
};

const square: Build = (cx, args, span) => on(args, ([x]) => binary(cx, "*", x as Expr, x as Expr, span));

/** Time stands still while a frame is worked out: it is that of the frame. */
const time =
  (factor: number): Build =>
  (cx, _args, span) => {
    const { machine } = cx;
    const type = long(cx.target, false);
    const wrap = 2 ** 32;
    const run: Run = () => Math.floor(machine.now * factor) % wrap;
    return {
      type,
      run: type.bits === 64 ? fromWide(() => BigInt(Math.floor(machine.now * factor))) : run,
      cost: 1,
      span,
    };
  };

/**
 * Pseudo-random numbers by Park and Miller ("Random number generators: good ones are hard to find", CACM 31, 1988),
 * as avr-libc has them: x becomes 16807·x mod (2^31 − 1). Begun with 1 at the first frame, so that every run is alike.
 */
function next(cx: Context): number {
  const { machine } = cx;
  const before = machine.random === 0 ? 123459876 : machine.random;
  machine.random = Number((BigInt(before) * 16807n) % 2147483647n);
  return machine.random;
}

const random: Build = (cx, args, span) => {
  const type = long(cx.target);
  const whole = (e: Expr): (() => number) => {
    const { run } = convert(e, { kind: "int", bits: 32, signed: true });
    return run;
  };
  const [a, b] = args;
  const low = a && b ? whole(a) : () => 0;
  const high = b ? whole(b) : a ? whole(a) : undefined;
  const run: Run = () => {
    if (!high) return next(cx);
    const from = low();
    const to = high();
    return to <= from ? from : from + (next(cx) % (to - from));
  };
  const cost = args.reduce((sum, arg) => sum + arg.cost, 4);
  return { type, run: type.bits === 64 ? fromWide(() => BigInt(run())) : run, cost, span };
};

const rand: Build = (cx, _args, span) => {
  const run = cx.target === "avr" ? () => next(cx) % 32768 : () => next(cx);
  return { type: int(cx.target), run, cost: 4, span };
};

const seeding: Build = (cx, [seed], span) => {
  const { run } = convert(seed as Expr, uint(32));
  const { machine } = cx;
  return {
    type: { kind: "void" },
    cost: 2,
    span,
    run: () => {
      machine.random = run();
      return 0;
    },
  };
};

/** A call that has no part in the picture. */
const nothing: Build = (_cx, args, span) => ({
  type: { kind: "void" },
  cost: 1,
  span,
  run: () => {
    for (const { run } of args) run();
    return 0;
  },
});

const entry = (takes: Entry["takes"], build: Build): Entry => ({ takes, build });

const realEntries = (table: typeof REAL, takes: number) =>
  Object.entries(table).flatMap(([name, compute]): [string, Entry][] => [
    [name, entry(takes, real(compute))],
    [`${name}f`, entry(takes, real(compute, true))],
  ]);

const LIBRARY: Readonly<Record<string, Entry>> = {
  ...Object.fromEntries([...realEntries(REAL, 1), ...realEntries(REAL2, 2)]),
  min: entry(2, less),
  max: entry(2, more),
  abs: entry(1, absolute),
  labs: entry(1, absolute),
  clamp: entry(3, within),
  constrain: entry(3, within),
  lerp: entry(3, lerp),
  map: entry(5, map),
  sq: entry(1, square),
  lround: entry(1, lround),
  pgm_read_byte: entry(
    1,
    flash(() => uint(8)),
  ),
  pgm_read_byte_near: entry(
    1,
    flash(() => uint(8)),
  ),
  pgm_read_word: entry(
    1,
    flash(() => uint(16)),
  ),
  pgm_read_word_near: entry(
    1,
    flash(() => uint(16)),
  ),
  pgm_read_dword: entry(
    1,
    flash(() => uint(32)),
  ),
  pgm_read_dword_near: entry(
    1,
    flash(() => uint(32)),
  ),
  pgm_read_float: entry(
    1,
    flash(() => FLOAT),
  ),
  memset: entry(3, bytes(false)),
  memcpy: entry(3, bytes(true)),
  memmove: entry(3, bytes(true)),
  memcpy_P: entry(3, bytes(true, needOf)),
  millis: entry(0, time(1)),
  micros: entry(0, time(1000)),
  random: entry([0, 2], random),
  rand: entry(0, rand),
  randomSeed: entry(1, seeding),
  srand: entry(1, seeding),
  srandom: entry(1, seeding),
  delay: entry(1, nothing),
  delayMicroseconds: entry(1, nothing),
  yield: entry(0, nothing),
};

/** Names of the library, for what is meant by a misspelt one. */
export function libraryNames(): string[] {
  return Object.keys(LIBRARY);
}
