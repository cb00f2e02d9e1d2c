/** The top level of a file: what it declares. Bodies and first values are read when they are first needed. */
import type { SourceFile } from "../../source/read.ts";
import { addressedIn } from "./addressed.ts";
import type { Context, Expr, Global, Routine, Scope } from "./context.ts";
import {
  accept,
  ahead,
  declare,
  elsewhere,
  expect,
  find,
  is,
  peek,
  refuse,
  skipGroup,
  skipStatement,
} from "./context.ts";
import { declarator, fitted, OPEN, type Specifiers, sized, specifiers } from "./declarations.ts";
import { assignment, decayed } from "./expressions.ts";
import { countGiven, initialiser } from "./initialise.ts";
import { newMachine, newPlan, Stopped } from "./machine.ts";
import { type Lexeme, lexemesOf } from "./tokens.ts";
import type { Type } from "./types.ts";
import { constantOf } from "./values.ts";
import { homeFor, variable } from "./variables.ts";

/** Reads what a file and those that it includes declare. What is no C of ours is left out. */
export function readProgram(source: SourceFile, plainC: boolean): Context {
  const { list, assumed } = lexemesOf(source);
  const globals: Scope = new Map();
  const cx: Context = {
    target: source.target,
    plainC,
    lexemes: list,
    at: 0,
    scopes: [globals],
    globals,
    tags: new Map(),
    machine: newMachine(),
    plan: newPlan(),
    starts: [],
    problems: assumed.map(({ why, span, token }) => ({
      ...span,
      message: `${why} is not decided by this file: played as if it does not hold.`,
      passed: true as const,
      token,
    })),
    compiled: [],
    ends: new Map(),
    addressed: addressedIn(list),
    nesting: 0,
    within: undefined,
  };
  while (peek(cx).kind !== "end") item(cx);
  return cx;
}

function item(cx: Context): void {
  const first = cx.at;
  try {
    if (accept(cx, ";") || accept(cx, "}")) return;
    // What a namespace or a block of C declarations holds counts as the file's own.
    if (is(cx, "namespace")) {
      while (!is(cx, "{") && !is(cx, ";") && peek(cx).kind !== "end") cx.at++;
      accept(cx, "{");
      return;
    }
    if (is(cx, "extern") && ahead(cx, 1).kind === "string") {
      cx.at += 2;
      accept(cx, "{");
      return;
    }
    if (is(cx, "using") && ahead(cx, 2).text === "=") {
      const name = ahead(cx, 1).text;
      cx.at += 3;
      const base = specifiers(cx);
      declare(cx, name, { kind: "type", type: declarator(cx, base.type).type });
      expect(cx, ";");
      return;
    }
    declaration(cx);
  } catch (error) {
    if (!(error instanceof Stopped)) throw error;
    nameUnknown(cx, first, error.message);
    cx.at = first;
    skipStatement(cx);
    if (cx.at === first) cx.at++;
  }
}

