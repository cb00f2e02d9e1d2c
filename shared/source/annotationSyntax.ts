/**
 * The words of annotations and where they stand: which comments hold a marker, and how its options are split.
 * What the words mean is decided elsewhere (pixels/options, light/panel).
 */
import type { Span } from "./text.ts";

export type Marker = "bitmap" | "panel" | "wiring" | "palette" | "motion";

export const MARKERS: readonly Marker[] = ["bitmap", "panel", "wiring", "palette", "motion"];

/** One word of an annotation: `gray8`, `cap=64`, `first=' '`. */
export interface Word extends Span {
  readonly text: string;
  /** The part before `=`; undefined for a bare word. */
  readonly key: string | undefined;
  /** The part after `=`, quotes included. */
  readonly value: string | undefined;
  /** Offset of the value. */
  readonly valueStart: number;
}

export interface Annotation extends Span {
  readonly marker: Marker;
  /** The `@` and the name. */
  readonly markerSpan: Span;
  readonly words: readonly Word[];
  /** The comment that holds it. */
  readonly comment: Span;
}

/** Annotations read in one comment. */
const MOST_IN_COMMENT = 64;

const MARKER = /@(bitmap|panel|wiring|palette|motion)(?![\w@])/y;

/**
 * Finds the annotations in a comment. Offsets are those of `text`. `unknown` takes the lines that begin with another
 * `@word`, from there on: documentation of other kinds, or a marker that is misspelt.
 */
export function annotationsIn(text: string, comment: Span, unknown?: Span[]): Annotation[] {
  const block = text.charCodeAt(comment.start + 1) === 42;
  const closed = block && comment.end - comment.start >= 4 && text.startsWith("*/", comment.end - 2);
  const end = closed ? comment.end - 2 : comment.end;
  const found: Annotation[] = [];
  let words: Word[] = [];
  let open: { marker: Marker; markerSpan: Span } | undefined;
  let last = 0;
  let free = false;
  let firstLine = true;
  const finish = () => {
    if (open && found.length < MOST_IN_COMMENT) {
      const { marker, markerSpan } = open;
      found.push({ marker, markerSpan, words, comment, start: markerSpan.start, end: last });
    }
    open = undefined;
    words = [];
    free = false;
  };
  let at = comment.start + 2;
  // Doxygen comments: a third slash or star, or `!`, then perhaps `<`.
  if (/[/*!]/.test(text[at] ?? "") && at < end) at++;
  if (text[at] === "<" && at < end) at++;
  while (at <= end && found.length < MOST_IN_COMMENT) {
    const stop = Math.min(lineStop(text, at), end);
    let i = skipBlank(text, at, stop);
    if (!firstLine && block && text[i] === "*" && i < stop) i = skipBlank(text, i + 1, stop);
    if (i >= stop) finish();
    let first = true;
    while (i < stop && found.length < MOST_IN_COMMENT) {
      MARKER.lastIndex = i;
      const m = MARKER.exec(text);
      if (m && m.index + m[0].length <= stop && (first || (open && !free))) {
        finish();
        last = i + m[0].length;
        open = { marker: m[1] as Marker, markerSpan: { start: i, end: last } };
        i = last;
      } else if (!open || free) {
        if (first && text.charCodeAt(i) === 64) unknown?.push({ start: i, end: stop });
        break;
      } else if (text.startsWith("--", i) && (i + 2 >= stop || isBlank(text.charCodeAt(i + 2)))) {
        free = true;
        break;
      } else {
        const word = wordAt(text, i, stop);
        words.push(word);
        last = i = word.end;
      }
      first = false;
      i = skipBlank(text, i, stop);
    }
    firstLine = false;
    at = stop + 1;
    if (text.charCodeAt(stop) === 13 && text.charCodeAt(stop + 1) === 10) at++;
  }
  finish();
  return found;
}

/** White space, and a backslash at the end of the line. */
function skipBlank(text: string, from: number, stop: number): number {
  let i = from;
  while (i < stop && (isBlank(text.charCodeAt(i)) || (i === stop - 1 && text.charCodeAt(i) === 92))) i++;
  return i;
}

/** What a regular expression's `\s` takes; asked of every character of an annotation. */
function isBlank(c: number): boolean {
  return c === 32 || (c >= 9 && c <= 13) || (c >= 160 && /\s/.test(String.fromCharCode(c)));
}

function lineStop(text: string, at: number): number {
  let i = at;
  while (i < text.length && text.charCodeAt(i) !== 10 && text.charCodeAt(i) !== 13) i++;
  return i;
}

function wordAt(text: string, start: number, stop: number): Word {
  let i = start;
  let equals = -1;
  while (i < stop && !isBlank(text.charCodeAt(i))) {
    if (equals < 0 && text.charCodeAt(i) === 61) {
      equals = i;
      const quote = text[i + 1];
      if (quote === '"' || quote === "'") {
        const close = closingQuote(text, i + 2, stop, quote);
        if (close > 0) {
          i = close + 1;
          continue;
        }
      }
    }
    i++;
  }
  const key = equals > start ? text.slice(start, equals) : undefined;
  return {
    start,
    end: i,
    text: text.slice(start, i),
    key,
    value: key === undefined ? undefined : text.slice(equals + 1, i),
    valueStart: key === undefined ? start : equals + 1,
  };
}

function closingQuote(text: string, from: number, stop: number, quote: string): number {
  for (let i = from; i < stop; i++) {
    if (text[i] === "\\") i++;
    // `first='''` names the quote itself.
    else if (text[i] === quote && !(i === from && text[i + 1] === quote)) return i;
  }
  return -1;
}
