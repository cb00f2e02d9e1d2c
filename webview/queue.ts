/** Puts finished strokes behind those that wait to be written; pure. */
import { pictureOf } from "./picture.ts";
import type { Sent, State } from "./state.ts";
import type { Marks } from "./tools/tools.ts";

/** One stroke, of marks by frame; the same state where nothing would change. */
export function queued(state: State, marks: ReadonlyMap<number, Marks>): State {
  const { shown } = state;
  if (!shown) return state;
  const parts: Sent["parts"][number][] = [];
  for (const [frame, wanted] of marks) {
    const pixels = pictureOf({ shown, queue: state.queue }, frame);
    const changed = [...wanted].filter(([index, value]) => pixels[index] !== value);
    if (changed.length === 0) continue;
    const before = new Map(changed.map(([index]) => [index, pixels[index] ?? 0]));
    parts.push({ frame, marks: new Map(changed), before });
  }
  if (parts.length === 0) return state;
  const id = state.lastId + 1;
  return { ...state, lastId: id, queue: [...state.queue, { id, identity: shown.bitmap.identity, parts }] };
}
