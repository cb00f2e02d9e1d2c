/** Draws one version of a frame as cells between two rulers, or what has changed in it. */
import { sizeCanvas } from "../view/dom.ts";
import type { Lamps } from "../view/lamps.ts";
import type { Theme } from "../view/theme.ts";

export interface Drawn {
  readonly width: number;
  readonly height: number;
  /** Raw values, row by row. */
  readonly pixels: readonly number[];
  readonly lamps: Lamps;
}

/** How a pixel has changed: brighter, darker, or another colour of the same level. */
export interface Change {
  readonly pixel: number;
  readonly step: number;
}

interface Marks {
  /** Only these pixels count; the others are faint. undefined draws all alike. */
  readonly changes?: readonly Change[];
  /** The pixel at hand. */
  readonly at?: { readonly x: number; readonly y: number } | undefined;
}

/** Left of a picture, for the numbers of rows, and above it for those of columns. */
export const LEFT = 26;
export const TOP = 16;
/** Least room for a number of a ruler. */
const LEAST = 18;

export function drawPicture(canvas: HTMLCanvasElement, theme: Theme, picture: Drawn, side: number, marks: Marks): void {
  const { width, height, pixels, lamps } = picture;
  const context = sizeCanvas(canvas, LEFT + width * side + 2, TOP + height * side + 2);
  drawRulers(context, theme, picture, side, marks.at);
  context.fillStyle = lamps.face;
  context.fillRect(LEFT, TOP, width * side, height * side);
  const gap = side >= 6 ? 1 : 0;
  const changes = marks.changes && new Map(marks.changes.map((c) => [c.pixel, c.step]));
  for (let i = 0; i < width * height; i++) {
    const [x, y] = [LEFT + (i % width) * side, TOP + Math.floor(i / width) * side];
    if (gap > 0) {
      context.fillStyle = theme.background;
      context.fillRect(x, y, side, side);
      context.fillStyle = lamps.face;
      context.fillRect(x, y, side - gap, side - gap);
    }
    const lit = lamps.lit(pixels[i] ?? 0);
    if (lit === undefined) continue;
    context.globalAlpha = changes && !changes.has(i) ? 0.3 : 1;
    context.fillStyle = lit;
    context.fillRect(x, y, side - gap, side - gap);
    context.globalAlpha = 1;
  }
  if (theme.contrast) {
    context.strokeStyle = theme.border;
    context.lineWidth = 1;
    context.strokeRect(LEFT - 0.5, TOP - 0.5, width * side + 1 - gap, height * side + 1 - gap);
  }
  for (const [pixel, step] of changes ?? []) {
    drawMark(context, lamps, LEFT + (pixel % width) * side, TOP + Math.floor(pixel / width) * side, side - gap, step);
  }
  if (marks.at) drawCursor(context, theme, LEFT + marks.at.x * side, TOP + marks.at.y * side, side - gap);
}

/** A frame around the pixel; where there is room, a wedge that points up where it is brighter and down where darker. */
function drawMark(
  context: CanvasRenderingContext2D,
  lamps: Lamps,
  x: number,
  y: number,
  side: number,
  step: number,
): void {
  context.strokeStyle = lamps.mark;
  context.lineWidth = 1;
  if (side >= 4) context.strokeRect(x + 0.5, y + 0.5, side - 1, side - 1);
  if (side < 10 || step === 0) return;
  const [middle, half, up] = [x + side / 2, side * 0.2, step > 0 ? -1 : 1];
  context.beginPath();
  context.moveTo(middle - half, y + side / 2 - up * half * 0.8);
  context.lineTo(middle + half, y + side / 2 - up * half * 0.8);
  context.lineTo(middle, y + side / 2 + up * half * 0.8);
  context.closePath();
  // Dark within light and light within dark: it is seen on a pixel of any level.
  context.fillStyle = lamps.mark;
  context.fill();
  context.strokeStyle = lamps.face;
  context.stroke();
}

function drawCursor(context: CanvasRenderingContext2D, theme: Theme, x: number, y: number, side: number): void {
  context.strokeStyle = theme.focus;
  context.lineWidth = 2;
  context.strokeRect(x - 1, y - 1, side + 2, side + 2);
}

/** Columns above and rows on the left, from 0, as findings count pixels. */
function drawRulers(
  context: CanvasRenderingContext2D,
  theme: Theme,
  { width, height }: Drawn,
  side: number,
  at: Marks["at"],
): void {
  context.font = `10px ${theme.font}`;
  const ruler = (count: number, now: number | undefined, put: (text: string, middle: number) => void) => {
    const every = stepOf(side);
    for (let i = 0; i < count; i++) {
      const here = i === now;
      // The number at hand takes the place of those that it would run into.
      if (!here && (i % every !== 0 || (now !== undefined && Math.abs(i - now) * side < LEAST))) continue;
      context.fillStyle = here ? theme.activeNumber : theme.number;
      put(String(i), (i + 0.5) * side);
    }
  };
  context.textAlign = "center";
  context.textBaseline = "alphabetic";
  ruler(width, at?.x, (text, middle) => context.fillText(text, LEFT + middle, TOP - 4));
  context.textAlign = "right";
  context.textBaseline = "middle";
  ruler(height, at?.y, (text, middle) => context.fillText(text, LEFT - 6, TOP + middle));
}

/** Every how many pixels there is room for a number: 1, 2, 5, 10, 20 … */
function stepOf(side: number): number {
  for (let ten = 1; ; ten *= 10) for (const step of [ten, 2 * ten, 5 * ten]) if (step * side >= LEAST) return step;
}

/** The side of a pixel so that three pictures stand beside or below each other in the page. */
export function sideFor(columns: number, rows: number, width: number, height: number): number {
  const across = (width / 3 - LEFT - 24) / columns;
  const below = Math.min((width - LEFT - 24) / columns, (height * 0.85) / 3 / rows - 2);
  // Beside each other they are compared at a glance.
  return Math.max(1, Math.min(28, Math.floor(across >= 12 ? across : Math.max(across, below))));
}
