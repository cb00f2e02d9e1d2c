import type { CType, Typed } from "./types.ts";

/** A macro as `#define` gives it; `uncertain` where the directive stands under a condition that is not known. */
export interface Macro {
  readonly params: readonly string[] | undefined;
  readonly body: string;
  readonly uncertain?: string;
}

/** Why a value or a type is not known, in words for the user. */
export interface Unknown {
  readonly why: string;
}

/** Names declared in one pair of braces (or in the file). */
export interface Scope {
  readonly name: string;
  /** Made when the first name is declared: most scopes are blocks of code without any. */
  constants?: Map<string, Typed | Unknown>;
  types?: Map<string, CType>;
  /** Arrays whose size is known, for `sizeof`. */
  objects?: Map<string, CType>;
}

/** What is known at one place of the file: macros in force, and the scopes around, the innermost last. */
export interface Names {
  readonly macros: Map<string, Macro>;
  readonly scopes: Scope[];
  /** Closed scopes that have a name, for `Name::member`. */
  readonly named: Map<string, Scope>;
  /** Values of whole expressions, by their text; emptied whenever a name changes its meaning. */
  readonly memo: Map<string, Typed | Unknown>;
  /** Macros that were defined more than once, or undefined: what they say depends on the place. */
  readonly moving: Set<string>;
}

export function newScope(name: string): Scope {
  return { name };
}

export function newNames(): Names {
  return { macros: new Map(), scopes: [newScope("")], named: new Map(), memo: new Map(), moving: new Set() };
}

function currentScope(names: Names): Scope {
  return names.scopes[names.scopes.length - 1] as Scope;
}

export function define(names: Names, name: string, macro: Macro): void {
  const before = names.macros.get(name);
  const both = macro.uncertain !== undefined && before !== undefined && before.body === macro.body;
  // Two definitions under an unknown condition that say the same leave no doubt.
  if (before !== undefined && before.body !== macro.body) names.moving.add(name);
  names.macros.set(name, both ? before : macro);
  names.memo.clear();
}

export function undefine(names: Names, name: string): void {
  if (names.macros.delete(name)) names.moving.add(name);
  names.memo.clear();
}

export function addConstant(scope: Scope, name: string, value: Typed | Unknown): void {
  scope.constants ??= new Map();
  scope.constants.set(name, value);
}

export function declareType(names: Names, name: string, type: CType): void {
  const scope = currentScope(names);
  scope.types ??= new Map();
  scope.types.set(name, type);
}

export function declareConstant(names: Names, name: string, value: Typed | Unknown): void {
  addConstant(currentScope(names), name, value);
  names.memo.clear();
}

export function findConstant(names: Names, name: string, qualifier?: string): Typed | Unknown | undefined {
  if (qualifier !== undefined) return scopeNamed(names, qualifier)?.constants?.get(name);
  for (let i = names.scopes.length - 1; i >= 0; i--) {
    const found = names.scopes[i]?.constants?.get(name);
    if (found) return found;
  }
  return undefined;
}

export function findType(names: Names, name: string): CType | undefined {
  for (let i = names.scopes.length - 1; i >= 0; i--) {
    const found = names.scopes[i]?.types?.get(name);
    if (found) return found;
  }
  return undefined;
}

export function declareObject(names: Names, name: string, type: CType): void {
  const scope = currentScope(names);
  scope.objects ??= new Map();
  scope.objects.set(name, type);
}

export function findObject(names: Names, name: string): CType | undefined {
  for (let i = names.scopes.length - 1; i >= 0; i--) {
    const found = names.scopes[i]?.objects?.get(name);
    if (found) return found;
  }
  return undefined;
}

function scopeNamed(names: Names, name: string): Scope | undefined {
  return name === "" ? names.scopes[0] : (names.scopes.find((s) => s.name === name) ?? names.named.get(name));
}
