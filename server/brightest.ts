import type { Bitmap } from "../shared/bitmap/resolve.ts";
import { pixelsOf } from "../shared/bitmap/resolve.ts";
import { isColour } from "../shared/pixels/formats.ts";

/**
 * The level that a picture shows as fully lit: the cap, or where there is none (or it is exceeded) the peak. Colours
 * are shown as they are unless a cap holds them down.
 */
export function brightest(bitmap: Bitmap): number {
  if (bitmap.format.kind === "mono") return bitmap.format.most;
  if (isColour(bitmap.format)) return Math.max(1, bitmap.cap ?? bitmap.format.full);
  let peak = bitmap.cap ?? 0;
  for (let frame = 0; frame < bitmap.frames; frame++)
    for (const value of pixelsOf(bitmap, frame) ?? []) peak = Math.max(peak, value);
  return Math.max(1, peak);
}
