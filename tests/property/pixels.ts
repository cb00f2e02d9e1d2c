/** Pixels of a bitmap and changes of them, as plain numbers. */
import type { PixelChange } from "../../shared/bitmap/edit.ts";
import type { Bitmap } from "../../shared/bitmap/resolve.ts";
import { pixelsOf } from "../../shared/bitmap/resolve.ts";

export function changesFor(
  bitmap: Bitmap,
  stroke: readonly { frame: number; x: number; y: number; value: number }[],
): PixelChange[] {
  return stroke.map((s) => {
    const frame = s.frame % bitmap.frames;
    const x = s.x % bitmap.width;
    const y = s.y % bitmap.height;
    const before = pixelsOf(bitmap, frame)?.[y * bitmap.width + x] as number;
    return { frame, x, y, value: s.value % (bitmap.format.most + 1), before };
  });
}

/** All frames of a bitmap, one after another. */
export function allPixels(bitmap: Bitmap): number[] {
  return Array.from({ length: bitmap.frames }, (_, frame) => Array.from(pixelsOf(bitmap, frame) ?? [])).flat();
}

export function wantedPixels(bitmap: Bitmap, changes: readonly PixelChange[]): number[] {
  const pixels = allPixels(bitmap);
  for (const { frame, x, y, value } of changes) pixels[(frame * bitmap.height + y) * bitmap.width + x] = value;
  return pixels;
}
