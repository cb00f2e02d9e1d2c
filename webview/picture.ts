/** The picture as the page shows it: the document's, with the strokes that it does not have yet and what floats on top; pure. */
import type { BitmapIdentity, PixelChange } from "../shared/bitmap/edit.ts";
import type { Shown } from "../shared/protocol/webview.ts";
import type { Sent } from "./queue.ts";
import { lay } from "./selection/float.ts";
import type { State } from "./state.ts";
import type { Marks } from "./tools/tools.ts";

/** Raw values of a frame, row by row from the top left. */
export function pictureOf(state: Pick<State, "shown" | "queue" | "stroke" | "float">, frame: number): Uint32Array {
  const { shown, queue, stroke, float } = state;
  if (!shown) return new Uint32Array(0);
  const pixels = under(shown, queue, frame);
  if (stroke?.frame === frame) put(pixels, stroke.marks);
  if (float?.frame === frame) lay(float, pixels, shown.bitmap);
  return pixels;
}

/**
 * The changes of a finished stroke, as the document must take them now: `before` is what is shown under it at this
 * moment, so that a stroke still fits when the one before it was refused.
 */
export function changesOf(state: Pick<State, "shown" | "queue">, sent: Sent): PixelChange[] {
  const { shown, queue } = state;
  const { width } = sent;
  const here = shown !== undefined && sameBitmap(sent.identity, shown.bitmap.identity);
  const earlier = queue.filter((s) => s.id < sent.id);
  const changes: PixelChange[] = [];
  for (const { frame, marks, before: seen } of sent.parts) {
    const pixels = here ? under(shown, earlier, frame) : undefined;
    for (const [index, value] of marks) {
      const before = pixels?.[index] ?? seen.get(index) ?? 0;
      if (before === value) continue;
      changes.push({ frame, x: index % width, y: Math.floor(index / width), value, before });
    }
  }
  return changes;
}

/** Whether two identities mean one bitmap: arrays of its name may come and go before it while it is shown. */
export function sameBitmap(a: BitmapIdentity, b: BitmapIdentity): boolean {
  return a.name === b.name && a.structure === b.structure && (a.ordinal === b.ordinal || a.siblings !== b.siblings);
}

function under(shown: Shown, queue: readonly Sent[], frame: number): Uint32Array {
  const pixels = typed(shown.frames[frame] ?? []).slice();
  for (const sent of queue) {
    if (!sameBitmap(sent.identity, shown.bitmap.identity)) continue;
    for (const part of sent.parts) if (part.frame === frame) put(pixels, part.marks);
  }
  return pixels;
}

function put(pixels: Uint32Array, marks: Marks): void {
  marks.forEach((value, index) => {
    pixels[index] = value;
  });
}

/**
 * What a message brings are arrays of any values to the script engine: making a typed array of one takes it 12 ms for
 * 76,800 pixels, and pictures are made with every move of the pointer. So each is taken over once, number by number.
 */
const taken = new WeakMap<readonly number[], Uint32Array>();

function typed(values: readonly number[]): Uint32Array {
  const known = taken.get(values) ?? new Uint32Array(values.length);
  if (!taken.has(values)) for (let i = 0; i < values.length; i++) known[i] = values[i] as number;
  taken.set(values, known);
  return known;
}
