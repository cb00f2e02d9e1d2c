/** Loops. Each round costs steps, so that one without an end is found. */
import type { Span } from "../../source/text.ts";
import type { Context, Exec, Expr, Run, Statement, Within } from "./context.ts";
import { accept, BREAK, CONTINUE, declare, expect, is, NEXT, RETURN, refuse, spanFrom, take } from "./context.ts";
import { declarator, specifiers, typeAhead } from "./declarations.ts";
import { assignment, decayed, expression } from "./expressions.ts";
import { declarationOnly } from "./locals.ts";
import { Spent, spend } from "./machine.ts";
import { evaluated, sequence, tolerant } from "./statements.ts";
import { sizeOf } from "./types.ts";
import { loaded, stored, truthOf } from "./values.ts";
import { homeFor, variable } from "./variables.ts";

export function loop(cx: Context): Statement {
  const within = cx.within as Within;
  const first = cx.at;
  const { text } = take(cx);
  within.breaks++;
  within.loops++;
  cx.scopes.push(new Map());
  try {
    if (text === "for") return counted(cx, first);
    if (text === "while") {
      expect(cx, "(");
      const test = decayed(expression(cx));
      expect(cx, ")");
      const span = spanFrom(cx, first);
      const body = tolerant(cx);
      return { cost: test.cost + 2, run: rounds(cx, test, body, undefined, span) };
    }
    const span = spanFrom(cx, first);
    const body = tolerant(cx);
    expect(cx, "while");
    expect(cx, "(");
    const test = decayed(expression(cx));
    expect(cx, ")");
    expect(cx, ";");
    return { cost: 2, run: afterwards(cx, test, body, span) };
  } finally {
    within.breaks--;
    within.loops--;
    cx.scopes.pop();
  }
}

function counted(cx: Context, first: number): Statement {
  expect(cx, "(");
  let start: Statement | undefined;
  if (!accept(cx, ";")) {
    if (typeAhead(cx)) {
      const at = cx.at;
      const base = specifiers(cx);
      const d = declarator(cx, base.type);
      if (is(cx, ":")) return each(cx, d, base.auto, first);
      cx.at = at;
      start = declarationOnly(cx);
    } else start = evaluated(expression(cx));
    expect(cx, ";");
  }
  const test = is(cx, ";") ? undefined : decayed(expression(cx));
  expect(cx, ";");
  const step = is(cx, ")") ? undefined : expression(cx);
  expect(cx, ")");
  const span = spanFrom(cx, first);
  const body = tolerant(cx);
  const all: Statement = { cost: 2, run: rounds(cx, test, body, step, span) };
  return start ? sequence([start, all]) : all;
}

/** `for (x : array)`. */
function each(cx: Context, d: ReturnType<typeof declarator>, auto: boolean, first: number): Statement {
  expect(cx, ":");
  const list = assignment(cx);
  expect(cx, ")");
  const span = spanFrom(cx, first);
  if (list.type.kind !== "array" || list.home?.kind !== "memory")
    return refuse("A loop over a list needs an array.", list.span);
  const { of, count } = list.type;
  const { machine } = cx;
  const size = sizeOf(of, cx.target);
  let at = 0;
  const { slots: bank } = machine;
  const index = bank.push(0) - 1;
  cx.within?.slots.push({ bank, index });
  const element = { kind: "memory", address: () => bank[index] as number, safe: true, fixed: true } as const;
  const type = auto ? of : d.type;
  const home = d.reference ? element : homeFor(cx, d.name, type, false, d.span);
  declare(cx, d.name, { kind: "value", expr: variable(cx, d.reference ? of : type, home, d.span) });
  const value = loaded(cx, of, element, span);
  const copy = d.reference ? () => 0 : stored(cx, type, home, value, span);
  const body = tolerant(cx);
  const { run: base } = list;
  const cost = body.cost + 3;
  return {
    cost: 2,
    run: () => {
      const start = base();
      for (at = 0; at < count; at++) {
        spend(machine, cost);
        const i = at;
        bank[index] = start + i * size;
        copy();
        const flow = body.run();
        at = i;
        if (flow === BREAK) break;
        if (flow === RETURN) return RETURN;
      }
      return NEXT;
    },
  };
}

function rounds(cx: Context, test: Expr | undefined, body: Statement, step: Expr | undefined, span: Span): Exec {
  const { machine } = cx;
  const always = test === undefined || (test.constant !== undefined && Number(test.constant) !== 0);
  const holds: Run = always ? () => 1 : truthOf(test as Expr);
  const { run } = body;
  const next = step?.run;
  const cost = (test?.cost ?? 0) + body.cost + (step?.cost ?? 0) + 1;
  return () => {
    let count = 0;
    try {
      while (holds() !== 0) {
        machine.left -= cost;
        if (machine.left < 0) throw new Spent();
        count++;
        const flow = run();
        if (flow !== NEXT && flow !== CONTINUE) {
          if (flow === BREAK) break;
          return RETURN;
        }
        if (next) next();
      }
    } catch (error) {
      throw blamed(error, count, span);
    }
    return NEXT;
  };
}

function afterwards(cx: Context, test: Expr, body: Statement, span: Span): Exec {
  const { machine } = cx;
  const holds = truthOf(test);
  const { run } = body;
  const cost = test.cost + body.cost + 1;
  return () => {
    let count = 0;
    try {
      do {
        machine.left -= cost;
        if (machine.left < 0) throw new Spent();
        count++;
        const flow = run();
        if (flow !== NEXT && flow !== CONTINUE) {
          if (flow === BREAK) break;
          return RETURN;
        }
      } while (holds() !== 0);
    } catch (error) {
      throw blamed(error, count, span);
    }
    return NEXT;
  };
}

/** Of loops inside of each other the one that has gone round most is the one that does not end. */
function blamed(error: unknown, rounds: number, span: Span): unknown {
  if (error instanceof Spent && rounds > error.rounds) {
    error.rounds = rounds;
    error.span = span;
  }
  return error;
}
