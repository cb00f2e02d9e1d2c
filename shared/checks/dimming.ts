/** Raw values brought down to less light, as fixes write them. */
import type { Bitmap } from "../bitmap/resolve.ts";
import type { Way } from "../light/dim.ts";
import { dimmer, shareFor } from "../light/dim.ts";
import { remembered } from "../light/remembered.ts";
import { levelOf, packBelow, packWithin, rgbOf } from "../pixels/colour.ts";
import { isColour } from "../pixels/formats.ts";

/** Why a bitmap's values can't be brought down by a fix; undefined where they can. */
export function whyNotDimmed({ format }: Bitmap): string | undefined {
  if (format.kind === "mono") return "between dark and lit there is nothing";
  return format.kind === "palette" ? "the colours of its palette may serve other bitmaps too" : undefined;
}

/** Raw values within a limit: `peak` comes down to it, and none is above. */
export function dimmedTo(bitmap: Bitmap, way: Way, peak: number, limit: number): (value: number) => number {
  const { format, light } = bitmap;
  const scale = { full: format.full, light };
  const dim = remembered(dimmer(way, shareFor(way, peak, limit, scale), scale));
  const level = (from: number) => Math.min(limit, stillLit(way, from, Math.round(dim(from))));
  if (!isColour(format)) return level;
  if (way === "clamp") return (value) => packWithin(format, rgbOf(format, value), limit);
  return (value) => packWithin(format, scaled(rgbOf(format, value), levelOf(format, value), dim, Math.round), limit);
}

/** Raw values brought down by a share (see `dimmer`), rounded down. */
export function dimmedBy(bitmap: Bitmap, way: Way, share: number): (value: number) => number {
  const { format, light } = bitmap;
  const dim = remembered(dimmer(way, share, { full: format.full, light }));
  const level = (from: number) => stillLit(way, from, Math.floor(dim(from) + 1e-9));
  if (!isColour(format)) return level;
  if (way === "clamp") return (value) => packBelow(format, each(rgbOf(format, value), level));
  return (value) => packBelow(format, scaled(rgbOf(format, value), levelOf(format, value), dim, Math.floor));
}

/** Dim pixels are not to drown where steps are kept even. */
function stillLit(way: Way, from: number, to: number): number {
  return way === "even" && from > 0 ? Math.max(1, to) : to;
}

/** A colour whose brightest channel is `peak`, all channels scaled alike, so that it stays the same colour. */
function scaled(rgb: number, peak: number, dim: (level: number) => number, whole: (level: number) => number): number {
  const share = peak > 0 ? dim(peak) / peak : 0;
  return each(rgb, (channel) => whole(channel * share + 1e-9));
}

function each(rgb: number, of: (channel: number) => number): number {
  return (of(rgb >> 16) << 16) | (of((rgb >> 8) & 255) << 8) | of(rgb & 255);
}
