/** A frame before and after the cap holds it. */

import { insideAt } from "../../shared/motion/kernel/edge.ts";
import type { Moving } from "../../shared/motion/kernel/frame.ts";
import { pixelAt, sumAt } from "../../shared/motion/kernel/pixel.ts";

export interface Sums {
  readonly held: Uint32Array;
  readonly sums: Uint32Array;
  /** Pixels whose sum is above the cap. */
  readonly above: number;
  /** Pixels that are wholly covered, wholly uncovered, and on the way. */
  readonly dark: number;
  readonly shown: number;
}

export function sumsAt({ image, mask, edge, cap }: Moving, position: number): Sums {
  const held = new Uint32Array(image.length);
  const sums = new Uint32Array(image.length);
  let [above, dark, shown] = [0, 0, 0];
  for (let i = 0; i < image.length; i++) {
    const d = (mask[i] as number) - position;
    const sum = sumAt(edge, d, image[i] as number, 0);
    sums[i] = sum;
    held[i] = pixelAt(edge, d, image[i] as number, 0, cap);
    if (sum > cap) above++;
    const inside = insideAt(edge, d);
    if (inside === 0) dark++;
    else if (inside === 255 && d >= edge.soft) shown++;
  }
  return { held, sums, above, dark, shown };
}
