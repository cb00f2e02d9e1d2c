/**
 * CIE 1976 lightness (CIE 15:2018, ISO/CIE 11664-4, clauses from memory; ε = 216/24389, κ = 24389/27). The values of the
 * table of 8 bits were worked out with those constants outside of this project; `colourLibrary.test.ts` has those of a library.
 */
import { createHash } from "node:crypto";
import { describe, expect, test } from "vitest";
import { lightness, lightOfLightness } from "../../../shared/light/lightness.ts";
import { lightnessTable, MOST_BITS } from "../../../shared/light/lightnessTable.ts";

test.each([
  [0.01, 8.9914],
  [0.1, 37.8424],
  [0.18, 49.4961],
  [0.5, 76.0693],
])("Y %f has L* %f", (light, value) => {
  expect(lightness(light)).toBeCloseTo(value, 4);
});

test.each([
  [20, 0.029891],
  [50, 0.184187],
  [75, 0.482781],
  [90, 0.763034],
])("L* %f is Y %f", (value, light) => {
  expect(lightOfLightness(value)).toBeCloseTo(light, 6);
});

describe("the table of 8 bits to 8", () => {
  const table = lightnessTable({ from: 8, to: 8 });
  test("has the published values", () => {
    const at = { 4: 0, 5: 1, 16: 2, 32: 4, 64: 11, 96: 25, 128: 47, 160: 80, 192: 124, 224: 183, 254: 252, 255: 255 };
    for (const [level, duty] of Object.entries(at)) expect([level, table[Number(level)]]).toEqual([level, duty]);
    expect(table.reduce((sum, duty) => sum + duty, 0)).toBe(18973);
    expect(new Set(table).size).toBe(174);
    expect(createHash("md5").update(Uint8Array.from(table)).digest("hex")).toBe("ba58dd70378090b6f0197d65f22400d2");
  });
});

test.each([
  [1, 1],
  [4, 8],
  [8, 12],
  [10, 16],
  [16, 16],
  [5, 3],
])("a table of %i bits to %i rises from 0 to full, each step at most half a duty off", (from, to) => {
  const table = lightnessTable({ from, to });
  const most = 2 ** to - 1;
  expect([table.length, table[0], table.at(-1)]).toEqual([2 ** from, 0, most]);
  for (let i = 1; i < table.length; i++) {
    expect(table[i]).toBeGreaterThanOrEqual(table[i - 1] as number);
    const exact = most * lightOfLightness((100 * i) / (table.length - 1));
    expect(Math.abs((table[i] as number) - exact)).toBeLessThanOrEqual(0.5);
  }
});

test("up to a cap", () => {
  const table = lightnessTable({ from: 3, to: 8, most: 64 });
  // The steps that the sample's art uses, in eight levels: the top one is the cap.
  expect(Array.from(table)).toEqual([0, 1, 4, 8, 16, 27, 43, 64]);
});

test.each([
  [{ from: 0, to: 8 }],
  [{ from: 8, to: MOST_BITS + 1 }],
  [{ from: 8, to: 2.5 }],
  [{ from: 8, to: 8, most: 256 }],
])("%j is refused", (size) => {
  expect(() => lightnessTable(size)).toThrow(RangeError);
});
