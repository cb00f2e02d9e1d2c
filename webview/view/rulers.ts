/**
 * The rulers at the four sides of the grid. Rows are told by their source lines and their light, columns by their
 * number and their light; words stand to the left and above, light to the right and below. Where the display is
 * mounted sideways, rows run along the top.
 */

import { isSideways, pointAt } from "../../shared/light/lattice.ts";
import type { ShownFinding } from "../../shared/protocol/webview.ts";
import type { FrameLight } from "../light.ts";
import type { Canvas } from "./cells.ts";
import { labelEvery } from "./geometry.ts";
import { drawMarker, MARKER } from "./marker.ts";
import type { Theme } from "./theme.ts";

export interface Rulers {
  /** The source line of each row, from 1; 0 where it is not written. */
  readonly lines: readonly number[];
  readonly light: FrameLight;
  /** Share of full at which a bar is full: all pixels at the cap. */
  readonly fullBar: number;
  /** The pixel cursor. */
  readonly x: number;
  readonly y: number;
  /** Rows with findings. */
  readonly marks: ReadonlyMap<number, ShownFinding["severity"]>;
}

/** One ruler: so many steps with a word, a share of light and perhaps a marker each. */
export interface Ruler {
  readonly count: number;
  readonly here: number;
  readonly word: (at: number) => string;
  /** What the widest word is like. */
  readonly widest: string;
  readonly share: (at: number) => number;
  readonly mark: (at: number) => ShownFinding["severity"] | undefined;
}

export const SIZE = 11;

export function rowRuler({ lines, light, fullBar, y, marks }: Rulers): Ruler {
  const word = (at: number) => ((lines[at] ?? 0) > 0 ? String(lines[at]) : "–");
  return {
    count: lines.length,
    here: y,
    word,
    widest: String(Math.max(0, ...lines)),
    share: (at) => (light.rows[at] ?? 0) / fullBar,
    mark: (at) => marks.get(at),
  };
}

export function columnRuler({ light, fullBar, x }: Rulers): Ruler {
  const count = light.columns.length;
  const share = (at: number) => (light.columns[at] ?? 0) / fullBar;
  return { count, here: x, word: String, widest: String(count - 1), share, mark: () => undefined };
}

export function drawRulers(on: Canvas, rulers: Rulers): void {
  const { context, geometry: g, theme } = on;
  const sideways = isSideways(g.turn);
  context.save();
  context.font = `${SIZE}px ${theme.font}`;
  context.textBaseline = "middle";
  context.fillStyle = theme.background;
  context.fillRect(0, 0, g.viewWidth, g.top);
  context.fillRect(0, g.viewHeight - g.bottom, g.viewWidth, g.bottom);
  context.fillRect(0, 0, g.left, g.viewHeight);
  context.fillRect(g.viewWidth - g.right, 0, g.right, g.viewHeight);
  upright(on, sideways ? columnRuler(rulers) : rowRuler(rulers), sideways);
  level(on, sideways ? rowRuler(rulers) : columnRuler(rulers), sideways);
  context.restore();
}

/** Left: words. Right: light. */
function upright({ context, geometry: g, theme, scroll }: Canvas, ruler: Ruler, columns: boolean): void {
  const end = g.viewWidth - g.right;
  const middle = (i: number) => pointAt(g.lattice, columns ? i + 0.5 : 0, columns ? 0 : i + 0.5).y - scroll.y;
  const [top, bottom] = [g.top, g.viewHeight - g.bottom];
  context.save();
  context.beginPath();
  context.rect(0, top - SIZE / 2, g.viewWidth, bottom - top + SIZE);
  context.clip();
  const high = Math.max(g.side, SIZE + 3);
  band(context, theme, 0, middle(ruler.here) - high / 2, g.left - 2, high);
  band(context, theme, end + 1, middle(ruler.here) - g.side / 2, g.right - 1, g.side);
  context.textAlign = "right";
  const every = labelEvery(g.side, SIZE + 2);
  for (let i = 0; i < ruler.count; i++) {
    const at = middle(i);
    if (at < top - 1 || at > bottom + 1) continue;
    const active = i === ruler.here;
    context.fillStyle = active ? theme.activeNumber : theme.number;
    // The row of the pixel cursor always has its word; neighbours without room for theirs leave it out.
    if (active || (i % every === 0 && Math.abs(at - middle(ruler.here)) >= SIZE + 1))
      context.fillText(ruler.word(i), g.left - MARKER - 3, at + 0.5);
    const { from, thick } = barOf(at, g.side);
    context.fillRect(end + 4, from, bar(ruler.share(i), g.right - 6), thick);
    drawMarker(context, theme, ruler.mark(i), g.left - MARKER / 2 - 1, at);
  }
  context.restore();
}

/** Top: words. Bottom: light. */
function level({ context, geometry: g, theme, scroll }: Canvas, ruler: Ruler, rows: boolean): void {
  const end = g.viewHeight - g.bottom;
  const middle = (i: number) => pointAt(g.lattice, rows ? 0 : i + 0.5, rows ? i + 0.5 : 0).x - scroll.x;
  const [left, right] = [g.left, g.viewWidth - g.right];
  const need = 7 * ruler.widest.length + 5;
  context.save();
  context.beginPath();
  context.rect(left - need / 2, 0, right - left + need, g.viewHeight);
  context.clip();
  const wide = Math.max(g.side, need - 2);
  band(context, theme, middle(ruler.here) - wide / 2, 0, wide, g.top - 1);
  band(context, theme, middle(ruler.here) - g.side / 2, end + 1, g.side, g.bottom - 1);
  const every = labelEvery(g.side, need);
  context.textAlign = "center";
  for (let i = 0; i < ruler.count; i++) {
    const at = middle(i);
    if (at < left - 1 || at > right + 1) continue;
    const active = i === ruler.here;
    context.fillStyle = active ? theme.activeNumber : theme.number;
    if (active || (i % every === 0 && Math.abs(at - middle(ruler.here)) >= need))
      context.fillText(ruler.word(i), at, g.top / 2);
    const { from, thick } = barOf(at, g.side);
    context.fillRect(from, end + 3, thick, bar(ruler.share(i), g.bottom - 5));
    drawMarker(context, theme, ruler.mark(i), at, g.top - MARKER / 2 - 1);
  }
  context.restore();
}

/** Where the bar of a pixel with this middle begins and how thick it is. */
function barOf(middle: number, side: number): { readonly from: number; readonly thick: number } {
  const thick = side >= 6 ? side - 1 : side;
  const inset = thick > 12 ? Math.floor(thick / 4) : 0;
  return { from: middle - side / 2 + inset, thick: thick - 2 * inset };
}

/** Any light at all has a bar that can be seen. */
export function bar(share: number, room: number): number {
  return share > 0 ? Math.max(1, Math.min(room, Math.round(share * room))) : 0;
}

function band(context: CanvasRenderingContext2D, theme: Theme, x: number, y: number, w: number, h: number): void {
  context.fillStyle = theme.highlight;
  context.fillRect(x, y, w, h);
  // A frame around a strip of a few pixels would hide what is on it.
  if (!theme.contrast || Math.min(w, h) < 6) return;
  context.strokeStyle = theme.border;
  context.lineWidth = 1;
  context.strokeRect(x + 0.5, y + 0.5, Math.max(0, w - 1), Math.max(0, h - 1));
}
