/** Compiled expressions: constants, conversions between types, and how values are loaded from and stored in memory. */
import type { Span } from "../../source/text.ts";
import type { IntType } from "../../source/types.ts";
import type { Context, Expr, Home, Run, WideRun } from "./context.ts";
import { refuse } from "./context.ts";
import { type Machine, READ, Stopped, WRITE } from "./machine.ts";
import type { FloatType, Type } from "./types.ts";
import { holds, named, sizeOf } from "./types.ts";

const { fround, trunc } = Math;

/** An expression of a 64-bit type gives bigints. */
export function wide({ run }: { readonly run: Run }): WideRun {
  return run as unknown as WideRun;
}

export function fromWide(run: WideRun): Run {
  return run as unknown as Run;
}

export function isWide(type: Type): boolean {
  return type.kind === "int" && type.bits === 64;
}

export function constantOf(type: Type, value: number | bigint, span: Span): Expr {
  const run = typeof value === "bigint" ? fromWide(() => value) : () => value;
  return { type, run, cost: 1, constant: value, span };
}

/** An expression of operands; of constants it is a constant. */
export function made(type: Type, run: Run, operands: readonly Expr[], span: Span, cost = 1): Expr {
  if (operands.every((o) => o.constant !== undefined)) return constantOf(type, run(), span);
  return { type, run, cost: operands.reduce((sum, o) => sum + o.cost, cost), span };
}

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

/** 1 where the expression counts as true, else 0. */
export function truthOf(e: Expr): Run {
  if (isWide(e.type)) {
    const value = wide(e);
    return () => (value() === 0n ? 0 : 1);
  }
  if (e.type.kind === "struct" || e.type.kind === "void") refuse("This is neither true nor false.", e.span);
  return e.run;
}

/** Stops where not all bytes of an access belong to an object that may be read (written). */
export function checkAccess(machine: Machine, address: number, size: number, need: number, span: Span): void {
  const { access } = machine;
  if (((access[address] as number) & (access[address + size - 1] as number) & need) !== 0) return;
  outside(machine, address, need, span);
}

function outside({ access }: Machine, address: number, need: number, span: Span): never {
  if (address === 0) throw new Stopped("Here a null pointer is followed.", span);
  const constant = need === WRITE && access[address] === READ;
  throw new Stopped(
    constant ? "Here something is written that is constant." : "Here the pointer has left its array.",
    span,
  );
}

/** Reads what a home holds. Arrays and structs stay where they are: their value is the address. */
export function loaded(cx: Context, type: Type, home: Home, span: Span): Run {
  const { machine } = cx;
  if (home.kind === "slot") {
    const { bank, index } = home;
    return isWide(type) ? fromWide(() => machine.wide[index] as bigint) : () => bank[index] as number;
  }
  const { address: where } = home;
  if (type.kind === "array" || type.kind === "struct") return where;
  if (type.kind === "void") return refuse("This has no type.", span);
  const size = sizeOf(type, cx.target);
  const address = home.safe
    ? where
    : () => {
        const at = where();
        checkAccess(machine, at, size, READ, span);
        return at;
      };
  if (type.kind === "float")
    return type.bits === 32
      ? () => machine.memory.getFloat32(address(), true)
      : () => machine.memory.getFloat64(address(), true);
  if (type.kind === "pointer") return pointerAt(cx, address);
  switch (type.bits) {
    case 8:
      return type.signed
        ? () => ((machine.bytes[address()] as number) << 24) >> 24
        : () => machine.bytes[address()] as number;
    case 16:
      return type.signed
        ? () => machine.memory.getInt16(address(), true)
        : () => machine.memory.getUint16(address(), true);
    case 32:
      return type.signed
        ? () => machine.memory.getInt32(address(), true)
        : () => machine.memory.getUint32(address(), true);
    default:
      return type.signed
        ? fromWide(() => machine.memory.getBigInt64(address(), true))
        : fromWide(() => machine.memory.getBigUint64(address(), true));
  }
}

/** An address of ours fits in 32 bits; in the 16 of AVR it is kept in steps of 16 bytes, with the rest beside. */
function pointerAt(cx: Context, address: Run): Run {
  const { machine } = cx;
  if (cx.target !== "avr") return () => machine.memory.getUint32(address(), true);
  return () => machine.far.get(address()) ?? 0;
}

/** Stores `value`, which has the type already, in a home; gives the value as it then is. */
export function stored(cx: Context, type: Type, home: Home, value: Run, span: Span): Run {
  const { machine } = cx;
  if (home.kind === "slot") {
    const { bank, index } = home;
    if (isWide(type)) {
      const run = value as unknown as WideRun;
      return fromWide(() => {
        const now = run();
        machine.wide[index] = now;
        return now;
      });
    }
    return () => {
      const now = value();
      bank[index] = now;
      return now;
    };
  }
  const size = sizeOf(type, cx.target);
  const { address: where } = home;
  const address =
    home.safe && !home.fixed
      ? where
      : () => {
          const at = where();
          checkAccess(machine, at, size, WRITE, span);
          return at;
        };
  return storing(cx, type, address, value, size, span);
}

function storing(cx: Context, type: Type, address: Run, value: Run, size: number, span: Span): Run {
  const { machine } = cx;
  const put = (write: (at: number, now: number) => void): Run => {
    return () => {
      // The value comes first (C++17, [expr.ass]).
      const now = value();
      write(address(), now);
      return now;
    };
  };
  switch (type.kind) {
    case "float":
      return type.bits === 32
        ? put((at, now) => machine.memory.setFloat32(at, now, true))
        : put((at, now) => machine.memory.setFloat64(at, now, true));
    case "pointer":
      return cx.target === "avr"
        ? put((at, now) => machine.far.set(at, now))
        : put((at, now) => machine.memory.setUint32(at, now, true));
    case "struct":
      return put((at, now) => {
        checkAccess(machine, now, size, READ, span);
        machine.bytes.copyWithin(at, now, now + size);
      });
    case "int":
      break;
    default:
      return refuse("An array can't be assigned as a whole.", span);
  }
  if (type.bits === 8)
    return () => {
      const now = value();
      machine.bytes[address()] = now;
      return now;
    };
  if (type.bits === 16) return put((at, now) => machine.memory.setInt16(at, now, true));
  if (type.bits === 32) return put((at, now) => machine.memory.setInt32(at, now, true));
  const run = value as unknown as WideRun;
  return fromWide(() => {
    const now = run();
    machine.memory.setBigInt64(address(), BigInt.asIntN(64, now), true);
    return now;
  });
}
