/** How bright each number of a bitmap is: its pixels' values to a few levels that look evenly stepped. */
import { linearToSrgb } from "../shared/light/lightness.ts";
import type { BitmapInfo, BitmapLines } from "../shared/protocol/lsp.ts";
import { hexOf, isColour } from "./colours.ts";

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
export function fullValue(bitmap: BitmapInfo, peak = bitmap.most): number {
  const { most, cap, drive } = bitmap;
  if (isColour(bitmap)) return bitmap.full;
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
  const { limit = Number.POSITIVE_INFINITY, tint = WHITE } = bitmap;
  const coloured = isColour(bitmap);
  const beyond: R[] = [];
  const byTint = new Map<string, R[][]>();
  const levelsOf = (hue: string) => {
    const levels = byTint.get(hue) ?? Array.from({ length: LEVELS + 1 }, (): R[] => []);
    byTint.set(hue, levels);
    return levels;
  };
  if (!coloured) levelsOf(tint);
  // Thousands of numbers have a few values.
  const known = new Map<number, R[] | undefined>();
  const rangesOf = (mean: number): R[] | undefined => {
    if (coloured) {
      const { hue, level } = hueOf(mean);
      return level > 0 ? levelsOf(hue)[level] : undefined;
    }
    const level = levelOf(mean / full);
    return level > 0 ? levelsOf(tint)[level] : undefined;
  };
  for (const { line, numbers } of lines) {
    for (let i = 0; i + 3 < numbers.length; i += 4) {
      const mean = numbers[i + 2] as number;
      if (!known.has(mean)) known.set(mean, rangesOf(mean));
      const ranges = known.get(mean);
      if (!ranges) continue;
      const column = numbers[i] as number;
      const range = make(line, column, column + (numbers[i + 1] as number));
      ranges.push(range);
      if ((numbers[i + 3] as number) > limit) beyond.push(range);
    }
  }
  return { byTint, beyond };
}

/** A colour (0xRRGGBB) as a pure hue and a level, both in few steps: the types of decoration are made of them. */
function hueOf(colour: number): { hue: string; level: number } {
  const channels = [colour >> 16, (colour >> 8) & 255, colour & 255];
  const brightest = Math.max(...channels);
  if (brightest === 0) return { hue: WHITE, level: 0 };
  const [r = 0, g = 0, b = 0] = channels.map((c) => Math.round((3 * c) / brightest) / 3);
  return { hue: hexOf([r, g, b]), level: Math.max(1, Math.ceil((4 * brightest) / 255)) * (LEVELS / 4) };
}
