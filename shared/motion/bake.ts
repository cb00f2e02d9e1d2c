/** Frames of a motion written into its array: elements, `frames=` and the declared size together. Start here. */

import type { Refused } from "../bitmap/convert/subject.ts";
import { sameIn } from "../bitmap/edit.ts";
import { reopened } from "../bitmap/open.ts";
import type { Bitmap, BitmapFile } from "../bitmap/resolve.ts";
import { pixelsOf } from "../bitmap/resolve.ts";
import type { TextEdit } from "../source/text.ts";
import { editsBetween } from "./editsBetween.ts";
import { filled } from "./filled.ts";
import type { Moving } from "./kernel/frame.ts";
import { framesOf } from "./kernel/frame.ts";
import { orderOf } from "./kernel/timeline.ts";
import { orderArray, withOrder } from "./orderTable.ts";
import type { Motion } from "./resolve.ts";

export interface Baked {
  readonly edits: readonly TextEdit[];
  readonly frames: readonly Uint8Array[];
  /** Frames that are the same as one before them: which, and as which. */
  readonly same: readonly (readonly [number, number])[];
}

/** The frames that the array is to hold, in their order: one way only where an index table gives the order. */
export function bakedFrames({ moving }: Motion, shared: boolean): readonly Uint8Array[] {
  return moving ? inOrder(moving, framesOf(moving), shared) : [];
}

/** The same, where the frames of the way `there` have been computed. */
export function inOrder(moving: Moving, there: readonly Uint8Array[], shared: boolean): readonly Uint8Array[] {
  return shared ? there : orderOf(moving.timeline).map((n) => there[n] as Uint8Array);
}

/** Whether the order of the frames stands in an index table beside the array. */
export function isShared(file: BitmapFile, { target, moving }: Motion): boolean {
  return moving?.timeline.loop === "there-and-back" && target !== undefined && orderArray(file, target) !== undefined;
}

/**
 * The edits that bake a motion. Numbers and comments that stay keep their places; numbers are spelt as the array's own.
 * `share`: each frame is stored once, and an index table behind the array gives their order. The result is read back
 * before it is given; refused, with the reason, where it is not what was wanted.
 */
export function bake(file: BitmapFile, motion: Motion, share = isShared(file, motion)): Baked | Refused {
  const { target, moving } = motion;
  if (!moving) return { refused: motion.problems[0]?.message ?? "the words of its @motion do not say a whole motion" };
  if (!target) return { refused: `${motion.name} holds no frames: its @motion stands before no array` };
  if (share && moving.timeline.loop !== "there-and-back")
    return { refused: `${motion.name} does not go there and back: it has no frames to share` };
  const frames = bakedFrames(motion, share);
  const text = file.source.text;
  const written = filled(file, target, frames);
  if ("refused" in written) return written;
  const after = share ? withOrder(reopened(file, written.text), target, orderOf(moving.timeline)) : written;
  if ("refused" in after) return after;
  const now = sameIn(reopened(file, after.text), target.array);
  if (!now || !holds(now, frames)) return { refused: `the frames of ${target.array.name} would not be read back` };
  const end = ({ array }: Bitmap) => array.base + (array.list?.length ?? 0);
  const cuts = [
    [target.array.base, now.array.base],
    [end(target), end(now)],
  ] as const;
  return { edits: editsBetween(text, after.text, cuts), frames, same: sameFrames(frames) };
}

/** Whether the array holds just these frames. */
export function holds(bitmap: Bitmap, frames: readonly Uint8Array[]): boolean {
  if (bitmap.frames !== frames.length || bitmap.array.count !== bitmap.layout?.elements) return false;
  return frames.every((wanted, frame) => holdsAt(bitmap, frame, wanted));
}

/** Whether a frame of the array shows just these levels. */
export function holdsAt(bitmap: Bitmap, frame: number, wanted: Uint8Array): boolean {
  const pixels = pixelsOf(bitmap, frame);
  return pixels !== undefined && wanted.every((value, i) => value === pixels[i]);
}

/** Each frame that is the same as one before it, with that one. */
function sameFrames(frames: readonly Uint8Array[]): [number, number][] {
  const first = new Map<string, number>();
  const same: [number, number][] = [];
  frames.forEach((pixels, frame) => {
    const key = pixels.join();
    const before = first.get(key);
    if (before === undefined) first.set(key, frame);
    else same.push([frame, before]);
  });
  return same;
}
