/** The tokens of the statement being read, kept as flat arrays because every token outside initialisers passes here. */
import type { CType } from "./types.ts";

export const WORD = 1;
export const NUMBER = 2;
export const STRING = 3;
/** A braced initialiser that has been read. */
export const INITIALISER = 4;
/** The body of a struct or enum, which stands for its type. */
export const TYPE = 5;
/** Kinds from here on are character codes of punctuation. */

export interface Statement {
  readonly kinds: number[];
  readonly starts: number[];
  readonly ends: number[];
  readonly types: Map<number, CType>;
}

/** A statement longer than this is no declaration of ours; its later tokens are dropped. */
const MOST = 1024;

/** Whether tokens have been dropped, so that the statement can't be understood. */
export function isOverlong(s: Statement): boolean {
  return s.kinds.length >= MOST;
}

export function newStatement(): Statement {
  return { kinds: [], starts: [], ends: [], types: new Map() };
}

export function addToken(s: Statement, kind: number, start: number, end: number): void {
  if (s.kinds.length >= MOST) return;
  s.kinds.push(kind);
  s.starts.push(start);
  s.ends.push(end);
}

export function addType(s: Statement, type: CType, start: number, end: number): void {
  s.types.set(s.kinds.length, type);
  addToken(s, TYPE, start, end);
}

export function clear(s: Statement): void {
  s.kinds.length = 0;
  s.starts.length = 0;
  s.ends.length = 0;
  if (s.types.size > 0) s.types.clear();
}

export function copyStatement(s: Statement): Statement {
  return { kinds: [...s.kinds], starts: [...s.starts], ends: [...s.ends], types: new Map(s.types) };
}
