/** Samples to raw values of a format: cap, threshold, dithering, nearest level or colour. */
import { highest } from "../light/limit.ts";
import { fieldsOf, nearestColour, packRgb, packWithin, rgbOf } from "../pixels/colour.ts";
import type { OrderedSide, Shown } from "../pixels/dither.ts";
import { diffused, orderedLevel } from "../pixels/dither.ts";
import type { Format } from "../pixels/formats.ts";
import type { Pixels } from "../pixels/picture.ts";
import type { Plane } from "./channel.ts";
import type { Choices, OverCap } from "./choices.ts";

/** All that gives a raw value its meaning. */
export interface Scale {
  readonly format: Format;
  readonly cap: number | undefined;
  readonly drive: number;
  /** Colours of a palette format, 0xRRGGBB. */
  readonly colours?: ArrayLike<number> | undefined;
}

type Size = { readonly width: number; readonly height: number };

/** Highest level allowed: a raw value, or for colours each channel in eight bits. */
export function topOf(scale: Scale): number {
  return scale.format.kind === "mono" ? 1 : (highest(scale) ?? scale.format.full);
}

/** `floor(sample · to / from + 0.5)`: the nearest sample in another depth (PNG Third Edition, 13.12). */
function rescaled(sample: number, from: number, to: number): number {
  return Math.floor((sample * to) / from + 0.5);
}

/** Whether some level of these samples would be over the cap if white stayed full. */
export function isOverCap(planes: readonly Plane[], scale: Scale): boolean {
  const top = topOf(scale);
  const { full } = scale.format;
  return top < full && planes.some(({ data, most }) => data.some((sample) => rescaled(sample, most, full) > top));
}

/** The raw values of a frame. `overCap` says whether white becomes the highest level allowed, or what is above it does. */
export function rawValues(plane: Plane, size: Size, scale: Scale, choices: Choices, overCap: OverCap): Pixels {
  return plane.channels === 1 && (scale.format.kind === "mono" || scale.format.kind === "gray")
    ? greyValues(plane, size, scale, choices, overCap)
    : colourValues(plane, size, scale, choices, overCap);
}

function greyValues({ data, most }: Plane, size: Size, scale: Scale, choices: Choices, overCap: OverCap): Pixels {
  const top = topOf(scale);
  // Where levels are clamped, a step is that of the whole format.
  const steps = overCap === "scale" || scale.format.kind === "mono" ? top : scale.format.full;
  const within = (level: number) => Math.min(top, level);
  const out = new Uint32Array(size.width * size.height);
  const side = sideOf(choices);
  const { threshold } = choices;
  if (side !== undefined) {
    for (let i = 0; i < out.length; i++) {
      const [x, y] = [i % size.width, Math.floor(i / size.width)];
      out[i] = within(orderedLevel(data[i] as number, most, steps, side, x, y));
    }
    return out;
  }
  if (choices.dither === "floyd-steinberg") {
    const samples = Uint8Array.from(data, (sample) => rescaled(sample, most, 255));
    return diffused(samples, size.width, size.height, 1, ([sample = 0]) => {
      if (steps > 1) {
        const level = within(rescaled(sample, 255, steps));
        return { value: level, shown: [rescaled(level, steps, 255)] };
      }
      const lit = threshold === undefined ? sample > 128 : sample >= 255 * threshold;
      return { value: Number(lit), shown: [lit ? 255 : 0] };
    });
  }
  for (let i = 0; i < out.length; i++) {
    const sample = data[i] as number;
    if (threshold !== undefined) out[i] = sample >= threshold * most ? top : 0;
    else out[i] = within(rescaled(sample, most, steps));
  }
  return out;
}

function colourValues(plane: Plane, size: Size, scale: Scale, choices: Choices, overCap: OverCap): Pixels {
  const { format, colours } = scale;
  const limit = topOf(scale);
  const samples = eightBits(plane, overCap === "scale" ? limit : 255);
  const palette = format.kind === "palette" ? Array.from(colours ?? []) : undefined;
  const index = nearestColour(palette ?? []);
  const nearest = palette ? index : (rgb: number) => packWithin(format, rgb, limit);
  const side = palette ? undefined : sideOf(choices);
  if (choices.dither === "floyd-steinberg") {
    const shown = (value: number) => channelsOf(rgbOf(format, value, colours));
    const choose = ([r = 0, g = 0, b = 0]: readonly number[]): Shown => {
      const value = nearest((r << 16) | (g << 8) | b);
      return { value, shown: shown(value) };
    };
    return diffused(samples, size.width, size.height, 3, choose);
  }
  const known = new Map<number, number>();
  return Uint32Array.from({ length: size.width * size.height }, (_, i) => {
    const [r, g, b] = [samples[3 * i] as number, samples[3 * i + 1] as number, samples[3 * i + 2] as number];
    if (side !== undefined)
      return orderedColour(format, [r, g, b], limit, side, i % size.width, Math.floor(i / size.width));
    const rgb = (r << 16) | (g << 8) | b;
    const value = known.get(rgb) ?? nearest(rgb);
    known.set(rgb, value);
    return value;
  });
}

/** Each channel by itself, within the limit. */
function orderedColour(
  format: Format,
  rgb: readonly number[],
  limit: number,
  side: OrderedSide,
  x: number,
  y: number,
): number {
  return fieldsOf(format.name).reduce((value, [shift, most], c) => {
    let level = orderedLevel(rgb[c] as number, 255, most, side, x, y);
    while (level > 0 && rescaled(level, most, 255) > limit) level--;
    return value | (level << shift);
  }, 0);
}

/** Three channels a pixel of 0 to `top`; a grey is three like ones. */
export function eightBits({ data, most, channels }: Plane, top = 255): Uint8Array {
  const out = new Uint8Array((data.length / channels) * 3);
  for (let i = 0; i < out.length; i++)
    out[i] = rescaled(data[channels === 3 ? i : Math.floor(i / 3)] as number, most, top);
  return out;
}

/** The colour that a format with channels shows for another, and within the limit. */
export function heldColour(format: Format, rgb: number, limit: number): number {
  return rgbOf(format, limit >= 255 ? packRgb(format, rgb) : packWithin(format, rgb, limit));
}

function channelsOf(rgb: number): number[] {
  return [rgb >> 16, (rgb >> 8) & 255, rgb & 255];
}

/** The side of the matrix; undefined for no ordered dithering. */
export function sideOf({ dither }: Choices): OrderedSide | undefined {
  const [, side] = /^ordered-([248])$/.exec(dither ?? "") ?? [];
  return side === undefined ? undefined : (Number(side) as OrderedSide);
}
