/** String literals as the compiler takes them apart: one element for each code unit, each with its place in the text. */
import { commentEnd, isComment, isRawPrefix, quotedEnd, rawStringEnd, skipSpace } from "./scan.ts";
import type { Target } from "./types.ts";
import { wideCharacter } from "./types.ts";

/** A string initialiser (adjacent literals are one). The implicit NUL is not among the units. */
export interface StringUnits {
  /** Width of a code unit. */
  readonly bits: 8 | 16 | 32;
  /** Places of each unit's characters or escape; units of one character have the same place. */
  readonly starts: readonly number[];
  readonly ends: readonly number[];
  readonly values: readonly number[];
  /** The first thing that can't be read, if any; units after it are missing. */
  readonly problem: { readonly at: number; readonly end: number; readonly why: string } | undefined;
}

/** What simple escapes stand for (C17 6.4.4.4; `\e` is GNU's). */
export const SIMPLE: Readonly<Record<string, number>> = {
  a: 7,
  b: 8,
  t: 9,
  n: 10,
  v: 11,
  f: 12,
  r: 13,
  e: 27,
  E: 27,
  "\\": 92,
  "'": 39,
  '"': 34,
  "?": 63,
};

/**
 * Reads the literals between two offsets. `bytes`: each character beyond ASCII is one byte of a file that is not UTF-8,
 * which the compiler copies.
 */
export function readString(text: string, start: number, end: number, target: Target, bytes: boolean): StringUnits {
  const parts = partsOf(text, start, end);
  const bits = widthOf(parts, target);
  const starts: number[] = [];
  const ends: number[] = [];
  const values: number[] = [];
  const problem = (at: number, stop: number, why: string): StringUnits => ({
    bits,
    starts,
    ends,
    values,
    problem: { at, end: stop, why },
  });
  for (const part of parts) {
    // A lone quote at the end of a line closes before it opens.
    if (part.unclosed) return problem(part.open, Math.max(part.open, part.close), "a string is not closed");
    for (let i = part.open; i < part.close; ) {
      const c = text.charCodeAt(i);
      const splice = part.raw ? 0 : spliceAt(text, i);
      if (splice > 0) {
        i += splice;
        continue;
      }
      let stop = i + 1;
      let value: number | undefined;
      if (c === 92 && !part.raw) {
        const known = escapeAt(text, i, part.close);
        if (known === undefined) return problem(i, i + 2, `\`${text.slice(i, i + 2)}\` is no escape that can be read`);
        stop = known.end;
        // A line joint inside an escape would go on with it.
        if (spliceAt(text, stop) > 0 && known.open) return problem(i, stop, "an escape goes on behind a line joint");
        if (known.unit) {
          if (known.value >= 2 ** bits) return problem(i, stop, `\`${text.slice(i, stop)}\` does not fit its string`);
          value = known.value;
        } else value = undefined;
        if (value === undefined) push(known.value, i, stop);
        else unit(value, i, stop);
      } else if (c === 13 && part.raw) {
        // A line end in a raw string is one newline, however the file writes it.
        stop = text.charCodeAt(i + 1) === 10 ? i + 2 : i + 1;
        unit(10, i, stop);
      } else {
        const point = text.codePointAt(i) ?? c;
        if (point === 0xfffd) return problem(i, i + 1, "it holds bytes that are no text in this file's encoding");
        stop = point > 0xffff ? i + 2 : i + 1;
        if (bytes && bits === 8) unit(point & 0xff, i, stop);
        else if (bytes && point > 0x7f) return problem(i, stop, "the file is not UTF-8");
        else push(point, i, stop);
      }
      i = stop;
    }
  }
  return { bits, starts, ends, values, problem: undefined };

  function unit(value: number, from: number, to: number): void {
    starts.push(from);
    ends.push(to);
    values.push(value);
  }

  /** A character in the encoding of the string's width. */
  function push(point: number, from: number, to: number): void {
    const units = bits === 8 ? utf8(point) : bits === 16 ? utf16(point) : [point];
    for (const value of units) unit(value, from, to);
  }
}

