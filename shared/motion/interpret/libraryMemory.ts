/** Functions that read from flash, and those that fill and copy memory. */
import type { Span } from "../../source/text.ts";
import type { IntType } from "../../source/types.ts";
import type { Context, Expr } from "./context.ts";
import { refuse } from "./context.ts";
import { convert } from "./conversions.ts";
import type { Build } from "./library.ts";
import { FLASH, READ, spend, WRITE } from "./machine.ts";
import type { Type } from "./types.ts";
import { long } from "./types.ts";
import { checkAccess, loaded, wide } from "./values.ts";

/** What is read as flash: on AVR an address space of its own. */
export function needOf({ target }: Context): number {
  return target === "avr" ? FLASH : READ;
}

/** Reads from an address, of whatever type it is. */
export const flash =
  (type: (cx: Context) => Type): Build =>
  (cx, [address], span) => {
    const { type: from, run, cost } = address as Expr;
    if (from.kind !== "pointer") return refuse("An address is expected here.", span);
    const to = type(cx);
    const home = { kind: "memory", address: run, safe: false, fixed: true } as const;
    return { type: to, run: loaded(cx, to, home, span, needOf(cx)), cost: cost + 1, span };
  };

export const uint = (bits: 8 | 16 | 32): IntType => ({ kind: "int", bits, signed: false });

/** Bytes of memory: an address, what fills or where it comes from, and how many. */
export const bytes =
  (copy: boolean, from: (cx: Context) => number = () => READ): Build =>
  (cx, args, span) => {
    const [to, what, count] = args as [Expr, Expr, Expr];
    if (to.type.kind !== "pointer") return refuse("An address is expected here.", to.span);
    if (copy && what.type.kind !== "pointer") return refuse("An address is expected here.", what.span);
    if (holdsPointers(to.type.to)) return refuse("Addresses can't be copied as bytes.", span);
    const { machine } = cx;
    const { run } = to;
    const source = copy ? what.run : convert(what, uint(8)).run;
    const size = convert(count, long(cx.target, false));
    const many = size.type.kind === "int" && size.type.bits === 64 ? () => Number(wide(size)()) : size.run;
    return {
      type: to.type,
      cost: to.cost + what.cost + count.cost + 2,
      span,
      run: () => {
        const at = run();
        const value = source();
        const length = many();
        if (length === 0) return at;
        spend(machine, length / 8);
        checkAll(cx, at, length, WRITE, to.span);
        if (copy) {
          checkAll(cx, value, length, from(cx), what.span);
          machine.bytes.copyWithin(at, value, value + length);
        } else machine.bytes.fill(value, at, at + length);
        return at;
      },
    };
  };

/** There is nothing between objects that may be touched, so every gap is met. */
function checkAll({ machine }: Context, address: number, length: number, need: number, span: Span): void {
  for (let i = 0; i < length; i += 32) checkAccess(machine, address + i, 1, need, span);
  checkAccess(machine, address + length - 1, 1, need, span);
}

function holdsPointers(type: Type): boolean {
  if (type.kind === "struct") return type.members.some((m) => holdsPointers(m.type));
  return type.kind === "pointer" || (type.kind === "array" && holdsPointers(type.of));
}
