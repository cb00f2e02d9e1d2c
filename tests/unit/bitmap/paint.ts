import type { PixelChange } from "../../../shared/bitmap/edit.ts";
import { editPixels } from "../../../shared/bitmap/edit.ts";
import { openText } from "../../../shared/bitmap/open.ts";
import type { Bitmap } from "../../../shared/bitmap/resolve.ts";
import { applyEdits } from "../../../shared/source/text.ts";

export type Change = [x: number, y: number, value: number, frame?: number];

export function firstBitmap(text: string, file = "art.h"): Bitmap {
  const bitmap = openText(text, file).bitmaps[0];
  if (!bitmap) throw new Error(`no bitmap in: ${text}`);
  return bitmap;
}

/** The text after pixels of its first bitmap got new values; the reason where that is refused. */
export function paint(text: string, changes: readonly Change[], file?: string): string {
  const asked = changes.map(([x, y, value, frame = 0]): PixelChange => ({ frame, x, y, value }));
  const result = editPixels(text, firstBitmap(text, file), asked);
  return "refused" in result ? result.refused : applyEdits(text, result.edits);
}
