/** Which values a bitmap uses, over all its frames; counted once for each version of a bitmap. */
import type { Bitmap } from "../../shared/bitmap/resolve.ts";
import { pixelsOf } from "../../shared/bitmap/resolve.ts";
import { levelOf } from "../../shared/pixels/colour.ts";
import { isColour } from "../../shared/pixels/formats.ts";

export interface ValueRange {
  readonly least: number;
  readonly most: number;
  /** Pixels with a value above 0. */
  readonly lit: number;
  readonly pixels: number;
  /** Highest level: `most`, or for colours the brightest channel in eight bits. */
  readonly peak: number;
  /** Different colours; 0 for mono and grey. */
  readonly colours: number;
}

const known = new WeakMap<Bitmap, ValueRange>();

/** undefined for a bitmap without a picture. */
export function valueRange(bitmap: Bitmap): ValueRange | undefined {
  const before = known.get(bitmap);
  if (before) return before;
  let least = Number.POSITIVE_INFINITY;
  let most = 0;
  let lit = 0;
  let count = 0;
  const { format, palette } = bitmap;
  const coloured = isColour(format);
  const used = new Set<number>();
  for (let frame = 0; frame < bitmap.frames; frame++) {
    const pixels = pixelsOf(bitmap, frame);
    if (!pixels) return undefined;
    count += pixels.length;
    for (let i = 0; i < pixels.length; i++) {
      const value = pixels[i] as number;
      if (value > 0) lit++;
      if (value > most) most = value;
      if (value < least) least = value;
      if (coloured) used.add(value);
    }
  }
  let peak = coloured ? 0 : most;
  for (const value of used) peak = Math.max(peak, levelOf(format, value, palette?.colours));
  const range = { least, most, lit, pixels: count, peak, colours: used.size };
  known.set(bitmap, range);
  return range;
}
