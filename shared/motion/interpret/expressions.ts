/** Expressions: from tokens to something that runs, with the precedence of C (C17 6.5). */
import { characterValue, literalValue, unquote } from "../../source/literals.ts";
import type { Span } from "../../source/text.ts";
import type { Context, Expr, Home } from "./context.ts";
import { accept, ahead, expect, find, is, nested, peek, refuse, spanFrom, take } from "./context.ts";
import { fitted, sizeExpr, specifiers, typeAhead, typeName } from "./declarations.ts";
import { callNamed } from "./functions.ts";
import { globalExpr } from "./globals.ts";
import { place, READ } from "./machine.ts";
import { arithmetic, binary, chosen, inverted, negated, not, PRECEDENCE } from "./operators.ts";
import type { Type } from "./types.ts";
import { double, FLOAT, int, promoted, sizeOf, TRUTH } from "./types.ts";
import { constantOf, convert, isWide, loaded, stored, wide } from "./values.ts";

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

function assigned(cx: Context, left: Expr, home: Home, right: Expr, span: Span): Expr {
  const { type } = left;
  const run = stored(cx, type, home, fitted(right, type).run, span);
  return { type, run, cost: left.cost + right.cost + 1, span, home };
}

/**
 * Reads a place, works out with an operand what it becomes, and stores that. The operand comes first (C++17,
 * [expr.ass]), and where the place is is worked out once. `before`: gives the value that was.
 */
