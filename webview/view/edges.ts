/**
 * The rulers of a diamond lattice: the four of the straight grid, turned with it. Words run along the upper edges
 * where rows and columns begin, light along the edges where they end.
 */

import { pointAt, type Vector } from "../../shared/light/lattice.ts";
import type { Canvas } from "./cells.ts";
import { labelEvery } from "./geometry.ts";
import { drawMarker, MARKER } from "./marker.ts";
import { bar, columnRuler, type Ruler, type Rulers, rowRuler, SIZE } from "./rulers.ts";

/** Longest bar and the gap before it, in CSS pixels across the edge. */
const BAR = 20;
const GAP = 4;

/** All around the pixels; those are not touched. */
export function drawEdges(on: Canvas, rulers: Rulers): void {
  const { context, geometry: g, theme } = on;
  context.save();
  outside(on);
  context.fillStyle = theme.background;
  context.fillRect(0, 0, g.viewWidth, g.viewHeight);
  context.font = `${SIZE}px ${theme.font}`;
  context.textBaseline = "middle";
  edge(on, rowRuler(rulers), (i, across) => [across, i], g.columns);
  edge(on, columnRuler(rulers), (i, across) => [i, across], g.rows);
  context.restore();
}

/** Leaves the picture itself out of what is drawn next. */
function outside({ context, geometry: g, scroll }: Canvas): void {
  context.beginPath();
  context.rect(0, 0, g.viewWidth, g.viewHeight);
  const corners = [pointAt(g.lattice, 0, 0), pointAt(g.lattice, g.columns, 0)];
  corners.push(pointAt(g.lattice, g.columns, g.rows), pointAt(g.lattice, 0, g.rows));
  for (const [i, { x, y }] of corners.entries()) context[i === 0 ? "moveTo" : "lineTo"](x - scroll.x, y - scroll.y);
  context.closePath();
  context.clip("evenodd");
}

type Place = (along: number, across: number) => readonly [number, number];

/** `place` tells the column and row of a place along the ruler and across the picture, both in pixels. */
function edge(on: Canvas, ruler: Ruler, place: Place, depth: number): void {
  const { context, geometry: g, theme, scroll } = on;
  const point = (along: number, across: number): Vector => {
    const { x, y } = pointAt(g.lattice, ...place(along, across));
    return { x: x - scroll.x, y: y - scroll.y };
  };
  const strip = (from: number, to: number, near: number, far: number, colour: string) => {
    context.fillStyle = colour;
    context.beginPath();
    const corners = [point(from, near), point(to, near), point(to, far), point(from, far)];
    for (const [i, { x, y }] of corners.entries()) context[i === 0 ? "moveTo" : "lineTo"](x, y);
    context.closePath();
    context.fill();
    if (!theme.contrast || colour !== theme.highlight) return;
    context.strokeStyle = theme.border;
    context.lineWidth = 1;
    context.stroke();
  };
  const px = 1 / g.side;
  strip(ruler.here, ruler.here + 1, -2 * px, -22 * px, theme.highlight);
  strip(ruler.here, ruler.here + 1, depth + 2 * px, depth + (BAR + GAP) * px, theme.highlight);
  // Words one under the other, half a diagonal apart.
  const every = labelEvery(g.side * Math.SQRT1_2, SIZE + 1);
  const inset = g.side > 12 ? 0.25 : 0.1;
  for (let i = 0; i < ruler.count; i++) {
    const active = i === ruler.here;
    const room = Math.abs(i - ruler.here) * g.side * Math.SQRT1_2 >= SIZE + 1;
    const colour = active ? theme.activeNumber : theme.number;
    const length = bar(ruler.share(i), BAR) * px;
    if (length > 0) strip(i + inset, i + 1 - inset, depth + GAP * px, depth + GAP * px + length, colour);
    const at = point(i + 0.5, -(MARKER + 1) * px);
    const beyond = point(i + 0.5, -(2 * MARKER + 6) * px);
    const severity = ruler.mark(i);
    drawMarker(context, theme, severity, at.x, at.y);
    if (!active && (i % every !== 0 || !room)) continue;
    const from = severity ? beyond : at;
    context.fillStyle = colour;
    context.textAlign = beyond.x < at.x ? "right" : "left";
    context.fillText(ruler.word(i), from.x, from.y + 0.5);
  }
}
