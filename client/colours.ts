/** Colours of light levels: in the panel's tint, as the panel's light looks on a screen. */

import { linearToSrgb, srgbToLinear } from "../shared/light/lightness.ts";

export type Rgb = readonly [number, number, number];

/** Red, green and blue from 0 to 1 of `#rrggbb`; white where there is no tint. */
export function rgbOf(hex = "#ffffff"): Rgb {
  const channel = (at: number) => Number.parseInt(hex.slice(at, at + 2), 16) / 255;
  return [channel(1), channel(3), channel(5)];
}

/** Relative luminance of an sRGB colour (weights of ITU-R BT.709). */
function luminance(rgb: Rgb): number {
  const [r, g, b] = rgb.map(srgbToLinear) as [number, number, number];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

export function css([r, g, b]: Rgb, alpha = 1): string {
  const [red, green, blue] = [r, g, b].map((c) => Math.round(255 * c));
  return `rgba(${red}, ${green}, ${blue}, ${alpha.toFixed(3)})`;
}

/** The colour with its light dimmed until it stands out from white paper. */
export function ink(rgb: Rgb): Rgb {
  const most = 0.3;
  const share = Math.min(1, most / luminance(rgb));
  return rgb.map((c) => linearToSrgb(srgbToLinear(c) * share)) as [number, number, number];
}

/** The tint at a share (0–1) of full light, which is linear, as a colour of the screen. */
export function glow(tint: Rgb, share: number): Rgb {
  return tint.map((c) => linearToSrgb(srgbToLinear(c) * share)) as [number, number, number];
}
