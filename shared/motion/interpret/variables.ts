/** Where variables are kept: scalars in slots, all else and what has its address taken in memory. */
import type { Span } from "../../source/text.ts";
import type { Context, Expr, Home } from "./context.ts";
import { refuse } from "./context.ts";
import { FLASH, type Placed, place, READ, WRITE } from "./machine.ts";
import type { Type } from "./types.ts";
import { sizeOf } from "./types.ts";
import { isWide, loaded } from "./values.ts";

/** A new home for a variable; `fixed`: it is constant, and lies in memory that can't be written. */
export function homeFor(cx: Context, name: string, type: Type, fixed: boolean, span: Span, flash = false): Home {
  const { machine } = cx;
  const scalar = type.kind === "int" || type.kind === "float" || type.kind === "pointer";
  if (scalar && !flash && !cx.addressed.has(name)) {
    if (isWide(type)) {
      const index = machine.wide.push(0n) - 1;
      cx.within?.wides.push(index);
      return { kind: "slot", bank: machine.slots, index };
    }
    const large = type.kind === "float" || (type.kind === "int" && type.bits === 32 && !type.signed);
    const bank = large ? machine.reals : machine.slots;
    const index = bank.push(0) - 1;
    cx.within?.slots.push({ bank, index });
    return { kind: "slot", bank, index };
  }
  const { address } = objectFor(cx, sizeOf(type, cx.target), flash ? FLASH : fixed ? READ : READ | WRITE, span);
  if (cx.within) cx.within.memory = true;
  return { kind: "memory", address: () => address, safe: true, fixed: fixed || flash, flash };
}

/** A new object in memory. */
export function objectFor(cx: Context, size: number, access: number, span: Span, bytes?: Uint8Array): Placed {
  return place(cx.plan, size, access, bytes) ?? refuse("This takes more memory than there is.", span);
}

/** A variable as an expression. */
export function variable(cx: Context, type: Type, home: Home, span: Span): Expr {
  return { type, run: loaded(cx, type, home, span), cost: 1, home, span };
}
