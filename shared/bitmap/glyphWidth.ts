/** The width of a glyph, changed in the array that `widths=` names. */
import type { Rewrite } from "../source/rewrite.ts";
import { rewriteElements } from "../source/rewrite.ts";
import type { Bitmap, BitmapFile } from "./resolve.ts";

/**
 * Edits that give the glyph of a frame a width in columns. Refused where the set has no array of widths, the glyphs are
 * not so wide, or the array can't be written.
 */
export function editWidth(file: BitmapFile, bitmap: Bitmap, frame: number, width: number): Rewrite {
  const { array, widths, options } = bitmap;
  const held = file.source.arrays.find((a) => a.name === options.widths);
  if (!widths || !held) return { refused: `${array.name} has no array of widths` };
  if (!Number.isInteger(frame) || frame < 0 || frame >= bitmap.frames)
    return { refused: `${array.name} has no frame ${frame}` };
  if (!Number.isInteger(width) || width < 0 || width > bitmap.width)
    return { refused: `${width} is no width of a glyph of ${array.name}, which is ${bitmap.width} columns wide` };
  return rewriteElements(file.source.text, held, [{ slot: frame, bits: BigInt(width) }]);
}
