/** Which pixels the elements of an array hold. */
import type { Bitmap } from "../../shared/bitmap/resolve.ts";
import { elementsOf, pixelsOf } from "../../shared/bitmap/resolve.ts";
import { hexOf, rgbOf } from "../../shared/pixels/colour.ts";
import type { Layout } from "../../shared/pixels/layout.ts";
import { pixelOf } from "../../shared/pixels/picture.ts";

export interface HeldPixel {
  readonly frame: number;
  readonly x: number;
  readonly y: number;
  /** Raw value of the pixel, turned over where the bitmap is inverted. */
  readonly value: number;
}

/** The pixels of the element with this flat index, frame by frame, each row by row; none for unused elements. */
export function pixelsOfElement(bitmap: Bitmap, slot: number): HeldPixel[] {
  const held: HeldPixel[] = [];
  visitPixels(bitmap, slot, slot + 1, (_, frame, pixel, value) =>
    held.push({ frame, x: pixel % bitmap.width, y: Math.floor(pixel / bitmap.width), value }),
  );
  return held;
}

/**
 * Visits the pixels of the elements with flat indices from `from` up to `to` (exclusive), frame by frame, each row by
 * row from the top left; a pixel of several elements once for each. Nothing for a bitmap without a picture.
 */
export function visitPixels(
  bitmap: Bitmap,
  from: number,
  to: number,
  visit: (slot: number, frame: number, pixel: number, value: number) => void,
): void {
  const { layout } = bitmap;
  const bits = bitmap.why === undefined ? elementsOf(bitmap) : undefined;
  if (!layout || !bits) return;
  const { span } = layout;
  for (let frame = firstFrame(layout, from); frame < bitmap.frames; frame++) {
    const { element } = layout.table(frame);
    // Of many elements all pixels are read at once; of few in a large frame only theirs.
    const all = (to - from) * 8 > element.length ? pixelsOf(bitmap, frame) : undefined;
    let later = true;
    for (let pixel = 0; pixel < element.length; pixel++) {
      const at = element[pixel] as number;
      if (at < to) later = false;
      if (at >= to || at + span <= from) continue;
      const value = all ? (all[pixel] as number) : pixelOf(bits, layout, frame, pixel, bitmap.invert);
      const end = Math.min(at + span, to);
      for (let slot = Math.max(at, from); slot < end; slot++) visit(slot, frame, pixel, value);
    }
    // A frame that starts after the elements; all others do too.
    if (later) break;
  }
}

/** The first frame that may reach the element, found by halving: frames follow each other in the array. */
function firstFrame(layout: Layout, slot: number): number {
  if (layout.frameElements > 0) return Math.max(0, Math.floor((slot - layout.skip) / layout.frameElements));
  let low = 0;
  let high = layout.frames - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    let last = 0;
    for (const at of layout.table(middle).element) if (at > last) last = at;
    if (last + layout.span > slot) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Pixels of one bit as `··##··`; colours as `#rrggbb`; all others as their values. */
export function drawingOf(bitmap: Bitmap, pixels: readonly HeldPixel[]): string {
  if (bitmap.format.depth === 1 && bitmap.format.kind === "mono")
    return pixels.map((p) => (p.value > 0 ? "#" : "·")).join("");
  if (bitmap.format.kind === "rgb") return pixels.map((p) => hexOf(rgbOf(bitmap.format, p.value))).join(" ");
  return pixels.map((p) => p.value).join(" ");
}
