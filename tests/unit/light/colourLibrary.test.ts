/** Lightness and screen colours beside colorjs.io, a general colour library of its own. */
import Color from "colorjs.io";
import { expect, test } from "vitest";
import { lightness, lightOfLightness, relativeLuminance, srgbToLinear } from "../../../shared/light/lightness.ts";
import { lightnessTable } from "../../../shared/light/lightnessTable.ts";

/** White of D65, as the library has it: luminance is the second of three. */
const WHITE = new Color("white").to("xyz-d65").coords as [number, number, number];
const grey = (light: number) => new Color("xyz-d65", [WHITE[0] * light, WHITE[1] * light, WHITE[2] * light]);
const lightOf = (value: number) => new Color("lab-d65", [value, 0, 0]).to("xyz-d65").coords[1] as number;

test("lightness of a thousand greys, and back", () => {
  for (let i = 0; i <= 1000; i++) {
    expect(lightness(i / 1000)).toBeCloseTo(grey(i / 1000).to("lab-d65").coords[0] as number, 6);
    expect(lightOfLightness(i / 10)).toBeCloseTo(lightOf(i / 10), 8);
  }
});

test.each([
  [8, 8],
  [8, 10],
  [5, 16],
])("the table of %i bits to %i", (from, to) => {
  const most = 2 ** from - 1;
  const duties = Array.from({ length: most + 1 }, (_, i) => Math.round((2 ** to - 1) * lightOf((100 * i) / most)));
  expect(Array.from(lightnessTable({ from, to }))).toEqual(duties);
});

test("the 256 codes of a screen, and luminance of colours", () => {
  for (let code = 0; code < 256; code++) {
    const [red = 0] = new Color("srgb", [code / 255, 0, 0]).to("srgb-linear").coords;
    expect(srgbToLinear(code / 255)).toBeCloseTo(red as number, 10);
  }
  for (const [red, green, blue] of [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
    [0.3, 0.6, 0.1],
  ] as const) {
    const of = new Color("srgb-linear", [red, green, blue]);
    // The library's white is given to more places than the coefficients of ITU-R BT.709.
    expect(relativeLuminance(red, green, blue)).toBeCloseTo(of.luminance, 4);
  }
});
