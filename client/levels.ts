/** How bright each number of a bitmap is: its pixels' values to a few levels that look evenly stepped. */
import { linearToSrgb } from "../shared/light/lightness.ts";
import type { BitmapInfo, PictureFrame } from "../shared/protocol/lsp.ts";

/** Levels above dark; level 0 is dark. */
export const LEVELS = 16;

/** Where a number is written and its level. Lines and columns are those of LSP, the end is exclusive. */
export interface Leveled {
  readonly startLine: number;
  readonly startColumn: number;
  readonly endLine: number;
  readonly endColumn: number;
  readonly level: number;
  readonly overCap: boolean;
}

/** The raw value that is shown as full light: the cap, the format's highest for one bit, else the peak. */
export function fullValue(bitmap: BitmapInfo, frames: readonly PictureFrame[]): number {
  if (bitmap.most === 1) return 1;
  if (bitmap.cap !== undefined) return Math.max(1, bitmap.cap / bitmap.drive);
  let peak = 1;
  for (const { pixels } of frames) for (const value of pixels) peak = Math.max(peak, value);
  return peak;
}

/** The written numbers of frames that were asked for with their elements; one of several pixels has their mean. */
export function levelsOf(bitmap: BitmapInfo, frames: readonly PictureFrame[]): Leveled[] {
  const full = fullValue(bitmap, frames);
  const limit = bitmap.cap === undefined ? Number.POSITIVE_INFINITY : bitmap.cap / bitmap.drive;
  const found = new Map<number, { at: readonly number[]; light: number; pixels: number; most: number }>();
  for (const { pixels, elements = [] } of frames) {
    for (let i = 0; i < pixels.length; i++) {
      const at = elements.slice(i * 4, i * 4 + 4);
      const [line = -1, column = -1] = at;
      if (line < 0) continue;
      // Lines longer than this are not coloured apart; their numbers would share a key only beyond it.
      const key = line * 0x100000 + column;
      const value = pixels[i] ?? 0;
      const known = found.get(key);
      if (known) {
        known.light += value;
        known.pixels++;
        known.most = Math.max(known.most, value);
      } else found.set(key, { at, light: value, pixels: 1, most: value });
    }
  }
  return [...found.values()].map(({ at, light, pixels, most }) => {
    const [startLine = 0, startColumn = 0, endLine = 0, endColumn = 0] = at;
    const share = Math.min(1, light / pixels / full);
    const level = share > 0 ? Math.max(1, Math.round(linearToSrgb(share) * LEVELS)) : 0;
    return { startLine, startColumn, endLine, endColumn, level, overCap: most > limit };
  });
}
