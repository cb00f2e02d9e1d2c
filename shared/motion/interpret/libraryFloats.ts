/** Functions of floats that a file need not define. */
import type { Expr, Run } from "./context.ts";
import { convert } from "./conversions.ts";
import type { Build } from "./library.ts";
import { arithmetic } from "./operators.ts";
import type { FloatType } from "./types.ts";
import { double, FLOAT, long } from "./types.ts";
import { made } from "./values.ts";

/**
 * A function of floats. In C++ it takes and gives float where all its arguments are; with `f` at its end always; in C
 * it takes double. Worked out as double and rounded to float once.
 */
export const real =
  (compute: (x: number, y: number) => number, single = false): Build =>
  (cx, args, span) => {
    const wideOne = double(cx.target);
    const short = single || (!cx.plainC && args.every((a) => a.type.kind === "float" && a.type.bits === 32));
    const type: FloatType = short ? FLOAT : wideOne;
    for (const arg of args) arithmetic(arg);
    const [x, y] = args.map((arg) => convert(arg, type));
    const { run: first } = x as Expr;
    const second = y?.run ?? (() => 0);
    const run: Run =
      type.bits === 32 ? () => Math.fround(compute(first(), second())) : () => compute(first(), second());
    return made(type, run, y ? [x as Expr, y] : [x as Expr], span, 4);
  };

/** Halves go away from zero. */
const rounded = (x: number): number => {
  const size = Math.abs(x);
  const whole = Math.floor(size);
  return Math.sign(x) * (size - whole >= 0.5 ? whole + 1 : whole);
};

export const lround: Build = (cx, args, span) => {
  const value = real(rounded)(cx, args, span);
  return convert(value, long(cx.target));
};

export const REAL: Readonly<Record<string, (x: number, y: number) => number>> = {
  sin: Math.sin,
  cos: Math.cos,
  tan: Math.tan,
  asin: Math.asin,
  acos: Math.acos,
  atan: Math.atan,
  sqrt: Math.sqrt,
  exp: Math.exp,
  log: Math.log,
  log2: Math.log2,
  log10: Math.log10,
  cbrt: Math.cbrt,
  floor: Math.floor,
  ceil: Math.ceil,
  trunc: Math.trunc,
  fabs: Math.abs,
  round: rounded,
};

export const REAL2: Readonly<Record<string, (x: number, y: number) => number>> = {
  atan2: Math.atan2,
  pow: Math.pow,
  fmod: (x, y) => x % y,
  hypot: (x, y) => Math.sqrt(x * x + y * y),
  fmin: (x, y) => (Number.isNaN(x) ? y : Number.isNaN(y) ? x : Math.min(x, y)),
  fmax: (x, y) => (Number.isNaN(x) ? y : Number.isNaN(y) ? x : Math.max(x, y)),
};
