import { describe, expect, test } from "vitest";
import type { MotionInfo } from "../../../shared/protocol/lsp.ts";
import { draftOf, movingOf, positionAt, withPart, wordsFor } from "../../../webview/edge/draft.ts";
import { barsOf, rulerFor, valueAt, xOf } from "../../../webview/edge/histogram.ts";
import { sumsAt } from "../../../webview/edge/sums.ts";

const INFO: MotionInfo = {
  words: { image: "drop" },
  image: [100, 200],
  mask: [0, 255],
  soft: 40,
  rim: 10,
  level: 100,
  from: 295,
  to: -40,
  step: 50,
  count: 8,
  ease: "linear",
  loop: "there-and-back",
  cap: 200,
  bakes: 14,
  stale: false,
};

describe("a draft", () => {
  test.each([
    ["soft", 5, { soft: 10 }],
    ["soft", 2000, { soft: 1023 }],
    ["rim", 60, { rim: 40 }],
    ["rim", -3, { rim: 0 }],
    ["level", 300, { level: 200 }],
    ["from", 9999, { from: 2047 }],
    ["to", -41.4, { to: -41 }],
    ["step", 0, { step: 1 }],
  ] as const)("%s towards %d", (part, value, wanted) =>
    expect(withPart(draftOf(INFO), part, value, INFO.cap)).toEqual({ ...draftOf(INFO), ...wanted }),
  );

  test("is written by the words that differ", () => {
    expect(wordsFor(INFO, draftOf(INFO))).toEqual({});
    expect(wordsFor(INFO, { ...draftOf(INFO), soft: 50, ease: "cubic-in" })).toEqual({ soft: "50", ease: "cubic-in" });
  });

  test("stands where a frame of the run has it, there and back", () => {
    const moving = movingOf(INFO, 2, 1, draftOf(INFO));
    // 295, 245, … 45, -5, -40, and back.
    expect([0, 6, 7, 8, 13, 99].map((frame) => positionAt(moving, frame))).toEqual([295, -5, -40, -5, 245, 245]);
  });

  test("by seconds keeps the number of frames", () => {
    const { step: _, ...rest } = INFO;
    expect([...movingOf(rest, 2, 1, draftOf(rest)).timeline.positions]).toHaveLength(8);
    expect(draftOf(rest)).not.toHaveProperty("step");
  });
});

test("bars are four values wide, and hold every pixel", () => {
  const bars = barsOf([0, 3, 4, 255, 252]);
  expect([bars[0], bars[1], bars[63], bars.reduce((sum, n) => sum + n, 0)]).toEqual([2, 1, 2, 5]);
});

test("a ruler goes from value to place and back", () => {
  const ruler = rulerFor({ from: 295, to: -40, soft: 40 }, 300);
  expect(ruler.least).toBeLessThan(-40);
  expect(ruler.most).toBeGreaterThan(295);
  for (const value of [-40, 0, 128, 255, 295])
    expect(Math.abs(valueAt(ruler, xOf(ruler, value)) - value)).toBeLessThan(2);
});

test("sums are held at the cap, and counted where they pass it", () => {
  const moving = movingOf(INFO, 2, 1, draftOf(INFO));
  // At 255 the second pixel is on the rim: 200 + 100; the first is dark.
  expect(sumsAt(moving, 255)).toEqual({
    held: Uint32Array.of(0, 200),
    sums: Uint32Array.of(0, 300),
    above: 1,
    dark: 1,
    shown: 0,
  });
  expect(sumsAt(moving, -40)).toMatchObject({ above: 0, dark: 0, shown: 2 });
});
