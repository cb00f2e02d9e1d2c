/** Where the edge stands in each frame, and in which order the frames are shown. */

type Ease = "linear" | "cubic-in" | "cubic-out" | "cubic-in-out";
type Loop = "once" | "around" | "there-and-back";

export interface Timeline {
  /** Position by frame, one way: the first is `from`, the last is `to`. */
  readonly positions: Int16Array;
  readonly loop: Loop;
}

export interface Way {
  readonly from: number;
  readonly to: number;
  readonly ease: Ease;
}

/** Furthest position to both sides. */
export const MOST_POSITION = 2047;
/** Most frames one way. */
export const MOST_FRAMES = 4096;

/** Frame n stands `step` further than the one before it, and the last one at `to`, never past it. */
export function byStep(way: Way, step: number): Int16Array {
  const distance = Math.abs(way.to - way.from);
  const count = Math.ceil(distance / Math.max(1, step)) + 1;
  return placed(way, Math.min(MOST_FRAMES, count), (n) => Math.min(distance, n * step));
}

/** So many frames from `from` to `to`, evenly spread to the nearest whole position. */
export function byCount(way: Way, count: number): Int16Array {
  const distance = Math.abs(way.to - way.from);
  const gaps = Math.max(1, count - 1);
  return placed(way, Math.min(MOST_FRAMES, Math.max(1, count)), (n) => divided(distance * n, gaps));
}

/** The frames of one run in the order in which they are shown: there and back, neither end comes twice. */
export function orderOf({ positions, loop }: Timeline): number[] {
  const there = Array.from(positions, (_, n) => n);
  return loop === "there-and-back" ? [...there, ...there.slice(1, -1).reverse()] : there;
}

function placed({ from, to, ease }: Way, count: number, goneAt: (frame: number) => number): Int16Array {
  const distance = Math.abs(to - from);
  const sign = to < from ? -1 : 1;
  return Int16Array.from({ length: count }, (_, n) => from + sign * eased(ease, goneAt(n), distance));
}

/**
 * The way that is done where `gone` of the whole is, by the usual cubics of t = gone/whole: t³, 1 − (1 − t)³, and 4t³ up
 * to the middle with its mirror image behind it; rounded to the nearest whole number.
 */
function eased(ease: Ease, gone: number, whole: number): number {
  if (ease === "linear" || whole === 0) return gone;
  const square = whole * whole;
  const cubic = (n: number, times: number) => divided(times * n * n * n, square);
  if (ease === "cubic-in") return cubic(gone, 1);
  if (ease === "cubic-out") return whole - cubic(whole - gone, 1);
  return 2 * gone <= whole ? cubic(gone, 4) : whole - cubic(whole - gone, 4);
}

/** round(a / b) of whole numbers that are not negative, half a one upwards. */
function divided(a: number, b: number): number {
  return Math.floor((2 * a + b) / (2 * b));
}
