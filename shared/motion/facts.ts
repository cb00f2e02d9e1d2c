/** Numbers about a motion: what it takes, where its ends are, and where a byte would wrap around. */

import type { Bitmap } from "../bitmap/resolve.ts";
import { highestOf } from "../pixels/picture.ts";
import { bytesOf, tablesOf } from "./firmware/tables.ts";
import type { Ingredient } from "./ingredients.ts";
import { coveredFrom, uncoveredTo } from "./kernel/edge.ts";
import type { Moving } from "./kernel/frame.ts";
import { frameAt } from "./kernel/frame.ts";
import { sumAt } from "./kernel/pixel.ts";
import type { Motion } from "./resolve.ts";

/** Bytes of one stored frame. */
export function bytesOfFrame({ array, layout }: Bitmap): number {
  const elements = layout ? layout.frameElements || Math.ceil(layout.elements / layout.frames) : 0;
  return (elements * (array.type?.bits ?? 8)) / 8;
}

/** Bytes of flash for the data that the function reads: its tables, the image and the mask. */
export function firmwareBytes(motion: Motion): number {
  const of = (one: Ingredient | undefined) =>
    one ? bytesOfFrame(one.bitmap) * (motion.glyphs ? one.bitmap.frames : 1) : 0;
  return bytesOf(tablesOf(motion)) + of(motion.image) + of(motion.mask);
}

export interface Ends {
  /** The lowest position that is wholly dark for this mask, and the highest that is wholly shown. */
  readonly dark: number;
  readonly shown: number;
  /** Which of the ends is not what it should be. */
  readonly wrong: readonly ("from" | "to")[];
}

/** The higher end is to be dark (or what the image is uncovered over), the lower one to show the image alone. */
export function endsOf(moving: Moving): Ends {
  const { mask, image, under, edge, cap, timeline } = moving;
  const [from = 0] = timeline.positions;
  const to = timeline.positions.at(-1) as number;
  let [least, most] = [255, 0];
  for (const value of mask) {
    least = Math.min(least, value);
    most = Math.max(most, value);
  }
  const is = (position: number, wanted: (i: number) => number) =>
    frameAt(moving, position).every((level, i) => level === Math.min(cap, wanted(i)));
  const wrong: ("from" | "to")[] = [];
  const [high, low] = from >= to ? (["from", "to"] as const) : (["to", "from"] as const);
  if (!is(Math.max(from, to), (i) => under?.[i] ?? 0)) wrong.push(high);
  if (!is(Math.min(from, to), (i) => image[i] as number)) wrong.push(low);
  return { dark: coveredFrom(edge, most), shown: uncoveredTo(edge, least), wrong };
}

export interface Sums {
  /** Sums above the highest value, over all frames, and the frames that have any. */
  readonly count: number;
  readonly frames: number;
  /** The highest of them. */
  readonly sum: number;
  readonly frame: number;
  readonly x: number;
  readonly y: number;
}

/** Where image and edge together pass the highest value that a pixel can hold; undefined where they never do. */
export function sumsAbove({ width, image, mask, under, edge, timeline }: Moving, most: number): Sums | undefined {
  let found: Sums | undefined;
  let [count, frames] = [0, 0];
  if (Math.max(highestOf(image), highestOf(under ?? [])) + edge.level <= most) return undefined;
  timeline.positions.forEach((position, frame) => {
    const before = count;
    for (let i = 0; i < image.length; i++) {
      const sum = sumAt(edge, (mask[i] as number) - position, image[i] as number, under?.[i] ?? 0);
      if (sum <= most) continue;
      count++;
      if (sum > (found?.sum ?? 0)) found = { count, frames, sum, frame, x: i % width, y: Math.floor(i / width) };
    }
    if (count > before) frames++;
  });
  return found && { ...found, count, frames };
}
