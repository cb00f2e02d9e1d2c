import { describe, expect, it } from "vitest";
import { bytes, codesIn, findingsOf } from "./findings.ts";
import { describeClean, describeFindings } from "./tables.ts";

const LIMITS = "full=20mA budget=50mA";

describeFindings("current", "warning", [
  {
    what: "a picture",
    source: bytes(`3x1 ${LIMITS}`, "{ 255, 255, 255 }"),
    says: "a draws about 60 mA, over the budget of 50 mA. This is an estimate",
    on: "255",
    // 212/255 of 60 mA are 49.9 mA, 213/255 are 50.1.
    fixes: { "Scale a down to 50 mA": bytes(`3x1 ${LIMITS}`, "{ 212, 212, 212 }") },
  },
  {
    what: "one of several frames",
    source: bytes(`1x1 frames=3 full=100mA budget=50mA`, "{ 51, 255, 0 }"),
    says: "Frame 1 of a draws about 100 mA, 40 mA in the mean of all frames, over the budget of 50 mA",
    on: "255",
    fixes: {
      "Scale a down to 50 mA": bytes("1x1 frames=3 full=100mA budget=50mA", "{ 25, 127, 0 }"),
      // L* 75.87 of 127/255, of 100; L* 51.84 of 51/255 · 0.7587 = 39.33, which 27.8/255 gives.
      "Scale a down to 50 mA, evenly to the eye": bytes("1x1 frames=3 full=100mA budget=50mA", "{ 27, 127, 0 }"),
      "Clamp a so that it draws 50 mA at most": bytes("1x1 frames=3 full=100mA budget=50mA", "{ 51, 127, 0 }"),
    },
  },
  {
    what: "colours, channel by channel",
    source: `// @bitmap 1x1 rgb888 light=linear ${LIMITS}\nconst uint32_t a[] = { 0xFFFFFF };`,
    says: "a draws about 60 mA",
    on: "0xFFFFFF",
    fixes: {
      "Scale a down to 50 mA": `// @bitmap 1x1 rgb888 light=linear ${LIMITS}\nconst uint32_t a[] = { 0xD4D4D4 };`,
    },
  },
  {
    what: "dark pixels",
    source: bytes("3x1 full=5mA idle=20mA budget=50mA", "{ 0, 0, 0 }"),
    says: "a draws about 60 mA",
    on: "0",
  },
  {
    what: "more than an ampere",
    source: bytes("3x1 mono1 pack=each full=500mA budget=1A", "{ 1, 1, 1 }"),
    says: "a draws about 1.5 A, over the budget of 1 A",
    on: "1",
  },
]);

describe("fixes for colours", () => {
  const source = (list: string) =>
    `// @bitmap 2x1 rgb565 light=linear full=20mA budget=40mA\nconst uint16_t a[] = { ${list} };`;
  // An orange at half and a white, about 16 + 60 mA. Each colour keeps the shares of its channels, as far as the format has them.
  it("keep each colour and stay within the budget", () => {
    const [finding] = findingsOf(source("0x7A80, 0xFFFF"), "current");
    expect(finding?.fixes.map((fix) => fix.title)).toEqual([
      "Scale a down to 40 mA",
      "Scale a down to 40 mA, evenly to the eye",
      "Clamp a so that it draws 40 mA at most",
    ]);
    for (const { title, after } of finding?.fixes ?? []) {
      expect({ title, codes: codesIn(after) }).toEqual({ title, codes: [] });
      const [orange = 0, white = 0] = (after.match(/0x[0-9A-F]{4}/g) ?? []).map(Number);
      const [r, g, b] = [white >> 11, (white >> 5) & 63, white & 31];
      expect(Math.abs((255 * r) / 31 - (255 * g) / 63)).toBeLessThan(255 / 31);
      expect(b).toBe(r);
      if (!title.startsWith("Clamp")) expect((orange >> 5) & 63).toBeLessThan(2 * (orange >> 11));
    }
  });
});

describeClean("current", [
  ["just the budget", bytes("5x1 full=10mA budget=50mA", "{ 255, 255, 255, 255, 255 }")],
  ["driven at a part", bytes(`3x1 drive=80% ${LIMITS}`, "{ 255, 255, 255 }")],
  ["rows that are on for a part of the time", bytes(`3x1 duty=1/9 ${LIMITS}`, "{ 255, 255, 255 }")],
  ["code values, which are less light", bytes(`3x1 light=srgb ${LIMITS}`, "{ 200, 200, 200 }")],
  ["no budget", bytes("3x1 full=20mA", "{ 255, 255, 255 }")],
  ["no current", bytes("3x1 budget=50mA", "{ 255, 255, 255 }")],
]);
