/**
 * Marks over the pixels, told apart by their shape: a ring where the frame before is lit, a dot where the one after is,
 * a cross where a pixel differs from the frame before. They stand on a canvas of their own, so that the picture under
 * them is drawn as ever, and only marks that change are drawn again.
 */

import { isDiamond, pointAt } from "../../shared/light/lattice.ts";
import type { Canvas } from "./cells.ts";
import { el, sizeCanvas } from "./dom.ts";
import type { Lamps } from "./lamps.ts";

export interface Marks {
  /** The frame at hand, and those beside it that are to be seen. */
  readonly pixels: Uint32Array;
  readonly before: Uint32Array | undefined;
  readonly after: Uint32Array | undefined;
  /** The frame that pixels are to differ from. */
  readonly other: Uint32Array | undefined;
  /** Whether a value is so light that it needs a dark mark. */
  readonly bright: (value: number) => boolean;
}

const RING = 1;
const DOT = 2;
const CROSS = 4;
const BRIGHT = 8;

/** Puts marks over the picture of a canvas. `all`: drawn anew. */
type Overlay = (on: Canvas, marks: Marks | undefined, lamps: Lamps, all: boolean) => void;

/** The marks' own canvas is made when the first are to be seen. */
export function makeOverlay(under: HTMLCanvasElement): Overlay {
  const paint = painter();
  let canvas: HTMLCanvasElement | undefined;
  let context: CanvasRenderingContext2D | undefined;
  return (on, marks, lamps, all) => {
    if (!marks) {
      canvas?.remove();
      canvas = undefined;
      return;
    }
    const fresh = canvas === undefined;
    canvas ??= el("canvas", { class: "over", "aria-hidden": "true" });
    if (fresh) under.after(canvas);
    const { viewWidth, viewHeight } = on.geometry;
    if (fresh || all || !context) {
      context = sizeCanvas(canvas, viewWidth, viewHeight);
      // It stays in view as the one under it does, and lies on it.
      canvas.style.marginTop = `${-viewHeight}px`;
    }
    paint({ ...on, context }, marks, lamps, fresh || all);
  };
}

/** Draws the marks that differ from what the canvas shows; `all` where it is empty. */
function painter(): (on: Canvas, marks: Marks, lamps: Lamps, all: boolean) => void {
  let shown = new Uint8Array(0);
  return (on, marks, lamps, all) => {
    const { columns, rows } = on.geometry;
    const count = columns * rows;
    if (all || shown.length !== count) shown = new Uint8Array(count);
    const { pixels, before, after, other, bright } = marks;
    const changed: number[] = [];
    for (let i = 0; i < count; i++) {
      const kinds =
        (before && (before[i] as number) > 0 ? RING : 0) |
        (after && (after[i] as number) > 0 ? DOT : 0) |
        (other && other[i] !== pixels[i] ? CROSS : 0);
      const key = kinds === 0 ? 0 : kinds | (bright(pixels[i] as number) ? BRIGHT : 0);
      if (shown[i] === key) continue;
      changed.push(shown[i] === 0 ? i : -1 - i);
      shown[i] = key;
    }
    if (changed.length > 0) draw(on, lamps, shown, changed);
  };
}

/** Indexes below 0 are those of pixels that had another mark before. */
function draw(on: Canvas, lamps: Lamps, shown: Uint8Array, changed: readonly number[]): void {
  const { context, geometry: g, theme, scroll } = on;
  const side = g.side;
  context.save();
  if (!isDiamond(g.turn)) {
    context.beginPath();
    context.rect(g.left, g.top, g.viewWidth - g.left - g.right, g.viewHeight - g.top - g.bottom);
    context.clip();
  }
  // Whole device pixels where a mark is no larger than a few of them.
  const reach = side < 8 ? side / 2 : side * 0.34;
  const paths = { dark: new Path2D(), light: new Path2D(), darkDot: new Path2D(), lightDot: new Path2D() };
  for (const entry of changed) {
    const index = entry < 0 ? -1 - entry : entry;
    const middle = pointAt(g.lattice, (index % g.columns) + 0.5, Math.floor(index / g.columns) + 0.5);
    const [x, y] = [middle.x - scroll.x, middle.y - scroll.y];
    if (x < -side || y < -side || x > g.viewWidth + side || y > g.viewHeight + side) continue;
    if (entry < 0) context.clearRect(x - reach - 0.5, y - reach - 0.5, 2 * reach + 1, 2 * reach + 1);
    const key = shown[index] as number;
    if (key === 0) continue;
    const [lines, dots] = (key & BRIGHT) > 0 ? [paths.dark, paths.darkDot] : [paths.light, paths.lightDot];
    if (side < 8) small(dots, key, x - side / 2, y - side / 2, side);
    else large(lines, dots, key, x, y, side);
  }
  context.globalAlpha = theme.contrast ? 1 : 0.75;
  context.lineWidth = side >= 16 ? 1.5 : 1;
  context.strokeStyle = context.fillStyle = lamps.mark;
  context.stroke(paths.light);
  context.fill(paths.lightDot);
  context.strokeStyle = context.fillStyle = lamps.face;
  context.stroke(paths.dark);
  context.fill(paths.darkDot);
  context.restore();
}

function large(lines: Path2D, dots: Path2D, key: number, x: number, y: number, side: number): void {
  if (key & RING) {
    const radius = side * 0.22;
    lines.moveTo(x + radius, y);
    lines.arc(x, y, radius, 0, 2 * Math.PI);
  }
  if (key & DOT) {
    const radius = side * 0.1;
    dots.moveTo(x + radius, y);
    dots.arc(x, y, radius, 0, 2 * Math.PI);
  }
  if (key & CROSS) {
    const arm = side * 0.3;
    const gap = key & (RING | DOT) ? side * 0.2 : 0;
    for (const [dx, dy] of [
      [1, 1],
      [1, -1],
      [-1, 1],
      [-1, -1],
    ] as const) {
      lines.moveTo(x + dx * gap, y + dy * gap);
      lines.lineTo(x + dx * arm, y + dy * arm);
    }
  }
}

/** Too small for shapes: places in the pixel tell them apart. Before is at the top left, after at the bottom right. */
function small(dots: Path2D, key: number, left: number, top: number, side: number): void {
  const size = Math.max(1, Math.round(side / 3));
  const far = side - size;
  if (key & RING) dots.rect(left, top, size, size);
  if (key & DOT) dots.rect(left + far, top + far, size, size);
  if (key & CROSS) {
    dots.rect(left + far, top, size, size);
    dots.rect(left, top + far, size, size);
  }
}
