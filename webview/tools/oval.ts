/**
 * The ellipse in the rectangle between two pixels, both of which it reaches; exact in whole numbers.
 *
 * The ideal ellipse runs through the middles of the outermost pixels. A pixel belongs to the oval where the midpoint
 * between it and its neighbour towards the axis, along its row or its column, is not outside the ideal ellipse: the
 * decision of the midpoint method (J. Van Aken, IEEE Computer Graphics and Applications 4(9), 1984; from memory), asked
 * in both directions everywhere, so that width and height can change places.
 */
import type { Point, Size } from "./shapes.ts";

/** The pixels of the oval, as indexes counted row by row; its edge alone, or all of it. */
export function oval(size: Size, from: Point, to: Point, filled: boolean): number[] {
  const [left, right] = [Math.min(from.x, to.x), Math.max(from.x, to.x)];
  const [top, bottom] = [Math.min(from.y, to.y), Math.max(from.y, to.y)];
  const across = right - left;
  const reach = reaches(across, bottom - top);
  const out: number[] = [];
  const run = (y: number, first: number, last: number) => {
    if (y < 0 || y >= size.height) return;
    for (let x = Math.max(0, first); x <= Math.min(size.width - 1, last); x++) out.push(y * size.width + x);
  };
  for (let y = top; y <= bottom; y++) {
    const row = y - top;
    const begin = (across - (reach[row] ?? 0)) / 2;
    // What sticks out from the next row farther out is edge; of the outermost row, all.
    const outer = reach[2 * row < bottom - top ? row - 1 : row + 1];
    const shoulder = outer === undefined ? across : Math.max(begin, (across - outer) / 2 - 1);
    if (filled || 2 * shoulder >= across - 1) {
      run(y, left + begin, right - begin);
      continue;
    }
    run(y, left + begin, left + shoulder);
    run(y, right - shoulder, right - begin);
  }
  return out;
}

/**
 * How far each row reaches to either side of the middle, in half pixels. `across` and `down` are the distances between
 * the outermost pixels, so that in half pixels they are the semi-axes too.
 */
function reaches(across: number, down: number): Int32Array {
  const reach = new Int32Array(down + 1);
  const outside = (x: number, y: number) =>
    x * x * down * down + y * y * across * across > across * across * down * down;
  const inner = (at: number) => Math.max(0, at - 1);
  let x = across % 2;
  for (let row = 0; 2 * row <= down; row++) {
    const y = down - 2 * row;
    // Rows nearer to the middle reach at least as far.
    while (x + 2 <= across && (!outside(inner(x + 2), y) || !outside(x + 2, inner(y)))) x += 2;
    reach[row] = x;
    reach[down - row] = x;
  }
  return reach;
}
