import { expect, test } from "vitest";
import { lightOf, mostUsed } from "../../../webview/light.ts";
import { scaleOf } from "../../../webview/scale.ts";
import { drop } from "../../support/pictures.ts";

/** Ten levels, and 24 bits of red, green and blue. */
const tenths = { level: (value: number) => value, light: (value: number) => value / 10 };
const colours = scaleOf({ ...drop().bitmap, format: "rgb888", kind: "rgb", most: 2 ** 24 - 1, light: "srgb" });

test("light of frame, rows and columns are shares of full; values are counted, also those above what an array counts", () => {
  const light = lightOf([0, 5, 10, 10, 0, 0], 3, 2, tenths);
  expect([light.peak, light.lit, light.mean]).toEqual([10, 3, 25 / 60]);
  expect([[...light.rows], [...light.columns]]).toEqual([
    [0.5, 10 / 30],
    [0.5, 0.25, 0.5],
  ]);
  expect([...light.counts].sort((a, b) => a[0] - b[0])).toEqual([
    [0, 3],
    [5, 1],
    [10, 2],
  ]);
  expect([...lightOf([2 ** 24 - 1, 0], 2, 1, colours).counts]).toEqual([
    [2 ** 24 - 1, 1],
    [0, 1],
  ]);
});

test("the light of a colour is the mean of its channels in linear light, its level the brightest of them", () => {
  // IEC 61966-2-1: code 128 is .215861 of full.
  const light = lightOf([0xff0000, 0x008000, 0, 0x010203], 2, 2, colours);
  expect([light.peak, light.lit]).toEqual([255, 3]);
  expect(light.rows[0]).toBeCloseTo((1 / 3 + 0.215861 / 3) / 2, 6);
  expect(lightOf([0x008000], 1, 1, colours).peak).toBe(128);
});

test("the values that most pixels have come first, of equal ones the first, and no more than so many", () => {
  const counts = new Map([
    [7, 1],
    [3, 5],
    [9, 2],
    [4, 5],
    [1, 9],
  ]);
  expect(mostUsed(counts, 3)).toEqual([1, 3, 4]);
  expect(mostUsed(counts, 9)).toEqual([1, 3, 4, 9, 7]);
  expect(mostUsed(new Map(), 3)).toEqual([]);
});
