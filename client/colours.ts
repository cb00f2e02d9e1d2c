/** Colours of light levels: in the panel's tint, as the panel's light looks on a screen. */

import { linearToSrgb, relativeLuminance, srgbToLinear } from "../shared/light/lightness.ts";
import { rgbOf as colourOf } from "../shared/pixels/colour.ts";
import type { FormatName } from "../shared/pixels/formats.ts";
import type { BitmapInfo } from "../shared/protocol/lsp.ts";

export type Rgb = readonly [number, number, number];

/** Whether pixels have colours of their own, so that the panel's tint says nothing. */
export function isColour({ kind }: Pick<BitmapInfo, "kind">): boolean {
  return kind === "rgb" || kind === "palette";
}

/** Red, green and blue from 0 to 255 of a raw value. */
export function channelsOf(bitmap: Pick<BitmapInfo, "format" | "kind" | "most" | "colours">, value: number): Rgb {
  const { format, kind, most, colours } = bitmap;
  const rgb = colourOf({ name: format as FormatName, kind, most }, value, colours);
  return [rgb >> 16, (rgb >> 8) & 255, rgb & 255];
}

/** Red, green and blue from 0 to 1 of `#rrggbb`; white where there is no tint. */
export function rgbOf(hex = "#ffffff"): Rgb {
  const channel = (at: number) => Number.parseInt(hex.slice(at, at + 2), 16) / 255;
  return [channel(1), channel(3), channel(5)];
}

/** Relative luminance of an sRGB colour (weights of ITU-R BT.709). */
function luminance(rgb: Rgb): number {
  const [r, g, b] = rgb.map(srgbToLinear) as [number, number, number];
  return relativeLuminance(r, g, b);
}

export function css([r, g, b]: Rgb, alpha = 1): string {
  const [red, green, blue] = [r, g, b].map((c) => Math.round(255 * c));
  return `rgba(${red}, ${green}, ${blue}, ${alpha.toFixed(3)})`;
}

/** `#rrggbb`. */
export function hexOf(rgb: Rgb): string {
  return `#${rgb
    .map((c) =>
      Math.round(255 * c)
        .toString(16)
        .padStart(2, "0"),
    )
    .join("")}`;
}

/**
 * Luminance at which a colour stands out 3:1 from white and from black, the least that WCAG 2.2 asks of what is no
 * text (success criterion 1.4.11), with room for rounding: (1 + .05) / (.29 + .05) and (.1 + .05) / .05.
 */
const MOST_ON_WHITE = 0.29;
const LEAST_ON_BLACK = 0.1;

/** The colour with its light dimmed until it stands out from white paper. */
export function ink(rgb: Rgb): Rgb {
  return glow(rgb, Math.min(1, MOST_ON_WHITE / luminance(rgb)));
}

/** The colour with as much white in it as makes it stand out from black. */
export function chalk(rgb: Rgb): Rgb {
  const own = luminance(rgb);
  const white = Math.max(0, (LEAST_ON_BLACK - own) / (1 - own));
  return rgb.map((c) => linearToSrgb(srgbToLinear(c) * (1 - white) + white)) as [number, number, number];
}

/** The tint at a share (0–1) of full light, which is linear, as a colour of the screen. */
export function glow(tint: Rgb, share: number): Rgb {
  return tint.map((c) => linearToSrgb(srgbToLinear(c) * share)) as [number, number, number];
}
