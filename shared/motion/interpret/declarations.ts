/** Declarations: the types that words name, structs and enums, and declarators with their dimensions. */
import type { Span } from "../../source/text.ts";
import { builtinType, isTypeWord, namedType } from "../../source/types.ts";
import type { Context, Expr, Parameter } from "./context.ts";
import {
  accept,
  ahead,
  declare,
  expect,
  find,
  is,
  nested,
  peek,
  refuse,
  skipGroup,
  spanFrom,
  take,
} from "./context.ts";
import { convert } from "./conversions.ts";
import { ternary } from "./expressions.ts";
import type { Type } from "./types.ts";
import { double, FLOAT, int, same, sizeOf, structOf, VOID } from "./types.ts";
import { constantOf } from "./values.ts";

export interface Specifiers {
  readonly type: Type;
  readonly constant: boolean;
  readonly isStatic: boolean;
  readonly typedef: boolean;
  /** `auto`: the type is that of the value. */
  readonly auto: boolean;
  /** It is placed in flash. */
  readonly flash: boolean;
}

const QUALIFIERS = new Set(
  "const volatile static extern inline constexpr constinit register mutable typedef restrict __restrict __flash __memx signed typename thread_local".split(
    " ",
  ),
);

/** Words that place data or code and mean nothing for its value. */
const PLACING =
  /^(?:PROGMEM|__attribute__|__attribute|alignas|[A-Z][A-Z0-9_]*_(?:ATTR|MEM|FLASH|RAM|ROM)|FLASHMEM|DMAMEM)$/;

/** Whether a declaration or the type of a cast begins at a token, counted from the cursor. */
export function typeAhead(cx: Context, by = 0): boolean {
  const { kind, text } = ahead(cx, by);
  if (kind !== "word") return false;
  if (/^(?:struct|union|enum|class|float|double|void|auto|signed)$/.test(text) || isTypeWord(text)) return true;
  if (QUALIFIERS.has(text) || (text === "PROGMEM" && find(cx, text) === undefined)) return true;
  if (text === "std" && ahead(cx, by + 1).text === "::") return typeAhead(cx, by + 2);
  const known = find(cx, text);
  if (known) return known.kind === "type";
  return namedType(text, cx.target) !== undefined;
}

/** The words before the first declarator. */
export function specifiers(cx: Context): Specifiers {
  const first = cx.at;
  const words: string[] = [];
  let type: Type | undefined;
  const has = { constant: false, isStatic: false, typedef: false, auto: false, flash: false };
  for (;;) {
    const { kind, text } = peek(cx);
    if (kind !== "word") break;
    if (text === "const" || text === "constexpr") has.constant = true;
    else if (text === "static") has.isStatic = true;
    else if (text === "typedef") has.typedef = true;
    else if (text === "auto" && !cx.plainC) has.auto = true;
    else if (PLACING.test(text) && find(cx, text) === undefined) {
      if (placing(cx)) has.flash = true;
      continue;
    } else if (text === "float") type = FLOAT;
    else if (text === "double") type = double(cx.target);
    else if (text === "void") type = VOID;
    else if (text === "struct" || text === "union" || text === "enum" || text === "class") {
      type = body(cx);
      continue;
    } else if (isTypeWord(text)) words.push(text);
    else if (text === "std" && ahead(cx, 1).text === "::") cx.at++;
    else if (!QUALIFIERS.has(text)) {
      if (type || words.length > 0 || has.auto) break;
      const known = find(cx, text);
      const found = known ? (known.kind === "type" ? known.type : undefined) : namedType(text, cx.target);
      if (!found) break;
      type = found;
    }
    cx.at++;
  }
  if (words.length > 0) {
    // `long double` is `double`, and is not used on displays.
    if (type?.kind === "float") return { type, ...has };
    type = builtinType(words, cx.target) ?? refuse(`\`${words.join(" ")}\` is no type.`, spanFrom(cx, first));
  }
  if (!type && has.auto) type = VOID;
  if (!type) refuse("A type is expected here.", peek(cx));
  return { type, ...has };
}

