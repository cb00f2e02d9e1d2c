/** Light of raw values as the page shows them, in linear shares of full light; pure. */

import { rgbOf } from "../shared/pixels/colour.ts";
import { FORMATS } from "../shared/pixels/formats.ts";
import type { BitmapInfo } from "../shared/protocol/lsp.ts";
import { decode } from "./levels.ts";

export interface Light {
  /** Relative luminance (WCAG 2.2), 1 for the most that the display gives. */
  readonly luminance: number;
  readonly rgb: readonly [number, number, number];
}

/** Levels take the panel's own colour, whose full light is 1; colours are code values of a screen. */
export function lightOfValue(bitmap: BitmapInfo): (value: number) => Light {
  const { kind, format, most, colours, tint = "#ffffff" } = bitmap;
  const colour = FORMATS.get(format);
  const full = Math.max(1, bitmap.limit ?? most);
  const own = rgb(Number.parseInt(tint.slice(1), 16));
  const known = new Map<number, Light>();
  const made = (value: number): Light => {
    if ((kind === "rgb" || kind === "palette") && colour) {
      const parts = rgb(rgbOf(colour, value, colours));
      return { luminance: 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2], rgb: parts };
    }
    const share = Math.min(1, value / full);
    return { luminance: share, rgb: [share * own[0], share * own[1], share * own[2]] };
  };
  return (value) => {
    let light = known.get(value);
    if (!light) {
      light = made(value);
      known.set(value, light);
    }
    return light;
  };
}

function rgb(code: number): [number, number, number] {
  return [decode(code >> 16), decode((code >> 8) & 255), decode(code & 255)];
}
