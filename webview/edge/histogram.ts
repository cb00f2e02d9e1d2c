/** How often each value comes in a mask, in bars, and where values stand on a ruler. */

/** Bars over 0 to 255. */
export const BARS = 64;

/** Pixels in each bar, four values wide. */
export function barsOf(mask: ArrayLike<number>): Uint32Array {
  const bars = new Uint32Array(BARS);
  for (let i = 0; i < mask.length; i++)
    bars[((mask[i] as number) * BARS) >> 8] = (bars[((mask[i] as number) * BARS) >> 8] as number) + 1;
  return bars;
}

export interface Ruler {
  readonly least: number;
  readonly most: number;
  /** Size in CSS pixels. */
  readonly width: number;
}

/** A ruler over the mask's values and all where the edge may stand, with room for its flanks at both ends. */
export function rulerFor({ from, to, soft }: { from: number; to: number; soft: number }, width: number): Ruler {
  const [low, high] = [Math.min(from, to, -soft, 0), Math.max(from, to, 255 + soft, 255)];
  const room = Math.max(8, Math.round((high - low) / 20));
  return { least: low - room, most: high + room, width };
}

export function xOf({ least, most, width }: Ruler, value: number): number {
  return Math.round(((value - least) * width * 10) / (most - least)) / 10;
}

export function valueAt({ least, most, width }: Ruler, x: number): number {
  return Math.round(least + (x * (most - least)) / width);
}
