import { expect, test } from "vitest";
import { box, fill, line } from "../../../webview/tools/shapes.ts";

const size = { width: 8, height: 5 };

/** A picture of the pixels, row by row. */
const drawn = (indexes: readonly number[]) =>
  Array.from({ length: size.height }, (_, y) =>
    Array.from({ length: size.width }, (_, x) => (indexes.includes(y * size.width + x) ? "#" : ".")).join(""),
  );

test("a flat slope steps as in Bresenham's paper: the nearest pixel of every column", () => {
  expect(drawn(line(size, { x: 0, y: 0 }, { x: 7, y: 3 }))).toEqual([
    "##......",
    "..##....",
    "....##..",
    "......##",
    "........",
  ]);
});

test("every line holds its ends, has one pixel for each step of its longer side, and never strays by more than half", () => {
  for (let i = 0; i < 40 * 40; i++) {
    const [a, b] = [i % 40, Math.floor(i / 40)];
    const [from, to] = [
      { x: a % 8, y: Math.floor(a / 8) },
      { x: b % 8, y: Math.floor(b / 8) },
    ];
    const pixels = line(size, from, to);
    const [dx, dy] = [to.x - from.x, to.y - from.y];
    const long = Math.max(Math.abs(dx), Math.abs(dy));
    expect(pixels).toHaveLength(long + 1);
    expect([pixels[0], pixels[long]]).toEqual([a, b]);
    for (const p of pixels) {
      const [x, y] = [(p % 8) - from.x, Math.floor(p / 8) - from.y];
      // Distance from the ideal line along the shorter side.
      expect(Math.abs(x * dy - y * dx)).toBeLessThanOrEqual(long / 2);
    }
  }
});

test("a line that leaves the picture goes on at its edge", () => {
  expect(line(size, { x: -2, y: 1 }, { x: 2, y: 1 })).toEqual([8, 9, 10]);
  expect(line(size, { x: 20, y: 9 }, { x: 22, y: 9 })).toEqual([]);
});

test("a box is its edge, from any two corners, and may be a line or a dot", () => {
  const expected = ["........", ".####...", ".#..#...", ".####...", "........"];
  expect(drawn(box(size, { x: 1, y: 1 }, { x: 4, y: 3 }))).toEqual(expected);
  expect(drawn(box(size, { x: 4, y: 3 }, { x: 1, y: 1 }))).toEqual(expected);
  expect(
    drawn(box(size, { x: 2, y: 1 }, { x: 2, y: 3 }))
      .join("")
      .replaceAll(".", ""),
  ).toBe("###");
  expect(new Set(box(size, { x: 3, y: 2 }, { x: 3, y: 2 }))).toEqual(new Set([19]));
});

test("fill goes round corners by edges only, and stops at other values and at the ends of rows", () => {
  const picture = [
    1, 1, 0, 0, 0, 0, 0, 1, 1, 0, 1, 0, 0, 0, 0, 1, 1, 1, 1, 0, 0, 0, 0, 1, 0, 0, 0, 1, 1, 1, 1, 0, 0, 0, 0, 0, 0, 0, 0,
    0,
  ];
  expect(drawn(fill(picture, size, { x: 1, y: 1 }))).toEqual([
    "........",
    ".#......",
    "........",
    "........",
    "........",
  ]);
  expect(drawn(fill(picture, size, { x: 2, y: 0 }))).toEqual([
    "..#####.",
    "...####.",
    "...####.",
    "........",
    "........",
  ]);
  expect(drawn(fill(picture, size, { x: 7, y: 0 }))).toEqual([
    ".......#",
    ".......#",
    ".......#",
    "........",
    "........",
  ]);
  expect(fill(picture, size, { x: 0, y: 4 })).toHaveLength(12);
  expect(fill(picture, size, { x: 9, y: 0 })).toEqual([]);
});
