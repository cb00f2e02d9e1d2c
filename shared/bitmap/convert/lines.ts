/** Lines of numbers, as the list before had them: wrapped where its rows were, with braces where it had such. */
import { elementSpan } from "../../source/arrays.ts";
import type { ElementLine } from "../../source/emit.ts";
import { perLineOf } from "../make.ts";
import type { Subject } from "./subject.ts";

/** Marks which lines begin and end an inner list of so many elements. */
export function braced(lines: readonly ElementLine[], inner: number | undefined): readonly ElementLine[] {
  if (inner === undefined) return lines;
  return lines.map((line) => ({
    ...line,
    inner: { first: line.first % inner === 0, last: (line.first + line.count) % inner === 0 },
  }));
}

/** Elements to a line at most, where the list's own rows go over several lines; else no limit. */
export function wrapOf({ text, array, layout }: Subject): number {
  const perLine = perLineOf(layout);
  let count = 1;
  for (; count < Math.min(perLine, array.given); count++) {
    const [before, next] = [elementSpan(array, count - 1), elementSpan(array, count)];
    if (/[\r\n]/.test(text.slice(before.end, next.start))) return count;
  }
  return Number.POSITIVE_INFINITY;
}

/** Lines of so many elements at most; the comments stay at the first and behind the last. */
export function wrapped(lines: readonly ElementLine[], most: number): readonly ElementLine[] {
  // A few more are no reason for a line of their own.
  if (lines.every(({ count }) => count <= most * 1.5)) return lines;
  return lines.flatMap(({ first, count, above, behind }) =>
    Array.from({ length: Math.ceil(count / most) }, (_, i): ElementLine => {
      const at = i * most;
      const ends = at + most >= count;
      return {
        first: first + at,
        count: Math.min(most, count - at),
        ...(i === 0 && above !== undefined ? { above } : {}),
        ...(ends && behind !== undefined ? { behind } : {}),
      };
    }),
  );
}
