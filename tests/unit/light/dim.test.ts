import fc from "fast-check";
import { expect, test } from "vitest";
import { dimmer, shareFor, WAYS } from "../../../shared/light/dim.ts";
import { lightness } from "../../../shared/light/lightness.ts";
import { lightOfLevel } from "../../../shared/light/screen.ts";

const linear = { full: 255, light: "linear" } as const;

test("in lightness, ratios stay: even steps do too", () => {
  // Levels of L* 0, 25, 50, 75, 100 brought down to 64 of 255, of L* 57.2: a quarter of that each.
  const levels = [0, 0.0442, 0.18419, 0.48278, 1].map((light) => 255 * light);
  const dim = dimmer("even", shareFor("even", 255, 64, linear), linear);
  const seen = levels.map((level) => lightness(dim(level) / 255));
  for (const [i, value] of seen.entries()) expect(value).toBeCloseTo((57.187 * i) / 4, 1);
});

test("of code values, in their own light", () => {
  const srgb = { full: 255, light: "srgb" } as const;
  const dim = dimmer("even", shareFor("even", 200, 100, srgb), srgb);
  const seen = (level: number) => lightness(lightOfLevel(level, 255, "srgb"));
  expect(dim(200)).toBeCloseTo(100, 6);
  expect(seen(dim(50)) / seen(50)).toBeCloseTo(seen(100) / seen(200), 6);
});

test("each way brings the peak to the limit, makes nothing brighter and keeps the order", () => {
  const level = fc.integer({ min: 0, max: 255 });
  fc.assert(
    fc.property(
      fc.constantFrom(...WAYS),
      fc.constantFrom("linear", "srgb"),
      level,
      level,
      level,
      level,
      (way, light, a, b, c, d) => {
        const scale = { full: 255, light } as const;
        const peak = Math.max(a, b, c, d, 1);
        const limit = Math.min(a, peak);
        const dim = dimmer(way, shareFor(way, peak, limit, scale), scale);
        expect(dim(peak)).toBeCloseTo(limit, 6);
        expect(dim(b)).toBeLessThanOrEqual(b + 1e-9);
        if (b <= c) expect(dim(b)).toBeLessThanOrEqual(dim(c) + 1e-9);
      },
    ),
  );
});
