/** Two versions of a source file compared by what their bitmaps show. Start here for reviews. */
import { levelOf, rgbOf } from "../pixels/colour.ts";
import { isColour } from "../pixels/formats.ts";
import type { Pixels } from "../pixels/picture.ts";
import type { Bitmap, BitmapFile } from "./resolve.ts";
import { pixelsOf } from "./resolve.ts";

/** What differs in one frame, over the pixels that both versions have (from the top left). */
export interface FrameDifference {
  readonly frame: number;
  /** Pixels that look otherwise. */
  readonly changed: number;
  /** The largest rise and fall of a level; 0 where none rises or falls. Only of levels, on one scale. */
  readonly rise?: number;
  readonly fall?: number;
}

export interface BitmapDifference {
  readonly kind: "added" | "removed" | "renamed" | "changed";
  /** One of them is missing where it was added or removed. */
  readonly before?: Bitmap;
  readonly after?: Bitmap;
  /** What differs beside pixels, such as `9×9 to 11×9`. */
  readonly shape: readonly string[];
  /** The frames that look otherwise, of those that both have. */
  readonly frames: readonly FrameDifference[];
}

/**
 * The bitmaps that differ, in the order of the newer text, then those that are gone. Bitmaps are the same by name and by
 * which of that name they are; one that is gone and one that is new count as renamed where they show the same. Numbers
 * that are spelt or packed otherwise are no difference.
 */
export function compareFiles(before: BitmapFile, after: BitmapFile): BitmapDifference[] {
  const left = new Map(before.bitmaps.map((bitmap) => [keyOf(bitmap), bitmap]));
  const found: BitmapDifference[] = [];
  for (const bitmap of after.bitmaps) {
    const old = left.get(keyOf(bitmap));
    left.delete(keyOf(bitmap));
    if (!old) found.push({ kind: "added", after: bitmap, shape: [], frames: [] });
    else {
      const difference = compareBitmaps(old, bitmap);
      if (difference) found.push(difference);
    }
  }
  const gone = [...left.values()];
  const named = found.map((difference): BitmapDifference => {
    if (difference.kind !== "added") return difference;
    const at = gone.findIndex((old) => difference.after && showSame(old, difference.after));
    const [old] = at < 0 ? [] : gone.splice(at, 1);
    return old ? { ...difference, kind: "renamed", before: old } : difference;
  });
  return [
    ...named,
    ...gone.map((bitmap): BitmapDifference => ({ kind: "removed", before: bitmap, shape: [], frames: [] })),
  ];
}

function keyOf({ array }: Bitmap): string {
  return `${array.name} ${array.ordinal}`;
}

/** undefined where both show the same in the same size, format, speed, cap and tint. */
function compareBitmaps(before: Bitmap, after: Bitmap): BitmapDifference | undefined {
  const shape = shapeOf(before, after);
  const frames: FrameDifference[] = [];
  for (let frame = 0; frame < Math.min(before.frames, after.frames); frame++) {
    const difference = compareFrame(before, after, frame);
    if (difference) frames.push(difference);
  }
  return shape.length + frames.length > 0 ? { kind: "changed", before, after, shape, frames } : undefined;
}

/** Indices (row by row in the newer version) of the pixels of a frame that look otherwise, of those that both have. */
export function changedPixels(before: Bitmap, after: Bitmap, frame: number): number[] {
  const [old, now] = [pixelsOf(before, frame), pixelsOf(after, frame)];
  if (!old || !now) return [];
  const changed: number[] = [];
  const sees = lookOf(before, after);
  eachShared(before, after, (a, b) => {
    if (sees.before(old[a] as number) !== sees.after(now[b] as number)) changed.push(b);
  });
  return changed;
}

function compareFrame(before: Bitmap, after: Bitmap, frame: number): FrameDifference | undefined {
  const [old, now] = [pixelsOf(before, frame), pixelsOf(after, frame)];
  if (!old || !now) return undefined;
  const sees = lookOf(before, after);
  const level = (bitmap: Bitmap, pixels: Pixels, at: number) =>
    levelOf(bitmap.format, pixels[at] as number, bitmap.palette?.colours);
  let [changed, rise, fall] = [0, 0, 0];
  eachShared(before, after, (a, b) => {
    if (sees.before(old[a] as number) === sees.after(now[b] as number)) return;
    changed++;
    const step = level(after, now, b) - level(before, old, a);
    if (step > rise) rise = step;
    if (-step > fall) fall = -step;
  });
  if (changed === 0) return undefined;
  const scaled = before.format.full === after.format.full && after.format.kind !== "mono";
  return { frame, changed, ...(scaled ? { rise, fall } : {}) };
}

