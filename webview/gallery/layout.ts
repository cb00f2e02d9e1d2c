/** Where the rows of a long list stand, so that only those in view need to be there; pure. Lengths are CSS pixels. */
import type { Row } from "./model.ts";

export const HEADING = 26;
export const BITMAP = 58;

export interface Layout {
  /** The upper edge of each row, and behind the last the height of all. */
  readonly tops: Float64Array;
}

export function layOut(rows: readonly Row[]): Layout {
  const tops = new Float64Array(rows.length + 1);
  rows.forEach((row, i) => {
    tops[i + 1] = (tops[i] as number) + (row.kind === "heading" ? HEADING : BITMAP);
  });
  return { tops };
}

/** The rows from the first to behind the last that lie between two heights, with some more on either side. */
export function between({ tops }: Layout, from: number, to: number, more: number): readonly [number, number] {
  const rows = tops.length - 1;
  return [Math.max(0, rowAt(tops, from) - more), Math.min(rows, rowAt(tops, to) + 1 + more)];
}

/** The row that holds a height: the last one whose upper edge is not below it. */
function rowAt(tops: Float64Array, height: number): number {
  let [low, high] = [0, Math.max(0, tops.length - 2)];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((tops[middle] as number) <= height) low = middle;
    else high = middle - 1;
  }
  return low;
}
