/** `switch`. */
import type { Context, Exec, Statement, Within } from "./context.ts";
import { accept, BREAK, expect, is, NEXT, peek, refuse } from "./context.ts";
import { decayed, expression } from "./expressions.ts";
import { tolerant } from "./statements.ts";

/** `switch`: its cases stand right inside of its braces; control falls through from one to the next. */
export function choice(cx: Context): Statement {
  cx.at++;
  const within = cx.within as Within;
  expect(cx, "(");
  const subject = decayed(expression(cx));
  if (subject.type.kind !== "int") refuse("`switch` takes a whole number.", subject.span);
  expect(cx, ")");
  expect(cx, "{");
  cx.scopes.push(new Map());
  within.breaks++;
  const list: Statement[] = [];
  const cases = new Map<string, number>();
  let otherwise = -1;
  while (!is(cx, "}") && peek(cx).kind !== "end") {
    if (accept(cx, "default")) {
      expect(cx, ":");
      otherwise = list.length;
    } else if (accept(cx, "case")) {
      const value = decayed(expression(cx));
      if (value.constant === undefined) refuse("A case is a number that is known when compiling.", value.span);
      if (is(cx, "...")) refuse("A range of cases is not played.", peek(cx));
      expect(cx, ":");
      cases.set(String(value.constant), list.length);
    } else list.push(tolerant(cx));
  }
  accept(cx, "}");
  within.breaks--;
  cx.scopes.pop();
  const runs = list.map((s) => s.run);
  const value = subject.run as () => number | bigint;
  return {
    cost: list.reduce((sum, s) => sum + s.cost, subject.cost + 2),
    run: () => {
      const from = cases.get(String(value())) ?? otherwise;
      if (from < 0) return NEXT;
      for (let i = from; i < runs.length; i++) {
        const flow = (runs[i] as Exec)();
        if (flow === BREAK) return NEXT;
        if (flow !== NEXT) return flow;
      }
      return NEXT;
    },
  };
}
