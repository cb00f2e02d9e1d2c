/**
 * Three ways to bring levels down: `clamp` cuts off what is above, `linear` scales the levels, `even` scales their
 * lightness (CIE 1976 L*), so that steps that look even before look even after it and dim pixels do not drown.
 */
import { lightness, lightOfLightness } from "./lightness.ts";
import type { LightOfLevel } from "./screen.ts";
import { levelOfLight, lightOfLevel } from "./screen.ts";

export const WAYS = ["clamp", "linear", "even"] as const;
export type Way = (typeof WAYS)[number];

/** What levels mean: the highest one, and whether they are light or code values. */
export interface LevelScale {
  readonly full: number;
  readonly light: LightOfLevel;
}

/**
 * The level (not rounded) that a level is brought down to by a share from 0 to 1: of full scale, to cut off there; of
 * the level; or of its lightness.
 */
export function dimmer(way: Way, share: number, { full, light }: LevelScale): (level: number) => number {
  switch (way) {
    case "clamp":
      return (level) => Math.min(level, share * full);
    case "linear":
      return (level) => level * share;
    case "even":
      return (level) => levelOfLight(lightOfLightness(share * lightnessOf(level, full, light)), full, light);
  }
}

/** The share by which `peak`, a level above 0, comes down to `limit`. */
export function shareFor(way: Way, peak: number, limit: number, { full, light }: LevelScale): number {
  switch (way) {
    case "clamp":
      return limit / full;
    case "linear":
      return limit / peak;
    case "even":
      return lightnessOf(limit, full, light) / lightnessOf(peak, full, light);
  }
}

function lightnessOf(level: number, full: number, light: LightOfLevel): number {
  return lightness(lightOfLevel(level, full, light));
}
