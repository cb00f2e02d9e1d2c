import { expect, test } from "vitest";
import { oval } from "../../../webview/tools/oval.ts";

const drawn = (width: number, height: number, filled: boolean) => {
  const size = { width, height };
  const pixels = new Set(oval(size, { x: 0, y: 0 }, { x: width - 1, y: height - 1 }, filled));
  return Array.from({ length: height }, (_, y) =>
    Array.from({ length: width }, (_, x) => (pixels.has(y * width + x) ? "#" : ".")).join(""),
  );
};

test.each([
  [1, 1, ["#"]],
  [2, 2, ["##", "##"]],
  [3, 3, [".#.", "#.#", ".#."]],
  [4, 4, [".##.", "#..#", "#..#", ".##."]],
  [5, 5, [".###.", "#...#", "#...#", "#...#", ".###."]],
  [6, 6, [".####.", "#....#", "#....#", "#....#", "#....#", ".####."]],
  // The circle of radius 4 that J. Bresenham's method gives (Communications of the ACM 20(2), 1977; from memory).
  [
    9,
    9,
    [
      "...###...",
      ".##...##.",
      ".#.....#.",
      "#.......#",
      "#.......#",
      "#.......#",
      ".#.....#.",
      ".##...##.",
      "...###...",
    ],
  ],
  [8, 3, [".######.", "#......#", ".######."]],
  [7, 1, ["#######"]],
])("the edge of an oval of %i×%i", (width, height, expected) => {
  expect(drawn(width, height, false)).toEqual(expected);
});

test("all of an oval is its edge and what is inside", () => {
  expect(drawn(6, 4, true)).toEqual([".####.", "######", "######", ".####."]);
  expect(drawn(5, 7, true)).toEqual([".###.", ".###.", "#####", "#####", "#####", ".###.", ".###."]);
});

test("any two corners give the same oval, and what lies outside the picture is left out", () => {
  const size = { width: 6, height: 5 };
  const one = oval(size, { x: 1, y: 0 }, { x: 5, y: 4 }, false);
  expect(new Set(oval(size, { x: 5, y: 0 }, { x: 1, y: 4 }, false))).toEqual(new Set(one));
  expect(new Set(oval(size, { x: 1, y: 4 }, { x: 5, y: 0 }, false))).toEqual(new Set(one));
  // The lower right quarter of 5×5 around the first pixel.
  expect(oval(size, { x: -2, y: -2 }, { x: 2, y: 2 }, false)).toEqual([2, 8, 12, 13]);
});
