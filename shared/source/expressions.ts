/**
 * Constant expressions as the compiler computes them: macros expanded as tokens, integer promotions and the usual
 * arithmetic conversions of the target (C17 6.3.1, 6.6; C++17 [expr.const] for integers).
 */
import { characterValue, literalValue, wideCharacterValue } from "./literals.ts";
import type { Names, Unknown } from "./names.ts";
import { findConstant, findObject, findType } from "./names.ts";
import { classOf, DIGIT, IDENT, identEnd, numberEnd, quotedEnd, skipSpace } from "./scan.ts";
import type { IntType, Target, Typed } from "./types.ts";
import { builtinType, bytesOf, isTypeWord, namedType, stored, WIDTHS } from "./types.ts";

export interface Token {
  readonly kind: "number" | "word" | "character" | "string" | "operator";
  readonly text: string;
}

const MOST_TOKENS = 20_000;
const MOST_DEPTH = 100;
const OPERATORS = "<<= >>= <=> ... << >> <= >= == != && || :: ## -> ++ -- += -= *= /= %= &= |= ^=".split(" ");

/** The operator or punctuation that begins at an offset: the longest one (C17 6.4). */
export function operatorAt(text: string, at: number): string {
  const c = text[at] as string;
  if (!LONGER.has(c)) return c;
  return OPERATORS.find((o) => text.startsWith(o, at)) ?? c;
}

/** What longer operators begin with. */
const LONGER = new Set(OPERATORS.map((o) => o[0] as string));

/** Thrown inside this file only; not an Error, because the stack that those record costs more than the evaluation. */
class NotConstant {
  readonly why: string;
  constructor(why: string) {
    this.why = why;
  }
}

const fail = (why: string): never => {
  throw new NotConstant(why);
};

/** Evaluates an integer constant expression; says why where its value cannot be known. Never throws. */
export function evaluate(text: string, names: Names, target: Target): Typed | Unknown {
  const known = names.memo.get(text);
  if (known) return known;
  const result = evaluated(undefined, text, names, target);
  if (names.memo.size > 10_000) names.memo.clear();
  // An array declared later would change what a size is.
  if (!text.includes("sizeof")) names.memo.set(text, result);
  return result;
}

/** The value of expanded tokens, or of a text that is still to be expanded. */
function evaluated(list: readonly Token[] | undefined, text: string, names: Names, target: Target): Typed | Unknown {
  try {
    return parse(list ?? expand(tokens(text), names, new Set(), 0), names, target, false);
  } catch (error) {
    if (!(error instanceof NotConstant)) throw error;
    if (error.why === SEVERAL) return { why: SEVERAL };
    return { why: error.why.replace(/^it /, `\`${text.slice(0, 40)}\` `) };
  }
}

/** The values of an item of a list: one, or several where macros in it expand to commas. Never throws. */
export function evaluateItem(text: string, names: Names, target: Target): readonly (Typed | Unknown)[] {
  const one = evaluate(text, names, target);
  if (!("why" in one) || one.why !== SEVERAL) return [one];
  const made = expand(tokens(text), names, new Set(), 0);
  const out: (Typed | Unknown)[] = [];
  let from = 0;
  let nesting = 0;
  for (let i = 0; i <= made.length; i++) {
    const t = made[i]?.text;
    if (t === "(" || t === "[" || t === "{") nesting++;
    else if (t === ")" || t === "]" || t === "}") nesting--;
    if (i < made.length && (t !== "," || nesting > 0)) continue;
    // A comma at the end makes no element more.
    if (i < made.length || i > from) out.push(evaluated(made.slice(from, i), text, names, target));
    from = i + 1;
  }
  return out;
}

const SEVERAL = "it makes several elements";

/** Evaluates the condition of `#if`: `defined` is known, any other name that is left is not. */
export function evaluateCondition(
  text: string,
  names: Names,
  target: Target,
  isDefined: (name: string) => boolean | undefined,
): boolean | Unknown {
  try {
    const all = tokens(text);
    const kept: Token[] = [];
    for (let i = 0; i < all.length; i++) {
      const token = all[i] as Token;
      if (token.text !== "defined") {
        kept.push(token);
        continue;
      }
      const paren = all[i + 1]?.text === "(";
      const name = all[i + (paren ? 2 : 1)]?.text ?? "";
      const known = isDefined(name);
      if (known === undefined) return { why: `\`${name}\` may be defined elsewhere` };
      kept.push({ kind: "number", text: known ? "1" : "0" });
      i += paren ? 3 : 1;
    }
    return parse(expand(kept, names, new Set(), 0), names, target, true).value !== 0n;
  } catch (error) {
    if (!(error instanceof NotConstant)) throw error;
    return { why: error.why };
  }
}

