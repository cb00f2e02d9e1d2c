/** What the light of a panel looks like on a screen: the one rule for hovers, sheets and the paint editor. */
import { linearToSrgb, srgbToLinear } from "./lightness.ts";

/** What a level means: a share of time lit, which is linear light, or a code value for a screen. */
export type LightOfLevel = "linear" | "srgb";

/**
 * Code value (0–255, whole) of one channel on an sRGB screen (IEC 61966-2-1) for a level, where `top` is shown as full
 * light, and what is above it too. `tint` is that channel of the panel's own colour (0–255).
 */
export function screenCode(level: number, top: number, light: LightOfLevel, tint = 255): number {
  const share = Math.min(1, level / top);
  const code = light === "linear" ? linearToSrgb(share * srgbToLinear(tint / 255)) : share * (tint / 255);
  return Math.round(255 * code);
}

/**
 * Code value (0–255, whole) of one channel in proportion to how long a pixel is lit, as the number in the firmware is:
 * not what is seen, as on a screen a code value is no light.
 */
export function dutyCode(level: number, top: number, full: number, light: LightOfLevel, tint = 255): number {
  const share = Math.min(1, lightOfLevel(level, full, light) / lightOfLevel(top, full, light));
  return Math.round(share * tint);
}

/** Share of full light (0–1, linear) that a level gives. */
export function lightOfLevel(level: number, full: number, light: LightOfLevel): number {
  return light === "linear" ? level / full : srgbToLinear(level / full);
}

/** The level, not rounded, that gives a share of full light. */
export function levelOfLight(share: number, full: number, light: LightOfLevel): number {
  return full * (light === "linear" ? share : linearToSrgb(share));
}