/** A name that is declared in a way that is not understood is not played; it is told where it is used. */
function nameUnknown(cx: Context, first: number, reason: string): void {
  const head = cx.lexemes[first]?.text;
  const why = head === "template" || head === "class" ? `it is a ${head}.` : reason;
  for (let i = first; i < Math.min(first + 40, cx.lexemes.length); i++) {
    const { kind, text } = cx.lexemes[i] as Lexeme;
    const next = cx.lexemes[i + 1]?.text ?? "";
    if (kind !== "word" && !/^(?:\*|&|::|<|>|,)$/.test(text)) return;
    if (kind === "word" && /^[=[;({:]$/.test(next) && i > first) {
      if (!find(cx, text)) declare(cx, text, { kind: "not", why });
      return;
    }
  }
}

function declaration(cx: Context): void {
  const base = specifiers(cx);
  if (accept(cx, ";")) return;
  for (;;) {
    const d = declarator(cx, base.type);
    if (d.name === "") refuse("A name is expected here.", peek(cx));
    if (base.typedef) declare(cx, d.name, { kind: "type", type: d.type });
    else if (d.parameters) {
      // `noexcept`, and what places the code.
      while (peek(cx).kind === "word") {
        cx.at++;
        if (is(cx, "(")) skipGroup(cx);
      }
      const body = is(cx, "{") ? cx.at + 1 : undefined;
      const routine: Routine = { name: d.name, span: d.span, returns: d.type, parameters: d.parameters, body };
      const known = find(cx, d.name);
      if (known?.kind === "routines") known.routines.push(routine);
      else declare(cx, d.name, { kind: "routines", routines: [routine] });
      if (body !== undefined) {
        skipGroup(cx);
        cx.ends.set(routine, cx.at);
        return;
      }
    } else declareGlobal(cx, base, d);
    if (!accept(cx, ",")) break;
  }
  expect(cx, ";");
}

/** A variable that is there as long as the program runs; of a function too, where it is `static`. */
export function declareGlobal(cx: Context, base: Specifiers, d: ReturnType<typeof declarator>): void {
  if (d.reference) refuse("A reference that outlives a function is not played.", d.span);
  let given: number | undefined;
  if (accept(cx, "=") || is(cx, "{") || peek(cx).kind === "list") {
    given = cx.at;
    skipInitialiser(cx);
  }
  let type: Type = d.type;
  if (type.kind === "array" && type.count === OPEN && given !== undefined)
    type = { ...type, count: countGiven(cx, given, type.of) };
  // `extern` says only that it is elsewhere.
  const known = find(cx, d.name);
  if (known?.kind === "global" && given === undefined && known.global.type.kind === type.kind) return;
  const { constant } = base;
  const flash = cx.target === "avr" && (base.flash || d.flash);
  const global: Global = { name: d.name, span: d.span, type, constant, flash, given, scopes: [...cx.scopes] };
  declare(cx, d.name, { kind: "global", global });
}

function skipInitialiser(cx: Context): void {
  while (!is(cx, ",") && !is(cx, ";") && peek(cx).kind !== "end") {
    if (is(cx, "{") || is(cx, "(") || is(cx, "[")) skipGroup(cx);
    else cx.at++;
  }
}

/** A variable with static storage, found its place and its first value when it is first named. */
export function globalExpr(cx: Context, global: Global): Expr {
  if (global.expr) return global.expr;
  const { name, type: declared, constant, flash, given, span, scopes } = global;
  const type = sized(declared, span);
  const within = cx.within;
  cx.within = undefined;
  try {
    const fixed = constant && type.kind !== "pointer";
    const home = homeFor(cx, name, type, fixed, span, flash);
    global.expr = variable(cx, type, home, span);
    if (given === undefined) {
      cx.starts.push(home.kind === "slot" ? zero(cx, global.expr) : () => undefined);
      return global.expr;
    }
    const sets = elsewhere(cx, given, [...scopes], () => {
      if (fixed && !flash && (type.kind === "int" || type.kind === "float")) {
        const value = constantValue(cx, type);
        // Sizes and cases may be made of it.
        if (value && global.expr) global.expr = { ...(cx.addressed.has(name) ? global.expr : {}), ...value, span };
        if (value && !cx.addressed.has(name)) return [];
      }
      return initialiser(cx, type, home.kind === "memory" ? { ...home, fixed: false } : home);
    });
    cx.starts.push(...sets);
    return global.expr;
  } finally {
    cx.within = within;
  }
}

/** What a constant is given, if it is known when compiling. The cursor stays. */
function constantValue(cx: Context, type: Type): Expr | undefined {
  const { at } = cx;
  accept(cx, "{");
  const value = fitted(decayed(assignment(cx)), type);
  cx.at = at;
  return value.constant === undefined ? undefined : constantOf(type, value.constant, value.span);
}

function zero(cx: Context, { home, type }: Expr): () => void {
  const { machine } = cx;
  if (home?.kind !== "slot") return () => undefined;
  const { bank, index } = home;
  if (type.kind === "int" && type.bits === 64)
    return () => {
      machine.wide[index] = 0n;
    };
  return () => {
    bank[index] = 0;
  };
}
