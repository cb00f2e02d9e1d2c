/**
 * Light as the eye and the screen take it: CIE 1976 lightness (CIE 15:2018, ISO/CIE 11664-4; ε = 216/24389,
 * κ = 24389/27) and the sRGB transfer functions (IEC 61966-2-1). Light is linear, from 0 to 1.
 */

const EPSILON = 216 / 24389;
const KAPPA = 24389 / 27;

/** Lightness L* (0–100) of a relative luminance (0–1): 116·∛Y − 16 for Y > ε, else κ·Y. */
export function lightness(light: number): number {
  return light > EPSILON ? 116 * Math.cbrt(light) - 16 : KAPPA * light;
}

/** Relative luminance (0–1) that has this lightness L* (0–100). */
export function lightOfLightness(lightnessValue: number): number {
  return lightnessValue > 8 ? ((lightnessValue + 16) / 116) ** 3 : lightnessValue / KAPPA;
}

/** Luminance of linear red, green and blue, in their unit (ITU-R BT.709; the relative luminance of WCAG 2.2). */
export function relativeLuminance(red: number, green: number, blue: number): number {
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

/** Linear light of an sRGB code value, both 0–1. */
export function srgbToLinear(code: number): number {
  return code <= 0.04045 ? code / 12.92 : ((code + 0.055) / 1.055) ** 2.4;
}

/** sRGB code value of linear light, both 0–1. */
export function linearToSrgb(light: number): number {
  return light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055;
}