/** `struct`, `union` or `enum` with what belongs to it. */
function body(cx: Context): Type {
  const first = cx.at;
  const keyword = take(cx).text;
  while (PLACING.test(peek(cx).text)) {
    cx.at++;
    if (is(cx, "(")) skipGroup(cx);
  }
  if (keyword === "enum" && (is(cx, "class") || is(cx, "struct"))) cx.at++;
  const name = peek(cx).kind === "word" ? take(cx).text : "";
  if (keyword === "enum") return enumeration(cx, name);
  if (!is(cx, "{")) {
    const known = cx.tags.get(name);
    return known ?? refuse(`\`${keyword} ${name}\` is not known in this file.`, spanFrom(cx, first));
  }
  if (keyword === "union") refuse("A union is not played.", spanFrom(cx, first));
  cx.at++;
  const members: { name: string; type: Type }[] = [];
  while (!accept(cx, "}")) {
    if (keyword === "class" || is(cx, ":")) refuse("A class is not played.", peek(cx));
    const base = nested(cx, () => specifiers(cx));
    do {
      const d = declarator(cx, base.type);
      if (d.parameters) refuse("Functions of a struct are not played.", d.span);
      if (is(cx, ":")) refuse("A bit-field is not played.", peek(cx));
      if (is(cx, "=")) refuse("A value that members have from the start is not played.", peek(cx));
      members.push({ name: d.name, type: sized(d.type, d.span) });
    } while (accept(cx, ","));
    expect(cx, ";");
  }
  const type = structOf(name, members, cx.target);
  if (name !== "") {
    cx.tags.set(name, type);
    if (!cx.plainC) declare(cx, name, { kind: "type", type });
  }
  return type;
}

function enumeration(cx: Context, name: string): Type {
  let type: Type = int(cx.target);
  if (accept(cx, ":")) type = specifiers(cx).type;
  if (name !== "") {
    cx.tags.set(name, type);
    if (!cx.plainC) declare(cx, name, { kind: "type", type });
  }
  if (!accept(cx, "{")) return type;
  let next = 0;
  while (!accept(cx, "}")) {
    const item = take(cx);
    if (accept(cx, "=")) next = constantNumber(cx);
    declare(cx, item.text, { kind: "value", expr: constantOf(int(cx.target), next, item) });
    next++;
    if (!accept(cx, ",")) {
      expect(cx, "}");
      break;
    }
  }
  return type;
}

export interface Declarator {
  readonly name: string;
  readonly type: Type;
  readonly span: Span;
  readonly reference: boolean;
  /** It is placed in flash. */
  readonly flash: boolean;
  /** Of a function. */
  readonly parameters?: readonly Parameter[];
}

/** A dimension that is left to the initialiser. */
export const OPEN = -1;

/** One declarator: pointers, a name, dimensions or parameters. A name may be missing, as in casts. */
export function declarator(cx: Context, base: Type): Declarator {
  let type = base;
  let reference = false;
  let flash = false;
  for (;;) {
    if (accept(cx, "*")) type = { kind: "pointer", to: type };
    else if (accept(cx, "&")) reference = true;
    else if (is(cx, "const") || is(cx, "volatile") || is(cx, "restrict") || is(cx, "__restrict")) cx.at++;
    else if (peek(cx).kind === "word" && PLACING.test(peek(cx).text) && find(cx, peek(cx).text) === undefined)
      flash = placing(cx) || flash;
    else break;
  }
  // A pointer to an array: `(*rows)[9]`; or a reference to one.
  if (is(cx, "(") && (ahead(cx, 1).text === "*" || ahead(cx, 1).text === "&") && ahead(cx, 3).text === ")") {
    cx.at++;
    const pointer = take(cx).text === "*";
    const name = take(cx);
    cx.at++;
    if (is(cx, "(")) refuse("A pointer to a function is not played.", name);
    const to = dimensions(cx, type);
    return { name: name.text, type: pointer ? { kind: "pointer", to } : to, span: name, reference: !pointer, flash };
  }
  const named = peek(cx).kind === "word" && !typeWord(peek(cx).text) ? take(cx) : undefined;
  const span: Span = named ?? peek(cx);
  const name = named?.text ?? "";
  while (peek(cx).kind === "word" && PLACING.test(peek(cx).text)) flash = placing(cx) || flash;
  if (is(cx, "(") && name !== "" && (ahead(cx, 1).text === ")" || typeAhead(cx, 1)))
    return { name, type, span, reference, flash, parameters: parametersOf(cx) };
  type = dimensions(cx, type);
  while (peek(cx).kind === "word" && PLACING.test(peek(cx).text)) flash = placing(cx) || flash;
  return { name, type, span, reference, flash };
}

