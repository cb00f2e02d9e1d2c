/** A line in the grid where a glyph ends that is narrower than the picture; its pixels beyond are not advanced over. */
import type { Geometry } from "./geometry.ts";
import { pointAt } from "./lattice.ts";

/** Lays the element along the edge after column `width`; hides it where there is none. */
export function placeWidthEdge(edge: HTMLElement, g: Geometry, width: number | undefined): void {
  edge.hidden = width === undefined || width >= g.columns;
  if (width === undefined || edge.hidden) return;
  const from = pointAt(g.lattice, width, 0);
  const to = pointAt(g.lattice, width, g.rows);
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  Object.assign(edge.style, {
    left: `${from.x - g.left}px`,
    top: `${from.y - g.top}px`,
    width: `${Math.hypot(dx, dy)}px`,
    transform: `rotate(${Math.atan2(dy, dx)}rad)`,
  });
}
