/** Several arrays that are edited as one set of frames: what is asked of the set, done to each of its arrays in one step. */
import type { Pixels } from "../../pixels/picture.ts";
import { nextName } from "../../source/identifiers.ts";
import type { TextEdit } from "../../source/text.ts";
import type { Refused } from "../convert/subject.ts";
import { expectedAs } from "../convert/verify.ts";
import { editPixels, type PixelChange } from "../edit.ts";
import { makeLike } from "../like.ts";
import type { Bitmap, BitmapFile } from "../resolve.ts";
import { pixelsOf } from "../resolve.ts";
import { type FramesChange, MOST_PIXELS, type Restructured, type Restructuring } from "./change.ts";

type Order = FramesChange["order"];
type Place = { readonly bitmap: Bitmap; readonly frame: number };
type BuildOne = (bitmap: Bitmap, change: Restructuring) => Restructured | Refused;

/** What is written of a set, and the names of arrays that are new in it. */
export interface BuiltTogether extends Restructured {
  readonly added?: readonly string[];
}

/**
 * A size is given to all arrays of the set, a speed to those that have frames of their own. Frames of the set are counted
 * through its arrays: within one array they are added, taken away and moved as ever. Between arrays they change places,
 * and a frame more than an array of one frame has is a new array behind it. An array is never taken away: other code may
 * name it. The bitmaps are alike: their pixels mean the same, and there are as many.
 */
export function togetherBuilt(
  file: BitmapFile,
  bitmaps: readonly Bitmap[],
  change: Restructuring,
  build: BuildOne,
): BuiltTogether | Refused {
  if (change.kind === "size") return joined(bitmaps.map((bitmap) => build(bitmap, change)));
  if (change.kind === "speed") {
    const moving = bitmaps.filter((b) => b.frames > 1);
    if (moving.length === 0)
      return { refused: "each array of the set is one frame: there is none whose annotation could state a speed" };
    return joined(moving.map((bitmap) => build(bitmap, change)));
  }
  return framesTogether(file, bitmaps, change.order, build);
}

function framesTogether(
  file: BitmapFile,
  bitmaps: readonly Bitmap[],
  order: Order,
  build: BuildOne,
): BuiltTogether | Refused {
  const places = bitmaps.flatMap((bitmap) => Array.from({ length: bitmap.frames }, (_, frame) => ({ bitmap, frame })));
  const strange = order.find((f) => f !== "dark" && !places[f]);
  if (strange !== undefined) return { refused: `the set has no frame ${strange}` };
  const size = (bitmaps[0]?.width ?? 1) * (bitmaps[0]?.height ?? 1);
  if (size * order.length > MOST_PIXELS)
    return { refused: `${order.length} frames are more than ${MOST_PIXELS} pixels` };
  const own = ownOrders(bitmaps, places, order);
  if (own) return joined(eachOwn(file, own, build));
  const moved = order.filter((f) => f !== "dark");
  if (moved.length !== order.length || new Set(moved).size !== places.length || moved.length !== places.length)
    return { refused: "frames of a set are added, deleted and moved one at a time" };
  return joined(exchanged(file, bitmaps, places, moved));
}

/** The frames of each array, where none goes to another array: a dark one belongs to the frame before it. */
function ownOrders(
  bitmaps: readonly Bitmap[],
  places: readonly Place[],
  order: Order,
): ReadonlyMap<Bitmap, Order> | undefined {
  const own = new Map<Bitmap, (number | "dark")[]>(bitmaps.map((bitmap) => [bitmap, []]));
  let last = 0;
  for (const frame of order) {
    const place = frame === "dark" ? undefined : (places[frame] as Place);
    const at = place ? bitmaps.indexOf(place.bitmap) : last;
    if (at < last) return undefined;
    last = at;
    own.get(bitmaps[at] as Bitmap)?.push(place?.frame ?? "dark");
  }
  return own;
}

