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
  /** Longer than they need be: after the last token all kinds are 0. */
  kinds: Int32Array;
  starts: Int32Array;
  ends: Int32Array;
  /** How many tokens there are. */
  length: number;
  readonly types: Map<number, CType>;
}

/** A statement longer than this is no declaration of ours; its later tokens are dropped. */
const MOST = 1024;
const USUAL = 64;

/** Whether tokens have been dropped, so that the statement can't be understood. */
export function isOverlong(s: Statement): boolean {
  return s.length >= MOST;
}

export function newStatement(): Statement {
  const memory = (): Int32Array => new Int32Array(USUAL);
  return { kinds: memory(), starts: memory(), ends: memory(), length: 0, types: new Map() };
}

export function addToken(s: Statement, kind: number, start: number, end: number): void {
  const { length } = s;
  if (length >= MOST) return;
  // One more than the tokens, so that what follows the last one can always be asked for.
  if (length + 1 >= s.kinds.length) grow(s);
  s.kinds[length] = kind;
  s.starts[length] = start;
  s.ends[length] = end;
  s.length = length + 1;
}

export function addType(s: Statement, type: CType, start: number, end: number): void {
  s.types.set(s.length, type);
  addToken(s, TYPE, start, end);
}

/** The memory stays: there is a statement every few tokens. */
export function clear(s: Statement): void {
  s.kinds.fill(0, 0, s.length);
  s.length = 0;
  if (s.types.size > 0) s.types.clear();
}

export function copyStatement(s: Statement): Statement {
  return { ...s, kinds: s.kinds.slice(), starts: s.starts.slice(), ends: s.ends.slice(), types: new Map(s.types) };
}

function grow(s: Statement): void {
  const larger = (from: Int32Array): Int32Array => {
    const to = new Int32Array(from.length * 2);
    to.set(from);
    return to;
  };
  s.kinds = larger(s.kinds);
  s.starts = larger(s.starts);
  s.ends = larger(s.ends);
}
