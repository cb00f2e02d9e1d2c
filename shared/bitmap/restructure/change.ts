/** What is asked for, and what its parts hand on. */
import type { Built } from "../convert/verify.ts";

/** The new frames in their order: each an old one by its index, or a dark one. */
export interface FramesChange {
  readonly kind: "frames";
  readonly order: readonly (number | "dark")[];
}

/** Columns and rows that are added, dark, at each side; negative ones are cut off. */
export interface SizeChange {
  readonly kind: "size";
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** The speed that the annotation states, in frames a second. */
export interface SpeedChange {
  readonly kind: "speed";
  readonly fps: number;
}

export type Restructuring = FramesChange | SizeChange | SpeedChange;

/** What is to be written, and what of the bitmap must be read from it. */
export interface Restructured extends Built {
  readonly widths?: readonly number[] | undefined;
  /** Other arrays that change with it, by name. */
  readonly others?: readonly string[];
}

/** More pixels than that are not restructured: 1,048,576. */
export const MOST_PIXELS = 1 << 20;

/** The frame that a dark one takes its setting from: the one before it in the new order, else the next. */
export function modelOf(order: FramesChange["order"], at: number): number {
  for (let i = at - 1; i >= 0; i--) if (order[i] !== "dark") return order[i] as number;
  return (order.find((frame) => frame !== "dark") ?? 0) as number;
}
