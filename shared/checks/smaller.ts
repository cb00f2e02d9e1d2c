/** A format in which a picture takes fewer bytes and loses nothing. */
import type { Bitmap } from "../bitmap/resolve.ts";
import { pixelsOf } from "../bitmap/resolve.ts";
import { packRgb, rgbOf } from "../pixels/colour.ts";
import type { Format } from "../pixels/formats.ts";
import { FORMATS } from "../pixels/formats.ts";
import { counted } from "./rules.ts";

export interface Smaller {
  readonly format: Format;
  /** Why it is enough, in words. */
  readonly why: string;
  /** Bytes that it would take, those of a palette included. */
  readonly bytes: number;
}

/** Different colours of the largest palette. */
const MOST_COLOURS = 256;

/** The smallest such format; undefined where there is none. */
export function smallerFormat(bitmap: Bitmap, now: number): Smaller | undefined {
  const { format } = bitmap;
  const used = format.kind === "gray" || format.kind === "rgb" ? valuesOf(bitmap) : undefined;
  // What is all of one value is not drawn yet, or the business of `uniform`.
  if (!used || used.size < 2) return undefined;
  const found = [...FORMATS.values()].flatMap((to): Smaller[] => {
    if (to.depth >= format.depth) return [];
    const why = format.kind === "gray" ? levelsFit(format, to, used) : coloursFit(format, to, used);
    const own = to.kind === "palette" ? (used.size * format.depth) / 8 : 0;
    return why === undefined ? [] : [{ format: to, why, bytes: packedBytes(bitmap, to) + own }];
  });
  // Colours that are looked up cost the firmware more than plain ones: only where that is worth it.
  const worth = found.filter(({ format: to, bytes }) => (to.kind === "palette" ? 4 * bytes <= now : bytes < now));
  return worth.sort((a, b) => a.bytes - b.bytes || a.format.depth - b.format.depth)[0];
}

function valuesOf(bitmap: Bitmap): Set<number> | undefined {
  const used = new Set<number>();
  for (let frame = 0; frame < bitmap.frames; frame++) {
    const pixels = pixelsOf(bitmap, frame);
    if (!pixels) return undefined;
    for (let i = 0; i < pixels.length; i++) used.add(pixels[i] as number);
  }
  return used;
}

function levelsFit(from: Format, to: Format, used: ReadonlySet<number>): string | undefined {
  if (to.kind !== "mono" && to.kind !== "gray") return undefined;
  for (const value of used) if ((value * to.most) % from.most !== 0) return undefined;
  return to.kind === "mono" ? `uses only 0 and ${from.most}` : `uses only levels that ${to.name} has too`;
}

function coloursFit(from: Format, to: Format, used: ReadonlySet<number>): string | undefined {
  if (to.kind === "palette") {
    const enough = used.size <= Math.min(to.most + 1, MOST_COLOURS);
    return enough ? `uses ${counted(used.size, "colour")}` : undefined;
  }
  if (to.kind !== "rgb") return undefined;
  for (const value of used) {
    const rgb = rgbOf(from, value);
    if (rgbOf(to, packRgb(to, rgb)) !== rgb) return undefined;
  }
  return `uses only colours that ${to.name} has too`;
}

function packedBytes({ frames, width, height }: Bitmap, { depth }: Format): number {
  return frames * height * Math.ceil((width * depth) / 8);
}
