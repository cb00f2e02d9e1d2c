/** The operators of C on values: types by the usual conversions, results that wrap as the type does. */
import { PRECEDENCE } from "../../source/expressions.ts";
import type { Span } from "../../source/text.ts";
import type { IntType } from "../../source/types.ts";
import type { Context, Expr, Run, WideRun } from "./context.ts";
import { refuse } from "./context.ts";
import { convert } from "./conversions.ts";
import type { FloatType, Type } from "./types.ts";
import { common, int, promoted, sizeOf, TRUTH } from "./types.ts";
import { constantOf, fromWide, isWide, made, truthOf, wide } from "./values.ts";

const { fround, imul } = Math;

/** The type of what compares. */
function truthType(cx: Context): IntType {
  return cx.plainC ? int(cx.target) : TRUTH;
}

/** One of the two-sided operators. */
export function binary(cx: Context, operator: string, a: Expr, b: Expr, span: Span): Expr {
  if (operator === "&&" || operator === "||") return logical(cx, operator, a, b, span);
  if (a.type.kind === "pointer" || b.type.kind === "pointer") return pointers(cx, operator, a, b, span);
  const x = arithmetic(a);
  const y = arithmetic(b);
  if (operator === "<<" || operator === ">>") return shifted(cx, operator, a, x, b, y, span);
  const type = common(x, y, cx.target);
  const left = convert(a, type);
  const right = convert(b, type);
  if (PRECEDENCE[operator] === 6 || PRECEDENCE[operator] === 7) return compared(cx, operator, left, right, span);
  if (type.kind === "float") return floats(operator, left, right, type, span);
  return isWide(type) ? wides(operator, left, right, type, span) : ints(operator, left, right, type, span);
}

/** The type of a number; refused for anything else. */
export function arithmetic({ type, span }: Expr): IntType | FloatType {
  if (type.kind === "int" || type.kind === "float") return type;
  return refuse(type.kind === "void" ? "This gives no value." : "A number is expected here.", span);
}

export function negated(cx: Context, e: Expr, span: Span): Expr {
  const type = arithmetic(e);
  if (type.kind === "float") {
    const { run } = e;
    return made(type, () => -run(), [e], span);
  }
  const wideOne = promoted(type, cx.target);
  return binary(cx, "-", constantOf(wideOne, isWide(wideOne) ? 0n : 0, span), convert(e, wideOne), span);
}

export function inverted(cx: Context, e: Expr, span: Span): Expr {
  const type = arithmetic(e);
  if (type.kind === "float") refuse("`~` takes whole numbers.", span);
  const to = promoted(type, cx.target);
  return binary(cx, "^", convert(e, to), constantOf(to, ones(to), span), span);
}

function ones({ bits, signed }: IntType): number | bigint {
  if (bits === 64) return signed ? -1n : (1n << 64n) - 1n;
  return signed ? -1 : 2 ** bits - 1;
}

export function not(cx: Context, e: Expr, span: Span): Expr {
  const run = truthOf(e);
  return made(truthType(cx), () => (run() === 0 ? 1 : 0), [e], span);
}

/** `a ? b : c`, once its sides have one type. */
export function chosen(cx: Context, test: Expr, a: Expr, b: Expr, span: Span): Expr {
  const yes = truthOf(test);
  let type: Type = a.type;
  if (a.type.kind === "pointer" || b.type.kind === "pointer") type = a.type.kind === "pointer" ? a.type : b.type;
  else if (a.type.kind === "int" || a.type.kind === "float") {
    const other = arithmetic(b);
    // In C++ two sides of one type keep it; after promotion there is no other value.
    type =
      a.type.kind === "int" && other.kind === "int" && sameInt(a.type, other) && !cx.plainC
        ? a.type
        : common(a.type, other, cx.target);
  }
  const first = convert(a, type);
  const second = convert(b, type);
  if (test.constant !== undefined) {
    const { home: _, ...side } = Number(yes()) !== 0 ? first : second;
    return { ...side, span };
  }
  const { run: one } = first;
  const { run: two } = second;
  return {
    type,
    run: () => (yes() !== 0 ? one() : two()),
    cost: test.cost + Math.max(first.cost, second.cost) + 1,
    span,
  };
}

function sameInt(a: IntType, b: IntType): boolean {
  return a.bits === b.bits && a.signed === b.signed && a.truth === b.truth;
}