/**
 * Replaces the macros in tokens as the preprocessor does. The tokens given that stay are the same objects, those that
 * macros make are new; or why it can't be known.
 */
export function expanded(list: readonly Token[], names: Names): Token[] | Unknown {
  try {
    return expand(list, names, new Set(), 0);
  } catch (error) {
    if (!(error instanceof NotConstant)) throw error;
    return { why: error.why };
  }
}

function tokens(text: string): Token[] {
  const out: Token[] = [];
  for (let i = skipSpace(text, 0); i < text.length; i = skipSpace(text, i)) {
    if (out.length > MOST_TOKENS) fail("the expression is too long");
    const c = text.charCodeAt(i);
    const start = i;
    if (classOf(c) === DIGIT || (c === 46 && classOf(text.charCodeAt(i + 1)) === DIGIT)) {
      i = numberEnd(text, i);
      out.push({ kind: "number", text: text.slice(start, i) });
    } else if (classOf(c) === IDENT) {
      i = identEnd(text, i);
      out.push({ kind: "word", text: text.slice(start, i) });
    } else if (c === 39 || c === 34) {
      i = quotedEnd(text, i);
      out.push({ kind: c === 39 ? "character" : "string", text: text.slice(start, i) });
    } else {
      const operator = operatorAt(text, i);
      i += operator.length;
      out.push({ kind: "operator", text: operator });
    }
  }
  return out;
}

/** Replaces macros by their bodies, token by token; a macro is not expanded again inside itself. */
function expand(source: readonly Token[], names: Names, hidden: ReadonlySet<string>, depth: number): Token[] {
  if (depth > MOST_DEPTH) fail("the macros nest too deep");
  let list = source;
  const out: Token[] = [];
  for (let i = 0; i < list.length; i++) {
    const token = list[i] as Token;
    const macro = token.kind === "word" && !hidden.has(token.text) ? names.macros.get(token.text) : undefined;
    if (!macro) {
      out.push(token);
    } else {
      if (macro.uncertain) fail(`\`${token.text}\` depends on ${macro.uncertain}`);
      const inner = new Set(hidden).add(token.text);
      if (macro.params === undefined) {
        const made = expand(paste(tokens(macro.body)), names, inner, depth + 1);
        // A function-like macro's name at the end takes its arguments from what follows (C17 6.10.3.4).
        const last = made[made.length - 1];
        const called = last?.kind === "word" && names.macros.get(last.text)?.params !== undefined;
        if (called && list[i + 1]?.text === "(" && !inner.has(last.text)) {
          for (const t of made.slice(0, -1)) out.push(t);
          list = [last, ...list.slice(i + 1)];
          i = -1;
        } else for (const t of made) out.push(t);
      } else if (list[i + 1]?.text === "(") {
        const call = argumentsOf(list, i + 2);
        const filled = substitute(tokens(macro.body), macro.params, call.args, token.text, (a) =>
          expand(a, names, hidden, depth + 1),
        );
        for (const t of expand(filled, names, inner, depth + 1)) out.push(t);
        i = call.end;
      } else {
        out.push(token);
      }
    }
    if (out.length > MOST_TOKENS) fail("the expression is too long");
  }
  return out;
}

function argumentsOf(list: readonly Token[], from: number): { args: Token[][]; end: number } {
  const args: Token[][] = [[]];
  let nesting = 0;
  for (let i = from; i < list.length; i++) {
    const token = list[i] as Token;
    if (token.text === ")" && nesting === 0) return { args, end: i };
    if (token.text === "," && nesting === 0) {
      args.push([]);
      continue;
    }
    if (token.text === "(") nesting++;
    if (token.text === ")") nesting--;
    args[args.length - 1]?.push(token);
  }
  return fail("a macro call is not closed");
}

