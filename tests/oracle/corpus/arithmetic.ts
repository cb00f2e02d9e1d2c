/**
 * C++ integer arithmetic for both compilers at once, written apart from the product. It decides only whether an
 * expression has defined behaviour everywhere; the values themselves are judged by the compilers.
 */
export const TARGETS = ["avr", "host"] as const;
export type Target = (typeof TARGETS)[number];
export type PerTarget<T> = Readonly<Record<Target, T>>;

/** A value with its integer type; `bool` is an unsigned type of 8 bits here, which promotes alike. */
export interface Typed {
  readonly value: bigint;
  readonly bits: number;
  readonly signed: boolean;
}

/** avr-gcc has a 16-bit `int` and a 32-bit `long`; x86-64 and arm64 Linux are LP64. */
export const INT_BITS: PerTarget<number> = { avr: 16, host: 32 };
export const LONG_BITS: PerTarget<number> = { avr: 32, host: 64 };

export function wrap(value: bigint, bits: number, signed: boolean): Typed {
  return { value: signed ? BigInt.asIntN(bits, value) : BigInt.asUintN(bits, value), bits, signed };
}

const bool = (truth: boolean): Typed => ({ value: truth ? 1n : 0n, bits: 8, signed: false });
const fits = (value: bigint, bits: number, signed: boolean) => wrap(value, bits, signed).value === value;

function promote(typed: Typed, target: Target): Typed {
  const bits = INT_BITS[target];
  return typed.bits < bits ? { value: typed.value, bits, signed: true } : typed;
}

/** The usual arithmetic conversions ([expr.arith.conv]); width and sign decide, since equal widths rank alike here. */
function common(a: Typed, b: Typed, target: Target): [Typed, Typed] {
  const [x, y] = [promote(a, target), promote(b, target)];
  const bits = Math.max(x.bits, y.bits);
  const signed = [x, y].every((operand) => operand.bits < bits || operand.signed);
  return [wrap(x.value, bits, signed), wrap(y.value, bits, signed)];
}

/** A result of signed arithmetic that leaves its type is undefined behaviour; an unsigned one wraps. */
function result(value: bigint, { bits, signed }: Typed): Typed | undefined {
  return signed && !fits(value, bits, true) ? undefined : wrap(value, bits, signed);
}

export type Unary = "-" | "~" | "!" | "+";
export type Binary =
  | "*"
  | "/"
  | "%"
  | "+"
  | "-"
  | "<<"
  | ">>"
  | "<"
  | ">"
  | "<="
  | ">="
  | "=="
  | "!="
  | "&"
  | "^"
  | "|"
  | "&&"
  | "||";

/** `undefined` where the behaviour is undefined. */
export function unary(operator: Unary, operand: Typed, target: Target): Typed | undefined {
  const a = promote(operand, target);
  if (operator === "!") return bool(a.value === 0n);
  if (operator === "+") return a;
  return operator === "~" ? wrap(~a.value, a.bits, a.signed) : result(-a.value, a);
}

/** `undefined` where the behaviour is undefined, also where short-circuiting would save it. */
export function binary(operator: Binary, left: Typed, right: Typed, target: Target): Typed | undefined {
  if (operator === "&&") return bool(left.value !== 0n && right.value !== 0n);
  if (operator === "||") return bool(left.value !== 0n || right.value !== 0n);
  if (operator === "<<" || operator === ">>") return shift(operator, promote(left, target), right.value);
  const [a, b] = common(left, right, target);
  switch (operator) {
    case "*":
      return result(a.value * b.value, a);
    case "/":
      return b.value === 0n ? undefined : result(a.value / b.value, a);
    case "%":
      return b.value === 0n || result(a.value / b.value, a) === undefined ? undefined : result(a.value % b.value, a);
    case "+":
      return result(a.value + b.value, a);
    case "-":
      return result(a.value - b.value, a);
    case "<":
      return bool(a.value < b.value);
    case ">":
      return bool(a.value > b.value);
    case "<=":
      return bool(a.value <= b.value);
    case ">=":
      return bool(a.value >= b.value);
    case "==":
      return bool(a.value === b.value);
    case "!=":
      return bool(a.value !== b.value);
    case "&":
      return result(a.value & b.value, a);
    case "^":
      return result(a.value ^ b.value, a);
    case "|":
      return result(a.value | b.value, a);
  }
}

/** A left shift into the sign bit is defined since CWG 1457, one past it is not; a negative left operand is not. */
function shift(operator: "<<" | ">>", a: Typed, by: bigint): Typed | undefined {
  if (by < 0n || by >= BigInt(a.bits)) return undefined;
  if (operator === ">>") return wrap(a.value >> by, a.bits, a.signed);
  const shifted = a.value << by;
  if (a.signed && (a.value < 0n || !fits(shifted, a.bits, false))) return undefined;
  return wrap(shifted, a.bits, a.signed);
}

export function choose(condition: Typed, yes: Typed, no: Typed, target: Target): Typed {
  const [a, b] = common(yes, no, target);
  return condition.value !== 0n ? a : b;
}
