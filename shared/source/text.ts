/** A half-open range of UTF-16 offsets in a text. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** Replaces the text of a span; an insertion where start and end are equal. */
export interface TextEdit extends Span {
  readonly text: string;
}

/** The first line break of a text; LF where it has none. */
export function eolOf(text: string): string {
  return /\r\n|\n|\r/.exec(text)?.[0] ?? "\n";
}

/** Applies edits that do not overlap. Insertions at one place keep their order. */
export function applyEdits(text: string, edits: readonly TextEdit[]): string {
  const ordered = edits.map((edit, order) => ({ edit, order }));
  ordered.sort((a, b) => a.edit.start - b.edit.start || a.edit.end - b.edit.end || a.order - b.order);
  let out = "";
  let at = 0;
  for (const { edit } of ordered) {
    if (edit.start < at) throw new RangeError(`edits overlap at offset ${edit.start}`);
    out += text.slice(at, edit.start) + edit.text;
    at = edit.end;
  }
  return out + text.slice(at);
}

/** The offsets at which lines start; a line ends after LF, CR LF or a lone CR. */
export function lineStarts(text: string): Uint32Array {
  const starts: number[] = [0];
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (c === 10 || (c === 13 && text.charCodeAt(i + 1) !== 10)) starts.push(i + 1);
  }
  return Uint32Array.from(starts);
}

/** Index of the line (0-based) that holds an offset, by bisection over `lineStarts`. */
export function lineAt(starts: Uint32Array, offset: number): number {
  let low = 0;
  let high = starts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((starts[middle] as number) <= offset) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Length of the common prefix of two strings; whole blocks are compared at memory speed first. */
export function commonPrefix(a: string, b: string): number {
  const length = Math.min(a.length, b.length);
  const block = 4096;
  let at = 0;
  while (at + block <= length && a.slice(at, at + block) === b.slice(at, at + block)) at += block;
  while (at < length && a.charCodeAt(at) === b.charCodeAt(at)) at++;
  return at;
}

/** Length of the common suffix of two strings, no longer than `most`. */
export function commonSuffix(a: string, b: string, most: number): number {
  const block = 4096;
  let size = 0;
  while (size + block <= most) {
    const same =
      a.slice(a.length - size - block, a.length - size) === b.slice(b.length - size - block, b.length - size);
    if (!same) break;
    size += block;
  }
  while (size < most && a.charCodeAt(a.length - 1 - size) === b.charCodeAt(b.length - 1 - size)) size++;
  return size;
}

/** Tells a text from any other, but for one in four thousand million of its length (32 bits, by FNV-1a over UTF-16). */
export function fingerprintOf(text: string): string {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return `${text.length} ${hash >>> 0}`;
}