function typeWord(text: string): boolean {
  return isTypeWord(text) || /^(?:float|double|void|const|struct)$/.test(text);
}

/** Moves behind a word that places something, and what it takes; true where it places in flash. */
function placing(cx: Context): boolean {
  const { text } = take(cx);
  if (is(cx, "(")) skipGroup(cx);
  return text === "PROGMEM";
}

function dimensions(cx: Context, of: Type): Type {
  if (!is(cx, "[")) return of;
  const bracket = take(cx);
  const count = is(cx, "]") ? OPEN : constantNumber(cx);
  expect(cx, "]");
  const inner = nested(cx, () => dimensions(cx, of));
  if (count !== OPEN && (count < 1 || count > 1 << 24)) refuse(`An array can't have ${count} elements.`, bracket);
  return { kind: "array", of: inner, count };
}

/** A whole number that is known when compiling. */
export function constantNumber(cx: Context): number {
  const e = ternary(cx);
  if (e.constant === undefined || e.type.kind !== "int") refuse("This number is not known when compiling.", e.span);
  return Number(e.constant);
}

/** The type, refused where its size is left open. */
export function sized(type: Type, span: Span): Type {
  if (type.kind === "array" && type.count === OPEN) refuse("The size of this array is not known.", span);
  if (type.kind === "void") refuse("A variable needs a type.", span);
  return type;
}

function parametersOf(cx: Context): Parameter[] {
  expect(cx, "(");
  const found: Parameter[] = [];
  if (accept(cx, ")")) return found;
  if (is(cx, "void") && ahead(cx, 1).text === ")") {
    cx.at += 2;
    return found;
  }
  do {
    if (is(cx, ".") || is(cx, "...")) refuse("A function with any number of arguments is not played.", peek(cx));
    const base = specifiers(cx);
    const d = declarator(cx, base.type);
    if (is(cx, "=")) refuse("Arguments that may be left out are not played.", peek(cx));
    const type: Type = d.type.kind === "array" && !d.reference ? { kind: "pointer", to: d.type.of } : d.type;
    found.push({ name: d.name, type, reference: d.reference, span: d.span });
  } while (accept(cx, ","));
  expect(cx, ")");
  return found;
}

/** The type that a cast or `sizeof` names. */
export function typeName(cx: Context): Type {
  const base = specifiers(cx);
  return declarator(cx, base.type).type;
}

/** `sizeof`, in `size_t`. */
export function sizeExpr(cx: Context, type: Type, span: Span): Expr {
  const bits = cx.target === "avr" ? 16 : cx.target === "host" ? 64 : 32;
  const size = sizeOf(type, cx.target);
  return constantOf({ kind: "int", bits, signed: false }, bits === 64 ? BigInt(size) : size, span);
}

/** A value as one of a declared type; structs are taken as they are. */
export function fitted(e: Expr, type: Type): Expr {
  return same(e.type, type) ? e : convert(e, type);
}
