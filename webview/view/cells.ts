/** Draws the cells of a picture on a canvas; what a cell means is shown by shape as well as by colour. */
import type { Geometry } from "./geometry.ts";
import type { Theme } from "./theme.ts";

export interface Cells {
  readonly pixels: Uint32Array;
  readonly most: number;
  /** Highest value within the cap, if there is one. */
  readonly limit: number | undefined;
  readonly unwritten: ReadonlySet<number>;
  readonly tint: string | undefined;
  readonly round: boolean;
}

const OVER = 2 ** 30;
const UNWRITTEN = 2 ** 29;

/** Draws the cells that differ from what this canvas shows; returns how many it drew. */
export function cellPainter(): (
  context: CanvasRenderingContext2D,
  g: Geometry,
  theme: Theme,
  cells: Cells,
  all: boolean,
) => number {
  let shown = new Int32Array(0);
  return (context, g, theme, cells, all) => {
    const count = g.columns * g.rows;
    if (all || shown.length !== count) shown = new Int32Array(count).fill(-1);
    let drawn = 0;
    for (let i = 0; i < count; i++) {
      const value = cells.pixels[i] ?? 0;
      const over = cells.limit !== undefined && value > cells.limit;
      const key = value + (over ? OVER : 0) + (cells.unwritten.has(i) ? UNWRITTEN : 0);
      if (shown[i] === key) continue;
      shown[i] = key;
      drawCell(context, g, theme, cells, i, value, over);
      drawn++;
    }
    return drawn;
  };
}

function drawCell(
  context: CanvasRenderingContext2D,
  g: Geometry,
  theme: Theme,
  { most, limit, unwritten, tint, round }: Cells,
  index: number,
  value: number,
  over: boolean,
): void {
  const gap = g.cell >= 6 ? 1 : 0;
  const x = g.left + (index % g.columns) * g.cell;
  const y = g.top + Math.floor(index / g.columns) * g.cell;
  const size = g.cell - gap;
  const colour = theme.glow(Math.min(1, value / Math.max(1, limit ?? most)), tint);
  context.fillStyle = theme.background;
  context.fillRect(x, y, g.cell, g.cell);
  // What is over the cap fills its square, so that the missing corner is seen.
  const dot = round && size >= 9 && !over;
  context.fillStyle = value > 0 && !dot ? colour : theme.face;
  context.fillRect(x, y, size, size);
  if (value > 0 && dot) {
    context.fillStyle = colour;
    context.beginPath();
    context.arc(x + size / 2, y + size / 2, size / 2 - (size > 14 ? 1 : 0), 0, 2 * Math.PI);
    context.fill();
  }
  if (theme.contrast && size >= 4) {
    context.strokeStyle = theme.border;
    context.lineWidth = 1;
    context.strokeRect(x + 0.5, y + 0.5, size - 1, size - 1);
  }
  if (unwritten.has(index)) hatch(context, x, y, size, theme);
  if (over) notch(context, x, y, size, theme);
}

/** Not written in the source: diagonal strokes. */
function hatch(context: CanvasRenderingContext2D, x: number, y: number, size: number, theme: Theme): void {
  context.strokeStyle = theme.number;
  context.lineWidth = 1;
  context.beginPath();
  const step = size >= 12 ? size / 3 : size / 2;
  for (let at = step; at < 2 * size - 1; at += step) {
    context.moveTo(x + Math.max(0, at - size), y + Math.min(at, size));
    context.lineTo(x + Math.min(at, size), y + Math.max(0, at - size));
  }
  context.stroke();
}

/** Over the cap: the upper right corner is cut off. */
function notch(context: CanvasRenderingContext2D, x: number, y: number, size: number, theme: Theme): void {
  const leg = Math.max(3, size * 0.5);
  context.beginPath();
  context.moveTo(x + size - leg, y);
  context.lineTo(x + size, y);
  context.lineTo(x + size, y + leg);
  context.closePath();
  context.fillStyle = theme.contrast ? theme.background : theme.face;
  context.fill();
  context.strokeStyle = theme.contrast ? theme.foreground : theme.warning;
  context.lineWidth = size >= 10 ? 2 : 1;
  context.beginPath();
  context.moveTo(x + size - leg, y);
  context.lineTo(x + size, y + leg);
  context.stroke();
}