function changed(
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
function writable({ home, span, type }: Expr): Home {
  if (!home) refuse("This can't be assigned to.", span);
  if (type.kind === "array") refuse("An array can't be assigned as a whole.", span);
  return home;
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

function castTo(e: Expr, type: Type): Expr {
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

function followed(cx: Context, e: Expr, span: Span): Expr {
  if (e.type.kind !== "pointer") return refuse("Only an address can be followed.", e.span);
  const { to } = e.type;
  if (to.kind === "void") refuse("It is not known what this address leads to.", e.span);
  const home: Home = { kind: "memory", address: e.run, safe: false, fixed: false };
  return { type: to, run: loaded(cx, to, home, span), cost: e.cost + 1, home, span };
}

function addressOf({ home, type, cost }: Expr, span: Span): Expr {
  if (home?.kind !== "memory") refuse("The address of this is not to be had.", span);
  return { type: { kind: "pointer", to: type }, run: home.loose ?? home.address, cost: cost + 1, span };
}

function stepped(cx: Context, e: Expr, operator: string, span: Span, before: boolean): Expr {
  const one = constantOf(int(cx.target), 1, span);
  const become = (now: Expr, by: Expr) => binary(cx, operator.charAt(0), now, by, span);
  return changed(cx, e, writable(e), span, one, become, before);
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

function member(cx: Context, whole: Expr, name: string, span: Span): Expr {
  if (whole.type.kind !== "struct" || whole.home?.kind !== "memory") return refuse("This has no members.", whole.span);
  const found = whole.type.members.find((m) => m.name === name) ?? refuse(`There is no member \`${name}\`.`, span);
  const { address: base, safe, fixed } = whole.home;
  const { offset, type } = found;
  const home: Home = { kind: "memory", address: () => base() + offset, safe, fixed };
  return { type, run: loaded(cx, type, home, span), cost: whole.cost + 1, home, span };
}

function indexed(cx: Context, e: Expr, index: Expr, span: Span): Expr {
  if (e.type.kind === "int" && index.type.kind === "pointer") return indexed(cx, index, e, span);
  if (index.type.kind !== "int") refuse("An index is a whole number.", index.span);
  const cost = e.cost + index.cost + 1;
  const big = wide(index);
  const number = isWide(index.type) ? () => Number(big()) : index.run;
  if (e.type.kind !== "array" || e.home?.kind !== "memory") {
    const pointer = decayed(e);
    if (pointer.type.kind !== "pointer") return refuse("This is no array.", e.span);
    return followed(cx, binary(cx, "+", pointer, { ...index, home: undefined }, span), span);
  }
  const { of: type, count } = e.type;
  const size = sizeOf(type, cx.target);
  const { address: base, safe, fixed } = e.home;
  const at = (): number => {
    const i = number();
    if (i >= 0 && i < count) return i;
    return refuse(`Here the index is ${i}; the array has ${count} elements, from 0 to ${count - 1}.`, span);
  };
  const address = size === 1 ? () => base() + at() : () => base() + at() * size;
  const home: Home = { kind: "memory", address, safe, fixed, loose: () => base() + number() * size };
  return { type, run: loaded(cx, type, home, span), cost, home, span };
}

function primary(cx: Context): Expr {
  const lexeme = take(cx);
  const { kind, text } = lexeme;
  switch (kind) {
    case "number":
      return number(cx, text, lexeme);
    case "character": {
      const value = characterValue(text, cx.target) ?? refuse(`${text} is not a single character.`, lexeme);
      const type = cx.plainC ? int(cx.target) : ({ kind: "int", bits: 8, signed: value.signed } as const);
      return constantOf(type, Number(value.value), lexeme);
    }
    case "string":
      return string(cx, text, lexeme);
    case "unknown":
      return refuse(`\`${text}\`.`, lexeme);
    case "list":
      return refuse("A list of numbers is not played here.", lexeme);
    case "word":
      return word(cx, text, lexeme);
    default:
  }
  if (text === "::") return primary(cx);
  if (text === "(") {
    const e = expression(cx);
    expect(cx, ")");
    return { ...e, span: { start: lexeme.start, end: (cx.lexemes[cx.at - 1] as Span).end } };
  }
  cx.at--;
  if (text === "[") refuse("A function without a name is not played.", lexeme);
  return refuse(`\`${text}\` is not expected here.`, lexeme);
}

function number(cx: Context, text: string, span: Span): Expr {
  const whole = literalValue(text, cx.target);
  if (whole) {
    const bits = whole.bits as 8 | 16 | 32 | 64;
    const type: Type = { kind: "int", bits, signed: whole.signed };
    return constantOf(type, bits === 64 ? whole.value : Number(whole.value), span);
  }
  const m = /^((?:\d[\d']*)?\.?(?:\d[\d']*)?(?:[eE][+-]?\d+)?)([fFlL]?)$/.exec(text);
  if (!m) return refuse(`\`${text}\` is no number that is known.`, span);
  const value = Number((m[1] as string).replaceAll("'", ""));
  if (Number.isNaN(value)) refuse(`\`${text}\` is no number that is known.`, span);
  const type = /f/i.test(m[2] as string) ? FLOAT : double(cx.target);
  return constantOf(type, type.bits === 32 ? Math.fround(value) : value, span);
}

/** The characters in memory, and a NUL behind them. */
function string(cx: Context, text: string, span: Span): Expr {
  let inside = text.slice(1, -1);
  while (peek(cx).kind === "string") inside += take(cx).text.slice(1, -1);
  const units = unquote(inside) ?? refuse("This string is not read.", span);
  const bytes = Uint8Array.from([...units, 0]);
  const at = place(cx.plan, bytes.length, READ, bytes)?.address ?? refuse("This is too large.", span);
  const type: Type = {
    kind: "array",
    of: { kind: "int", bits: 8, signed: cx.target !== "arm32" },
    count: bytes.length,
  };
  const home: Home = { kind: "memory", address: () => at, safe: true, fixed: true };
  return { type, run: () => at, cost: 1, home, span };
}

function word(cx: Context, text: string, span: Span): Expr {
  if (text === "true" || text === "false") return constantOf(TRUTH, text === "true" ? 1 : 0, span);
  if ((text === "NULL" || text === "nullptr") && !find(cx, text)) return constantOf(int(cx.target), 0, span);
  if (/^(?:static_cast|reinterpret_cast|const_cast)$/.test(text) && is(cx, "<")) {
    cx.at++;
    const type = typeName(cx);
    expect(cx, ">");
    expect(cx, "(");
    const e = decayed(expression(cx));
    expect(cx, ")");
    return { ...castTo(e, type), span: { start: span.start, end: (cx.lexemes[cx.at - 1] as Span).end } };
  }
  if (is(cx, "::")) {
    // Of a scope only the last name is looked up: that is where all names of a file are kept.
    cx.at++;
    return word(cx, take(cx).text, span);
  }
  cx.at--;
  if (typeAhead(cx) && ahead(cx, 1).text === "(") {
    const { type } = specifiers(cx);
    expect(cx, "(");
    const e = decayed(expression(cx));
    expect(cx, ")");
    return { ...castTo(e, type), span: { start: span.start, end: (cx.lexemes[cx.at - 1] as Span).end } };
  }
  cx.at++;
  const known = find(cx, text);
  if (is(cx, "(") && (!known || known.kind === "routines" || known.kind === "not"))
    return callNamed(cx, text, known, span);
  if (!known) {
    const bits = /^B([01]{1,8})$/.exec(text);
    if (bits) return constantOf(int(cx.target), Number.parseInt(bits[1] as string, 2), span);
    if (text === "PI" || text === "M_PI") return constantOf(double(cx.target), rounding(cx, Math.PI), span);
    if (text === "TWO_PI") return constantOf(double(cx.target), rounding(cx, 2 * Math.PI), span);
    return refuse(`\`${text}\` is not known in this file or those that it includes.`, span);
  }
  if (known.kind === "value") return { ...known.expr, span };
  if (known.kind === "global") return { ...globalExpr(cx, known.global), span };
  if (known.kind === "not") return refuse(`\`${text}\` is not played: ${known.why}`, span);
  return refuse(known.kind === "type" ? `\`${text}\` is a type.` : `\`${text}\` is a function.`, span);
}

function rounding(cx: Context, value: number): number {
  return cx.target === "avr" ? Math.fround(value) : value;
}
