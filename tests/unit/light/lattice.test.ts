import fc from "fast-check";
import { expect, test } from "vitest";
import { isInside, latticeOf, pixelAt, pointAt, stepsOf } from "../../../shared/light/lattice.ts";

const anyLattice = fc.record({
  columns: fc.integer({ min: 1, max: 40 }),
  rows: fc.integer({ min: 1, max: 40 }),
  step: fc.integer({ min: 1, max: 40 }).map((n) => n / 2),
  turn: fc.integer({ min: 0, max: 7 }),
  x: fc.integer({ min: -50, max: 50 }),
  y: fc.integer({ min: -50, max: 50 }),
});

test("in every turn each pixel is hit everywhere in it, and only there", () => {
  fc.assert(
    fc.property(
      anyLattice,
      fc.double({ min: 0.01, max: 0.99, noNaN: true }),
      fc.double({ min: 0.01, max: 0.99, noNaN: true }),
      ({ columns, rows, step, turn, x, y }, dx, dy) => {
        const lattice = latticeOf(columns, rows, step, turn, { x, y });
        for (let row = 0; row < rows; row++) {
          for (let column = 0; column < columns; column++) {
            const at = pixelAt(lattice, pointAt(lattice, column + dx, row + dy));
            if (at.x !== column || at.y !== row) return false;
          }
        }
        return true;
      },
    ),
  );
});

test("a lattice begins at its place, is as large as its steps say, and nothing outside it is inside", () => {
  fc.assert(
    fc.property(anyLattice, ({ columns, rows, step, turn, x, y }) => {
      const lattice = latticeOf(columns, rows, step, turn, { x, y });
      const corners = [
        [0, 0],
        [columns, 0],
        [0, rows],
        [columns, rows],
      ].map(([cx = 0, cy = 0]) => pointAt(lattice, cx, cy));
      const { across, down } = stepsOf(columns, rows, turn);
      const [xs, ys] = [corners.map((c) => c.x), corners.map((c) => c.y)];
      expect([Math.min(...xs), Math.min(...ys)]).toEqual([x, y]);
      expect([Math.max(...xs), Math.max(...ys)]).toEqual([x + across * step, y + down * step]);
      expect(isInside(lattice, pixelAt(lattice, { x: x - 1, y: y - 1 }))).toBe(false);
      expect(isInside(lattice, pixelAt(lattice, { x: x + across * step + 1, y: y + down * step + 1 }))).toBe(false);
    }),
  );
});

test("a diamond of 3×2: the first pixel on top, columns down to the right, rows down to the left", () => {
  const lattice = latticeOf(3, 2, 10, 1, { x: 0, y: 0 });
  const middle = (x: number, y: number) => pointAt(lattice, x + 0.5, y + 0.5);
  expect([middle(0, 0), middle(2, 0), middle(0, 1)]).toEqual([
    { x: 20, y: 10 },
    { x: 40, y: 30 },
    { x: 10, y: 20 },
  ]);
});

test.each([
  [0, { x: 5, y: 5 }],
  [2, { x: 35, y: 5 }],
  [4, { x: 55, y: 35 }],
  [6, { x: 5, y: 55 }],
])("6×4 turned clockwise by %i eighths has its first pixel at %o", (turn, expected) => {
  expect(pointAt(latticeOf(6, 4, 10, turn, { x: 0, y: 0 }), 0.5, 0.5)).toEqual(expected);
});
