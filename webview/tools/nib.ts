/** The brush: a round or square nib that is set down on every pixel of a path. */
import { oval } from "./oval.ts";
import type { Size } from "./shapes.ts";

export type Tip = "round" | "square";

/** Widest brush, in pixels. */
export const WIDEST = 64;

/**
 * The pixels under a nib of this width on each of these pixels, once each. A nib of even width has no middle pixel: it
 * reaches one pixel farther to the right and down.
 */
export function stamped(size: Size, path: readonly number[], width: number, tip: Tip): readonly number[] {
  if (width <= 1) return path;
  const nib = nibOf(width, tip);
  const back = Math.floor((width - 1) / 2);
  const seen = new Uint8Array(size.width * size.height);
  const out: number[] = [];
  for (const at of path) {
    const [left, top] = [(at % size.width) - back, Math.floor(at / size.width) - back];
    for (const dot of nib) {
      const [x, y] = [left + (dot % width), top + Math.floor(dot / width)];
      if (x < 0 || y < 0 || x >= size.width || y >= size.height) continue;
      const index = y * size.width + x;
      if (seen[index]) continue;
      seen[index] = 1;
      out.push(index);
    }
  }
  return out;
}

function nibOf(width: number, tip: Tip): readonly number[] {
  const nib = { width, height: width };
  if (tip === "square") return Array.from({ length: width * width }, (_, i) => i);
  return oval(nib, { x: 0, y: 0 }, { x: width - 1, y: width - 1 }, true);
}
