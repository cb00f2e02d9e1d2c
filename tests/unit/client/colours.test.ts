import { expect, test } from "vitest";
import { chalk, css, glow, hexOf, ink, rgbOf } from "../../../client/colours.ts";

/** Relative luminance as WCAG 2.2 defines it, and its contrast ratio: computed here from the definition. */
const luminance = (hex: string) => {
  const [r = 0, g = 0, b = 0] = [1, 3, 5]
    .map((i) => Number.parseInt(hex.slice(i, i + 2), 16) / 255)
    .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};
const ratio = (a: string, b: string) => {
  const [low = 0, high = 0] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (high + 0.05) / (low + 0.05);
};

const TINTS = ["#ffffff", "#ffb84d", "#00ff00", "#2040ff", "#0000ff", "#ff0000", "#101010", "#000000"];

test.each(TINTS)("%s stands out from white and from black", (tint) => {
  // WCAG 2.2, success criterion 1.4.11: 3:1. A little less, as channels are rounded to 8 bits.
  expect(ratio(hexOf(ink(rgbOf(tint))), "#ffffff")).toBeGreaterThan(2.95);
  expect(ratio(hexOf(chalk(rgbOf(tint))), "#000000")).toBeGreaterThan(2.95);
});

test("a tint that stands out already stays as it is", () => {
  expect(hexOf(chalk(rgbOf("#ffb84d")))).toBe("#ffb84d");
  expect(hexOf(ink(rgbOf("#803000")))).toBe("#803000");
});

test("half the light of a tint is not half its code value", () => {
  // IEC 61966-2-1: .5 of full light is code 188.
  expect(hexOf(glow(rgbOf("#ffffff"), 0.5))).toBe("#bcbcbc");
  expect(hexOf(glow(rgbOf("#ffb84d"), 0))).toBe("#000000");
});

test("is written as CSS", () => {
  expect(css(rgbOf("#ffb84d"), 0.25)).toBe("rgba(255, 184, 77, 0.250)");
  expect(css(rgbOf())).toBe("rgba(255, 255, 255, 1.000)");
});
