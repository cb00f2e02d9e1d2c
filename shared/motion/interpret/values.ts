/** Compiled expressions: constants, and how values are loaded from where they are kept and stored there. */
import type { Span } from "../../source/text.ts";
import type { Context, Expr, Home, Run, WideRun } from "./context.ts";
import { refuse } from "./context.ts";
import { FLASH, type Machine, READ, Stopped, WRITE } from "./machine.ts";
import type { Type } from "./types.ts";
import { sizeOf } from "./types.ts";

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
  const found = access[address];
  if (need === READ && found === FLASH) throw new Stopped(DIRECTLY, span);
  if (need === FLASH && (found ?? 0) !== 0)
    throw new Stopped("Here flash is read, but this is not in it: there is no PROGMEM.", span);
  const constant = need === WRITE && (found === READ || found === FLASH);
  throw new Stopped(
    constant ? "Here something is written that is constant." : "Here the pointer has left its array.",
    span,
  );
}

const DIRECTLY = "This is in flash (PROGMEM): on AVR it is read by pgm_read_byte and the like.";

/** Reads what a home holds. Arrays and structs stay where they are: their value is the address. */
export function loaded(cx: Context, type: Type, home: Home, span: Span, need = READ): Run {
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
        checkAccess(machine, at, size, need, span);
        return at;
      };
  if (home.flash && need === READ) return () => refuse(DIRECTLY, span);
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
