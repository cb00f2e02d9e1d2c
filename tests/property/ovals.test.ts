/** Ovals of all sizes: symmetric, connected, closed, as near to the ideal ellipse as pixels can be. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { oval } from "../../webview/tools/oval.ts";

type Cell = readonly [x: number, y: number];

const side = fc.integer({ min: 1, max: 90 });
const cellsOf = (width: number, height: number, filled: boolean): Cell[] =>
  oval({ width, height }, { x: 0, y: 0 }, { x: width - 1, y: height - 1 }, filled).map((i) => [
    i % width,
    Math.floor(i / width),
  ]);
const key = ([x, y]: Cell) => `${x},${y}`;
const keys = (cells: readonly Cell[]) => new Set(cells.map(key));

/** How many cells hang together with the first, by edges or also by corners. */
function reachedFrom(cells: readonly Cell[], corners: boolean): number {
  const left = keys(cells);
  const queue = cells.slice(0, 1);
  left.delete(key(cells[0] as Cell));
  for (let next = 0; next < queue.length; next++) {
    const [x, y] = queue[next] as Cell;
    for (let dx = -1; dx <= 1; dx++) {
      for (let dy = -1; dy <= 1; dy++) {
        const near: Cell = [x + dx, y + dy];
        if ((!corners && dx !== 0 && dy !== 0) || !left.delete(key(near))) continue;
        queue.push(near);
      }
    }
  }
  return queue.length;
}

/** Distance of a point to the ellipse with these semi-axes around the origin, by many points of it. */
function distance(a: number, b: number, x: number, y: number): number {
  if (a === 0 || b === 0) return Math.hypot(Math.max(0, x - a), Math.max(0, y - b));
  let best = Number.POSITIVE_INFINITY;
  for (let i = 0; i <= 2000; i++) {
    const angle = (i / 2000) * (Math.PI / 2);
    best = Math.min(best, Math.hypot(a * Math.cos(angle) - x, b * Math.sin(angle) - y));
  }
  return best;
}

test("an oval is alike left and right, up and down, and turned where its sides change places; each pixel is given once", () => {
  fc.assert(
    fc.property(side, side, fc.boolean(), (width, height, filled) => {
      const cells = cellsOf(width, height, filled);
      const all = keys(cells);
      expect(all.size).toBe(cells.length);
      expect(keys(cells.map(([x, y]) => [width - 1 - x, y]))).toEqual(all);
      expect(keys(cells.map(([x, y]) => [x, height - 1 - y]))).toEqual(all);
      expect(keys(cellsOf(height, width, filled).map(([x, y]) => [y, x]))).toEqual(all);
    }),
  );
});

test("it touches all four sides, and hangs together", () => {
  fc.assert(
    fc.property(side, side, fc.boolean(), (width, height, filled) => {
      const cells = cellsOf(width, height, filled);
      const [xs, ys] = [cells.map(([x]) => x), cells.map(([, y]) => y)];
      expect([Math.min(...xs), Math.max(...xs)]).toEqual([0, width - 1]);
      expect([Math.min(...ys), Math.max(...ys)]).toEqual([0, height - 1]);
      expect(reachedFrom(cells, !filled)).toBe(cells.length);
    }),
  );
});

test("the edge is no farther than half a pixel from the ideal ellipse through the outermost pixels", () => {
  fc.assert(
    fc.property(side, side, (width, height) => {
      const [a, b] = [(width - 1) / 2, (height - 1) / 2];
      // A little for the points of the ellipse that are not looked at.
      for (const [x, y] of cellsOf(width, height, false))
        expect(distance(a, b, Math.abs(x - a), Math.abs(y - b))).toBeLessThanOrEqual(0.5 + 0.002);
    }),
    { numRuns: 40 },
  );
});

test("the edge is what of all the oval has a neighbour outside, so nothing leaks through it", () => {
  fc.assert(
    fc.property(side, side, (width, height) => {
      const all = cellsOf(width, height, true);
      const inside = keys(all);
      const edge = all.filter(([x, y]) =>
        [
          [x - 1, y],
          [x + 1, y],
          [x, y - 1],
          [x, y + 1],
        ].some(([nx = 0, ny = 0]) => !inside.has(key([nx, ny]))),
      );
      expect(keys(cellsOf(width, height, false))).toEqual(keys(edge));
    }),
  );
});
