/**
 * Lexical primitives of C and C++: where a comment, a string, an identifier or a number ends.
 * Every function takes an offset at the first character of the thing and returns the offset after its last.
 * None of them throws; an unclosed thing ends at the end of its line (string) or of the text (comment).
 */

export const SPACE = 1;
export const IDENT = 2;
export const DIGIT = 3;
export const OTHER = 0;

const CLASSES = new Uint8Array(256);
for (const c of " \t\n\r\v\f") CLASSES[c.charCodeAt(0)] = SPACE;
for (let c = 0; c < 256; c++) {
  if ((c >= 65 && c <= 90) || (c >= 97 && c <= 122) || c === 95 || c === 36 || c >= 128) CLASSES[c] = IDENT;
  if (c >= 48 && c <= 57) CLASSES[c] = DIGIT;
}

/** Character class of a UTF-16 code unit; NaN (past the end) is OTHER. */
export function classOf(c: number): number {
  return c < 256 ? (CLASSES[c] as number) : c >= 256 ? (c === 0xfeff ? SPACE : IDENT) : OTHER;
}

/** Value of a hexadecimal digit, or -1. */
export const HEX = new Int8Array(256).fill(-1);
for (let v = 0; v < 16; v++) {
  HEX[v.toString(16).charCodeAt(0)] = v;
  HEX[v.toString(16).toUpperCase().charCodeAt(0)] = v;
}

/** End of the line that `at` stands in: the offset of its line break, or of the end of the text. */
export function lineEnd(text: string, at: number): number {
  for (let i = at; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (c === 10 || c === 13) return i;
  }
  return text.length;
}

/** Start of the line that `at` stands in, looked for no further back than `from`. */
export function lineStart(text: string, at: number, from = 0): number {
  let i = at;
  while (i > from && text.charCodeAt(i - 1) !== 10 && text.charCodeAt(i - 1) !== 13) i--;
  return i;
}

/** White space that the line of `at` begins with. */
export function indentAt(text: string, at: number): string {
  const start = lineStart(text, at);
  return /^[ \t]*/.exec(text.slice(start, lineEnd(text, start)))?.[0] ?? "";
}

/** Offset after the line break at `at` (LF, CR LF or CR). */
export function afterBreak(text: string, at: number): number {
  return text.charCodeAt(at) === 13 && text.charCodeAt(at + 1) === 10 ? at + 2 : at + 1;
}

/** End of a logical line: a backslash before the line break joins the next line on. */
export function logicalLineEnd(text: string, at: number): number {
  let end = lineEnd(text, at);
  while (end < text.length && end > at && text.charCodeAt(end - 1) === 92) end = lineEnd(text, afterBreak(text, end));
  return end;
}

/** End of the comment at `at` (a slash and a star or a second slash). */
export function commentEnd(text: string, at: number): number {
  if (text.charCodeAt(at + 1) === 42) {
    const close = text.indexOf("*/", at + 2);
    return close < 0 ? text.length : close + 2;
  }
  return logicalLineEnd(text, at);
}

/** Whether a comment starts at `at`. */
export function isComment(text: string, at: number): boolean {
  if (text.charCodeAt(at) !== 47) return false;
  const next = text.charCodeAt(at + 1);
  return next === 47 || next === 42;
}

/** First offset at or after `at` that is neither white space nor in a comment. */
export function skipSpace(text: string, at: number): number {
  let i = at;
  for (;;) {
    const c = text.charCodeAt(i);
    if (classOf(c) === SPACE) i++;
    else if (c === 47 && isComment(text, i)) i = commentEnd(text, i);
    else if (c === 92 && (text.charCodeAt(i + 1) === 10 || text.charCodeAt(i + 1) === 13)) i = afterBreak(text, i + 1);
    else return i;
  }
}

export function identEnd(text: string, at: number): number {
  for (let i = at; ; i++) {
    const c = text.charCodeAt(i);
    if (!(c < 256 ? (CLASSES[c] as number) >= IDENT : classOf(c) >= IDENT)) return i;
  }
}

/** End of a preprocessing number: digits, letters, points, digit separators and signs of exponents. */
export function numberEnd(text: string, at: number): number {
  const hex = text.charCodeAt(at) === 48 && (text.charCodeAt(at + 1) | 32) === 120;
  let i = at;
  while (i < text.length) {
    const c = text.charCodeAt(i);
    if (classOf(c) >= IDENT) {
      const exponent = hex ? (c | 32) === 112 : (c | 32) === 101;
      const sign = text.charCodeAt(i + 1);
      i += exponent && i > at && (sign === 43 || sign === 45) ? 2 : 1;
    } else if (c === 46) i++;
    else if (c === 39 && i > at && classOf(text.charCodeAt(i + 1)) >= IDENT) i += 2;
    else break;
  }
  return i;
}

/** End of a string or character literal whose opening quote stands at `at`; unclosed, it ends with its line. */
export function quotedEnd(text: string, at: number): number {
  const quote = text.charCodeAt(at);
  let i = at + 1;
  while (i < text.length) {
    const c = text.charCodeAt(i);
    if (c === quote) return i + 1;
    if (c === 92) i = afterBreak(text, i + 1);
    else if (c === 10 || c === 13) return i;
    else i++;
  }
  return text.length;
}

/** End of a C++ raw string whose opening quote (after the R) stands at `at`. */
export function rawStringEnd(text: string, at: number): number {
  const open = text.indexOf("(", at);
  if (open < 0 || open - at > 17) return quotedEnd(text, at);
  const close = text.indexOf(`)${text.slice(at + 1, open)}"`, open);
  return close < 0 ? text.length : close + (open - at) + 1;
}

/**
 * End of the string whose prefix is the word from `start` to `end`; `end` itself where the word is none or nothing in
 * quotation marks follows it.
 */
export function prefixedEnd(text: string, start: number, end: number): number {
  // No prefix is longer.
  if (text.charCodeAt(end) !== 34 || end - start > 3) return end;
  const word = text.slice(start, end);
  return !isPrefix(word) ? end : isRawPrefix(word) ? rawStringEnd(text, end) : quotedEnd(text, end);
}

/** Whether the identifier is a string prefix that makes the following quote raw. */
export function isRawPrefix(word: string): boolean {
  return word === "R" || word === "LR" || word === "uR" || word === "UR" || word === "u8R";
}

/** Whether the identifier is an encoding prefix of a string or character literal. */
export function isPrefix(word: string): boolean {
  return word === "L" || word === "u" || word === "U" || word === "u8" || isRawPrefix(word);
}