interface Part {
  readonly prefix: string;
  readonly open: number;
  readonly close: number;
  readonly raw: boolean;
  readonly unclosed: boolean;
}

function partsOf(text: string, start: number, end: number): Part[] {
  const parts: Part[] = [];
  for (let i = skipSpace(text, start); i < end; i = skipSpace(text, i)) {
    if (isComment(text, i)) {
      i = commentEnd(text, i);
      continue;
    }
    const quote = text.indexOf('"', i);
    if (quote < 0 || quote >= end) break;
    const prefix = text.slice(i, quote).trim();
    const raw = isRawPrefix(prefix);
    const stop = raw ? rawStringEnd(text, quote) : quotedEnd(text, quote);
    const fence = raw ? text.indexOf("(", quote) - quote : 0;
    const unclosed = text[stop - 1] !== '"' || stop - 1 === quote;
    parts.push({ prefix, open: quote + 1 + fence, close: stop - 1 - fence, raw, unclosed });
    i = stop;
  }
  return parts;
}

/** Adjacent literals take the one prefix that any of them has (C17 6.4.5). */
function widthOf(parts: readonly Part[], target: Target): StringUnits["bits"] {
  for (const { prefix } of parts) {
    const encoding = prefix.replace(/R$/, "");
    if (encoding === "u") return 16;
    if (encoding === "U") return 32;
    if (encoding === "L") return wideCharacter(target).bits as 16 | 32;
  }
  return 8;
}

/** Length of a line joint (backslash and line end) at an offset; 0 where there is none. */
export function spliceAt(text: string, at: number): number {
  if (text.charCodeAt(at) !== 92) return 0;
  const c = text.charCodeAt(at + 1);
  if (c === 10) return 2;
  return c === 13 ? (text.charCodeAt(at + 2) === 10 ? 3 : 2) : 0;
}

interface Escape {
  readonly value: number;
  readonly end: number;
  /** It gives a code unit; else a character to be encoded. */
  readonly unit: boolean;
  /** A digit right after it would belong to it. */
  readonly open: boolean;
}

function escapeAt(text: string, at: number, close: number): Escape | undefined {
  const rest = text.slice(at, Math.min(close, at + 24));
  const hex = /^\\x([0-9a-fA-F]+)/.exec(rest);
  if (hex) {
    return { value: Number.parseInt(hex[1] as string, 16), end: at + hex[0].length, unit: true, open: true };
  }
  const octal = /^\\([0-7]{1,3})/.exec(rest);
  if (octal) {
    const digits = octal[1] as string;
    return { value: Number.parseInt(digits, 8), end: at + octal[0].length, unit: true, open: digits.length < 3 };
  }
  const universal = /^\\(?:u([0-9a-fA-F]{4})|U([0-9a-fA-F]{8}))/.exec(rest);
  if (universal) {
    const value = Number.parseInt((universal[1] ?? universal[2]) as string, 16);
    return value > 0x10ffff ? undefined : { value, end: at + universal[0].length, unit: false, open: false };
  }
  const simple = SIMPLE[rest[1] ?? ""];
  return simple === undefined ? undefined : { value: simple, end: at + 2, unit: true, open: false };
}

/** UTF-8 (RFC 3629). */
export function utf8(point: number): number[] {
  if (point < 0x80) return [point];
  if (point < 0x800) return [0xc0 | (point >> 6), 0x80 | (point & 63)];
  if (point < 0x10000) return [0xe0 | (point >> 12), 0x80 | ((point >> 6) & 63), 0x80 | (point & 63)];
  return [0xf0 | (point >> 18), 0x80 | ((point >> 12) & 63), 0x80 | ((point >> 6) & 63), 0x80 | (point & 63)];
}

function utf16(point: number): number[] {
  if (point < 0x10000) return [point];
  const above = point - 0x10000;
  return [0xd800 | (above >> 10), 0xdc00 | (above & 0x3ff)];
}
