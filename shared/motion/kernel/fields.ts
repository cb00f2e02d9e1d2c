/** Built-in masks: a value from 0 to 255 for each pixel, row by row. */

export type FieldKind = "radial" | "linear" | "angular" | "diamond" | "noise";

export interface Field {
  readonly kind: FieldKind;
  /** Degrees clockwise as it is seen: where `linear` rises to (0: to the right), where `angular` begins (0: at the top). */
  readonly angle: number;
  /** Of `noise`: which of the random orders. */
  readonly seed: number;
}

/**
 * - `radial`: round(255·(1 − d/dmax)), d from the middle of the picture, dmax that of a corner pixel.
 * - `diamond`: the same with columns and rows added up, d = |x| + |y|.
 * - `linear`: rises evenly from 0 to 255 between the outermost pixels in the direction of the angle.
 * - `angular`: round(255 · turn), the share of a turn clockwise from the angle on; a pixel right in the middle is 255.
 * - `noise`: the pixels in a random order, spread evenly over 0 to 255, so that each step uncovers as many.
 */
export function fieldOf(width: number, height: number, { kind, angle, seed }: Field): Uint8Array {
  if (kind === "noise") return noise(width * height, seed);
  const [right, down] = [width - 1, height - 1];
  const out = new Uint8Array(width * height);
  const share = shareAt(kind, right, down, angle);
  // Twice the distance from the middle is a whole number, also where the middle lies between pixels.
  for (let i = 0; i < out.length; i++)
    out[i] = Math.round(255 * share(2 * (i % width) - right, 2 * Math.floor(i / width) - down));
  return out;
}

/** Share of 255 at a place, counted in half pixels from the middle. `right` and `down`: where the corner pixel is. */
function shareAt(
  kind: Exclude<FieldKind, "noise">,
  right: number,
  down: number,
  angle: number,
): (x: number, y: number) => number {
  switch (kind) {
    case "radial":
      return (x, y) => 1 - part(Math.sqrt(x * x + y * y), Math.sqrt(right * right + down * down));
    case "diamond":
      return (x, y) => 1 - part(Math.abs(x) + Math.abs(y), right + down);
    case "linear": {
      const [across, along] = direction(angle);
      const far = right * Math.abs(across) + down * Math.abs(along);
      return (x, y) => part(x * across + y * along + far, 2 * far);
    }
    case "angular":
      return (x, y) => (x === 0 && y === 0 ? 1 : turn(x, y, angle));
  }
}

/** A picture of one pixel has no distances: all of it is the middle. */
function part(of: number, whole: number): number {
  return whole === 0 ? 0 : of / whole;
}

/** Columns and rows per step in a direction; rounded, as the sine of half a turn is not quite 0 in floating point. */
function direction(angle: number): [number, number] {
  const radians = (angle * Math.PI) / 180;
  const round = (n: number) => Math.round(n * 1e12) / 1e12;
  return [round(Math.cos(radians)), round(Math.sin(radians))];
}

/** Share of a turn, clockwise from the top and the angle. */
function turn(x: number, y: number, angle: number): number {
  const degrees = (Math.atan2(x, -y) * 180) / Math.PI - angle;
  const share = (((degrees / 360) % 1) + 1) % 1;
  return share > 1 - 1e-9 ? 0 : share;
}

/** Each pixel's place in a random order. */
function noise(count: number, seed: number): Uint8Array {
  const order = Uint32Array.from({ length: count }, (_, i) => i);
  const next = xorshift(seed);
  // Fisher and Yates' shuffle, in Durstenfeld's form.
  for (let i = count - 1; i > 0; i--) {
    const other = next() % (i + 1);
    const kept = order[i] as number;
    order[i] = order[other] as number;
    order[other] = kept;
  }
  const out = new Uint8Array(count);
  for (let place = 0; place < count; place++)
    out[order[place] as number] = count === 1 ? 255 : Math.floor((510 * place + count - 1) / (2 * (count - 1)));
  return out;
}

/** Marsaglia, "Xorshift RNGs", J. Stat. Software 8(14), 2003: 32 bits, shifts 13, 17, 5. 0 never leaves 0: then 1. */
export function xorshift(seed: number): () => number {
  let y = seed >>> 0 || 1;
  return () => {
    y ^= y << 13;
    y ^= y >>> 17;
    y ^= y << 5;
    y >>>= 0;
    return y;
  };
}