function eachOwn(file: BitmapFile, own: ReadonlyMap<Bitmap, Order>, build: BuildOne): (BuiltTogether | Refused)[] {
  return [...own].flatMap(([bitmap, order]): (BuiltTogether | Refused)[] => {
    const { name } = bitmap.array;
    if (order.length === 0)
      return [{ refused: `${name} has only this frame: an array is deleted in the text, as other code may name it` }];
    if (order.length === bitmap.frames && order.every((frame, i) => frame === i)) return [];
    if (bitmap.frames > 1) return [build(bitmap, { kind: "frames", order })];
    return [newArray(file, bitmap, order)];
  });
}

/** A new array behind one that is a single frame: dark, or a copy of it. */
function newArray(file: BitmapFile, bitmap: Bitmap, order: Order): BuiltTogether | Refused {
  const { array } = bitmap;
  const { type } = array;
  const [first, second, more] = order;
  const pixels = pixelsOf(bitmap, 0);
  if (first !== 0 || more !== undefined || !pixels || !type)
    return { refused: `one array at a time is added behind ${array.name}` };
  const edit = makeLike(file, bitmap, second === "dark" ? "dark" : "same");
  if ("refused" in edit) return edit;
  const name = nextName(file.source.text, array.name);
  const frame = second === "dark" ? (pixels.slice().fill(0) as Pixels) : pixels;
  return { edits: [edit], expected: [expectedAs({ name, ordinal: 0 }, bitmap, type.bits, [frame])], added: [name] };
}

/** Arrays stay where they are, with what other code knows them by: what they hold changes places. */
function exchanged(
  file: BitmapFile,
  bitmaps: readonly Bitmap[],
  places: readonly Place[],
  order: readonly number[],
): (Restructured | Refused)[] {
  const unknown = bitmaps.find((b) => pixelsOf(b, 0) === undefined);
  if (unknown) return [{ refused: `${unknown.array.name} has no picture: ${unknown.why}` }];
  let first = 0;
  return bitmaps.flatMap((bitmap): (Restructured | Refused)[] => {
    const { array, frames, width } = bitmap;
    const from = order.slice(first, first + frames).map((frame) => places[frame] as Place);
    first += frames;
    if (from.every((place, frame) => place.bitmap === bitmap && place.frame === frame)) return [];
    if (bitmap.widths || from.some((place) => place.bitmap.widths))
      return [{ refused: `${array.name} has widths, which would not follow into another array` }];
    const pictures = from.map((place) => pixelsOf(place.bitmap, place.frame) as Pixels);
    const changes: PixelChange[] = [];
    for (const [frame, wanted] of pictures.entries()) {
      const now = pixelsOf(bitmap, frame) as Pixels;
      wanted.forEach((value, i) => {
        if (value !== now[i]) changes.push({ frame, x: i % width, y: Math.floor(i / width), value });
      });
    }
    const done = editPixels(file.source.text, bitmap, changes);
    if ("refused" in done) return [done];
    return [{ edits: done.edits, expected: [expectedAs(array, bitmap, array.type?.bits ?? 8, pictures)] }];
  });
}

/** All as one change: what two arrays share, such as a size by name, is written once. */
function joined(all: readonly (BuiltTogether | Refused)[]): BuiltTogether | Refused {
  const edits = new Map<string, TextEdit>();
  const built: BuiltTogether[] = [];
  for (const one of all) {
    if ("refused" in one) return one;
    built.push(one);
    // Within one array two insertions may stand at one place.
    for (const [i, edit] of one.edits.entries()) {
      const twin = one.edits.findIndex((e) => e.start === edit.start && e.end === edit.end && e.text === edit.text);
      edits.set(`${edit.start} ${edit.end} ${edit.text} ${twin === i ? "" : i}`, edit);
    }
  }
  const sorted = [...edits.values()].sort((a, b) => a.start - b.start || a.end - b.end);
  const overlaps = sorted.some((edit, i) => {
    const next = sorted[i + 1];
    return (
      next !== undefined &&
      (edit.end > next.start || (edit.start === next.start && edit.end === next.end && edit.start < edit.end))
    );
  });
  if (overlaps) return { refused: "arrays of the set share text that would have to be two" };
  return {
    edits: sorted,
    expected: built.flatMap((b) => b.expected),
    others: built.flatMap((b) => b.others ?? []),
    added: built.flatMap((b) => b.added ?? []),
  };
}
