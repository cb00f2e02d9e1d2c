/**
 * One pixel of a motion, in steps that fit 16 bits. Whatever writes a frame (preview, bake, firmware) follows these.
 */
import type { Edge } from "./edge.ts";
import { insideAt, lightAt } from "./edge.ts";

/** round(a · b / 255) of two bytes, exactly and without a division: no product of bytes lies half way between. */
export function share(a: number, b: number): number {
  const t = a * b + 128;
  return (t + (t >> 8)) >> 8;
}

/**
 * What is shown at a distance d of the mask above the position: min(cap, round(image · inside) + round(level · light)),
 * with both roundings at the nearest whole number. It never wraps, and is within 1 of the real-valued sum.
 * `under` is what the image is uncovered over: 0 is dark, else the two are mixed by the same share.
 */
export function pixelAt(edge: Edge, d: number, image: number, under: number, cap: number): number {
  return Math.min(cap, sumAt(edge, d, image, under));
}

/** The same before the cap holds it back: what a byte that is added to without care would wrap around. */
export function sumAt(edge: Edge, d: number, image: number, under: number): number {
  const inside = insideAt(edge, d);
  return mixed(image, under, inside) + lightAt(edge, d);
}

/** round((image · inside + under · (255 − inside)) / 255); the sum of the products is at most that of two bytes. */
function mixed(image: number, under: number, inside: number): number {
  if (under === 0) return share(image, inside);
  const t = image * inside + under * (255 - inside) + 128;
  return (t + (t >> 8)) >> 8;
}
