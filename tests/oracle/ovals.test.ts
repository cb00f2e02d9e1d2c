/**
 * Ovals beside those of Pillow (Debian python3-pil; Pillow handbook, "ImageDraw.ellipse"), in the same box, all four sides
 * of which both touch. They differ by definition where two pixels are about as near to the ideal ellipse: ours takes a pixel
 * if the midpoint towards the axis along its row or its column is not outside, so it is never the smaller one.
 */
import { expect, test } from "vitest";
import { oval } from "../../webview/tools/oval.ts";
import { drawnOvals } from "../support/pillow.ts";

const SIDES = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 16, 19, 24, 31, 32, 33, 40, 47, 64];
/** Without 1×1, where Pillow fills nothing. */
const SIZES = SIDES.flatMap((width) => SIDES.map((height) => [width, height] as const)).slice(1);

/** 1 for each pixel, row by row. */
function ours(width: number, height: number, filled: boolean): Uint8Array {
  const pixels = new Uint8Array(width * height);
  const corner = { x: width - 1, y: height - 1 };
  for (const index of oval({ width, height }, { x: 0, y: 0 }, corner, filled)) pixels[index] = 1;
  return pixels;
}

/** Of the pixels of one that the other lacks, how many, and how far the farthest is from the other: king's moves. */
function strays(one: Uint8Array, other: Uint8Array, width: number, height: number) {
  let [count, farthest] = [0, 0];
  const near = (x: number, y: number, by: number) => {
    for (let v = Math.max(0, y - by); v <= Math.min(height - 1, y + by); v++)
      for (let u = Math.max(0, x - by); u <= Math.min(width - 1, x + by); u++)
        if (other[v * width + u] === 1) return true;
    return false;
  };
  for (let i = 0; i < one.length; i++) {
    if (one[i] !== 1 || other[i] === 1) continue;
    count++;
    let by = 1;
    // Not for ever where there is none.
    while (by < width + height && !near(i % width, Math.floor(i / width), by)) by++;
    farthest = Math.max(farthest, by);
  }
  return { count, farthest };
}

test.each([
  ["filled", true],
  ["as an edge", false],
] as const)("%s: no pixel is farther than one from Pillow’s, nor the other way round", async (_, filled) => {
  const theirs = await drawnOvals(SIZES, filled);
  let [same, farthest, fewer] = [0, 0, 0];
  for (const [i, [width, height]] of SIZES.entries()) {
    const [own, other] = [ours(width, height, filled), theirs[i] as Uint8Array];
    expect(other.length).toBe(width * height);
    const [a, b] = [strays(own, other, width, height), strays(other, own, width, height)];
    if (a.count + b.count === 0) same++;
    farthest = Math.max(farthest, a.farthest, b.farthest);
    fewer += b.count;
  }
  expect(farthest).toBe(1);
  // Ours is never the smaller one: an edge that lies farther out leaves pixels of the other inside.
  if (filled) expect(fewer).toBe(0);
  // 317 of 483 measured with Pillow 9.4.
  expect(same / SIZES.length).toBeGreaterThan(0.6);
});
