import { expect, test } from "vitest";
import { geometryOf, labelEvery } from "../../../webview/view/geometry.ts";

const room = (width: number) => ({ width, height: 600, left: 35, ladder: 124 });

test.each([
  [252, 9, 9],
  [412, 9, 9],
  [800, 9, 9],
  [632, 128, 32],
  [252, 16, 64],
])("in %i pixels a picture of %i×%i has whole cells and fits", (width, columns, rows) => {
  const g = geometryOf(columns, rows, room(width));
  expect(g.width + (g.beside ? 124 : 0)).toBeLessThanOrEqual(width);
  expect(g.width).toBe(g.left + g.right + columns * g.cell);
  expect(Number.isInteger(g.cell) && g.cell >= 4 && g.cell <= 40).toBe(true);
});

test("the ladder stands beside the grid where that leaves cells that are comfortable to hit", () => {
  expect(geometryOf(9, 9, room(412)).beside).toBe(true);
  expect(geometryOf(9, 9, room(252)).beside).toBe(false);
  expect(geometryOf(128, 32, room(632)).beside).toBe(false);
});

test("a picture too wide for the page keeps cells of 4 pixels and is scrolled", () => {
  expect(geometryOf(128, 64, room(252)).cell).toBe(4);
});

test("labels have the room they need and go in round steps", () => {
  expect([labelEvery(24, 12), labelEvery(4, 26), labelEvery(1, 26), labelEvery(10, 101)]).toEqual([1, 8, 40, 20]);
});
