import { describe, expect, test } from "vitest";
import type { FieldKind } from "../../../shared/motion/kernel/fields.ts";
import { fieldOf, xorshift } from "../../../shared/motion/kernel/fields.ts";

const field = (kind: FieldKind, width: number, height: number, angle = 0, seed = 1) => [
  ...fieldOf(width, height, { kind, angle, seed }),
];

describe("fields, by hand", () => {
  test.each([
    // 1 − 1/√2 = 0.2929; · 255 = 74.7.
    ["radial", 3, 3, 0, [0, 75, 0, 75, 255, 75, 0, 75, 0]],
    ["diamond", 3, 3, 0, [0, 128, 0, 128, 255, 128, 0, 128, 0]],
    ["linear", 3, 2, 0, [0, 128, 255, 0, 128, 255]],
    ["linear", 3, 2, 180, [255, 128, 0, 255, 128, 0]],
    ["linear", 2, 3, 90, [0, 0, 128, 128, 255, 255]],
    // At 45° the corners are the ends, and the other diagonal is half way.
    ["linear", 3, 3, 45, [0, 64, 128, 64, 128, 191, 128, 191, 255]],
    // Clockwise from the top: eighths of a turn, 31.875 each.
    ["angular", 3, 3, 0, [223, 0, 32, 191, 255, 64, 159, 128, 96]],
    ["angular", 3, 3, 90, [159, 191, 223, 128, 255, 0, 96, 64, 32]],
    ["radial", 1, 1, 0, [255]],
    ["linear", 1, 1, 0, [0]],
    // The middle lies between the pixels: none is 255.
    ["radial", 2, 2, 0, [0, 0, 0, 0]],
  ] as const)("%s %ix%i at %i°", (kind, width, height, angle, wanted) =>
    expect(field(kind, width, height, angle)).toEqual(wanted),
  );

  test("radial on the lantern: the middle, its neighbours and the corners", () => {
    const radial = field("radial", 9, 9);
    expect([radial[40], radial[0], radial[80], radial[41], radial[4]]).toEqual([255, 0, 0, 210, 75]);
  });

  test("noise takes every place once, evenly spread, and another seed another order", () => {
    const noise = field("noise", 16, 16);
    expect([...noise].sort((a, b) => a - b)).toEqual(Array.from({ length: 256 }, (_, i) => i));
    expect(field("noise", 16, 16, 0, 2)).not.toEqual(noise);
    expect(field("noise", 16, 16, 0, 1)).toEqual(noise);
    expect(field("noise", 1, 1)).toEqual([255]);
  });
});

test("xorshift gives the published first number", () => {
  // Marsaglia 2003: started with 2463534242, the generator of shifts 13, 17, 5 gives 723471715 (from memory).
  expect(xorshift(2463534242)()).toBe(723471715);
});
