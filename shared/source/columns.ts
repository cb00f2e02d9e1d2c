/** Numbers in aligned columns: a longer one takes from the spaces beside it, a shorter one gives some back. */
import type { SourceArray } from "./arrays.ts";
import { elementSpan } from "./arrays.ts";
import { lineStart } from "./scan.ts";
import type { Span, TextEdit } from "./text.ts";

/** Elements of a line that are looked at. */
const MOST = 64;
/** Edits up to this number stay one to a number, which shows best what changed. */
const FEW = 64;

/** The edits that replace an element's text, with the spaces of its column. */
export function inColumn(text: string, array: SourceArray, index: number, span: Span, after: string): TextEdit[] {
  const plain = [{ ...span, text: after }];
  const more = after.length - (span.end - span.start);
  if (more === 0) return plain;
  const own = lineOf(text, array, index);
  if (!own) return plain;
  const place = index - own.first;
  const beside = [
    own.first > 0 ? lineOf(text, array, own.first - 1) : undefined,
    own.last + 1 < array.given ? lineOf(text, array, own.last + 1) : undefined,
  ].filter((line) => line !== undefined && line.first + place <= line.last) as Line[];
  const spaces = spacesBefore(text, span.start);
  const endColumn = span.end - own.start;
  const padded = [own, ...beside].some((line) => isPadded(text, array, line)) || anyPadded(text, array);
  const right = beside.filter((line) => elementSpan(array, line.first + place).end - line.start === endColumn);
  if (right.length > 0 && padded) {
    // One space stays between a number and the comma before it.
    const spare = place === 0 ? spaces : Math.max(0, spaces - 1);
    if (more > 0) {
      const taken = Math.min(more, spare);
      return [{ start: span.start - taken, end: span.end, text: after }];
    }
    return [{ ...span, text: " ".repeat(-more) + after }];
  }
  // Columns that begin together: the spaces after the comma make up for it.
  if (index >= own.last) return plain;
  const next = elementSpan(array, index + 1).start;
  const room = spacesBefore(text, next);
  if (!padded || text[next - room - 1] !== ",") return plain;
  const left = beside.some((line) => {
    if (line.first + place >= line.last) return false;
    const same = (i: number, j: number) =>
      elementSpan(array, i).start - line.start === elementSpan(array, j).start - own.start;
    return same(line.first + place, index) && same(line.first + place + 1, index + 1);
  });
  if (!left) return plain;
  if (more > 0) {
    const taken = Math.min(more, Math.max(0, room - 1));
    return taken === 0 ? plain : [...plain, { start: next - taken, end: next, text: "" }];
  }
  return [...plain, { start: next, end: next, text: " ".repeat(-more) }];
}

/** Many edits of neighbouring numbers as few: runs with nothing but commas and white space between become one. */
export function compact(text: string, edits: readonly TextEdit[]): TextEdit[] {
  if (edits.length <= FEW) return [...edits];
  const out: TextEdit[] = [];
  let run: TextEdit[] = [];
  const close = () => {
    const [first] = run;
    const last = run[run.length - 1];
    if (!first || !last) return;
    let all = "";
    run.forEach((edit, i) => {
      all += edit.text + text.slice(edit.end, run[i + 1]?.start ?? edit.end);
    });
    out.push({ start: first.start, end: last.end, text: all });
    run = [];
  };
  for (const edit of edits) {
    const last = run[run.length - 1];
    const between = last ? text.slice(last.end, edit.start) : "";
    if (last && (between.length > 24 || !/^[\s,]*$/.test(between))) close();
    run.push(edit);
  }
  close();
  return out;
}

interface Line {
  readonly start: number;
  readonly first: number;
  readonly last: number;
}

/** The elements on an element's line; undefined for a line that is too long to be a column's. */
function lineOf(text: string, array: SourceArray, index: number): Line | undefined {
  const at = elementSpan(array, index).start;
  const start = lineStart(text, at, Math.max(0, at - 4096));
  if (start > 0 && !/[\r\n]/.test(text[start - 1] as string)) return undefined;
  let first = index;
  let last = index;
  while (first > 0 && elementSpan(array, first - 1).start >= start) if (index - --first > MOST) return undefined;
  while (last + 1 < array.given) {
    const span = elementSpan(array, last + 1);
    if (/[\r\n]/.test(text.slice(elementSpan(array, last).end, span.start))) break;
    if (++last - index > MOST) return undefined;
  }
  return { start, first, last };
}

/** Some number on the line has more than one space before it, or less indent than its neighbours. */
function isPadded(text: string, array: SourceArray, line: Line): boolean {
  for (let i = line.first + 1; i <= line.last; i++)
    if (spacesBefore(text, elementSpan(array, i).start) > 1) return true;
  return false;
}

/** Elements of an array that are looked at. */
const MOST_OF_ARRAY = 512;
const known = new WeakMap<SourceArray, boolean>();

/** Some number of the array is, though perhaps none near the one in question. */
function anyPadded(text: string, array: SourceArray): boolean {
  const before = known.get(array);
  if (before !== undefined) return before;
  let found = false;
  for (let i = 1; i < Math.min(array.given, MOST_OF_ARRAY) && !found; i++) {
    const { start } = elementSpan(array, i);
    const spaces = spacesBefore(text, start);
    found = spaces > 1 && text[start - spaces - 1] === ",";
  }
  known.set(array, found);
  return found;
}

function spacesBefore(text: string, at: number): number {
  let count = 0;
  while (text.charCodeAt(at - count - 1) === 32) count++;
  return count;
}
