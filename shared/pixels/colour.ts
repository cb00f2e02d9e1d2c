/**
 * Colours of raw pixel values, and raw values of colours. A colour is 0xRRGGBB, eight bits a channel.
 *
 * Channels of fewer bits are rescaled to the nearest: round(255 · v / most), as PNG does with sample depths
 * (W3C PNG Third Edition, §13.12), and as greys are here. Repeating the high bits instead would differ by one at 5-bit
 * 3, 7, 24, 28 and 6-bit 11–15, 48–52. The way back rounds to the nearest too, so a colour of the format stays itself.
 * Order of the fields from the high bit: red, green, blue (Linux V4L2, "RGB formats": RGB332, RGB565, RGB24).
 */
import type { Format } from "./formats.ts";
import { greyOf } from "./formats.ts";

type Kind = Pick<Format, "name" | "kind" | "most">;

/** Lowest bit and highest value of red, green and blue. */
type Fields = readonly (readonly [shift: number, most: number])[];

const FIELDS: Readonly<Record<string, Fields>> = {
  rgb332: [
    [5, 7],
    [2, 7],
    [0, 3],
  ],
  rgb565: [
    [11, 31],
    [5, 63],
    [0, 31],
  ],
  rgb888: [
    [16, 255],
    [8, 255],
    [0, 255],
  ],
};

/** Red, green and blue in a raw value of an rgb format; none for other formats. */
export function fieldsOf(format: string): Fields {
  return FIELDS[format] ?? [];
}

/**
 * The colour of a raw value. `colours` is the palette of a palette format; an index beyond it is black, since nothing
 * says what the firmware would find there. Without a palette the indices are greys.
 */
export function rgbOf(format: Kind, value: number, colours?: ArrayLike<number>): number {
  const fields = FIELDS[format.name];
  if (!fields) {
    if (format.kind === "palette" && colours) return colours[value] ?? 0;
    return greyOf(format, value) * 0x010101;
  }
  let rgb = 0;
  for (const [shift, most] of fields) rgb = rgb * 256 + Math.round((255 * ((value >> shift) & most)) / most);
  return rgb;
}

/** How much light a raw value asks for: itself for mono and grey, the brightest channel in eight bits for colours. */
export function levelOf(format: Kind, value: number, colours?: ArrayLike<number>): number {
  if (format.kind !== "rgb" && format.kind !== "palette") return value;
  const rgb = rgbOf(format, value, colours);
  return Math.max(rgb >> 16, (rgb >> 8) & 255, rgb & 255);
}

/** The raw value of an rgb format nearest to a colour, channel by channel. */
export function packRgb(format: Kind, rgb: number): number {
  return packed(format, rgb, (channel, most) => Math.round((channel * most) / 255));
}

/** The raw value of an rgb format nearest to a colour none of whose channels is above `limit` (0–255) when shown. */
export function packWithin(format: Kind, rgb: number, limit: number): number {
  return packed(format, rgb, (channel, most) => {
    let level = Math.round((Math.min(channel, limit) * most) / 255);
    while (level > 0 && Math.round((255 * level) / most) > limit) level--;
    return level;
  });
}

/** The raw value of an rgb format whose channels come nearest to a colour from below, none of them above it when shown. */
export function packBelow(format: Kind, rgb: number): number {
  return packed(format, rgb, (channel, most) => {
    let level = Math.ceil((channel * most) / 255);
    while (level > 0 && Math.round((255 * level) / most) > channel) level--;
    return level;
  });
}

function packed(format: Kind, rgb: number, level: (channel: number, most: number) => number): number {
  return fieldsOf(format.name).reduce(
    (value, [shift, most], i) => value | (level((rgb >> (16 - 8 * i)) & 255, most) << shift),
    0,
  );
}

/** `#rrggbb`. */
export function hexOf(rgb: number): string {
  return `#${rgb.toString(16).padStart(6, "0")}`;
}

/** A raw value for people: `42`; `0xF81F #ff00ff` for a colour; `index 3 #ffb84d` for an index. */
export function valueInWords(format: Kind & Pick<Format, "depth">, value: number, colours?: ArrayLike<number>): string {
  if (format.kind === "rgb") {
    const hex = value.toString(16).toUpperCase();
    return `0x${hex.padStart(format.depth / 4, "0")} ${hexOf(rgbOf(format, value))}`;
  }
  if (format.kind !== "palette") return String(value);
  if (!colours) return `index ${value}`;
  return `index ${value}${value < colours.length ? ` ${hexOf(colours[value] as number)}` : ", which has no colour"}`;
}

/** The index of the colour (0xRRGGBB) whose channels are least apart from another's, by the sum of their squares; the first of several. */
export function nearestColour(colours: readonly number[]): (rgb: number) => number {
  return (rgb) => {
    let [best, least] = [0, Number.POSITIVE_INFINITY];
    for (const [index, colour] of colours.entries()) {
      let distance = 0;
      for (const shift of [16, 8, 0]) distance += (((colour >> shift) & 255) - ((rgb >> shift) & 255)) ** 2;
      if (distance >= least) continue;
      [best, least] = [index, distance];
    }
    return best;
  };
}
