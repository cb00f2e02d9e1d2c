import { describe, expect, test } from "vitest";
import { coveredFrom, edgeOf, insideAt, lightAt, uncoveredTo } from "../../../shared/motion/kernel/edge.ts";
import { pixelAt, share, sumAt } from "../../../shared/motion/kernel/pixel.ts";
import { smoothstep } from "../../../shared/motion/kernel/smoothstep.ts";

/** The real-valued formulae of the model: smoothstep as in the Khronos GLSL reference, step(e, x) = x >= e. */
const smooth = (e0: number, e1: number, x: number) => {
  if (e0 === e1) return x >= e0 ? 1 : 0;
  const t = Math.min(1, Math.max(0, (x - e0) / (e1 - e0)));
  return t * t * (3 - 2 * t);
};
const real = (p: number, s: number, r: number, m: number) => {
  const inside = smooth(p - s, p - r, m);
  return { inside, edge: inside * (1 - smooth(p + r, p + s, m)) };
};

/** A linear congruential generator of our own: the same numbers in every run. */
function numbers(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}

describe("smoothstep in whole numbers", () => {
  // Khronos GLSL reference, smoothstep: t·t·(3 − 2·t), worked out by hand.
  test.each([
    [32, 11],
    [64, 40],
    [96, 81],
    [128, 128],
    [160, 175],
    [192, 216],
    [224, 245],
    [0, 0],
    [255, 255],
  ])("round(255 · smoothstep(0, 255, %i)) is %i", (i, wanted) => expect(smoothstep(i, 255, 255)).toBe(wanted));

  test.each([
    [1, 10, 28],
    [2, 10, 104],
    [5, 10, 500],
    [9, 10, 972],
    [1, 4, 156],
  ])("of %i of %i steps, in thousandths, is %i", (n, steps, wanted) => expect(smoothstep(n, steps, 1000)).toBe(wanted));
});

test("share is the nearest whole number for every two bytes", () => {
  for (let a = 0; a < 256; a++)
    for (let b = 0; b < 256; b++) if (share(a, b) !== Math.round((a * b) / 255)) throw new Error(`${a} ${b}`);
});

test("the tables are the nearest whole numbers of the formulae, and pixels are within 1, for 3,000 random edges", () => {
  const next = numbers(7);
  const wrong: string[] = [];
  let tried = 0;
  for (let round = 0; round < 3000; round++) {
    const soft = next(400);
    const rim = round % 10 === 0 ? soft : next(soft + 1);
    const level = next(256);
    const cap = 1 + next(255);
    const edge = edgeOf(soft, rim, level);
    for (let k = 0; k < 400; k++) {
      const d = next(2 * soft + 40) - soft - 20;
      const image = next(256);
      const want = real(0, soft, rim, d);
      const pixel = Math.min(cap, Math.round(image * want.inside + level * want.edge));
      const sum = sumAt(edge, d, image, 0);
      const right =
        Math.abs(insideAt(edge, d) - 255 * want.inside) <= 0.5 + 1e-9 &&
        Math.abs(lightAt(edge, d) - level * want.edge) <= 0.5 + 1e-9 &&
        Math.abs(pixelAt(edge, d, image, 0, cap) - pixel) <= 1 &&
        (want.inside > 0 || sum === 0) &&
        (want.inside < 1 || want.edge > 0 || sum === image) &&
        (want.inside < 1 || want.edge < 1 || sum === image + level);
      tried++;
      if (!right) wrong.push(`soft=${soft} rim=${rim} level=${level} d=${d} image=${image}`);
    }
  }
  expect(wrong).toEqual([]);
  expect(tried).toBe(3000 * 400);
});

describe("the ends", () => {
  test.each([
    ["soft", 90, 8],
    ["without a rim", 40, 0],
    ["hard", 12, 12],
    ["hard and narrow", 0, 0],
    ["one step", 1, 0],
  ])("%s: wholly covered and wholly uncovered", (_what, soft, rim) => {
    const edge = edgeOf(soft, rim, 255);
    for (const mask of [0, 1, 100, 255]) {
      expect(sumAt(edge, mask - coveredFrom(edge, mask), 255, 0)).toBe(0);
      expect(sumAt(edge, mask - uncoveredTo(edge, mask), 200, 0)).toBe(200);
    }
    // One position before the end the hard edge is still there.
    if (soft === rim) expect(sumAt(edge, -soft, 200, 0)).toBe(200 + (rim === 0 ? 0 : 255));
  });
});

test("a sum above the cap stops there and never wraps", () => {
  const edge = edgeOf(20, 10, 200);
  expect(sumAt(edge, 0, 200, 0)).toBe(400);
  expect(pixelAt(edge, 0, 200, 0, 255)).toBe(255);
  expect(pixelAt(edge, 0, 200, 0, 64)).toBe(64);
});

test("over another picture both are mixed by the same share", () => {
  const edge = edgeOf(10, 0, 0);
  expect(pixelAt(edge, -10, 255, 77, 255)).toBe(77);
  expect(pixelAt(edge, 0, 33, 77, 255)).toBe(33);
  expect(pixelAt(edge, -5, 200, 100, 255)).toBe(Math.round((200 * 128 + 100 * 127) / 255));
});

test.each([
  [9, 10, 0],
  [10, -1, 0],
  [1024, 0, 0],
  [10, 0, 256],
  [1.5, 0, 0],
])("soft=%d rim=%d level=%d is no edge", (soft, rim, level) =>
  expect(() => edgeOf(soft, rim, level)).toThrow(RangeError),
);
