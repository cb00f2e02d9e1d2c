/** Pixels that float over the picture until they are put down: moved, copied or pasted ones; pure. */
import type { Point, Size } from "../tools/shapes.ts";
import type { Marks } from "../tools/tools.ts";
import { litOutside, type Piece, put } from "./piece.ts";
import { ofIndexes, type Selection } from "./selection.ts";

export interface Float {
  readonly piece: Piece;
  /** Where its top left corner is; it may stand out of the picture. */
  readonly at: Point;
  readonly frame: number;
  /** What of the picture it was taken from and leaves dark; missing for a copy. */
  readonly from?: Selection;
  /** What was selected before. */
  readonly before?: Selection | undefined;
  /** It came from the clipboard. */
  readonly pasted?: true;
}

/** Shows it on a picture; what lies under it is only covered. */
export function lay({ piece, at, from }: Float, pixels: Uint32Array, size: Size): void {
  if (from) for (let i = 0; i < pixels.length; i++) if (from.mask[i] === 1) pixels[i] = 0;
  put(piece, at, size, (index, value) => {
    pixels[index] = value;
  });
}

/** What putting it down changes. */
export function marksOf({ piece, at, from }: Float, size: Size): Marks {
  const marks = new Map<number, number>();
  from?.mask.forEach((selected, index) => {
    if (selected === 1) marks.set(index, 0);
  });
  put(piece, at, size, (index, value) => marks.set(index, value));
  return marks;
}

/** The pixels that it covers. */
export function covered({ piece, at }: Pick<Float, "piece" | "at">, size: Size): Selection | undefined {
  const indexes: number[] = [];
  put(piece, at, size, (index) => indexes.push(index));
  return ofIndexes(size, indexes);
}

/** Whether a pixel is inside its rectangle. */
export function holds({ piece, at }: Float, { x, y }: Point): boolean {
  return x >= at.x && y >= at.y && x < at.x + piece.width && y < at.y + piece.height;
}

/** How many pixels other than 0 would be lost by putting it down here. */
export function lost({ piece, at }: Float, size: Size): number {
  return litOutside(piece, at, size);
}
