/**
 * Where pixels stand on the screen, or in a picture of the panel: a lattice of two steps from a corner, turned by
 * eighths of a circle. The mounted panel is turned by quarters, a diamond lattice by one eighth more. Lengths are in
 * pixels of the screen, y runs down.
 */
export interface Vector {
  readonly x: number;
  readonly y: number;
}

export interface Lattice {
  readonly columns: number;
  readonly rows: number;
  /** The outer corner of pixel 0,0. */
  readonly origin: Vector;
  /** One column on, and one row on. */
  readonly along: Vector;
  readonly down: Vector;
}

/** Steps along the screen for one column on, by eighths of a turn, clockwise. */
const ALONG: readonly Vector[] = [
  { x: 1, y: 0 },
  { x: 1, y: 1 },
  { x: 0, y: 1 },
  { x: -1, y: 1 },
  { x: -1, y: 0 },
  { x: -1, y: -1 },
  { x: 0, y: -1 },
  { x: 1, y: -1 },
];

/** What a panel says of how it hangs. */
interface Hung {
  readonly lattice?: string | undefined;
  /** Degrees, clockwise. */
  readonly mount?: number | undefined;
}

/** By how many eighths of a turn, clockwise, the picture is turned: a diamond lattice by one more than its mounting. */
export function eighthsOf({ lattice, mount = 0 }: Hung): number {
  return (Math.round(mount / 45) + (lattice === "diamond" ? 1 : 0)) % 8;
}

/** True where the pixels stand on their corners. */
export function isDiamond(turn: number): boolean {
  return turn % 2 === 1;
}

/** True where rows run down the screen. */
export function isSideways(turn: number): boolean {
  return turn % 4 === 2;
}

/** How many steps the picture is wide and high. */
export function stepsOf(
  columns: number,
  rows: number,
  turn: number,
): { readonly across: number; readonly down: number } {
  if (isDiamond(turn)) return { across: columns + rows, down: columns + rows };
  return isSideways(turn) ? { across: rows, down: columns } : { across: columns, down: rows };
}

/**
 * The lattice with its upper left extent at `at`. `step` is the side of a pixel; with an odd `turn` (0–7, eighths
 * clockwise) it is half the diagonal, so that corners fall on whole steps.
 */
export function latticeOf(columns: number, rows: number, step: number, turn: number, at: Vector): Lattice {
  const unit = ALONG[turn % 8] ?? { x: 1, y: 0 };
  const along = { x: unit.x * step, y: unit.y * step };
  // Rows are a quarter turn on from columns.
  const down = { x: -along.y, y: along.x };
  const least = (a: number, b: number) => Math.min(0, a * columns) + Math.min(0, b * rows);
  const origin = { x: at.x - least(along.x, down.x), y: at.y - least(along.y, down.y) };
  return { columns, rows, origin, along, down };
}

/** The point of the screen at these columns and rows, which need not be whole: pixel 0,0 has its middle at .5,.5. */
export function pointAt({ origin, along, down }: Lattice, x: number, y: number): Vector {
  return { x: origin.x + x * along.x + y * down.x, y: origin.y + x * along.y + y * down.y };
}

/** A pixel by its column and row. */
interface Cell {
  readonly x: number;
  readonly y: number;
}

/** The pixel at a point of the screen; outside the picture it counts on, below 0 too. */
export function pixelAt({ origin, along, down }: Lattice, { x, y }: Vector): Cell {
  const area = along.x * down.y - along.y * down.x;
  const [dx, dy] = [x - origin.x, y - origin.y];
  return {
    x: Math.floor((dx * down.y - dy * down.x) / area),
    y: Math.floor((dy * along.x - dx * along.y) / area),
  };
}

export function isInside({ columns, rows }: Lattice, { x, y }: Cell): boolean {
  return x >= 0 && y >= 0 && x < columns && y < rows;
}
