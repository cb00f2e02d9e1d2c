/**
 * Pixel values from one format to another, and which of them are no longer what they were.
 *
 * Levels are rescaled to the nearest, as the pictures of all formats are. A grey is a colour of three like channels; a
 * colour becomes the grey of its luminance, 0.2126 R + 0.7152 G + 0.0722 B (ITU-R BT.709, derivation of the luminance
 * signal: the same weights hold for linear light and for the code values of a screen).
 */

import { relativeLuminance } from "../../light/lightness.ts";
import { highest } from "../../light/limit.ts";
import { levelOf, packWithin, rgbOf } from "../../pixels/colour.ts";
import { greyOf, isColour } from "../../pixels/formats.ts";
import type { Bitmap } from "../resolve.ts";
import { pixelsOf } from "../resolve.ts";

/** All that gives a raw value its meaning. */
export type Scale = Pick<Bitmap, "format" | "cap" | "drive" | "palette">;

/** How often each raw value stands in the frames; counted once for each version of a bitmap. */
export function histogramOf(bitmap: Bitmap): ReadonlyMap<number, number> {
  const before = histograms.get(bitmap);
  if (before) return before;
  const counts = new Map<number, number>();
  for (let frame = 0; frame < bitmap.frames; frame++)
    for (const value of pixelsOf(bitmap, frame) ?? []) counts.set(value, (counts.get(value) ?? 0) + 1);
  histograms.set(bitmap, counts);
  return counts;
}

const histograms = new WeakMap<Bitmap, ReadonlyMap<number, number>>();

/** Highest level that is within the cap once it is driven; full light without a cap. */
export function topOf(scale: Scale): number {
  return highest(scale) ?? scale.format.full;
}

/** The level from which a pixel is lit where only lit and dark are left: half of the highest allowed. */
export function threshold(scale: Scale): number {
  return Math.max(1, Math.ceil(topOf(scale) / 2));
}

/** The value that means in `to` what it means in `from`. A value within the cap stays within it. */
export function converter(from: Scale, to: Scale): (value: number) => number {
  const { format, palette } = from;
  const rgb = (value: number) => rgbOf(format, value, palette?.colours);
  const within = (value: number) => levelOf(format, value, palette?.colours) <= topOf(from);
  const most = to.format.most;
  const limit = (value: number) => (within(value) ? Math.min(topOf(to), to.format.full) : to.format.full);
  if (to.format.kind === "mono") {
    const lit = threshold(from);
    if (format.kind === "mono") return (value) => value;
    return isColour(format) ? (value) => Number(luminance(rgb(value)) >= lit) : (value) => Number(value >= lit);
  }
  if (to.format.kind === "gray") {
    if (format.kind === "mono") return (value) => (value > 0 ? topOf(to) : 0);
    if (!isColour(format)) return (value) => Math.min(limit(value), Math.round((value * most) / format.most));
    return (value) => Math.min(limit(value), Math.round((luminance(rgb(value)) * most) / 255));
  }
  if (to.format.kind === "palette") return (value) => value;
  if (isColour(format)) return (value) => packWithin(to.format, rgb(value), limit(value));
  if (format.kind === "mono") return (value) => packWithin(to.format, value > 0 ? 0xffffff : 0, topOf(to));
  return (value) => packWithin(to.format, greyOf(format, value) * 0x010101, limit(value));
}

function luminance(rgb: number): number {
  // Rounding errors of the sum would move a grey off itself.
  return Math.round(1e6 * relativeLuminance(rgb >> 16, (rgb >> 8) & 255, rgb & 255)) / 1e6;
}

/** How many pixels look otherwise after the conversion. What is lit takes the one level that means lit. */
export function lost(bitmap: Bitmap, to: Scale): number {
  const { format, palette } = bitmap;
  const value = converter(bitmap, to);
  const lit = isColour(format) ? topOf(bitmap) * 0x010101 : topOf(bitmap);
  const shown = (v: number) => rgbOf(format, v, palette?.colours);
  const same = (before: number): boolean => {
    const now = value(before);
    if (format.kind === "mono") return now > 0 === before > 0;
    if (to.format.kind === "mono") return (isColour(format) ? shown(before) : before) === (now > 0 ? lit : 0);
    return rgbOf(to.format, now, to.palette?.colours) === shown(before);
  };
  let count = 0;
  for (const [before, pixels] of histogramOf(bitmap)) if (!same(before)) count += pixels;
  return count;
}
