import { expect, test } from "vitest";
import { displayed, stepOf, turnOf } from "../../../webview/look.ts";
import { geometryOf, labelEvery, under, zoomFrom } from "../../../webview/view/geometry.ts";

const room = (width: number, ratio = 1) => ({ width, height: 600, left: 35, ladder: 128, ratio, bar: 10 });
const upright = { turn: 0 };
const still = { x: 0, y: 0 };

test.each([
  [252, 9, 9, 1],
  [412, 9, 9, 1],
  [412, 9, 9, 1.5],
  [800, 9, 9, 2],
  [632, 128, 32, 1],
  [292, 128, 64, 2],
  [252, 16, 64, 1.25],
])(
  "in %i pixels a picture of %i×%i has sides of whole device pixels and fits (ratio %f)",
  (width, columns, rows, ratio) => {
    for (let turn = 0; turn < 8; turn++) {
      const g = geometryOf(columns, rows, room(width, ratio), { turn });
      const step = Math.max(Math.abs(g.lattice.along.x), Math.abs(g.lattice.along.y));
      expect(step * ratio).toBeCloseTo(Math.round(step * ratio), 9);
      expect([g.side >= 1.5 - 1e-9, g.side <= 40 + 1e-9]).toEqual([true, true]);
      expect(g.viewWidth + (g.beside ? 128 : 0)).toBeLessThanOrEqual(width);
      if (turn === 0) expect(g.width).toBe(g.viewWidth);
    }
  },
);

test("the ladder stands beside the grid where that leaves sides that are comfortable to hit", () => {
  expect(geometryOf(9, 9, room(412), upright).beside).toBe(true);
  expect(geometryOf(9, 9, room(252), upright).beside).toBe(false);
  expect(geometryOf(128, 32, room(632), upright).beside).toBe(false);
});

test("a picture too wide for the page keeps sides of 2 pixels, and only it scrolls", () => {
  const g = geometryOf(128, 64, room(252), upright);
  expect([g.side, g.width, g.viewWidth, g.viewHeight]).toEqual([2, 256 + 35 + 26, 252, 128 + 16 + 26]);
  const large = geometryOf(320, 240, room(692), { turn: 0, zoom: 12 });
  expect([large.side, large.viewWidth < large.width, large.viewHeight]).toEqual([12, true, 600 + 16 + 26 - 10]);
  expect(large.viewWidth).toBe(692 - 10);
});

test("zooming goes through set sides and stays at the ends", () => {
  expect([zoomFrom(17, 1), zoomFrom(17, -1), zoomFrom(2, -1), zoomFrom(56, 1)]).toEqual([20, 16, 2, 56]);
});

test("a point is on a pixel, on the ruler of rows, on that of columns or in a corner", () => {
  const g = geometryOf(9, 9, room(252), upright);
  const at = (x: number, y: number) => under(g, { x, y }, still);
  const { side, left, top } = g;
  expect(at(left + 2.5 * side, top + 3.5 * side)).toEqual({ x: 2, y: 3 });
  expect([at(5, top + 3.5 * side), at(g.width - 5, top + 0.5 * side)]).toEqual([{ y: 3 }, { y: 0 }]);
  expect([at(left + 8.5 * side, 5), at(left + 1, g.height - 5)]).toEqual([{ x: 8 }, { x: 0 }]);
  expect(at(5, 5)).toEqual({});
  const scrolled = geometryOf(128, 64, room(252), upright);
  expect(under(scrolled, { x: 35, y: 16 }, { x: 20, y: 0 })).toEqual({ x: 10, y: 0 });
  expect(under(scrolled, { x: 5, y: 16 }, { x: 20, y: 0 })).toEqual({ y: 0 });
  const sideways = geometryOf(6, 4, room(252), { turn: 2 });
  expect(under(sideways, { x: 5, y: sideways.top + 1 }, still)).toEqual({ x: 0 });
  expect(under(sideways, { x: sideways.left + 1, y: 3 }, still)).toEqual({ y: 3 });
});

test("lattice and mounting turn the picture as lit, not as cells", () => {
  const turns = ([undefined, 90, 180, 270] as const).flatMap((mount) =>
    ["square", "diamond"].map((lattice) => turnOf(mount ? { lattice, mount } : { lattice }, "lit")),
  );
  expect(turns).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
  expect(turnOf({ lattice: "diamond", mount: 90 }, "cells")).toBe(0);
});

test("a step on the screen is the step that brings the pixel seen there, in every mounting", () => {
  const size = { width: 6, height: 4 };
  for (const turn of [0, 2, 4, 6]) {
    const at = { x: 2, y: 1 };
    const here = displayed(at, size, turn);
    for (const [x, y] of [
      [1, 0],
      [0, 1],
      [-1, 0],
      [0, -1],
    ] as const) {
      const step = stepOf({ x, y }, turn);
      const there = displayed({ x: at.x + step.x, y: at.y + step.y }, size, turn);
      expect([there.column - here.column, there.row - here.row]).toEqual([x, y]);
    }
  }
});

test("labels have the room they need and go in round steps", () => {
  expect([labelEvery(24, 12), labelEvery(4, 26), labelEvery(1, 26), labelEvery(10, 101)]).toEqual([1, 8, 40, 20]);
});
