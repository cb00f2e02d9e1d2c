/** How bright each number of a bitmap is: its pixels' values to a few levels that look evenly stepped. */
import { linearToSrgb } from "../shared/light/lightness.ts";
import type { BitmapInfo, BitmapLines } from "../shared/protocol/lsp.ts";

/** Levels above dark; level 0 is dark. */
export const LEVELS = 16;

/** The tint of panels that have none. */
export const WHITE = "#ffffff";

/** Ranges of written numbers, in the editor's own form. */
export interface Heat<R> {
  /** By the colour of their light (`#rrggbb`) and by their level; dark ones are left out. */
  readonly byTint: ReadonlyMap<string, readonly (readonly R[])[]>;
  /** Those over the cap. */
  readonly beyond: readonly R[];
}

/**
 * The raw value that is shown as full light: the cap, the format's highest for one bit, else the peak of all frames,
 * so that it does not depend on what is in view.
 */
export function fullValue({ most, cap, drive }: BitmapInfo, peak = most): number {
  if (most === 1) return 1;
  return Math.max(1, cap === undefined ? peak : cap / drive);
}

/** The level of a share (0–1) of full light. Any light has a level above dark. */
export function levelOf(share: number): number {
  return share > 0 ? Math.max(1, Math.round(linearToSrgb(Math.min(1, share)) * LEVELS)) : 0;
}

/** The written numbers of some lines; one that holds several pixels has their mean light. */
export function heatOf<R>(
  bitmap: BitmapInfo,
  full: number,
  lines: BitmapLines["numbers"],
  make: (line: number, from: number, to: number) => R,
): Heat<R> {
  const { cap, drive, tint = WHITE } = bitmap;
  const limit = cap === undefined ? Number.POSITIVE_INFINITY : cap / drive;
  const beyond: R[] = [];
  const levels = Array.from({ length: LEVELS + 1 }, (): R[] => []);
  // Thousands of numbers have a few values.
  const known = new Map<number, number>();
  for (const { line, numbers } of lines) {
    for (let i = 0; i + 3 < numbers.length; i += 4) {
      const mean = numbers[i + 2] as number;
      const level = known.get(mean) ?? levelOf(mean / full);
      known.set(mean, level);
      if (level === 0) continue;
      const column = numbers[i] as number;
      const range = make(line, column, column + (numbers[i + 1] as number));
      levels[level]?.push(range);
      if ((numbers[i + 3] as number) > limit) beyond.push(range);
    }
  }
  return { byTint: new Map([[tint, levels]]), beyond };
}
