/** The four rulers of the grid: source lines, light of the rows, columns, light of the columns. */
import type { FrameLight } from "../light.ts";
import { type Geometry, labelEvery } from "./geometry.ts";
import type { Theme } from "./theme.ts";

export interface Rulers {
  readonly lines: readonly number[];
  readonly light: FrameLight;
  /** Share of full at which a bar is full: all pixels at the cap. */
  readonly fullBar: number;
  readonly x: number;
  readonly y: number;
}

const SIZE = 11;

export function drawRulers(context: CanvasRenderingContext2D, g: Geometry, theme: Theme, rulers: Rulers): void {
  context.save();
  context.font = `${SIZE}px ${theme.font}`;
  context.textBaseline = "middle";
  clear(context, g, theme);
  sides(context, g, theme, rulers);
  ends(context, g, theme, rulers);
  context.restore();
}

function clear(context: CanvasRenderingContext2D, g: Geometry, theme: Theme): void {
  context.fillStyle = theme.background;
  context.fillRect(0, 0, g.width, g.top);
  context.fillRect(0, g.height - g.bottom, g.width, g.bottom);
  context.fillRect(0, 0, g.left, g.height);
  context.fillRect(g.width - g.right, 0, g.right, g.height);
}

/** Left: the source line of each row. Right: its light. */
function sides(
  context: CanvasRenderingContext2D,
  g: Geometry,
  theme: Theme,
  { lines, light, fullBar, y: here }: Rulers,
): void {
  const end = g.width - g.right;
  band(context, theme, 0, g.top + here * g.cell, g.left - 2, g.cell);
  band(context, theme, end + 1, g.top + here * g.cell, g.right - 1, g.cell);
  context.textAlign = "right";
  let free = Number.NEGATIVE_INFINITY;
  const hereAt = g.top + (here + 0.5) * g.cell;
  for (let y = 0; y < g.rows; y++) {
    const middle = g.top + (y + 0.5) * g.cell;
    const active = y === here;
    // The row of the pixel cursor always has its number; neighbours without room for theirs leave it out.
    if (active || (middle - free >= SIZE + 1 && Math.abs(middle - hereAt) >= SIZE + 1)) {
      const line = lines[y] ?? 0;
      context.fillStyle = active ? theme.activeNumber : theme.number;
      context.fillText(line > 0 ? String(line) : "–", g.left - 8, middle + 0.5);
      free = middle;
    }
    const thick = g.cell >= 6 ? g.cell - 1 : g.cell;
    const inset = thick > 12 ? Math.floor(thick / 4) : 0;
    const length = bar(light.rows[y] ?? 0, fullBar, g.right - 6);
    context.fillStyle = active ? theme.activeNumber : theme.number;
    context.fillRect(end + 4, g.top + y * g.cell + inset, length, thick - 2 * inset);
  }
}

/** Top: the columns. Bottom: their light. */
function ends(context: CanvasRenderingContext2D, g: Geometry, theme: Theme, { light, fullBar, x: here }: Rulers): void {
  const end = g.height - g.bottom;
  band(context, theme, g.left + here * g.cell, 0, g.cell, g.top - 1);
  band(context, theme, g.left + here * g.cell, end + 1, g.cell, g.bottom - 1);
  const need = 7 * String(g.columns - 1).length + 5;
  const every = labelEvery(g.cell, need);
  context.textAlign = "center";
  for (let x = 0; x < g.columns; x++) {
    const middle = g.left + (x + 0.5) * g.cell - 0.5;
    const active = x === here;
    if (active || (x % every === 0 && Math.abs(x - here) * g.cell >= need)) {
      context.fillStyle = active ? theme.activeNumber : theme.number;
      context.fillText(String(x), middle, g.top / 2);
    }
    const thick = g.cell >= 6 ? g.cell - 1 : g.cell;
    const inset = thick > 12 ? Math.floor(thick / 4) : 0;
    const length = bar(light.columns[x] ?? 0, fullBar, g.bottom - 6);
    context.fillStyle = active ? theme.activeNumber : theme.number;
    context.fillRect(g.left + x * g.cell + inset, end + 3, thick - 2 * inset, length);
  }
}

/** Any light at all has a bar that can be seen. */
function bar(share: number, full: number, room: number): number {
  return share > 0 ? Math.max(1, Math.min(room, Math.round((share / full) * room))) : 0;
}

function band(context: CanvasRenderingContext2D, theme: Theme, x: number, y: number, w: number, h: number): void {
  context.fillStyle = theme.highlight;
  context.fillRect(x, y, w, h);
  if (!theme.contrast) return;
  context.strokeStyle = theme.border;
  context.lineWidth = 1;
  context.strokeRect(x + 0.5, y + 0.5, Math.max(0, w - 1), Math.max(0, h - 1));
}
