/** The smallest parts of expressions: literals, names, and what stands in parentheses. */
import { characterValue, literalValue, unquote } from "../../source/literals.ts";
import type { Span } from "../../source/text.ts";
import type { Context, Expr, Home } from "./context.ts";
import { ahead, expect, find, is, peek, refuse, take } from "./context.ts";
import { specifiers, typeAhead, typeName } from "./declarations.ts";
import { castTo, decayed, expression } from "./expressions.ts";
import { callNamed } from "./functions.ts";
import { globalExpr } from "./globals.ts";
import { place, READ } from "./machine.ts";
import type { Type } from "./types.ts";
import { double, FLOAT, int, TRUTH } from "./types.ts";
import { constantOf } from "./values.ts";

export function primary(cx: Context): Expr {
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
