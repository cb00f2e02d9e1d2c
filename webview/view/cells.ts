/**
 * Draws the pixels of a picture on a canvas, as lamps of the display or as cells; what a pixel means is shown by shape
 * as well as by colour. Only what differs from what the canvas shows is drawn.
 */

import { isDiamond, pointAt, type Vector } from "../../shared/light/lattice.ts";
import { drawFace, SMALL } from "./face.ts";
import type { Geometry } from "./geometry.ts";
import type { Lamps } from "./lamps.ts";
import { smallCells } from "./smallCells.ts";
import type { Theme } from "./theme.ts";

export interface Cells {
  readonly pixels: Uint32Array;
  readonly lamps: Lamps;
  /** 1 for each pixel that is not written. */
  readonly unwritten: Uint8Array;
  /** The shape of a lamp; undefined where pixels are shown as cells. */
  readonly dots: "round" | "square" | undefined;
}

const OVER = 2 ** 30;
const UNWRITTEN = 2 ** 29;

export interface Canvas {
  readonly context: CanvasRenderingContext2D;
  readonly geometry: Geometry;
  readonly theme: Theme;
  /** What of the picture lies to the left of the canvas and above it. */
  readonly scroll: Vector;
}

/** Draws the pixels that differ from what this canvas shows; returns how many they were. */
export function cellPainter(): (on: Canvas, cells: Cells, all: boolean) => number {
  let shown = new Int32Array(0);
  const small = smallCells();
  return (on, cells, all) => {
    const { columns, rows, side } = on.geometry;
    const count = columns * rows;
    const again = all || shown.length !== count;
    if (again) shown = new Int32Array(count).fill(-1);
    const changed: number[] = [];
    const { pixels, lamps, unwritten } = cells;
    for (let i = 0; i < count; i++) {
      const value = pixels[i] as number;
      const key = value + (lamps.over(value) ? OVER : 0) + (unwritten[i] ? UNWRITTEN : 0);
      if (shown[i] === key) continue;
      shown[i] = key;
      changed.push(i);
    }
    if (changed.length === 0) return 0;
    on.context.save();
    clip(on);
    if (side < SMALL) small(on, cells, changed, again);
    else for (const index of changed) drawCell(on, cells, index);
    on.context.restore();
    return changed.length;
  };
}

/** Pixels do not run over the rulers. */
function clip({ context, geometry: g }: Canvas): void {
  if (isDiamond(g.turn)) return;
  context.beginPath();
  context.rect(g.left, g.top, g.viewWidth - g.left - g.right, g.viewHeight - g.top - g.bottom);
  context.clip();
}

function drawCell({ context, geometry: g, theme, scroll }: Canvas, cells: Cells, index: number): void {
  const middle = pointAt(g.lattice, (index % g.columns) + 0.5, Math.floor(index / g.columns) + 0.5);
  const [x, y] = [middle.x - scroll.x, middle.y - scroll.y];
  if (x < -g.side || y < -g.side || x > g.viewWidth + g.side || y > g.viewHeight + g.side) return;
  const { pixels, lamps, unwritten, dots } = cells;
  const value = pixels[index] ?? 0;
  const slanted = isDiamond(g.turn);
  const [lit, over, missing] = [lamps.lit(value), lamps.over(value), unwritten[index] === 1];
  const face = { lamps, lit, dots, over, missing, slanted };
  if (!slanted) {
    drawFace(context, theme, face, x - g.side / 2, y - g.side / 2, g.side);
    return;
  }
  context.save();
  context.translate(x, y);
  context.rotate(Math.PI / 4);
  drawFace(context, theme, face, -g.side / 2, -g.side / 2, g.side);
  context.restore();
}
