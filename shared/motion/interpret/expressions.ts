/** Expressions: from tokens to something that runs, with the precedence of C (C17 6.5). */
import { PRECEDENCE } from "../../source/expressions.ts";
import { addressOf, followed, indexed, member } from "./access.ts";
import { assigned, changed, stepped, writable } from "./assignments.ts";
import type { Context, Expr } from "./context.ts";
import { accept, expect, is, nested, peek, refuse, spanFrom, take } from "./context.ts";
import { convert } from "./conversions.ts";
import { sizeExpr, typeAhead, typeName } from "./declarations.ts";
import { arithmetic, binary, chosen, inverted, negated, not } from "./operators.ts";
import { primary } from "./primary.ts";
import type { Type } from "./types.ts";
import { promoted } from "./types.ts";

/** With commas. */
export function expression(cx: Context): Expr {
  let left = assignment(cx);
  while (accept(cx, ",")) {
    const right = assignment(cx);
    const { run: first } = left;
    const { run, type, span } = right;
    left = {
      type,
      span: { start: left.span.start, end: span.end },
      cost: left.cost + right.cost,
      run: () => {
        first();
        return run();
      },
    };
  }
  return left;
}

export function assignment(cx: Context): Expr {
  const left = ternary(cx);
  const { kind, text } = peek(cx);
  if (kind !== "operator" || !/^(?:[-+*/%&|^]|<<|>>)?=$/.test(text)) return left;
  cx.at++;
  const right = nested(cx, () => assignment(cx));
  const span = { start: left.span.start, end: right.span.end };
  const home = writable(left);
  if (text === "=") return assigned(cx, left, home, decayed(right), span);
  const operand = decayed(right);
  return changed(cx, left, home, span, operand, (now, value) => binary(cx, text.slice(0, -1), now, value, span));
}

export function ternary(cx: Context): Expr {
  const test = ranked(cx, 1);
  if (!accept(cx, "?")) return test;
  const yes = decayed(nested(cx, () => expression(cx)));
  expect(cx, ":");
  const no = decayed(nested(cx, () => assignment(cx)));
  return chosen(cx, decayed(test), yes, no, { start: test.span.start, end: no.span.end });
}

function ranked(cx: Context, least: number): Expr {
  let left = unary(cx);
  for (;;) {
    const { kind, text } = peek(cx);
    const rank = kind === "operator" ? PRECEDENCE[text] : undefined;
    if (rank === undefined || rank < least) return left;
    cx.at++;
    const right = ranked(cx, rank + 1);
    const span = { start: left.span.start, end: right.span.end };
    left = binary(cx, text, decayed(left), decayed(right), span);
  }
}

/** An array is the address of its first element wherever its value is asked for (C17 6.3.2.1). */
export function decayed(e: Expr): Expr {
  if (e.type.kind !== "array") return e;
  return { type: { kind: "pointer", to: e.type.of }, run: e.run, cost: e.cost, span: e.span };
}

function unary(cx: Context): Expr {
  return nested(cx, () => unaryInside(cx));
}

function unaryInside(cx: Context): Expr {
  const first = cx.at;
  const { kind, text } = peek(cx);
  if (kind === "operator") {
    switch (text) {
      case "+":
        cx.at++;
        return plus(cx, decayed(unary(cx)));
      case "-": {
        cx.at++;
        const e = unary(cx);
        return negated(cx, e, spanFrom(cx, first));
      }
      case "!": {
        cx.at++;
        const e = decayed(unary(cx));
        return not(cx, e, spanFrom(cx, first));
      }
      case "~": {
        cx.at++;
        const e = unary(cx);
        return inverted(cx, e, spanFrom(cx, first));
      }
      case "*": {
        cx.at++;
        return followed(cx, decayed(unary(cx)), spanFrom(cx, first));
      }
      case "&": {
        cx.at++;
        const e = unary(cx);
        return addressOf(e, spanFrom(cx, first));
      }
      case "++":
      case "--": {
        cx.at++;
        const e = unary(cx);
        return stepped(cx, e, text, spanFrom(cx, first), false);
      }
      case "(":
        if (!typeAhead(cx, 1)) break;
        return cast(cx, first);
      default:
    }
  }
  if (kind === "word" && text === "sizeof") return sizeofExpr(cx);
  return postfix(cx, primary(cx), first);
}

function plus(cx: Context, e: Expr): Expr {
  const type = arithmetic(e);
  return convert(e, type.kind === "int" ? promoted(type, cx.target) : type);
}

function cast(cx: Context, first: number): Expr {
  cx.at++;
  const type = typeName(cx);
  expect(cx, ")");
  if (is(cx, "{")) refuse("A value made by braces is not played here.", peek(cx));
  const e = decayed(unary(cx));
  return { ...castTo(e, type), span: spanFrom(cx, first) };
}

export function castTo(e: Expr, type: Type): Expr {
  const { home: _, ...value } = convert(e, type);
  return value;
}

function sizeofExpr(cx: Context): Expr {
  const first = cx.at;
  cx.at++;
  if (is(cx, "(") && typeAhead(cx, 1)) {
    cx.at++;
    const type = typeName(cx);
    expect(cx, ")");
    return sizeExpr(cx, type, spanFrom(cx, first));
  }
  const e = unary(cx);
  return sizeExpr(cx, e.type, spanFrom(cx, first));
}

function postfix(cx: Context, start: Expr, first: number): Expr {
  let e = start;
  for (;;) {
    if (is(cx, "[")) {
      cx.at++;
      const index = decayed(expression(cx));
      expect(cx, "]");
      e = indexed(cx, e, index, spanFrom(cx, first));
    } else if (is(cx, "++") || is(cx, "--")) {
      const operator = take(cx).text;
      e = stepped(cx, e, operator, spanFrom(cx, first), true);
    } else if (is(cx, ".") || is(cx, "->")) {
      const arrow = take(cx).text === "->";
      const name = take(cx);
      const whole = arrow ? followed(cx, decayed(e), spanFrom(cx, first)) : e;
      if (is(cx, "(")) refuse("Functions of an object are not played.", name);
      e = member(cx, whole, name.text, spanFrom(cx, first));
    } else if (is(cx, "(")) refuse("Only functions of the file can be called.", peek(cx));
    else return e;
  }
}