function logical(cx: Context, operator: string, a: Expr, b: Expr, span: Span): Expr {
  const left = truthOf(a);
  const right = truthOf(b);
  const type = truthType(cx);
  if (a.constant !== undefined) {
    const decided = (left() !== 0) === (operator === "||");
    if (decided) return constantOf(type, operator === "||" ? 1 : 0, span);
    return made(type, () => (right() !== 0 ? 1 : 0), [b], span);
  }
  const run =
    operator === "&&" ? () => (left() !== 0 && right() !== 0 ? 1 : 0) : () => (left() !== 0 || right() !== 0 ? 1 : 0);
  return { type, run, cost: a.cost + b.cost + 1, span };
}

function compared(cx: Context, operator: string, a: Expr, b: Expr, span: Span): Expr {
  // Also bigints are compared by these.
  const x = a.run;
  const y = b.run;
  const runs: Readonly<Record<string, Run>> = {
    "==": () => (x() === y() ? 1 : 0),
    "!=": () => (x() !== y() ? 1 : 0),
    "<": () => (x() < y() ? 1 : 0),
    ">": () => (x() > y() ? 1 : 0),
    "<=": () => (x() <= y() ? 1 : 0),
    ">=": () => (x() >= y() ? 1 : 0),
  };
  return made(truthType(cx), runs[operator] as Run, [a, b], span);
}

function floats(operator: string, a: Expr, b: Expr, type: FloatType, span: Span): Expr {
  const x = a.run;
  const y = b.run;
  const single = type.bits === 32;
  // Rounding a double's result to float once more gives the float's own result for these four operations.
  const runs: Readonly<Record<string, Run>> = single
    ? {
        "+": () => fround(x() + y()),
        "-": () => fround(x() - y()),
        "*": () => fround(x() * y()),
        "/": () => fround(x() / y()),
      }
    : { "+": () => x() + y(), "-": () => x() - y(), "*": () => x() * y(), "/": () => x() / y() };
  return made(type, runs[operator] ?? refuse(`\`${operator}\` takes whole numbers.`, span), [a, b], span);
}

function ints(operator: string, a: Expr, b: Expr, type: IntType, span: Span): Expr {
  const x = a.run;
  const y = b.run;
  const by = (): number => {
    const value = y();
    return value === 0 ? refuse("Here a number is divided by zero.", span) : value;
  };
  const table: Readonly<Record<string, readonly [Run, Run, Run, Run]>> = {
    "+": [() => (x() + y()) | 0, () => (x() + y()) >>> 0, () => ((x() + y()) << 16) >> 16, () => (x() + y()) & 0xffff],
    "-": [() => (x() - y()) | 0, () => (x() - y()) >>> 0, () => ((x() - y()) << 16) >> 16, () => (x() - y()) & 0xffff],
    "*": [
      () => imul(x(), y()),
      () => imul(x(), y()) >>> 0,
      () => (imul(x(), y()) << 16) >> 16,
      () => imul(x(), y()) & 0xffff,
    ],
    "/": [
      () => (x() / by()) | 0,
      () => (x() / by()) >>> 0,
      () => (((x() / by()) | 0) << 16) >> 16,
      () => (x() / by()) & 0xffff,
    ],
    "%": [() => (x() % by()) | 0, () => (x() % by()) >>> 0, () => (x() % by()) | 0, () => (x() % by()) & 0xffff],
    "&": [() => x() & y(), () => (x() & y()) >>> 0, () => x() & y(), () => x() & y()],
    "|": [() => x() | y(), () => (x() | y()) >>> 0, () => x() | y(), () => x() | y()],
    "^": [() => x() ^ y(), () => (x() ^ y()) >>> 0, () => x() ^ y(), () => x() ^ y()],
  };
  const runs = table[operator] ?? refuse(`\`${operator}\` is not played.`, span);
  const run = runs[(type.bits === 32 ? 0 : 2) + (type.signed ? 0 : 1)] as Run;
  return folded(type, run, a, b, span, operator);
}

/** Constants are worked out at once, but for a division by zero: that is told when it is come to. */
function folded(type: IntType, run: Run, a: Expr, b: Expr, span: Span, operator: string): Expr {
  const zero = (operator === "/" || operator === "%") && b.constant !== undefined && Number(b.constant) === 0;
  return zero ? { type, run, cost: a.cost + b.cost + 1, span } : made(type, run, [a, b], span);
}

