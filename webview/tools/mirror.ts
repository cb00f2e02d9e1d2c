/** Symmetry about the middle of the frame: what is drawn on one side is drawn on the other too. */
import type { Point, Size } from "./shapes.ts";

/** Which sides are alike: left and right (columns), upper and lower (rows), or all four quarters. */
export type Symmetry = "off" | "columns" | "rows" | "both";

/** Pixels counted row by row. */
export type Indexes = readonly number[] | Uint32Array;

const flips = (symmetry: Symmetry) => ({
  columns: symmetry === "columns" || symmetry === "both",
  rows: symmetry === "rows" || symmetry === "both",
});

/** These pixels and their images. */
export function mirrored({ width, height }: Size, indexes: Indexes, symmetry: Symmetry): Indexes {
  const { columns, rows } = flips(symmetry);
  if (!columns && !rows) return indexes;
  const out = [...indexes];
  for (const index of indexes) {
    const [x, y] = [index % width, Math.floor(index / width)];
    const [otherX, otherY] = [width - 1 - x, height - 1 - y];
    if (columns) out.push(y * width + otherX);
    if (rows) out.push(otherY * width + x);
    if (columns && rows) out.push(otherY * width + otherX);
  }
  return out;
}

/**
 * Brings pixels to the side on which a stroke is: a picture of what comes back is alike on both sides. A stroke that
 * begins on the axis is on the side it goes to.
 */
export function folder(size: Size, from: Point, to: Point, symmetry: Symmetry): (at: Point) => Point {
  const { columns, rows } = flips(symmetry);
  const sideOf = (a: number, b: number, across: number) => Math.sign(2 * a - across) || Math.sign(2 * b - across);
  const across = size.width - 1;
  const down = size.height - 1;
  const sideX = columns ? sideOf(from.x, to.x, across) : 0;
  const sideY = rows ? sideOf(from.y, to.y, down) : 0;
  return ({ x, y }) => ({
    x: sideX * (2 * x - across) < 0 ? across - x : x,
    y: sideY * (2 * y - down) < 0 ? down - y : y,
  });
}
