import { describe, expect, it } from "vitest";
import { hexOf, levelOf, packRgb, packWithin, rgbOf, valueInWords } from "../../../shared/pixels/colour.ts";
import type { Format } from "../../../shared/pixels/formats.ts";
import { FORMATS } from "../../../shared/pixels/formats.ts";

function format(name: string): Format {
  const found = FORMATS.get(name);
  if (!found) throw new Error(name);
  return found;
}

const bitsOf = { rgb332: [3, 3, 2], rgb565: [5, 6, 5], rgb888: [8, 8, 8] } as const;
const NAMES = ["rgb332", "rgb565", "rgb888"] as const;

/** PNG Third Edition, §13.12: floor(in · MAXOUT / MAXIN + 0.5). */
const rescaled = (v: number, bits: number) => Math.floor((v * 255) / (2 ** bits - 1) + 0.5);

describe("colours of raw values", () => {
  it.each([
    ["rgb332", 0b111_000_00, "#ff0000"],
    ["rgb332", 0b000_111_00, "#00ff00"],
    ["rgb332", 0b000_000_11, "#0000ff"],
    ["rgb332", 0b001_100_10, "#2492aa"],
    ["rgb565", 0xf800, "#ff0000"],
    ["rgb565", 0x07e0, "#00ff00"],
    ["rgb565", 0x001f, "#0000ff"],
    ["rgb888", 0xffb84d, "#ffb84d"],
    ["mono1", 1, "#ffffff"],
    ["gray4", 5, "#555555"],
    ["palette2", 2, "#aaaaaa"],
  ])("%s %i is %s", (name, value, colour) => {
    expect(hexOf(rgbOf(format(name), value))).toBe(colour);
  });

  it.each(NAMES)("%s: every channel value by itself is rescaled as PNG does", (name) => {
    const bits = bitsOf[name];
    bits.forEach((own, channel) => {
      const below = bits.slice(channel + 1).reduce((sum, b) => sum + b, 0);
      for (let v = 0; v < 2 ** own; v++)
        expect(rgbOf(format(name), v << below)).toBe(rescaled(v, own) << (16 - 8 * channel));
    });
  });

  // Repeating the high bits is the other usual rule.
  it("rgb565 differs from bit replication at 5-bit 3, 7, 24, 28 and 6-bit 11 to 15, 48 to 52", () => {
    const replicated = (v: number, bits: number) => (v << (8 - bits)) | (v >> (2 * bits - 8));
    const unlike = (bits: number) =>
      Array.from({ length: 2 ** bits }, (_, v) => v).filter((v) => rescaled(v, bits) !== replicated(v, bits));
    expect(unlike(5)).toEqual([3, 7, 24, 28]);
    expect(unlike(6)).toEqual([11, 12, 13, 14, 15, 48, 49, 50, 51, 52]);
  });

  it("an index beyond the palette is black", () => {
    const colours = [0x102030, 0xffb84d];
    expect([0, 1, 2].map((i) => rgbOf(format("palette2"), i, colours))).toEqual([0x102030, 0xffb84d, 0]);
  });
});

describe("raw values of colours", () => {
  it.each(NAMES)("%s: a colour of the format packs to the value it came from", (name) => {
    const { most } = format(name);
    const step = name === "rgb888" ? 4099 : 1;
    for (let v = 0; v <= most; v += step) expect(packRgb(format(name), rgbOf(format(name), v))).toBe(v);
  });

  it.each(NAMES)("%s: nearest within a limit, and never above it", (name) => {
    for (const limit of [0, 1, 16, 63, 64, 128, 254, 255]) {
      for (let rgb = 0; rgb <= 0xffffff; rgb += 70_007) {
        const value = packWithin(format(name), rgb, limit);
        expect(levelOf(format(name), value)).toBeLessThanOrEqual(limit);
        if (limit === 255) expect(value).toBe(packRgb(format(name), rgb));
      }
    }
  });
});

describe("the level of a value", () => {
  it.each([
    ["gray4", 9, undefined, 9],
    ["mono1", 1, undefined, 1],
    ["rgb888", 0x0a40ff, undefined, 255],
    ["rgb565", 0x0400, undefined, 130],
    ["palette4", 1, [0, 0x205010], 0x50],
    ["palette4", 2, [0, 0x205010], 0],
  ] as const)("%s %i: %s", (name, value, colours, level) => {
    expect(levelOf(format(name), value, colours)).toBe(level);
  });
});

it.each([
  ["gray8", 64, undefined, "64"],
  ["rgb565", 0x1f, undefined, "0x001F #0000ff"],
  ["rgb332", 3, undefined, "0x03 #0000ff"],
  ["rgb888", 0x102030, undefined, "0x102030 #102030"],
  ["palette4", 3, undefined, "index 3"],
  ["palette4", 1, [0, 0xffb84d], "index 1 #ffb84d"],
  ["palette4", 2, [0, 0xffb84d], "index 2, which has no colour"],
] as const)("%s %i with %j in words", (name, value, colours, words) => {
  expect(valueInWords(format(name), value, colours)).toBe(words);
});
