/** Tables from levels that are even to the eye to the duty that shows them. */
import { lightOfLightness } from "./lightness.ts";

export interface TableSize {
  /** Bits of a level, 1 to 16: the table has 2 to that power entries. */
  readonly from: number;
  /** Bits of a duty, 1 to 16. */
  readonly to: number;
  /** Duty of the highest level, such as a cap; all bits set where missing. */
  readonly most?: number | undefined;
}

/** Most bits on either side. */
export const MOST_BITS = 16;

/**
 * Duty of each level: round(most · Y), where the lightness L* of Y goes from 0 to 100 in equal steps (CIE 1976
 * lightness, CIE 15:2018). Throws a RangeError for bits that there are not, and for a highest duty that they don't hold.
 */
export function lightnessTable({ from, to, most = 2 ** to - 1 }: TableSize): Uint16Array {
  for (const bits of [from, to])
    if (!Number.isInteger(bits) || bits < 1 || bits > MOST_BITS) throw new RangeError(`${bits} is not 1 to 16 bits`);
  if (!Number.isInteger(most) || most < 0 || most >= 2 ** to)
    throw new RangeError(`${most} does not fit in ${to} bits`);
  const last = 2 ** from - 1;
  return Uint16Array.from({ length: last + 1 }, (_, i) => Math.round(most * lightOfLightness((100 * i) / last)));
}
