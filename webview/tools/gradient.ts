/** Gradients: from one raw value to another along a line, or outwards from a point. */
import { folder, type Symmetry } from "./mirror.ts";
import type { Point, Size } from "./shapes.ts";
import type { Tones } from "./tones.ts";

export type GradientShape = "linear" | "radial";
export type Ease = "linear" | "smoothstep" | "even";

export interface Gradient {
  readonly size: Size;
  /** Where it begins, or its middle. */
  readonly from: Point;
  /** Where it ends, or a point of its rim. */
  readonly to: Point;
  readonly shape: GradientShape;
  readonly ease: Ease;
  readonly symmetry: Symmetry;
  readonly first: number;
  readonly second: number;
}

/** smoothstep of the OpenGL Shading Language (Khronos GLSL reference) between the edges 0 and 1. */
export function smoothstep(share: number): number {
  const t = Math.max(0, Math.min(1, share));
  return t * t * (3 - 2 * t);
}

/** Tables of a value for every squared length are kept up to this size. */
const LARGEST_TABLE = 2 ** 22;

/**
 * The raw value at a pixel, counted row by row: `first` at the beginning and before it, `second` at the end and beyond.
 * Undefined where both ends are one pixel, which gives no direction.
 */
export function gradientAt(gradient: Gradient, tones: Tones): ((index: number) => number) | undefined {
  const { size, from, to, shape, ease, symmetry, first, second } = gradient;
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const whole = dx * dx + dy * dy;
  if (whole === 0) return undefined;
  const value = (part: number) => {
    const share = shape === "linear" ? part / whole : Math.sqrt(part / whole);
    if (ease === "even") return tones.even(first, second, share);
    return tones.blend(first, second, ease === "smoothstep" ? smoothstep(share) : share);
  };
  // Both kinds come from whole numbers, most of which come up again and again.
  const table = whole < LARGEST_TABLE ? new Int32Array(whole + 1).fill(-1) : undefined;
  const fold = symmetry === "off" ? undefined : folder(size, from, to, symmetry);
  return (index) => {
    let x = index % size.width;
    let y = Math.floor(index / size.width);
    if (fold) ({ x, y } = fold({ x, y }));
    const ax = x - from.x;
    const ay = y - from.y;
    const along = shape === "linear" ? ax * dx + ay * dy : ax * ax + ay * ay;
    const part = Math.max(0, Math.min(whole, along));
    if (!table) return value(part);
    const known = table[part] as number;
    if (known >= 0) return known;
    const made = value(part);
    table[part] = made;
    return made;
  };
}
