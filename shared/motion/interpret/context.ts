/** What compiling a program goes by: the tokens and the place in them, the names in force, and the machine to run on. */
import type { Span } from "../../source/text.ts";
import type { Target } from "../../source/types.ts";
import type { Machine, Plan } from "./machine.ts";
import { Stopped } from "./machine.ts";
import type { Lexeme } from "./tokens.ts";
import type { Type } from "./types.ts";

/** Integers of up to 32 bits, floats and addresses as numbers; wider integers are bigints, see `wide`. */
export type Run = () => number;
export type WideRun = () => bigint;

/** Where a value is kept. */
export type Home =
  | { readonly kind: "slot"; readonly bank: number[]; readonly index: number }
  | {
      readonly kind: "memory";
      readonly address: Run;
      /** The address is known to be inside of an object. */
      readonly safe: boolean;
      /** What it holds may be constant. */
      readonly fixed: boolean;
      /** It is in the flash of AVR. */
      readonly flash?: boolean | undefined;
      /** The address where it is only taken, which may be one past the end. */
      readonly loose?: Run;
    };

/** An expression that has been compiled. Of an array or a struct `run` gives the address. */
export interface Expr {
  readonly type: Type;
  readonly run: Run;
  /** Steps that it takes. */
  readonly cost: number;
  readonly constant?: number | bigint | undefined;
  /** Where it can be written; missing for a mere value. */
  readonly home?: Home | undefined;
  readonly span: Span;
}

/** What a statement does next. */
export const NEXT = 0;
export const BREAK = 1;
export const CONTINUE = 2;
export const RETURN = 3;
export type Exec = () => number;

export interface Statement {
  readonly run: Exec;
  readonly cost: number;
}

export interface Parameter {
  readonly name: string;
  readonly type: Type;
  readonly reference: boolean;
  readonly span: Span;
}

/** A function of the file. */
export interface Routine {
  readonly name: string;
  readonly span: Span;
  readonly returns: Type;
  readonly parameters: readonly Parameter[];
  /** Index of the token after the opening brace of its body; undefined for a mere declaration. */
  readonly body: number | undefined;
  compiled?: Compiled | undefined;
}

export interface Compiled {
  run: Exec;
  cost: number;
  /** Homes of the parameters, in order. */
  homes: readonly Home[];
  readonly within: Within;
  /** 1 while it is under way. */
  active: number;
}

/** A variable with static storage. What it holds at the start is worked out when it is first named. */
export interface Global {
  readonly name: string;
  readonly span: Span;
  readonly type: Type;
  readonly constant: boolean;
  /** It is in the flash of AVR. */
  readonly flash: boolean;
  /** Index of the token after its `=`, or of its brace. */
  readonly given: number | undefined;
  /** Names that were in force where it is declared, for a local one. */
  readonly scopes: Scope[];
  expr?: Expr | undefined;
}

export type Meaning =
  | { readonly kind: "value"; readonly expr: Expr }
  | { readonly kind: "type"; readonly type: Type }
  | { readonly kind: "global"; readonly global: Global }
  | { readonly kind: "routines"; readonly routines: Routine[] }
  | { readonly kind: "not"; readonly why: string };

export type Scope = Map<string, Meaning>;

export interface Problem extends Span {
  readonly message: string;
  /** It is only passed over: the program runs without it. */
  readonly passed?: true;
  /** Index of a token: it matters only where that is part of a function that is played. */
  readonly token?: number;
}

export interface Context {
  readonly target: Target;
  /** The file is C, not C++. */
  readonly plainC: boolean;
  readonly lexemes: readonly Lexeme[];
  at: number;
  scopes: Scope[];
  readonly globals: Scope;
  /** Tags of structs and enums. */
  readonly tags: Map<string, Type>;
  readonly machine: Machine;
  readonly plan: Plan;
  /** What sets slots to their first values. */
  readonly starts: (() => void)[];
  readonly problems: Problem[];
  readonly compiled: Compiled[];
  /** For each function the index of the token behind its body. */
  readonly ends: Map<Routine, number>;
  /** Names whose address is taken somewhere: these live in memory. */
  readonly addressed: ReadonlySet<string>;
  /** How deep what is being read nests. */
  nesting: number;
  /** The function being compiled. */
  within: Within | undefined;
}

