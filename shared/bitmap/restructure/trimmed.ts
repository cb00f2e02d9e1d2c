/** Edits no larger than what changes. */
import { elementValue } from "../../source/arrays.ts";
import type { TextEdit } from "../../source/text.ts";
import { commonPrefix, commonSuffix } from "../../source/text.ts";
import { stored } from "../../source/types.ts";
import type { Subject } from "../convert/subject.ts";

/** The edit that puts a text in place of a part of the old one, without what both begin and end with. */
export function changedPart(text: string, { start, end }: { start: number; end: number }, now: string): TextEdit[] {
  const before = text.slice(start, end);
  if (before === now) return [];
  const same = commonPrefix(before, now);
  const tail = commonSuffix(before, now, Math.min(before.length, now.length) - same);
  return [{ start: start + same, end: end - tail, text: now.slice(same, now.length - tail) }];
}

/** Whether the list says the new values too: it ended early before, with a stated size, and what follows is zero. */
export function stays({ array, type, layout }: Subject, values: BigUint64Array): boolean {
  const { given, slots, dimensions } = array;
  if (given >= layout.elements || given > values.length || slots || dimensions.length !== 1) return false;
  if (dimensions[0]?.size === undefined) return false;
  return values.every((bits, i) =>
    i < given ? BigInt.asUintN(type.bits, stored(elementValue(array, i), type)) === bits : bits === 0n,
  );
}