/** Puts arguments in for parameters: beside `##` and after `#` as written, elsewhere with their macros replaced. */
function substitute(
  body: readonly Token[],
  declared: readonly string[],
  list: readonly Token[][],
  name: string,
  ready: (arg: readonly Token[]) => Token[],
): Token[] {
  const variadic = declared[declared.length - 1] === "...";
  const params = variadic ? [...declared.slice(0, -1), "__VA_ARGS__"] : declared;
  const args = variadic ? withRest(list, params.length - 1) : list;
  const given = args.length === 1 && args[0]?.length === 0 && params.length === 0 ? 0 : args.length;
  if (given !== params.length) fail(`\`${name}\` takes ${params.length} arguments, not ${given}`);
  const out: Token[] = [];
  body.forEach((token, i) => {
    if (token.text === "#") {
      const index = params.indexOf(body[i + 1]?.text ?? "");
      if (index >= 0) out.push(quoted(args[index] as Token[]));
      return;
    }
    const index = token.kind === "word" ? params.indexOf(token.text) : -1;
    if (index < 0) out.push(token);
    else if (body[i - 1]?.text !== "#") {
      const arg = args[index] as Token[];
      const pasted = body[i - 1]?.text === "##" || body[i + 1]?.text === "##";
      for (const t of pasted ? (arg.length === 0 ? [EMPTY] : arg) : ready(arg)) out.push(t);
    }
    if (out.length > MOST_TOKENS) fail("the expression is too long");
  });
  return paste(out);
}

/** An empty argument beside `##`. */
const EMPTY: Token = { kind: "operator", text: "" };

/** All arguments from `first` on as one, with the commas between. */
function withRest(list: readonly Token[][], first: number): Token[][] {
  const comma: Token = { kind: "operator", text: "," };
  const rest = list.slice(first).flatMap((arg, i) => (i === 0 ? arg : [comma, ...arg]));
  return [...list.slice(0, first), rest];
}