/** Calls with the indices of each pixel that both versions have. */
function eachShared(before: Bitmap, after: Bitmap, visit: (before: number, after: number) => void): void {
  const [width, height] = [Math.min(before.width, after.width), Math.min(before.height, after.height)];
  for (let y = 0; y < height; y++) for (let x = 0; x < width; x++) visit(y * before.width + x, y * after.width + x);
}

/** What a value looks like, so that values of two formats can be compared: the raw value where that is the same in both. */
function lookOf(before: Bitmap, after: Bitmap) {
  const same = before.format === after.format && before.format.kind !== "palette";
  const of = ({ format, palette }: Bitmap) =>
    same ? (value: number) => value : (value: number) => rgbOf(format, value, palette?.colours);
  return { before: of(before), after: of(after) };
}

function showSame(a: Bitmap, b: Bitmap): boolean {
  if (a.why !== undefined || b.why !== undefined) return false;
  return a.format === b.format && compareBitmaps(a, b) === undefined;
}

function shapeOf(before: Bitmap, after: Bitmap): string[] {
  const facts: (readonly [string, string])[] = [
    [`${before.width}×${before.height}`, `${after.width}×${after.height}`],
    [before.format.name, after.format.name],
    [framesOf(before), framesOf(after)],
    [said("fps", before.options.fps), said("fps", after.options.fps)],
    [said("cap", before.cap), said("cap", after.cap)],
    [said("drive", percent(before.drive)), said("drive", percent(after.drive))],
    [`light ${before.light}`, `light ${after.light}`],
    [said("panel", before.panel?.name), said("panel", after.panel?.name)],
    [said("tint", before.options.tint), said("tint", after.options.tint)],
  ];
  const changed = facts.filter(([a, b]) => a !== b).map(([a, b]) => `${a} to ${b}`);
  if (before.why === undefined && after.why !== undefined) changed.push(`no longer a picture: ${after.why}`);
  if (before.why !== undefined && after.why === undefined) changed.push("a picture now");
  const plain = !isColour(before.format) && !isColour(after.format);
  return plain || before.format !== after.format ? changed : [...changed, ...paletteChange(before, after)];
}

function paletteChange(before: Bitmap, after: Bitmap): string[] {
  const [old, now] = [before.palette?.name, after.palette?.name];
  return old === now ? [] : [`${said("palette", old)} to ${said("palette", now)}`];
}

function framesOf({ frames }: Bitmap): string {
  return frames === 1 ? "1 frame" : `${frames} frames`;
}

function said(what: string, value: string | number | undefined): string {
  return value === undefined ? `no ${what}` : `${what} ${value}`;
}

function percent(share: number): string {
  return `${Math.round(share * 1000) / 10} %`;
}

/** The most frames that are named one by one. */
const MOST_NAMED = 6;

/** A difference in words: `14 of 81 pixels changed, up to +32`. */
export function differenceInWords({ kind, before, after, shape, frames }: BitmapDifference): string {
  const bitmap = after ?? before;
  if (!bitmap || kind === "added" || kind === "removed")
    return bitmap ? `${kind}, ${bitmap.width}×${bitmap.height} ${bitmap.format.name}` : kind;
  if (kind === "renamed") return `renamed from ${before?.array.name}`;
  const parts = [...shape];
  if (bitmap.frames > 1 && frames.length > 0) {
    const named = frames.slice(0, MOST_NAMED).map((f) => `frame ${f.frame}: ${pixelsInWords(f)}`);
    const more = frames.length - named.length;
    parts.push(
      `${frames.length} of ${bitmap.frames} frames changed (${named.join("; ")}${more > 0 ? `; ${more} more` : ""})`,
    );
  } else if (frames[0]) {
    parts.push(pixelsInWords(frames[0], bitmap.width * bitmap.height));
  }
  return parts.join(", ");
}

/** `14 of 81 pixels changed, up to +32 and −5`; without the number of all, that is left out. */
export function pixelsInWords({ changed, rise = 0, fall = 0 }: FrameDifference, all?: number): string {
  const count = `${changed}${all === undefined ? "" : ` of ${all}`} ${(all ?? changed) === 1 ? "pixel" : "pixels"}${all === undefined ? "" : " changed"}`;
  const steps = [...(rise > 0 ? [`+${rise}`] : []), ...(fall > 0 ? [`−${fall}`] : [])];
  return steps.length > 0 ? `${count}, up to ${steps.join(" and ")}` : count;
}
