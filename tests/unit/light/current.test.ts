import { expect, test } from "vitest";
import { currentOfPixel } from "../../../shared/light/current.ts";

test("the worked example of a scanned LED driver's data sheet", () => {
  // MAX7219 data sheet, p. 11: P = V+ · 8 mA + (V+ − VLED) · duty · I · N = 1.11 W, with V+ = 5.25 V, VLED = 1.8 V,
  // duty = 31/32, I = 40 mA and N = 8 segments. The driver's own 8 mA are no business of the picture's.
  const segment = currentOfPixel([1], { full: 40, idle: 0, duty: 31 / 32 });
  const amperes = (8 * segment) / 1000;
  expect(5.25 * 0.008 + (5.25 - 1.8) * amperes).toBeCloseTo(1.11, 2);
});

test("a white pixel of three channels, a dim one and a dark one", () => {
  // Common practice, no source: 20 mA a channel, 60 mA for white, 1 mA for a dark pixel.
  const supply = { full: 20, idle: 1, duty: 1 };
  expect(currentOfPixel([1, 1, 1], supply)).toBe(60);
  expect(currentOfPixel([0.5, 0, 0.25], supply)).toBe(15);
  expect(currentOfPixel([0, 0, 0], supply)).toBe(1);
});
