/** Pixels of a bitmap that get other values, as fixes write them. */
import type { PixelChange } from "../bitmap/edit.ts";
import type { Bitmap } from "../bitmap/resolve.ts";
import { pixelsOf } from "../bitmap/resolve.ts";

/** The changes that turn each raw value into another: of all frames, or `only` from one pixel to another of a frame. */
export function changesOf(
  bitmap: Bitmap,
  map: (value: number) => number,
  only?: { frame: number; first: number; last: number },
): PixelChange[] {
  const changes: PixelChange[] = [];
  for (let frame = only?.frame ?? 0; frame <= (only?.frame ?? bitmap.frames - 1); frame++) {
    const pixels = pixelsOf(bitmap, frame) ?? [];
    for (let i = only?.first ?? 0; i <= (only?.last ?? pixels.length - 1); i++) {
      const before = pixels[i] as number;
      const value = map(before);
      if (value !== before) changes.push({ frame, x: i % bitmap.width, y: Math.floor(i / bitmap.width), value });
    }
  }
  return changes;
}
