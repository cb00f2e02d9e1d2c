import { describe, expect, test } from "vitest";
import { fullValue, heatOf, LEVELS, levelOf } from "../../../client/levels.ts";
import { info } from "./bitmaps.ts";

test.each([
  ["the cap", info({ cap: 64 }), 200, 64],
  ["the cap before drive takes its share", info({ cap: 32, drive: 0.5 }), undefined, 64],
  ["the peak of all frames where there is no cap", info({}), 40, 40],
  ["the highest value where no peak is told", info({}), undefined, 255],
  ["1 for one bit", info({ most: 1 }), undefined, 1],
  ["never 0", info({}), 0, 1],
])("full light is %s", (_what, bitmap, peak, full) => {
  expect(fullValue(bitmap, peak)).toBe(full);
});

test("levels are even on the screen: linear light is encoded as sRGB", () => {
  // IEC 61966-2-1: .18 of full light is code 118 of 255, .5 is 188.
  expect(levelOf(0.18)).toBe(Math.round((118 / 255) * LEVELS));
  expect(levelOf(0.5)).toBe(Math.round((188 / 255) * LEVELS));
  expect([0, 1, 7].map(levelOf)).toEqual([0, LEVELS, LEVELS]);
});

test("the least light is a level above dark", () => {
  expect(levelOf(1e-9)).toBe(1);
});

describe("numbers", () => {
  const bitmap = info({ cap: 64, limit: 64, tint: "#ffb84d" });
  const heat = (of: typeof bitmap, ...lines: [number, number[]][]) =>
    heatOf(
      of,
      64,
      lines.map(([line, numbers]) => ({ line, numbers })),
      (line, from, to) => `${line}:${from}-${to}`,
    );

  test("take their level from the mean, and are over the cap by their brightest pixel", () => {
    const { byTint, beyond } = heat(bitmap, [3, [2, 2, 32, 65]]);
    const levels = byTint.get("#ffb84d") ?? [];
    expect(levels.map((ranges) => ranges.length).indexOf(1)).toBe(levelOf(0.5));
    expect(levels.flat()).toEqual(["3:2-4"]);
    expect(beyond).toEqual(["3:2-4"]);
  });

  test("at the cap are not over it, also where the firmware drives a share", () => {
    const driven = info({ cap: 16, drive: 0.25, limit: 64 });
    const { beyond } = heat(driven, [0, [0, 2, 64, 64, 4, 2, 65, 65]]);
    expect(beyond).toEqual(["0:4-6"]);
  });

  test("are ranges by tint and level; dark ones have none", () => {
    const { byTint } = heat(bitmap, [0, [0, 1, 64, 64, 3, 1, 0, 0]], [7, [6, 2, 70, 70]]);
    expect([...byTint.keys()]).toEqual(["#ffb84d"]);
    expect(byTint.get("#ffb84d")?.[LEVELS]).toEqual(["0:0-1", "7:6-8"]);
    expect(byTint.get("#ffb84d")?.flat()).toHaveLength(2);
  });

  test("of a colour format have their own colour, in few steps, and no tint", () => {
    const rgb = info({ kind: "rgb", format: "rgb565", most: 65535, limit: 128, tint: "#ffb84d" });
    const { byTint, beyond } = heat(rgb, [0, [0, 6, 0xff0000, 255, 8, 6, 0x004000, 64, 16, 6, 0, 0]]);
    expect([...byTint.keys()]).toEqual(["#ff0000", "#00ff00"]);
    expect(byTint.get("#ff0000")?.[LEVELS]).toEqual(["0:0-6"]);
    // 64 of 255 is a little over a quarter.
    expect(byTint.get("#00ff00")?.[LEVELS / 2]).toEqual(["0:8-14"]);
    expect(beyond).toEqual(["0:0-6"]);
  });

  test("without a tint are white", () => {
    expect([...heat(info({}), [0, [0, 1, 64, 64]]).byTint.keys()]).toEqual(["#ffffff"]);
  });
});
