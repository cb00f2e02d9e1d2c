/** Assignments, compound ones, and steps by one. */
import type { Span } from "../../source/text.ts";
import type { Context, Expr, Home } from "./context.ts";
import { refuse } from "./context.ts";
import { fitted } from "./declarations.ts";
import { binary } from "./operators.ts";
import { int } from "./types.ts";
import { constantOf, loaded, stored } from "./values.ts";

export function assigned(cx: Context, left: Expr, home: Home, right: Expr, span: Span): Expr {
  const { type } = left;
  const run = stored(cx, type, home, fitted(right, type).run, span);
  return { type, run, cost: left.cost + right.cost + 1, span, home };
}

/**
 * Reads a place, works out with an operand what it becomes, and stores that. The operand comes first (C++17,
 * [expr.ass]), and where the place is is worked out once. `before`: gives the value that was.
 */
export function changed(
  cx: Context,
  left: Expr,
  home: Home,
  span: Span,
  operand: Expr,
  become: (now: Expr, operand: Expr) => Expr,
  before = false,
): Expr {
  const { type } = left;
  let at = 0;
  let value = 0;
  const kept: Home = home.kind === "slot" ? home : { ...home, address: () => at };
  const read = loaded(cx, type, kept, span);
  const { home: _, ...rest } = operand;
  const given = operand.constant === undefined ? { ...rest, run: () => value } : rest;
  const result = become({ type, run: read, cost: 1, span: left.span, home: kept }, given);
  const write = stored(cx, type, kept, fitted(result, type).run, span);
  const { run: work } = operand;
  const where = home.kind === "slot" ? () => 0 : home.address;
  const cost = left.cost + operand.cost + 2;
  if (before)
    return {
      type,
      cost,
      span,
      run: () => {
        at = where();
        const was = read();
        write();
        return was;
      },
    };
  return {
    type,
    cost,
    span,
    home,
    run: () => {
      // Only kept when both are there: working them out may come back here, where a function calls itself.
      const now = work();
      at = where();
      value = now;
      return write();
    },
  };
}

/** Where an expression can be written; refused for a mere value. */
export function writable({ home, span, type }: Expr): Home {
  if (!home) refuse("This can't be assigned to.", span);
  if (type.kind === "array") refuse("An array can't be assigned as a whole.", span);
  return home;
}

export function stepped(cx: Context, e: Expr, operator: string, span: Span, before: boolean): Expr {
  const one = constantOf(int(cx.target), 1, span);
  const become = (now: Expr, by: Expr) => binary(cx, operator.charAt(0), now, by, span);
  return changed(cx, e, writable(e), span, one, become, before);
}
