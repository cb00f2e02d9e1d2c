/** What a panel draws at most, of all bitmaps that are shown on it one at a time. */
import type { Bitmap } from "../bitmap/resolve.ts";
import { currentsOf } from "./current.ts";

export interface PanelCurrent {
  /** Milliamperes of the frame that draws most, and where it is. */
  readonly worst: number;
  readonly bitmap: Bitmap;
  readonly frame: number;
  /** Milliamperes in the mean of all frames of all bitmaps. */
  readonly mean: number;
  /** Bitmaps that were looked at. */
  readonly bitmaps: number;
}

/** An estimate; undefined where none of the bitmaps has a picture with a current. */
export function panelCurrent(bitmaps: readonly Bitmap[]): PanelCurrent | undefined {
  let worst: Omit<PanelCurrent, "mean" | "bitmaps"> | undefined;
  let [sum, frames, count] = [0, 0, 0];
  for (const bitmap of bitmaps) {
    const currents = currentsOf(bitmap);
    if (!currents) continue;
    sum += currents.mean * bitmap.frames;
    frames += bitmap.frames;
    count++;
    // A part of the panel leaves the rest of it dark, which draws too.
    const total = currents.worst + darkAround(bitmap);
    if (total > (worst?.worst ?? -1)) worst = { worst: total, bitmap, frame: currents.frame };
    sum += darkAround(bitmap) * bitmap.frames;
  }
  return worst && { ...worst, mean: sum / frames, bitmaps: count };
}

/** What the pixels of the panel draw that a smaller bitmap does not cover. */
function darkAround({ panel, width, height, options: { idle = 0 } }: Bitmap): number {
  const { width: wide = width, height: high = height } = panel?.options ?? {};
  return idle * Math.max(0, wide * high - width * height);
}
