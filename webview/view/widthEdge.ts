/** A line in the grid where a glyph ends that is narrower than the picture; its pixels beyond are not advanced over. */

import { pointAt } from "../../shared/light/lattice.ts";
import type { Geometry } from "./geometry.ts";
import { layLine } from "./layLine.ts";

/** Lays the element along the edge after column `width`; hides it where there is none. */
export function placeWidthEdge(edge: HTMLElement, g: Geometry, width: number | undefined): void {
  edge.hidden = width === undefined || width >= g.columns;
  if (width === undefined || edge.hidden) return;
  layLine(edge, g, pointAt(g.lattice, width, 0), pointAt(g.lattice, width, g.rows));
}
