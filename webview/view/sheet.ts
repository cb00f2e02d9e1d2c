/** Places the elements of the grid by its geometry, and keeps what is looked at in place while it grows. */

import { isDiamond, pointAt, stepsOf } from "../../shared/light/lattice.ts";
import type { Point } from "../tools/shapes.ts";
import type { Geometry } from "./geometry.ts";

/** Sizes the pane, the sheet that scrolls in it and the layer that takes the pointer. */
export function placeGrid(pane: HTMLElement, sheet: HTMLElement, grid: HTMLElement, g: Geometry): void {
  const bar = { x: g.height > g.viewHeight, y: g.width > g.viewWidth };
  Object.assign(pane.style, {
    width: bar.x ? "" : px(g.viewWidth),
    height: bar.y ? "" : px(g.viewHeight),
    maxWidth: bar.x ? `calc(${px(g.viewWidth)} + var(--bar))` : px(g.viewWidth),
    maxHeight: bar.y ? `calc(${px(g.viewHeight)} + var(--bar))` : px(g.viewHeight),
    overflowX: bar.y ? "auto" : "hidden",
    overflowY: bar.x ? "auto" : "hidden",
    scrollPadding: isDiamond(g.turn) ? "0" : [g.top, g.right, g.bottom, g.left].map(px).join(" "),
  });
  Object.assign(sheet.style, { width: px(g.width), height: px(g.height) });
  const { across, down } = stepsOf(g.columns, g.rows, g.turn);
  const step = isDiamond(g.turn) ? g.side * Math.SQRT1_2 : g.side;
  const size = { width: px(across * step), height: px(down * step) };
  Object.assign(grid.style, { left: px(g.left), top: px(g.top), ...size });
}

export function placeCursor(cursor: HTMLElement, g: Geometry, { x, y }: Point): void {
  const middle = pointAt(g.lattice, x + 0.5, y + 0.5);
  Object.assign(cursor.style, {
    left: px(middle.x - g.left - g.side / 2),
    top: px(middle.y - g.top - g.side / 2),
    width: px(g.side),
    height: px(g.side),
    transform: isDiamond(g.turn) ? "rotate(45deg)" : "",
  });
}

/** Scrolls so that a pixel stays where it was in view, or comes to the middle if it was not in view. */
export function keepInPlace(pane: HTMLElement, before: Geometry, now: Geometry, { x, y }: Point): void {
  const was = pointAt(before.lattice, x + 0.5, y + 0.5);
  const is = pointAt(now.lattice, x + 0.5, y + 0.5);
  const at = (from: number, view: number, middle: number) => (from >= 0 && from <= view ? from : middle);
  pane.scrollLeft = is.x - at(was.x - pane.scrollLeft, now.viewWidth, now.viewWidth / 2);
  pane.scrollTop = is.y - at(was.y - pane.scrollTop, now.viewHeight, now.viewHeight / 2);
}

function px(value: number): string {
  return `${value}px`;
}
