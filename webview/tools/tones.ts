/** Raw values between others: what opacity, gradients and steps make of them, for greys and channel by channel for colours. */
import { lightness, lightOfLightness, linearToSrgb, srgbToLinear } from "../../shared/light/lightness.ts";
import { fieldsOf } from "../../shared/pixels/colour.ts";
import type { BitmapInfo } from "../../shared/protocol/lsp.ts";
import { rungs, stepLevel } from "../levels.ts";

/** From one raw value to another; `share` is 0–1. Results are rounded, and never above the format's highest value. */
type Blend = (from: number, to: number, share: number) => number;

export interface Tones {
  /** In equal steps of the raw value. */
  readonly blend: Blend;
  /** In equal steps of CIE lightness, channel by channel. */
  readonly even: Blend;
  /** The next rung lighter (`by` = 1) or darker (`by` = -1); lighter only up to the cap. */
  readonly step: (value: number, by: 1 | -1) => number;
}

const known = new WeakMap<BitmapInfo, Tones>();

/** Undefined for indices of a palette, which have nothing in between. */
export function tonesOf(bitmap: BitmapInfo): Tones | undefined {
  if (bitmap.kind === "palette") return undefined;
  const tones = known.get(bitmap) ?? (bitmap.kind === "rgb" ? rgbTones(bitmap) : greyTones(bitmap));
  known.set(bitmap, tones);
  return tones;
}

function greyTones(bitmap: BitmapInfo): Tones {
  return channelTones(bitmap.most, bitmap.light, bitmap.limit);
}

function rgbTones({ format, light, limit }: BitmapInfo): Tones {
  const channels = fieldsOf(format).map(([shift, most]) => {
    const own = limit === undefined ? undefined : highestWithin(most, limit);
    return { shift, most, ...channelTones(most, light, own) };
  });
  const each = (change: (channel: (typeof channels)[number], part: (value: number) => number) => number) =>
    channels.reduce((out, channel) => {
      const part = (value: number) => (value >> channel.shift) & channel.most;
      return out | (change(channel, part) << channel.shift);
    }, 0);
  return {
    blend: (from, to, share) => each((c, part) => c.blend(part(from), part(to), share)),
    even: (from, to, share) => each((c, part) => c.even(part(from), part(to), share)),
    step: (value, by) => each((c, part) => c.step(part(value), by)),
  };
}

/** Highest value of a channel that is shown by no more than `limit` of 255. */
function highestWithin(most: number, limit: number): number {
  let value = most;
  while (value > 0 && Math.round((255 * value) / most) > limit) value--;
  return value;
}

function channelTones(most: number, light: BitmapInfo["light"], limit: number | undefined): Tones {
  const tone = (value: number) => lightness(light === "srgb" ? srgbToLinear(value / most) : value / most);
  const codeOf = (lightnessValue: number) => {
    const linear = lightOfLightness(lightnessValue);
    return most * (light === "srgb" ? linearToSrgb(linear) : linear);
  };
  const ladder = rungs(most, limit !== undefined && limit < most ? limit : undefined);
  const steps = new Map<number, number>();
  return {
    blend: (from, to, share) => Math.round(from + (to - from) * share),
    even: (from, to, share) => {
      // Exact at both ends, whatever the powers lose.
      if (share <= 0) return from;
      if (share >= 1) return to;
      return Math.round(codeOf(tone(from) + (tone(to) - tone(from)) * share));
    },
    step: (value, by) => {
      const key = by * (value + 1);
      let next = steps.get(key);
      if (next === undefined) {
        next = stepLevel(value, by, ladder);
        if (by > 0 && limit !== undefined && next > limit) next = Math.max(value, limit);
        steps.set(key, next);
      }
      return next;
    },
  };
}
