import type { SourceArray } from "../../shared/source/arrays.ts";
import { slotOf } from "../../shared/source/arrays.ts";

/** The lowest and the highest flat index that the written elements from `from` up to `to` (exclusive) fill, if any do. */
export function slotsOf(array: SourceArray, from: number, to: number): readonly [number, number] | undefined {
  let low = Number.POSITIVE_INFINITY;
  let high = -1;
  for (let i = from; i < to; i++) {
    const slot = slotOf(array, i);
    if (slot < 0) continue;
    low = Math.min(low, slot);
    high = Math.max(high, slot);
  }
  return high < 0 ? undefined : [low, high];
}

const known = new WeakMap<SourceArray, ReadonlyMap<number, number>>();

/** From flat indices to the written elements that fill them, -1 for those that nothing written fills. */
export function writtenAt(array: SourceArray): (slot: number) => number {
  if (!array.slots) return (slot) => (slot < array.given ? slot : -1);
  let table = known.get(array);
  if (!table) {
    const made = new Map<number, number>();
    for (let i = 0; i < array.given; i++) {
      const slot = slotOf(array, i);
      if (slot >= 0) made.set(slot, i);
    }
    table = made;
    known.set(array, made);
  }
  const found = table;
  return (slot) => found.get(slot) ?? -1;
}
