import { expect, test } from "vitest";
import { currentOfFrame, currentOfPixel, currentOfValue } from "../../../shared/light/current.ts";

test("the worked example of a scanned LED driver's data sheet", () => {
  // MAX7219 data sheet, p. 11: P = V+ · 8 mA + (V+ − VLED) · duty · I · N = 1.11 W, with V+ = 5.25 V, VLED = 1.8 V,
  // duty = 31/32, I = 40 mA and N = 8 segments. The driver's own 8 mA are no business of the picture's.
  const segment = currentOfPixel([1], { full: 40, idle: 0, duty: 31 / 32 });
  const amperes = (8 * segment) / 1000;
  expect(5.25 * 0.008 + (5.25 - 1.8) * amperes).toBeCloseTo(1.11, 2);
});

test("a scanned display draws its peak for the share of time that a row is on", () => {
  // Average = peak · PWM / N (scan multiplex): 1/8 of 80 mA, half of it by PWM.
  expect(currentOfPixel([0.5], { full: 80, idle: 0, duty: 1 / 8 })).toBe(5);
});

test("pixels on a USB port: one unit load is 100 mA, a configured device may draw 500 mA", () => {
  // USB 2.0 §7.2.1 (section from memory); 60 mA for white: common practice, no source.
  const white = currentOfPixel([1, 1, 1], { full: 20, idle: 1, duty: 1 });
  expect([Math.floor(100 / white), Math.floor(500 / white)]).toEqual([1, 8]);
});

test("a frame adds up its pixels by their values, in their own light", () => {
  const format = { name: "gray8", kind: "gray", most: 255, full: 255 } as const;
  const counts = new Map([
    [0, 10],
    [128, 4],
    [255, 1],
  ]);
  const supply = { full: 20, idle: 1, duty: 1 };
  const of = (light: "linear" | "srgb", drive = 1) =>
    currentOfFrame(counts, currentOfValue({ format, light, drive }, supply));
  expect(of("linear")).toBeCloseTo(10 + 4 * 20 * (128 / 255) + 20, 9);
  // sRGB 128 is .215861 of full light (IEC 61966-2-1).
  expect(of("srgb")).toBeCloseTo(10 + 4 * 20 * 0.215861 + 20, 4);
  expect(of("linear", 0.25)).toBeCloseTo(10 + 20 * (128 / 255) + 5, 9);
});

test("a white pixel of three channels, a dim one and a dark one", () => {
  // Common practice, no source: 20 mA a channel, 60 mA for white, 1 mA for a dark pixel.
  const supply = { full: 20, idle: 1, duty: 1 };
  expect(currentOfPixel([1, 1, 1], supply)).toBe(60);
  expect(currentOfPixel([0.5, 0, 0.25], supply)).toBe(15);
  expect(currentOfPixel([0, 0, 0], supply)).toBe(1);
});