function wides(operator: string, a: Expr, b: Expr, type: IntType, span: Span): Expr {
  const x = wide(a);
  const y = wide(b);
  const narrowed = (run: WideRun): Run =>
    fromWide(type.signed ? () => BigInt.asIntN(64, run()) : () => BigInt.asUintN(64, run()));
  const by = (): bigint => {
    const value = y();
    return value === 0n ? refuse("Here a number is divided by zero.", span) : value;
  };
  const runs: Readonly<Record<string, WideRun>> = {
    "+": () => x() + y(),
    "-": () => x() - y(),
    "*": () => x() * y(),
    "/": () => x() / by(),
    "%": () => x() % by(),
    "&": () => x() & y(),
    "|": () => x() | y(),
    "^": () => x() ^ y(),
  };
  const run = runs[operator] ?? refuse(`\`${operator}\` is not played.`, span);
  return folded(type, narrowed(run), a, b, span, operator);
}

/** Each side is promoted by itself (C17 6.5.7). */
function shifted(
  cx: Context,
  operator: string,
  a: Expr,
  x: IntType | FloatType,
  b: Expr,
  y: IntType | FloatType,
  span: Span,
): Expr {
  if (x.kind === "float" || y.kind === "float") return refuse(`\`${operator}\` takes whole numbers.`, span);
  const type = promoted(x, cx.target);
  const left = convert(a, type);
  const count = b.run as unknown as () => number | bigint;
  const by = (): number => {
    const value = Number(count());
    if (value >= 0 && value < type.bits) return value;
    return refuse(
      `Here a number of ${type.bits} bits is shifted by ${value}: what that gives is undefined${
        type.bits === 16 ? "; `int` has 16 bits on this target" : ""
      }.`,
      span,
    );
  };
  const cost = a.cost + b.cost + 1;
  let run: Run;
  if (isWide(type)) {
    const value = wide(left);
    const moved: WideRun = operator === "<<" ? () => value() << BigInt(by()) : () => value() >> BigInt(by());
    run = fromWide(type.signed ? () => BigInt.asIntN(64, moved()) : () => BigInt.asUintN(64, moved()));
  } else {
    const { run: value } = left;
    if (operator === "<<")
      run =
        type.bits === 32
          ? type.signed
            ? () => value() << by()
            : () => (value() << by()) >>> 0
          : type.signed
            ? () => ((value() << by()) << 16) >> 16
            : () => (value() << by()) & 0xffff;
    else run = type.signed ? () => value() >> by() : () => value() >>> by();
  }
  const good = b.constant !== undefined && Number(b.constant) >= 0 && Number(b.constant) < type.bits;
  return good ? made(type, run, [a, b], span) : { type, run, cost, span };
}

function pointers(cx: Context, operator: string, a: Expr, b: Expr, span: Span): Expr {
  if (operator === "+" || operator === "-") {
    const [base, by] = a.type.kind === "pointer" ? [a, b] : [b, a];
    if (base.type.kind !== "pointer") return refuse("This is not played.", span);
    const step = sizeOf(base.type.to, cx.target);
    const { run: from } = base;
    const cost = a.cost + b.cost + 1;
    if (by.type.kind === "pointer") {
      if (operator === "+") refuse("Two addresses can't be added.", span);
      const { run: other } = by;
      const bits = cx.target === "host" ? 64 : cx.target === "avr" ? 16 : 32;
      const type: IntType = { kind: "int", bits, signed: true };
      const run: Run = () => Math.trunc((from() - other()) / step);
      return { type, run: bits === 64 ? fromWide(() => BigInt(run())) : run, cost, span };
    }
    if (by.type.kind !== "int") return refuse("An address moves by whole numbers.", span);
    const count = by.run as unknown as () => number | bigint;
    if (operator === "-" && base !== a) refuse("An address can't be taken from a number.", span);
    const run = operator === "+" ? () => from() + Number(count()) * step : () => from() - Number(count()) * step;
    return { type: base.type, run, cost, span };
  }
  const rank = PRECEDENCE[operator];
  if (rank !== 6 && rank !== 7) refuse(`\`${operator}\` does not take addresses.`, span);
  const type = a.type.kind === "pointer" ? a.type : b.type;
  return compared(cx, operator, convert(a, type), convert(b, type), span);
}
