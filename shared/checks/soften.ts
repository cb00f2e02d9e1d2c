/**
 * Animations with softer steps. What a pixel shows is split, in linear light, into what it is over a second (the mean of
 * the frames around, going round) and its quick changes about that; the quick changes are made smaller, as much as it
 * takes. Slow motion stays as it is.
 */
import type { PixelChange } from "../bitmap/edit.ts";
import type { Bitmap } from "../bitmap/resolve.ts";
import { pixelsOf } from "../bitmap/resolve.ts";
import { levelOfLight, lightOfLevel } from "../light/screen.ts";
import { packRgb, rgbOf } from "../pixels/colour.ts";
import type { Shown } from "./flashing.ts";

/** Pixels times frames at most: a fix is worked out while its menu opens. */
const MOST_PIXELS = 20_000;
/** Shares that are tried: so many steps from 0 to 1. */
const STEPS = 64;

export interface Softened {
  /** What is left of the quick changes, 0–1. */
  readonly share: number;
  readonly changes: readonly PixelChange[];
}

/**
 * The softest change that `flashes` no more finds fault with; undefined where there is none, and for pixels that have no
 * levels in between or take their colours from a palette.
 */
export function softened(bitmap: Bitmap, fps: number, flashes: (shown: Shown) => boolean): Softened | undefined {
  const { frames, width, height, format } = bitmap;
  if (format.kind === "mono" || format.kind === "palette") return undefined;
  if (width * height * frames > MOST_PIXELS) return undefined;
  const before: ArrayLike<number>[] = [];
  for (let frame = 0; frame < frames; frame++) before.push(pixelsOf(bitmap, frame) ?? []);
  const soften = softener(bitmap, before, fps);
  const order = before.map((_, frame) => frame);
  const passes = (step: number) => {
    const after = soften(step / STEPS);
    return flashes({ frames, order, loop: true, pixels: (frame) => after[frame] }) ? undefined : after;
  };
  let [calm, wild] = [-1, STEPS];
  while (wild - calm > 1) {
    const middle = Math.floor((calm + wild) / 2);
    if (passes(middle)) calm = middle;
    else wild = middle;
  }
  const after = calm < 0 ? undefined : passes(calm);
  if (!after) return undefined;
  return { share: calm / STEPS, changes: changesTo(bitmap, before, after) };
}

/** Raw values of all frames with a share of their quick changes left. */
function softener(bitmap: Bitmap, before: readonly ArrayLike<number>[], fps: number): (share: number) => Uint32Array[] {
  const { format, light } = bitmap;
  const { full } = format;
  const colour = format.kind === "rgb";
  const channels = colour ? 3 : 1;
  const count = (before[0]?.length ?? 0) * channels;
  const lights = before.map((pixels) => {
    const out = new Float64Array(count);
    for (let i = 0; i < pixels.length; i++) {
      const value = pixels[i] as number;
      const rgb = colour ? rgbOf(format, value) : value;
      for (let c = 0; c < channels; c++)
        out[i * channels + c] = lightOfLevel(colour ? (rgb >> (16 - 8 * c)) & 255 : rgb, full, light);
    }
    return out;
  });
  const means = meansOver(lights, Math.max(1, Math.round(fps)));
  const level = (share: number) => Math.round(levelOfLight(Math.min(1, Math.max(0, share)), full, light));
  return (share) =>
    lights.map((own, frame) => {
      const mean = means[frame] as Float64Array;
      const at = (i: number) => level((mean[i] as number) + share * ((own[i] as number) - (mean[i] as number)));
      return Uint32Array.from({ length: count / channels }, (_, i) =>
        colour ? packRgb(format, (at(3 * i) << 16) | (at(3 * i + 1) << 8) | at(3 * i + 2)) : at(i),
      );
    });
}

/** Of each frame the mean of so many frames around it, going round. */
function meansOver(frames: readonly Float64Array[], span: number): Float64Array[] {
  const { length } = frames;
  const at = (i: number) => frames[((i % length) + length) % length] as Float64Array;
  const sum = new Float64Array(frames[0]?.length ?? 0);
  const add = (frame: Float64Array, sign: 1 | -1) => {
    for (let i = 0; i < sum.length; i++) sum[i] = (sum[i] as number) + sign * (frame[i] as number);
  };
  const back = Math.floor(span / 2);
  for (let i = 0; i < span; i++) add(at(i - back), 1);
  return frames.map((_, frame) => {
    const mean = sum.map((value) => value / span);
    add(at(frame - back), -1);
    add(at(frame - back + span), 1);
    return mean;
  });
}

function changesTo({ width }: Bitmap, before: readonly ArrayLike<number>[], after: readonly Uint32Array[]) {
  const changes: PixelChange[] = [];
  for (const [frame, pixels] of after.entries())
    for (let i = 0; i < pixels.length; i++) {
      const value = pixels[i] as number;
      if (value !== before[frame]?.[i]) changes.push({ frame, x: i % width, y: Math.floor(i / width), value });
    }
  return changes;
}
