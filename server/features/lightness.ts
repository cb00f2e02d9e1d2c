/**
 * CIE 1976 lightness of a relative luminance (ISO/CIE 11664-4, CIE 15:2018; ε = 216/24389, κ = 24389/27):
 * L* = 116·∛Y − 16 for Y > ε, else κ·Y. Takes Y from 0 to 1, returns 0 to 100.
 */
export function lightness(y: number): number {
  return y > 216 / 24389 ? 116 * Math.cbrt(y) - 16 : (24389 / 27) * y;
}

/** Linear light of an sRGB code value, both 0 to 1 (IEC 61966-2-1). */
export function linearFromSrgb(v: number): number {
  return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
}
