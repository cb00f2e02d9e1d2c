import { expect, test } from "vitest";
import type { BitmapInfo } from "../../../shared/protocol/lsp.ts";
import { lightOf } from "../../../webview/light.ts";
import { metersOf } from "../../../webview/meters.ts";
import { scaleOf } from "../../../webview/scale.ts";
import { info } from "../client/bitmaps.ts";

/** Name and number of each meter of a picture of four pixels, with how far its bar goes. */
function meters(pixels: readonly number[], facts: Partial<BitmapInfo>) {
  const bitmap = info({ width: 2, height: 2, ...facts });
  const light = lightOf(pixels, 2, 2, scaleOf(bitmap));
  return metersOf(bitmap, light).map(({ name, number, share, over }) => [
    `${name}: ${number}`,
    share === undefined ? undefined : Math.round(share * 1000) / 1000,
    over ?? false,
  ]);
}

const SUPPLY = { full: 20, idle: 1, duty: 1 };

test.each<[string, readonly number[], Partial<BitmapInfo>, unknown[]]>([
  [
    "a current of the budget, with dark pixels",
    [255, 255, 0, 0],
    { supply: { ...SUPPLY, budget: 84 } },
    [["current: about 42 mA of 84 mA", 0.5, false]],
  ],
  [
    "over the budget",
    [255, 255, 0, 0],
    { supply: { ...SUPPLY, budget: 21 } },
    [["current: about 42 mA of 21 mA, over", 2, true]],
  ],
  // Common practice, no source: 20 mA a channel, so 60 mA for white.
  [
    "colours, without a budget",
    [0xffffff, 0, 0, 0],
    { format: "rgb888", kind: "rgb", most: 0xffffff, light: "linear", supply: { ...SUPPLY, idle: 0 } },
    [["current: about 60 mA", undefined, false]],
  ],
  ["a frame's time", [1, 2, 3, 4], { sending: 0.02304, fps: 20 }, [["sending: 23 ms of 50 ms", 0.461, false]]],
  [
    "more time than there is",
    [1, 2, 3, 4],
    { sending: 0.02304, fps: 50 },
    [["sending: 23 ms of 20 ms, over", 1.152, true]],
  ],
  ["a time without a speed", [1, 2, 3, 4], { sending: 0.0018 }, [["sending: 1.8 ms a frame", undefined, false]]],
])("%s", (_what, pixels, facts, expected) => {
  expect(meters(pixels, facts).slice(2)).toEqual(expected);
});

test("the light of a scanned panel draws its share of time", () => {
  // Average = peak · share of full · 1/N of the rows (scan multiplex): 4 pixels of 45 mA at full, 9 rows.
  const [, , current] = meters([255, 255, 255, 255], { supply: { full: 45, idle: 0, duty: 1 / 9 } });
  expect(current?.[0]).toBe("current: about 20 mA");
});
