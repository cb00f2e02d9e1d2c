import { expect, test } from "vitest";
import { lightness, lightOfLightness, srgbToLinear } from "../../../shared/light/lightness.ts";
import { dutyCode, lightOfLevel, screenCode } from "../../../shared/light/screen.ts";
import { decode, encode, nearestRung, parseLevel, rungs, stepLevel } from "../../../webview/levels.ts";

// CIE 15:2018 (ISO/CIE 11664-4); values agree with colorjs.io (lab-d65) and culori (lab65).
test.each([
  [0.01, 8.9914],
  [0.1, 37.8424],
  [0.18, 49.4961],
  [0.5, 76.0693],
])("a share of %f has lightness %f", (share, expected) => {
  expect(lightness(share)).toBeCloseTo(expected, 4);
});

test.each([
  [20, 0.029891],
  [50, 0.184187],
  [75, 0.482781],
  [90, 0.763034],
])("lightness %i is a share of %f", (of, expected) => {
  expect(lightOfLightness(of)).toBeCloseTo(expected, 6);
});

test("the 8-bit table of even lightness has its published sum and number of distinct values", () => {
  const table = Array.from({ length: 256 }, (_, i) => Math.round(255 * lightOfLightness((100 * i) / 255)));
  expect(table.reduce((a, b) => a + b, 0)).toBe(18973);
  expect(new Set(table).size).toBe(174);
  expect([4, 5, 16, 32, 64, 96, 128, 160, 192, 224, 254].map((i) => table[i])).toEqual([
    0, 1, 2, 4, 11, 25, 47, 80, 124, 183, 252,
  ]);
});

// IEC 61966-2-1 (sRGB).
test("sRGB codes and linear light", () => {
  expect([64, 128, 188].map((c) => Number(decode(c).toFixed(6)))).toEqual([0.051269, 0.215861, 0.502886]);
  expect([0.18, 0.5].map((y) => Math.round(encode(y)))).toEqual([118, 188]);
  for (let code = 0; code < 256; code++) expect(encode(decode(code))).toBeCloseTo(code, 6);
});

test("a level on the screen: a share of time is encoded, a code value is a share of full; above the top is full", () => {
  expect([18, 50, 100, 130].map((level) => screenCode(level, 100, "linear"))).toEqual([118, 188, 255, 255]);
  expect([0, 64, 127, 255].map((level) => screenCode(level, 127, "srgb"))).toEqual([0, 129, 255, 255]);
  // The tint is the colour of full light.
  for (const light of ["linear", "srgb"] as const) expect(screenCode(64, 64, light, 0xb8)).toBe(0xb8);
  // As driven: in proportion to the share of time. Code values are decoded first: sRGB 128 is .215861 of full, 64 .051269.
  expect([18, 50, 100, 130].map((level) => dutyCode(level, 100, 255, "linear"))).toEqual([46, 128, 255, 255]);
  expect([0, 64, 128, 255].map((level) => dutyCode(level, 255, 255, "srgb"))).toEqual([0, 13, 55, 255]);
  expect(dutyCode(32, 64, 255, "linear", 0xb8)).toBe(0xb8 / 2);
  expect([lightOfLevel(128, 255, "linear"), lightOfLevel(128, 255, "srgb")]).toEqual([
    128 / 255,
    expect.closeTo(0.215861, 6),
  ]);
});

test("rungs of code values are even to the eye too", () => {
  const ladder = rungs(255, 127, "srgb");
  expect(ladder).toContain(127);
  const eye = ladder.map((value) => lightness(srgbToLinear(value / 255)));
  const steps = eye.slice(1, -1).map((l, i) => l - (eye[i] ?? 0));
  expect(Math.max(...steps) - Math.min(...steps)).toBeLessThan(1);
});

test.each([
  [255, undefined],
  [255, 64],
  [255, 128],
  [255, 15],
  [65535, 9000],
])("rungs of 0–%i with cap %s are even to the eye and hold both ends and the cap", (most, cap) => {
  const ladder = rungs(most, cap);
  expect(ladder[0]).toBe(0);
  expect(ladder[ladder.length - 1]).toBe(most);
  if (cap !== undefined) expect(ladder).toContain(cap);
  const steps = ladder.slice(1).map((v, i) => lightness(v / most) - lightness((ladder[i] ?? 0) / most));
  // Rounding a dark 8-bit level to a whole value moves it by up to half a value, which is 1.8 of lightness.
  const rounding = lightness(0.5 / most);
  const wanted = steps[0] ?? 0;
  for (const step of steps.slice(0, -1)) expect(Math.abs(step - wanted)).toBeLessThanOrEqual(2 * rounding + 1e-9);
  expect(steps.every((step) => step > 0)).toBe(true);
});

test("formats of few values show them all", () => {
  expect(rungs(1)).toEqual([0, 1]);
  expect(rungs(15)).toHaveLength(16);
});

test("stepping goes from rung to rung and stays at the ends", () => {
  const ladder = [0, 2, 6, 11];
  expect([stepLevel(3, 1, ladder), stepLevel(3, -1, ladder), stepLevel(6, 1, ladder)]).toEqual([6, 2, 11]);
  expect([stepLevel(11, 1, ladder), stepLevel(0, -1, ladder)]).toEqual([11, 0]);
});

test("the nearest rung is nearest by lightness, not by value", () => {
  // L* of 1/255 is 3.5, of 2/255 7.1, of 6/255 17.0, of 4/255 13.5.
  expect([0, 1, 4, 11, 255].map((v) => nearestRung(v, [0, 2, 6, 11, 255], 255))).toEqual([0, 0, 6, 11, 255]);
});

test.each([
  ["42", 42],
  [" 0x2A ", 42],
  ["0X2a", 42],
  ["25%", 64],
  ["12.5 %", 32],
  ["100%", 255],
  ["0", 0],
])("%s is level %i", (text, level) => {
  expect(parseLevel(text, 255)).toBe(level);
});

test.each(["", "x", "-1", "256", "101%", "4 2", "0x", "1e2"])("%s is no level", (text) => {
  expect(parseLevel(text, 255)).toHaveProperty("refused");
});
