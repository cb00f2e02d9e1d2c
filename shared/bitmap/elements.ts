import type { ElementBits } from "../pixels/picture.ts";
import type { SourceArray } from "../source/arrays.ts";
import { storedBits } from "../source/arrays.ts";

const known = new WeakMap<SourceArray, ElementBits>();

/** The array's elements as the compiler stores them; computed once for each version of an array. */
export function elementsOfArray(array: SourceArray): ElementBits | undefined {
  const before = known.get(array);
  if (before) return before;
  const made = storedBits(array);
  if (made) known.set(array, made);
  return made;
}
