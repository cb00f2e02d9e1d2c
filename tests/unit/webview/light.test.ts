import { expect, test } from "vitest";
import { lightOf } from "../../../webview/light.ts";

test("light of frame, rows and columns are shares of full; values are counted, also those above what an array counts", () => {
  const light = lightOf([0, 5, 10, 10, 0, 0], 3, 2, 10);
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
  expect([...lightOf([2 ** 24 - 1, 0], 2, 1, 2 ** 24 - 1).counts]).toEqual([
    [2 ** 24 - 1, 1],
    [0, 1],
  ]);
});
