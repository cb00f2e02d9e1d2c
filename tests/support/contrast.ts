/**
 * Contrast ratio of a CSS colour (`rgb(…)` or `rgba(…)`) with what it lies on: layers from the top down, any of which may
 * let the next one through. WCAG 2.2, relative luminance and contrast ratio.
 */
export function contrast(ink: string, layers: readonly string[]): number {
  const ground = [...layers].reverse().reduce(laidOn, [255, 255, 255]);
  const [darker = 0, lighter = 0] = [luminance(laidOn(ground, ink)), luminance(ground)].sort((a, b) => a - b);
  return (lighter + 0.05) / (darker + 0.05);
}

function laidOn(below: readonly number[], css: string): number[] {
  const top = (css.match(/[\d.]+/g) ?? []).map(Number);
  const [, , , alpha = 1] = top;
  return below.map((c, i) => (top[i] ?? 0) * alpha + c * (1 - alpha));
}

function luminance(rgb: readonly number[]): number {
  const linear = rgb.map((c) => c / 255).map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
  const [r = 0, g = 0, b = 0] = linear;
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
