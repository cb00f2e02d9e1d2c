/** Which pixels an element of an array holds. */
import type { Bitmap } from "../../shared/bitmap/resolve.ts";
import { pixelsOf } from "../../shared/bitmap/resolve.ts";
import { hexOf, rgbOf } from "../../shared/pixels/colour.ts";
import type { Layout } from "../../shared/pixels/layout.ts";

export interface HeldPixel {
  readonly frame: number;
  readonly x: number;
  readonly y: number;
  /** Raw value of the pixel, turned over where the bitmap is inverted. */
  readonly value: number;
}

/** The pixels of the element with this flat index, frame by frame, each row by row; none for unused elements. */
export function pixelsOfElement(bitmap: Bitmap, slot: number): HeldPixel[] {
  const { layout, width } = bitmap;
  if (!layout || bitmap.why !== undefined) return [];
  const held: HeldPixel[] = [];
  for (let frame = firstFrame(layout, slot); frame < bitmap.frames; frame++) {
    const { element } = layout.table(frame);
    let later = true;
    let pixels: ArrayLike<number> | undefined;
    for (let i = 0; i < element.length; i++) {
      const at = element[i] as number;
      if (at <= slot) later = false;
      if (at > slot || slot >= at + layout.span) continue;
      pixels ??= pixelsOf(bitmap, frame) as ArrayLike<number>;
      held.push({ frame, x: i % width, y: Math.floor(i / width), value: pixels[i] as number });
    }
    // A frame that starts after the element; all others do too.
    if (later) break;
  }
  return held;
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
