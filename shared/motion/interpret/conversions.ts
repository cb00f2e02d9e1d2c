/** Conversions between types, as C makes them by itself or by a cast (C17 6.3). */
import type { IntType } from "../../source/types.ts";
import type { Expr, Run } from "./context.ts";
import { refuse } from "./context.ts";
import type { FloatType, Type } from "./types.ts";
import { holds, named } from "./types.ts";
import { constantOf, fromWide, isWide, made, wide } from "./values.ts";

const { fround, trunc } = Math;

/** What an integer type of up to 32 bits makes of a whole number (two's complement, the low bits). */
export function wrapped(value: number, type: IntType): number {
  if (type.truth) return value === 0 ? 0 : 1;
  if (type.bits === 32) return type.signed ? value | 0 : value >>> 0;
  if (type.bits === 16) return type.signed ? (value << 16) >> 16 : value & 0xffff;
  return type.signed ? (value << 24) >> 24 : value & 0xff;
}

function wrapping(run: Run, type: IntType): Run {
  if (type.truth) return () => (run() === 0 ? 0 : 1);
  if (type.bits === 32) return type.signed ? () => run() | 0 : () => run() >>> 0;
  if (type.bits === 16) return type.signed ? () => (run() << 16) >> 16 : () => run() & 0xffff;
  return type.signed ? () => (run() << 24) >> 24 : () => run() & 0xff;
}

/** A 64-bit integer as the nearest float: not by way of a double, which would round twice. */
function nearestFloat(value: bigint): number {
  const size = value < 0n ? -value : value;
  if (size < 1n << 53n) return fround(Number(value));
  const odd = (size & 0xffn) === 0n ? 0n : 1n;
  const rounded = fround(Number((size >> 8n) | odd)) * 256;
  return value < 0n ? -rounded : rounded;
}

/** The expression as a value of another type, as C converts by itself or by a cast. */
export function convert(e: Expr, type: Type): Expr {
  const from = e.type;
  const { span } = e;
  const as = (run: Run, cost = 1) => made(type, run, [e], span, cost);
  if (type.kind === "void") return { ...e, type, constant: undefined, home: undefined };
  if (type.kind === "struct") {
    if (from === type) return e;
    refuse(`This is no ${named(type)}.`, span);
  }
  if (type.kind === "pointer") {
    if (from.kind === "pointer") return { ...e, type, home: undefined };
    if (from.kind === "int" && e.constant !== undefined && Number(e.constant) === 0) return constantOf(type, 0, span);
    refuse("A number that becomes an address is not played.", span);
  }
  if (type.kind === "array" || from.kind === "void" || from.kind === "struct" || from.kind === "array")
    refuse(from.kind === "void" ? "This gives no value." : `${named(from)} can't become ${named(type)}.`, span);
  if (from.kind === "pointer") {
    if (type.kind === "int" && type.truth) return as(() => (e.run() === 0 ? 0 : 1));
    refuse("An address that becomes a number is not played.", span);
  }
  if (type.kind === "float") return from.kind === "float" ? floated(e, from, type) : fromInt(e, from, type);
  if (from.kind === "float") return toInt(e, type, as);
  if (isWide(from)) {
    const value = wide(e);
    if (type.truth) return as(() => (value() === 0n ? 0 : 1));
    if (isWide(type)) {
      if (type.signed === from.signed) return { ...e, type, home: undefined };
      return as(fromWide(type.signed ? () => BigInt.asIntN(64, value()) : () => BigInt.asUintN(64, value())));
    }
    return as(wrapping(() => Number(BigInt.asIntN(32, value())), type));
  }
  if (isWide(type)) {
    const { run } = e;
    return as(fromWide(type.signed ? () => BigInt(run()) : () => BigInt.asUintN(64, BigInt(run()))));
  }
  if (holds(type, from)) return { ...e, type, home: undefined };
  return as(wrapping(e.run, type));
}

function floated(e: Expr, from: FloatType, type: FloatType): Expr {
  if (type.bits >= from.bits) return { ...e, type, home: undefined };
  const { run } = e;
  return made(type, () => fround(run()), [e], e.span);
}

function fromInt(e: Expr, from: IntType, type: FloatType): Expr {
  if (isWide(from)) {
    const value = wide(e);
    return made(type, type.bits === 32 ? () => nearestFloat(value()) : () => Number(value()), [e], e.span);
  }
  // A double holds every integer of 32 bits, and a float those of 16.
  if (type.bits === 64 || from.bits < 32) return { ...e, type, home: undefined };
  const { run } = e;
  return made(type, () => fround(run()), [e], e.span);
}

/** A float becomes an integer by dropping its fraction; what the type can't hold is undefined in C, and said. */
function toInt(e: Expr, type: IntType, as: (run: Run) => Expr): Expr {
  const { run, span } = e;
  if (type.truth) return as(() => (run() === 0 ? 0 : 1));
  const beyond = (value: number): never =>
    refuse(
      `${Number.isNaN(value) ? "NaN" : value} does not fit in ${named(type)}: what the conversion gives is undefined.`,
      span,
    );
  // Both compilers go by way of a wider integer: narrow types take its low bits.
  const least = type.bits === 64 && !type.signed ? 0 : type.bits === 64 ? -(2 ** 63) : -(2 ** 31);
  const most = type.bits === 64 ? 2 ** (type.signed ? 63 : 64) : type.bits === 32 && type.signed ? 2 ** 31 : 2 ** 32;
  const checked = () => {
    const value = trunc(run());
    return value >= least && value < most ? value : beyond(value);
  };
  const lazily = (compiled: Run): Expr => ({ ...as(() => 0), run: compiled, constant: undefined, type });
  const folded = e.constant !== undefined;
  const result = isWide(type)
    ? fromWide(() => (type.signed ? BigInt.asIntN(64, BigInt(checked())) : BigInt.asUintN(64, BigInt(checked()))))
    : wrapping(checked, type);
  return folded ? as(result) : { ...lazily(result), cost: e.cost + 1 };
}
