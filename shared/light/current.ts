/**
 * Estimated current of a picture. A lit pixel draws the current of its channels, each by its share of time lit; where
 * `full` is the peak of a scanned display, a row has it only while it is driven (`duty`). A dark pixel draws `idle`.
 * Always an estimate: parts, cables and supplies differ.
 */

import { rgbOf } from "../pixels/colour.ts";
import type { Format } from "../pixels/formats.ts";
import { isColour } from "../pixels/formats.ts";
import { remembered } from "./remembered.ts";
import type { LightOfLevel } from "./screen.ts";
import { lightOfLevel } from "./screen.ts";

export interface Supply {
  /** Milliamperes of one channel at full value. */
  readonly full: number;
  /** Milliamperes of a dark pixel. */
  readonly idle: number;
  /** Share of time that a row is driven, above 0 and up to 1. */
  readonly duty: number;
}

/** Milliamperes of a pixel whose channels give these shares (0–1) of full light. */
export function currentOfPixel(shares: readonly number[], { full, idle, duty }: Supply): number {
  let sum = 0;
  for (const share of shares) sum += share;
  return sum > 0 ? full * duty * sum : idle;
}

/** What raw values mean, as far as their current depends on it. */
export interface Driven {
  readonly format: Pick<Format, "name" | "kind" | "most" | "full">;
  readonly light: LightOfLevel;
  /** Share of full scale that the firmware drives. */
  readonly drive: number;
  readonly colours?: ArrayLike<number> | undefined;
}

/** Milliamperes of a pixel by its raw value. `dimmed`: what levels are changed to first. */
export function currentOfValue(
  { format, light, drive, colours }: Driven,
  supply: Supply,
  dimmed: (level: number) => number = (level) => level,
): (value: number) => number {
  const share = (level: number) => lightOfLevel(dimmed(level) * drive, format.full, light);
  return remembered((value) => {
    if (!isColour(format)) return currentOfPixel([share(value)], supply);
    const rgb = rgbOf(format, value, colours);
    return currentOfPixel([share(rgb >> 16), share((rgb >> 8) & 255), share(rgb & 255)], supply);
  });
}

/** Milliamperes of a frame that has so many pixels of each raw value. */
export function currentOfFrame(counts: ReadonlyMap<number, number>, ofValue: (value: number) => number): number {
  let total = 0;
  for (const [value, count] of counts) total += count * ofValue(value);
  return total;
}

/** `250 mA`, `1.2 A`. */
export function milliamperes(value: number): string {
  if (value >= 1000) return `${Math.round(value / 100) / 10} A`;
  return `${value < 10 ? Math.round(value * 10) / 10 : Math.round(value)} mA`;
}
