import { describe, expect, test } from "vitest";
import { byCount, byStep, orderOf } from "../../../shared/motion/kernel/timeline.ts";

const linear = { ease: "linear" } as const;

describe("by steps", () => {
  test("never past the end", () => {
    expect([...byStep({ from: 10, to: 0, ...linear }, 4)]).toEqual([10, 6, 2, 0]);
    expect([...byStep({ from: 0, to: 9, ...linear }, 3)]).toEqual([0, 3, 6, 9]);
    expect([...byStep({ from: 5, to: 5, ...linear }, 3)]).toEqual([5]);
  });

  test("of the lantern's drop are thirty frames", () => {
    const positions = byStep({ from: 345, to: -90, ...linear }, 15);
    expect([positions.length, positions[0], positions[1], positions.at(-1)]).toEqual([30, 345, 330, -90]);
  });
});

test("by count they are evenly spread", () => {
  expect([...byCount({ from: 0, to: 10, ...linear }, 5)]).toEqual([0, 3, 5, 8, 10]);
  expect([...byCount({ from: 4, to: 0, ...linear }, 1)]).toEqual([4]);
});

describe("easing", () => {
  // t³, 1 − (1 − t)³ and 4t³ with its mirror image, at fifths of 1,000: worked out by hand.
  test.each([
    ["cubic-in", [0, 8, 64, 216, 512, 1000]],
    ["cubic-out", [0, 488, 784, 936, 992, 1000]],
    ["cubic-in-out", [0, 32, 256, 744, 968, 1000]],
  ] as const)("%s", (ease, wanted) => {
    expect([...byCount({ from: 0, to: 1000, ease }, 6)]).toEqual(wanted);
    expect([...byCount({ from: 1000, to: 0, ease }, 6)]).toEqual(wanted.map((p) => 1000 - p));
  });

  test("goes one way and ends at the ends, whatever the steps", () => {
    for (const ease of ["cubic-in", "cubic-out", "cubic-in-out"] as const)
      for (const step of [1, 7, 100, 4095]) {
        const positions = [...byStep({ from: -2047, to: 2047, ease }, step)];
        expect([positions[0], positions.at(-1)]).toEqual([-2047, 2047]);
        expect(positions.every((p, i) => i === 0 || p >= (positions[i - 1] as number))).toBe(true);
      }
  });
});

test.each([
  [1, "there-and-back", [0]],
  [2, "there-and-back", [0, 1]],
  [4, "there-and-back", [0, 1, 2, 3, 2, 1]],
  [3, "once", [0, 1, 2]],
  [3, "around", [0, 1, 2]],
] as const)("%i frames, %s", (count, loop, wanted) =>
  expect(orderOf({ positions: new Int16Array(count), loop })).toEqual(wanted),
);
