/** Dithering: amounts of light to the levels at hand, so that their mean over an area stays. */

export type OrderedSide = 2 | 4 | 8;

/** Matrices of the steps 1 to side², row by row (Bayer 1973; ImageMagick's threshold maps o2x2, o4x4 and o8x8). */
const MATRICES: Readonly<Record<OrderedSide, readonly (readonly number[])[]>> = {
  2: [
    [1, 3],
    [4, 2],
  ],
  4: [
    [1, 9, 3, 11],
    [13, 5, 15, 7],
    [4, 12, 2, 10],
    [16, 8, 14, 6],
  ],
  8: [
    [1, 49, 13, 61, 4, 52, 16, 64],
    [33, 17, 45, 29, 36, 20, 48, 32],
    [9, 57, 5, 53, 12, 60, 8, 56],
    [41, 25, 37, 21, 44, 28, 40, 24],
    [3, 51, 15, 63, 2, 50, 14, 62],
    [35, 19, 47, 31, 34, 18, 46, 30],
    [11, 59, 7, 55, 10, 58, 6, 54],
    [43, 27, 39, 23, 42, 26, 38, 22],
  ],
};

/**
 * Level 0 to `top` of a sample, by the matrix step at x,y. With divisor d = side² + 1 the sample makes
 * q = floor(v·(top·(d − 1) + 1) / most) parts; each d − 1 of them are a level, and the rest one more where it reaches
 * the step. So for two levels: lit where v·d ≥ step·most.
 */
export function orderedLevel(
  sample: number,
  most: number,
  top: number,
  side: OrderedSide,
  x: number,
  y: number,
): number {
  const parts = side * side;
  const q = Math.floor((sample * (top * parts + 1)) / most);
  const whole = Math.floor(q / parts);
  const step = MATRICES[side][y % side]?.[x % side] as number;
  return Math.min(top, whole + (q - whole * parts >= step ? 1 : 0));
}

/** What stands for a sample: a value of the caller's, and the sample (0–255) of each channel that it shows. */
export interface Shown {
  readonly value: number;
  readonly shown: readonly number[];
}

/**
 * Floyd and Steinberg's error diffusion (Proc. SID 17(2), 1976: 7 3 5 1 of 16 to the right and below), in raster order
 * and whole numbers as Pillow's `convert("1")` does it: errors are sixteenths, cut off towards 0, and the last column
 * of a row hands on nothing to its right.
 * `samples` has `channels` whole numbers (0–255) a pixel; `nearest` chooses for them as corrected by the errors.
 */
export function diffused(
  samples: ArrayLike<number>,
  width: number,
  height: number,
  channels: number,
  nearest: (corrected: readonly number[]) => Shown,
): Uint32Array {
  const out = new Uint32Array(width * height);
  const rows = Array.from({ length: channels }, () => new Int32Array(width + 1));
  const carried = Array.from({ length: channels }, () => ({ l: 0, l0: 0, l1: 0 }));
  const wanted: number[] = new Array(channels).fill(0);
  for (let y = 0; y < height; y++) {
    for (const error of carried) Object.assign(error, { l: 0, l0: 0, l1: 0 });
    for (let x = 0; x < width; x++) {
      const at = (y * width + x) * channels;
      for (let c = 0; c < channels; c++) {
        const below = (rows[c] as Int32Array)[x + 1] as number;
        const error = Math.trunc(((carried[c] as { l: number }).l + below) / 16);
        wanted[c] = Math.max(0, Math.min(255, (samples[at + c] as number) + error));
      }
      const { value, shown } = nearest(wanted);
      out[y * width + x] = value;
      for (let c = 0; c < channels; c++) {
        const error = carried[c] as { l: number; l0: number; l1: number };
        const row = rows[c] as Int32Array;
        const left = (wanted[c] as number) - (shown[c] as number);
        row[x] = 3 * left + error.l0;
        error.l0 = 5 * left + error.l1;
        error.l1 = left;
        error.l = 7 * left;
      }
    }
    for (let c = 0; c < channels; c++) (rows[c] as Int32Array)[width] = (carried[c] as { l0: number }).l0;
  }
  return out;
}
