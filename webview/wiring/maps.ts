/** Draws a panel with the way of its addresses, and the driver's canvas. */
import { sizeCanvas } from "../view/dom.ts";
import type { Theme } from "../view/theme.ts";

/** Cells in rows, and the side of one in CSS pixels. */
interface Board {
  readonly width: number;
  readonly height: number;
  readonly side: number;
}

export interface Drawn {
  readonly theme: Theme;
  readonly board: Board;
  /** The cell with the cursor; undefined for none. */
  readonly cursor: number | undefined;
  /** The number in each cell; -1 leaves it out, with a stroke through the cell. */
  readonly numbers: ArrayLike<number>;
  /** Cells in the order of the way, with breaks where it does not go on. */
  readonly way: readonly (readonly number[])[];
  /** Cells that are lit; undefined where none can be. */
  readonly lit: ReadonlySet<number> | undefined;
  /** Cells that something is wrong with. */
  readonly wrong: ReadonlySet<number>;
}

/** Sides from which numbers can be read. */
const READABLE = 18;

export function drawBoard(canvas: HTMLCanvasElement, drawn: Drawn): void {
  const { theme, board, numbers, way, lit, wrong, cursor } = drawn;
  const { width, height, side } = board;
  canvas.dataset.columns = String(width);
  const context = sizeCanvas(canvas, width * side + 1, height * side + 1);
  const middle = (cell: number) =>
    [(cell % width) * side + side / 2 + 0.5, Math.floor(cell / width) * side + side / 2 + 0.5] as const;
  context.fillStyle = theme.background;
  context.fillRect(0, 0, width * side + 1, height * side + 1);
  rule(context, theme, board);
  const numbered = side >= READABLE;
  if (lit)
    for (let cell = 0; cell < width * height; cell++)
      lamp(context, theme, middle(cell), side, lit.has(cell), numbers[cell] === -1);
  else {
    if (!numbered && way.length === 0) fillUsed(context, theme, board, numbers);
    context.strokeStyle = numbered ? (theme.contrast ? theme.border : shade(theme, 96)) : theme.number;
    context.lineWidth = Math.max(1, side / (numbered ? 12 : 6));
    context.lineJoin = "round";
    for (const piece of way) trace(context, board, piece, middle);
    const [start] = way[0] ?? [];
    if (start !== undefined && !numbered) dot(context, theme.foreground, middle(start), Math.max(1.5, side / 3));
  }
  if (numbered && !lit) write(context, theme, drawn, middle);
  for (const cell of wrong) outline(context, theme.error, board, cell, 2);
  if (cursor !== undefined) outline(context, theme.focus, board, cursor, Math.min(2, Math.max(1, side / 6)));
}

/** Where numbers can't be read, the cells that have one are filled. */
function fillUsed(context: CanvasRenderingContext2D, theme: Theme, board: Board, numbers: ArrayLike<number>): void {
  const { width, height, side } = board;
  context.fillStyle = shade(theme, 96);
  for (let cell = 0; cell < width * height; cell++) {
    if ((numbers[cell] ?? -1) < 0) continue;
    const [x, y] = [(cell % width) * side, Math.floor(cell / width) * side];
    context.fillRect(x + 1, y + 1, side - 1, side - 1);
  }
}

function shade(theme: Theme, code: number): string {
  return `#${theme.between(code).toString(16).padStart(6, "0")}`;
}

function rule(context: CanvasRenderingContext2D, theme: Theme, { width, height, side }: Board): void {
  context.strokeStyle = theme.contrast ? theme.border : shade(theme, 48);
  context.lineWidth = 1;
  context.beginPath();
  // Lines between cells of two or three pixels would be all there is to see.
  const step = side < 6 ? Number.POSITIVE_INFINITY : side;
  for (let x = 0; x <= width * side; x += Math.min(step, width * side)) context.rect(x + 0.5, 0.5, 0, height * side);
  for (let y = 0; y <= height * side; y += Math.min(step, height * side)) context.rect(0.5, y + 0.5, width * side, 0);
  context.stroke();
}

type Middle = (cell: number) => readonly [x: number, y: number];

/** From neighbour to neighbour; a jump to a pixel farther away is thin, so that it hides nothing. */
function trace(context: CanvasRenderingContext2D, { width }: Board, piece: readonly number[], middle: Middle): void {
  const isNear = (a: number, b: number) =>
    Math.abs((a % width) - (b % width)) + Math.abs(Math.floor(a / width) - Math.floor(b / width)) === 1;
  const bold = context.lineWidth;
  for (const near of [false, true]) {
    context.lineWidth = near ? bold : 0.5;
    context.beginPath();
    piece.forEach((cell, i) => {
      const before = piece[i - 1];
      if (before === undefined || isNear(before, cell) !== near) return;
      context.moveTo(...middle(before));
      context.lineTo(...middle(cell));
    });
    context.stroke();
  }
}

function dot(
  context: CanvasRenderingContext2D,
  colour: string,
  [x, y]: readonly [number, number],
  radius: number,
): void {
  context.fillStyle = colour;
  context.beginPath();
  context.arc(x, y, radius, 0, 2 * Math.PI);
  context.fill();
}

/** Lit is filled, dark a ring: the same in every theme, also without colours. */
function lamp(
  context: CanvasRenderingContext2D,
  theme: Theme,
  at: readonly [number, number],
  side: number,
  lit: boolean,
  missing: boolean,
): void {
  if (missing) return;
  if (lit) dot(context, theme.foreground, at, side * 0.36);
  else {
    context.strokeStyle = shade(theme, theme.contrast ? 255 : 120);
    context.lineWidth = 1;
    context.beginPath();
    context.arc(at[0], at[1], side * 0.3, 0, 2 * Math.PI);
    context.stroke();
  }
}

function write(context: CanvasRenderingContext2D, theme: Theme, { board, numbers, way }: Drawn, middle: Middle): void {
  const { width, height, side } = board;
  const start = way[0]?.[0];
  const size = Math.min(12, Math.floor(side / 2));
  context.textAlign = "center";
  context.textBaseline = "middle";
  for (let cell = 0; cell < width * height; cell++) {
    const [x, y] = middle(cell);
    const number = numbers[cell] ?? -1;
    if (number < 0) {
      context.strokeStyle = shade(theme, 96);
      context.lineWidth = 1;
      context.beginPath();
      context.moveTo(x - side / 4, y + side / 4);
      context.lineTo(x + side / 4, y - side / 4);
      context.stroke();
      continue;
    }
    context.font = `${cell === start ? "bold " : ""}${size}px ${theme.font}`;
    const text = String(number);
    // The way runs under the numbers, not through them.
    const half = context.measureText(text).width / 2 + 1;
    context.fillStyle = theme.background;
    context.fillRect(x - half, y - size / 2, 2 * half, size);
    context.fillStyle = theme.foreground;
    context.fillText(text, x, y + 0.5);
  }
}

function outline(
  context: CanvasRenderingContext2D,
  colour: string,
  { width, side }: Board,
  cell: number,
  line: number,
): void {
  context.strokeStyle = colour;
  context.lineWidth = line;
  const [x, y] = [(cell % width) * side, Math.floor(cell / width) * side];
  context.strokeRect(x + 0.5 + line / 2, y + 0.5 + line / 2, side - line, side - line);
}
