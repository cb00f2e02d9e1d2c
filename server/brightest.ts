import type { Bitmap } from "../shared/bitmap/resolve.ts";
import { pixelsOf } from "../shared/bitmap/resolve.ts";

/** The raw value that a picture shows as fully lit: the cap, or where there is none (or it is exceeded) the peak. */
export function brightest(bitmap: Bitmap): number {
  if (bitmap.format.kind === "mono") return bitmap.format.most;
  let peak = bitmap.cap ?? 0;
  for (let frame = 0; frame < bitmap.frames; frame++)
    for (const value of pixelsOf(bitmap, frame) ?? []) peak = Math.max(peak, value);
  return Math.max(1, peak);
}
