/** Sizes in CSS pixels of the grid with its four rulers, and how much of it is seen; pure. */
import { isDiamond, type Lattice, latticeOf, pixelAt, stepsOf, type Vector } from "../../shared/light/lattice.ts";

interface Sides {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export interface Geometry extends Sides {
  readonly columns: number;
  readonly rows: number;
  /** Eighths of a turn, clockwise: odd for a diamond lattice. */
  readonly turn: number;
  readonly lattice: Lattice;
  /** The side of a pixel. */
  readonly side: number;
  /** Size with the rulers. */
  readonly width: number;
  readonly height: number;
  /** How much of that is seen at once. Rulers at straight sides stay while the rest scrolls. */
  readonly viewWidth: number;
  readonly viewHeight: number;
  /** The ladder has room beside the grid. */
  readonly beside: boolean;
}

export interface Room {
  readonly width: number;
  /** Room for the pixels of a column. */
  readonly height: number;
  /** Room that source lines need. */
  readonly left: number;
  readonly ladder: number;
  /** Device pixels in a CSS pixel: sides are whole in them. */
  readonly ratio: number;
  /** How thick a scroll bar is. */
  readonly bar: number;
}

const TOP = 16;
const RIGHT = 26;
const BOTTOM = 26;
const LARGEST = 40;
/** Smaller sides are not fitted: the grid scrolls instead. In CSS pixels, and at least so many device pixels. */
const LEAST = 1.5;
const LEAST_DEVICE = 2;
/** A side that is comfortable to hit: only for more than this does the ladder give way. */
const COMFORT = 16;
/** Sides to zoom through. */
const SIDES = [2, 3, 4, 6, 8, 12, 16, 20, 28, 40, 56];

export function geometryOf(
  columns: number,
  rows: number,
  room: Room,
  { turn, zoom }: { readonly turn: number; readonly zoom?: number | undefined },
): Geometry {
  const diamond = isDiamond(turn);
  const steps = stepsOf(columns, rows, turn);
  const sides = diamond ? edgeRoom(room.left, turn) : { left: room.left, top: TOP, right: RIGHT, bottom: BOTTOM };
  const across = sides.left + sides.right;
  const toStep = diamond ? Math.SQRT1_2 : 1;
  // In device pixels; a little is allowed for what fractions lose.
  const down = (step: number) => Math.floor(step * room.ratio + 1e-6) / room.ratio;
  const least = Math.max(LEAST_DEVICE, Math.ceil(LEAST * toStep * room.ratio - 1e-6)) / room.ratio;
  const fitIn = (width: number) => {
    const fitting = Math.min((width - across) / steps.across, room.height / steps.down, LARGEST * toStep);
    return Math.max(least, down(fitting));
  };
  const below = fitIn(room.width);
  const shared = fitIn(room.width - room.ladder);
  const fits = across + steps.across * shared + room.ladder <= room.width;
  const beside = fits && shared >= Math.min(COMFORT * toStep, below);
  const zoomed = zoom && Math.max(1, Math.round(zoom * toStep * room.ratio)) / room.ratio;
  const step = zoomed ?? (beside ? shared : below);
  const width = across + steps.across * step;
  const height = sides.top + sides.bottom + steps.down * step;
  const most = { width: room.width - (beside ? room.ladder : 0), height: sides.top + sides.bottom + room.height };
  const view = viewOf(width, height, most, room.bar);
  const lattice = latticeOf(columns, rows, step, turn, { x: sides.left, y: sides.top });
  return { ...sides, ...view, columns, rows, turn, lattice, side: step / toStep, width, height, beside };
}

/** What is seen, less the scroll bars that this takes. */
function viewOf(width: number, height: number, most: { readonly width: number; readonly height: number }, bar: number) {
  const tall = height > most.height;
  const viewWidth = Math.min(width, most.width - (tall ? bar : 0));
  const viewHeight = Math.min(height, most.height - (width > viewWidth ? bar : 0));
  return { viewWidth, viewHeight };
}

/** Along the edges of a diamond, bars stand out at the lower ones and words at the upper ones. */
function edgeRoom(left: number, turn: number): Sides {
  return turn === 1 ? { left, top: 12, right: 26, bottom: 22 } : { left, top: 22, right: left, bottom: 22 };
}

/** The next side to zoom to; the same one at the ends. */
export function zoomFrom(side: number, by: 1 | -1): number {
  const ahead = SIDES.filter((s) => (by > 0 ? s > side + 0.1 : s < side - 0.1));
  return (by > 0 ? ahead[0] : ahead[ahead.length - 1]) ?? side;
}

/** What a point of the view is on, of which `scroll` lies to the left and above: the picture or one of its rulers. */
export function under(g: Geometry, at: Vector, scroll: Vector): { readonly x?: number; readonly y?: number } {
  const pixel = pixelAt(g.lattice, { x: at.x + scroll.x, y: at.y + scroll.y });
  const column = pixel.x >= 0 && pixel.x < g.columns ? { x: pixel.x } : {};
  const row = pixel.y >= 0 && pixel.y < g.rows ? { y: pixel.y } : {};
  if (isDiamond(g.turn)) return { ...column, ...row };
  const sideways = g.turn % 4 === 2;
  const beside = at.x < g.left || at.x >= g.viewWidth - g.right;
  const above = at.y < g.top || at.y >= g.viewHeight - g.bottom;
  if (beside && above) return {};
  if (beside) return sideways ? column : row;
  if (above) return sideways ? row : column;
  return { ...column, ...row };
}

/** Which of so many labels have room when each needs `need` of the space and they stand `step` apart. */
export function labelEvery(step: number, need: number): number {
  const least = Math.ceil(need / step);
  for (let power = 1; ; power *= 10) {
    for (const one of [1, 2, 4, 5, 8]) if (one * power >= least) return one * power;
  }
}