/** `#`: the argument as a string (C17 6.10.3.2). */
function quoted(arg: readonly Token[]): Token {
  const inside = arg.map((t) => t.text.replace(/["\\]/g, "\\$&")).join(" ");
  return { kind: "string", text: `"${inside}"` };
}

/** `##`: two tokens become one (C17 6.10.3.3). */
function paste(list: readonly Token[]): Token[] {
  if (!list.some((t) => t.text === "##" || t === EMPTY)) return [...list];
  const out: Token[] = [];
  for (let i = 0; i < list.length; i++) {
    const token = list[i] as Token;
    const left = out[out.length - 1];
    if (token.text !== "##" || !left || i + 1 >= list.length) {
      out.push(token);
      continue;
    }
    const text = left.text + (list[++i] as Token).text;
    const made = text === "" ? [EMPTY] : tokens(text);
    if (made.length !== 1) fail(`\`${text}\` is pasted, but is not one token`);
    out[out.length - 1] = made[0] as Token;
  }
  return out.filter((t) => t !== EMPTY);
}

/** How tightly the two-sided operators of C bind (C17 6.5.5 to 6.5.14), the loosest first. */
export const PRECEDENCE: Readonly<Record<string, number>> = {
  "||": 1,
  "&&": 2,
  "|": 3,
  "^": 4,
  "&": 5,
  "==": 6,
  "!=": 6,
  "<": 7,
  ">": 7,
  "<=": 7,
  ">=": 7,
  "<<": 8,
  ">>": 8,
  "+": 9,
  "-": 9,
  "*": 10,
  "/": 10,
  "%": 10,
};

function parse(list: readonly Token[], names: Names, target: Target, condition: boolean): Typed {
  const int: IntType = { kind: "int", bits: WIDTHS[target].int, signed: true };
  let at = 0;
  let depth = 0;
  const peek = () => list[at]?.text ?? "";
  const expect = (text: string) => {
    if (peek() !== text) fail(peek() === "" ? "the expression is not complete" : `\`${peek()}\` is not expected here`);
    at++;
  };
  const result = ternary();
  if (peek() === ",") fail(SEVERAL);
  if (at < list.length) fail(`\`${peek()}\` is not expected here`);
  return result;

  function ternary(): Typed {
    if (++depth > MOST_DEPTH) fail("the expression nests too deep");
    const test = binary(1);
    if (peek() !== "?") {
      depth--;
      return test;
    }
    at++;
    const yes = ternary();
    expect(":");
    const no = ternary();
    depth--;
    const type = common(yes, no);
    return convert(test.value !== 0n ? yes : no, type);
  }

  function binary(least: number): Typed {
    let left = unary();
    for (;;) {
      const operator = peek();
      const strength = PRECEDENCE[operator];
      if (strength === undefined || strength < least) return left;
      at++;
      left = combine(operator, left, binary(strength + 1));
    }
  }

  function unary(): Typed {
    if (++depth > MOST_DEPTH) fail("the expression nests too deep");
    const value = unaryInside();
    depth--;
    return value;
  }

  function unaryInside(): Typed {
    const token = list[at];
    if (!token) return fail("the expression is not complete");
    at++;
    if (token.kind === "number") return literalValue(token.text, target) ?? fail(`\`${token.text}\` is not an integer`);
    if (token.kind === "character") {
      const value = characterValue(token.text, target) ?? fail(`${token.text} is not a single character`);
      return { ...value, unsized: true };
    }
    if (token.kind === "string") return fail("a string is not a number");
    if (token.kind === "word") {
      // An encoding prefix and its character come as two tokens.
      const next = list[at];
      if (next?.kind === "character" && /^(?:u8|u|U|L)$/.test(token.text)) {
        at++;
        return (
          wideCharacterValue(token.text, next.text, target) ??
          fail(`${token.text}${next.text} is not a single character`)
        );
      }
      return word(token.text);
    }
    if (token.text === "::") return global();
    switch (token.text) {
      case "+":
        return promote(unary());
      case "-": {
        const x = promote(unary());
        return wrap(-x.value, x);
      }
      case "~": {
        const x = promote(unary());
        return wrap(~x.value, x);
      }
      case "!":
        return truth(unary().value === 0n);
      case "(": {
        const start = at;
        const type = typeName();
        if (type && peek() === ")") {
          at++;
          return convert(unary(), type);
        }
        at = start;
        const inside = ternary();
        if (peek() === ",") fail("it uses the comma operator");
        expect(")");
        return inside;
      }
      default:
        return fail(`\`${token.text}\` is not expected here`);
    }
  }

  /** `::NAME`: the name of the file's own scope. */
  function global(): Typed {
    const name = list[at]?.kind === "word" ? peek() : fail("a name is missing after `::`");
    if (list[at + 1]?.text === "::") return unary();
    at++;
    const known = findConstant(names, name, "") ?? fail(`\`::${name}\` is not defined in this file`);
    return "why" in known ? fail(`\`::${name}\`: ${known.why}`) : known;
  }

  /** `sizeof`: of a type, of an array or variable whose type is known, or of an expression's value. */
  function sizeOf(): Typed {
    const start = at;
    let bytes: number | undefined;
    if (peek() === "(") {
      at++;
      const type = typeName();
      if (type && peek() === "*") fail("the size of a pointer is asked for");
      if (type && peek() === ")") bytes = type.bits / 8;
      else {
        at = start + 1;
        bytes = objectSize();
        if (peek() !== ")") bytes = undefined;
      }
      if (bytes !== undefined) at++;
      else at = start;
    } else bytes = objectSize();
    if (bytes === undefined) {
      at = start;
      if (list[at]?.kind === "string") return fail("the size of a string is asked for");
      const value = unary();
      if (value.unsized) return fail("its size differs between C and C++");
      bytes = value.bits / 8;
    }
    return { value: BigInt(bytes), bits: WIDTHS[target].pointer, signed: false };
  }

  /** Bytes of `NAME`, `NAME[0]` or `*NAME`, if NAME is an array that is known; the cursor moves past it. */
  function objectSize(): number | undefined {
    const start = at;
    let stars = 0;
    for (; peek() === "*"; at++) stars++;
    if (peek() === "::") at++;
    let type = list[at]?.kind === "word" ? findObject(names, peek()) : undefined;
    at++;
    while (type && peek() === "[") {
      let nesting = 0;
      do {
        if (peek() === "[") nesting++;
        else if (peek() === "]") nesting--;
        at++;
      } while (nesting > 0 && at < list.length);
      type = type.kind === "array" ? type.of : undefined;
    }
    for (; type && stars > 0; stars--) type = type.kind === "array" ? type.of : undefined;
    const bytes = type && bytesOf(type, target);
    const more = peek() === "." || peek() === "(" || peek() === "->";
    if (bytes === undefined || more) at = start;
    return more ? undefined : bytes;
  }

  /** A type name at the cursor, which moves past it; undefined (and no move) for anything else. */
  function typeName(): IntType | undefined {
    const start = at;
    const words: string[] = [];
    let named: IntType | undefined;
    while (list[at]?.kind === "word") {
      const text = peek();
      const qualifies = list[at + 1]?.text === "::";
      if (text === "const" || (text === "std" && qualifies)) at++;
      else if (qualifies) break;
      else if (isTypeWord(text)) {
        words.push(text);
        at++;
      } else {
        const known = words.length === 0 && !named ? (findType(names, text) ?? namedType(text, target)) : undefined;
        if (known?.kind !== "int") break;
        named = known;
        at++;
      }
      if (peek() === "::") at++;
    }
    const type = named ?? (words.length > 0 ? builtinType(words, target) : undefined);
    if (!type) at = start;
    return type;
  }

  function word(name: string): Typed {
    if (condition) {
      if (name === "true") return truth(true);
      if (name === "false") return truth(false);
      return fail(`\`${name}\` is not defined in this file`);
    }
    if (name === "true" || name === "false") return { value: name === "true" ? 1n : 0n, bits: 8, signed: false };
    if (name === "sizeof") return sizeOf();
    if (name === "static_cast") {
      expect("<");
      const type = typeName() ?? fail("the type of a cast is not known");
      expect(">");
      expect("(");
      const inside = ternary();
      expect(")");
      return convert(inside, type);
    }
    at--;
    const type = typeName();
    if (type) {
      expect("(");
      const inside = ternary();
      expect(")");
      return convert(inside, type);
    }
    at++;
    let qualifier: string | undefined;
    let last = name;
    while (peek() === "::") {
      at++;
      qualifier = last;
      last = list[at]?.kind === "word" ? peek() : fail("a name is missing after `::`");
      at++;
    }
    const known = findConstant(names, last, qualifier);
    if (known && "why" in known) return fail(`\`${last}\`: ${known.why}`);
    if (known) return known;
    if (peek() === "(") return fail(`\`${last}(…)\` is not known in this file`);
    const bits = qualifier === undefined ? /^B([01]{1,8})$/.exec(last) : null;
    if (bits) return { value: BigInt(`0b${bits[1]}`), bits: int.bits, signed: true };
    return fail(`\`${last}\` is not defined in this file`);
  }

  function truth(yes: boolean): Typed {
    return { value: yes ? 1n : 0n, bits: int.bits, signed: true, unsized: true };
  }

  function wrap(value: bigint, type: { bits: number; signed: boolean }): Typed {
    const { bits, signed } = type;
    return { value: signed ? BigInt.asIntN(bits, value) : BigInt.asUintN(bits, value), bits, signed };
  }

  function convert(x: Typed, type: { bits: number; signed: boolean } | IntType): Typed {
    if ("kind" in type) return { value: stored(x.value, type), bits: type.bits, signed: type.signed };
    return wrap(x.value, type);
  }

  /** Integer promotion (C17 6.3.1.1): narrower types become int where int holds all their values. */
  function promote(x: Typed): Typed {
    const wide: Typed = condition ? { ...x, bits: 64 } : x;
    if (wide.bits < int.bits) return { value: wide.value, bits: int.bits, signed: true };
    return wide;
  }

  /** The usual arithmetic conversions (C17 6.3.1.8) for the type of both operands. */
  function common(a: Typed, b: Typed): { bits: number; signed: boolean } {
    const x = promote(a);
    const y = promote(b);
    if (x.bits === y.bits) return { bits: x.bits, signed: x.signed && y.signed };
    const wider = x.bits > y.bits ? x : y;
    return { bits: wider.bits, signed: wider.signed };
  }

  function combine(operator: string, a: Typed, b: Typed): Typed {
    if (operator === "&&") return truth(a.value !== 0n && b.value !== 0n);
    if (operator === "||") return truth(a.value !== 0n || b.value !== 0n);
    if (operator === "<<" || operator === ">>") {
      const x = promote(a);
      if (b.value < 0n || b.value >= BigInt(x.bits)) fail("a shift by more than the width is undefined");
      return wrap(operator === "<<" ? x.value << b.value : x.value >> b.value, x);
    }
    const type = common(a, b);
    const x = convert(a, type).value;
    const y = convert(b, type).value;
    switch (operator) {
      case "+":
        return wrap(x + y, type);
      case "-":
        return wrap(x - y, type);
      case "*":
        return wrap(x * y, type);
      case "/":
        return y === 0n ? fail("a division by zero") : wrap(x / y, type);
      case "%":
        return y === 0n ? fail("a division by zero") : wrap(x % y, type);
      case "|":
        return wrap(x | y, type);
      case "&":
        return wrap(x & y, type);
      case "^":
        return wrap(x ^ y, type);
      case "==":
        return truth(x === y);
      case "!=":
        return truth(x !== y);
      case "<":
        return truth(x < y);
      case ">":
        return truth(x > y);
      case "<=":
        return truth(x <= y);
      default:
        return truth(x >= y);
    }
  }
}
