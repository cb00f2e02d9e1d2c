/** Edits that make one text of another. */
import type { TextEdit } from "../source/text.ts";
import { commonPrefix, commonSuffix } from "../source/text.ts";

/**
 * Edits from one text to another, each trimmed to what differs. `cuts` are places in both that mean the same, in order:
 * what differs between two of them is one edit.
 */
export function editsBetween(before: string, after: string, cuts: readonly (readonly [number, number])[]): TextEdit[] {
  const ends = [...cuts, [before.length, after.length] as const];
  const edits: TextEdit[] = [];
  let [a, b] = [0, 0];
  for (const [endA, endB] of ends) {
    const [old, now] = [before.slice(a, endA), after.slice(b, endB)];
    if (old !== now) {
      const prefix = commonPrefix(old, now);
      const suffix = commonSuffix(old, now, Math.min(old.length, now.length) - prefix);
      edits.push({ start: a + prefix, end: endA - suffix, text: now.slice(prefix, now.length - suffix) });
    }
    [a, b] = [endA, endB];
  }
  return edits;
}
