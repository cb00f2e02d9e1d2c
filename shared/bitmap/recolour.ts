/** Another colour for an index: an edit of the palette's array. */
import { setPixel } from "../pixels/picture.ts";
import type { Rewrite } from "../source/rewrite.ts";
import { rewriteElements } from "../source/rewrite.ts";
import { elementsOfArray } from "./elements.ts";
import type { Bitmap } from "./resolve.ts";

export interface ColourChange {
  readonly index: number;
  /** A raw value of the palette's own format. */
  readonly value: number;
  /** The raw value that the painter saw. */
  readonly before?: number;
}

/**
 * Text edits that give an index of the bitmap's palette another colour: only the literals of that colour. Refused
 * where the bitmap has no palette, its array can't be written, it has no such index, the value is not one of the
 * palette's format, or the colour is no longer the one that the painter saw.
 */
export function recolour(text: string, { array: of, palette }: Bitmap, change: ColourChange): Rewrite {
  if (!palette) return { refused: `${of.name} has no palette in this file` };
  const { array, format, layout, values, name } = palette;
  const { index, value, before } = change;
  if (!Number.isInteger(index) || index < 0 || index >= values.length)
    return { refused: `${name} has no colour ${index}` };
  if (!Number.isInteger(value) || value < 0 || value > format.most)
    return { refused: `${value} is not a value of ${format.name}` };
  if (before !== undefined && values[index] !== before)
    return { refused: `colour ${index} of ${name} was changed meanwhile` };
  const bits = elementsOfArray(array);
  if (!bits) return { refused: `the values of ${name} are not known` };
  const elements = new Map<number, bigint>();
  const read = (element: number) => elements.get(element) ?? BigInt(bits[element] ?? 0);
  setPixel(layout, 0, index, value, false, read, (element, changed) => elements.set(element, changed));
  const wanted = [...elements].map(([slot, changed]) => ({ slot, bits: changed }));
  return rewriteElements(text, array, wanted);
}