export interface Within {
  readonly routine: Routine;
  /** Slots of its own variables, to be kept when it calls itself. */
  readonly slots: { readonly bank: number[]; readonly index: number }[];
  readonly wides: number[];
  /** It has arrays or structs of its own, which are there only once. */
  memory: boolean;
  breaks: number;
  loops: number;
}

export function refuse(message: string, span: Span): never {
  throw new Stopped(message, { start: span.start, end: span.end });
}

/** More than anybody writes; an engine's stack holds several times as much. */
const MOST_NESTING = 200;

/** Reads something that may hold another of its kind. */
export function nested<T>(cx: Context, read: () => T): T {
  if (cx.nesting >= MOST_NESTING) refuse("This nests too deep.", peek(cx));
  cx.nesting++;
  try {
    return read();
  } finally {
    cx.nesting--;
  }
}

export function peek(cx: Context): Lexeme {
  return cx.lexemes[cx.at] as Lexeme;
}

export function ahead(cx: Context, by: number): Lexeme {
  return cx.lexemes[Math.max(0, Math.min(cx.at + by, cx.lexemes.length - 1))] as Lexeme;
}

/** Whether the token here is this operator, bracket or word. */
export function is(cx: Context, text: string): boolean {
  const lexeme = peek(cx);
  return lexeme.text === text && (lexeme.kind === "operator" || lexeme.kind === "word");
}

export function take(cx: Context): Lexeme {
  const lexeme = peek(cx);
  if (lexeme.kind === "end") refuse("The file ends in the middle of this.", ahead(cx, -1));
  cx.at++;
  return lexeme;
}

export function accept(cx: Context, text: string): boolean {
  if (!is(cx, text)) return false;
  cx.at++;
  return true;
}

export function expect(cx: Context, text: string): Lexeme {
  if (!is(cx, text)) {
    const lexeme = peek(cx);
    if (lexeme.kind === "end") refuse(`\`${text}\` is missing.`, ahead(cx, -1));
    refuse(`\`${text}\` is expected before \`${lexeme.text}\`.`, lexeme);
  }
  return take(cx);
}

/** From the first token of something to the one before the cursor. */
export function spanFrom(cx: Context, first: number): Span {
  const { start } = cx.lexemes[first] as Lexeme;
  const last = cx.lexemes[Math.max(first, cx.at - 1)] as Lexeme;
  return { start, end: Math.max(last.end, start) };
}

export function find(cx: Context, name: string): Meaning | undefined {
  for (let i = cx.scopes.length - 1; i >= 0; i--) {
    const found = cx.scopes[i]?.get(name);
    if (found) return found;
  }
  return undefined;
}

export function declare(cx: Context, name: string, meaning: Meaning): void {
  (cx.scopes[cx.scopes.length - 1] as Scope).set(name, meaning);
}

/** Runs what compiles something elsewhere in the tokens, and comes back. */
export function elsewhere<T>(cx: Context, at: number, scopes: Scope[], run: () => T): T {
  const before = { at: cx.at, scopes: cx.scopes };
  cx.at = at;
  cx.scopes = scopes;
  try {
    return run();
  } finally {
    cx.at = before.at;
    cx.scopes = before.scopes;
  }
}

const PAIRS: Readonly<Record<string, string>> = { "(": ")", "[": "]", "{": "}" };

/** Moves behind the bracket that closes the one here. While one is still to be typed, a brace ends it. */
export function skipGroup(cx: Context): void {
  const open = peek(cx).text;
  const close = PAIRS[open];
  let count = 0;
  for (;;) {
    const { kind, text } = peek(cx);
    if (kind === "end") return;
    if (kind === "operator" && open !== "{") {
      if (text === "}") return;
      if (text === "{") {
        skipGroup(cx);
        continue;
      }
    }
    cx.at++;
    if (kind !== "operator") continue;
    if (text === open) count++;
    else if (text === close) count--;
    if (count <= 0) return;
  }
}

/** Moves behind the end of a statement: a semicolon, or a closed block. */
export function skipStatement(cx: Context): void {
  for (;;) {
    const { kind, text } = peek(cx);
    if (kind === "end" || (kind === "operator" && text === "}")) return;
    if (kind === "operator" && text in PAIRS) {
      skipGroup(cx);
      if (text === "{") return;
      continue;
    }
    cx.at++;
    if (kind === "operator" && text === ";") return;
  }
}
