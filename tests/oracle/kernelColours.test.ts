import { describe, expect, it } from "vitest";
import { openText } from "../../shared/bitmap/open.ts";
import { pixelsOf } from "../../shared/bitmap/resolve.ts";
import { levelOf, packRgb, rgbOf } from "../../shared/pixels/colour.ts";
import { FORMATS, type Format } from "../../shared/pixels/formats.ts";

/**
 * Test vectors of the Linux kernel (drivers/gpu/drm/tests/drm_format_helper_test.c, cases `well_known_colors` and
 * `destination_pitch`): XRGB8888, RGB332, RGB565, and RGB565 with its bytes swapped. The kernel drops low bits.
 */
const VECTORS: readonly (readonly [rgb: number, rgb332: number, rgb565: number, swapped: number])[] = [
  [0xffffff, 0xff, 0xffff, 0xffff],
  [0x000000, 0x00, 0x0000, 0x0000],
  [0xff0000, 0xe0, 0xf800, 0x00f8],
  [0x00ff00, 0x1c, 0x07e0, 0xe007],
  [0x0000ff, 0x03, 0x001f, 0x1f00],
  [0xff00ff, 0xe3, 0xf81f, 0x1ff8],
  [0xffff00, 0xfc, 0xffe0, 0xe0ff],
  [0x00ffff, 0x1f, 0x07ff, 0xff07],
  [0x0e449c, 0x0a, 0x0a33, 0x330a],
  [0x114d05, 0x08, 0x1260, 0x6012],
  [0xa80303, 0xa0, 0xa800, 0x00a8],
  [0x6c7073, 0x6d, 0x6b8e, 0x8e6b],
];
/** RGB888 of the case `destination_pitch`, as its bytes lie in memory: blue first. */
const BYTES = [0x9c, 0x44, 0x0e, 0x05, 0x4d, 0x11, 0x03, 0x03, 0xa8, 0x73, 0x70, 0x6c];

const known = (name: string) => FORMATS.get(name) as Format;
const list = (values: readonly number[]) => values.map((v) => `0x${v.toString(16)}`).join(", ");
const count = VECTORS.length;

/** Raw values of an annotated array. */
function read(options: string, type: string, values: readonly number[]): number[] {
  const [bitmap] = openText(`// @bitmap ${options}\nconst ${type} a[] = { ${list(values)} };`, "art.h").bitmaps;
  return Array.from((bitmap && pixelsOf(bitmap, 0)) ?? []);
}

const channels = (rgb: number) => [rgb >> 16, (rgb >> 8) & 255, rgb & 255] as const;

describe("the Linux kernel's vectors", () => {
  it.each<[string, string, number[], number[]]>([
    [`${count}x1 rgb332`, "uint8_t", VECTORS.map((v) => v[1]), VECTORS.map((v) => v[1])],
    [`${count}x1 rgb565`, "uint16_t", VECTORS.map((v) => v[2]), VECTORS.map((v) => v[2])],
    [`${count}x1 rgb565 bytes=le`, "uint16_t", VECTORS.map((v) => v[3]), VECTORS.map((v) => v[2])],
    [`${count}x1 rgb565`, "uint8_t", VECTORS.flatMap((v) => [v[2] >> 8, v[2] & 255]), VECTORS.map((v) => v[2])],
    [`${count}x1 rgb888`, "uint32_t", VECTORS.map((v) => v[0]), VECTORS.map((v) => v[0])],
    ["4x1 rgb888 bytes=le", "uint8_t", BYTES, VECTORS.slice(8).map((v) => v[0])],
  ])("%s in %s", (options, type, values, raw) => {
    expect(read(options, type, values)).toEqual(raw);
  });

  // What dropping b bits loses is under 2^b; rescaling to the nearest moves by less than half a step of the rest.
  it.each([
    ["rgb332", 1, [5, 5, 6]],
    ["rgb565", 2, [3, 2, 3]],
  ] as const)("%s: shown, each channel is within what the kernel dropped", (name, column, dropped) => {
    for (const vector of VECTORS) {
      const shown = channels(rgbOf(known(name), vector[column]));
      channels(vector[0]).forEach((channel, c) => {
        const bits = dropped[c] as number;
        expect(channel >> bits).toBe((shown[c] as number) >> bits);
      });
    }
  });

  it("rounding to the nearest packs the random colours otherwise, the others alike", () => {
    const nearest = VECTORS.map(([rgb]) => packRgb(known("rgb565"), rgb));
    expect(nearest.slice(0, 8)).toEqual(VECTORS.slice(0, 8).map((v) => v[2]));
    expect(nearest.slice(8)).toEqual([0x1233, 0x1261, 0xa020, 0x6b8e]);
  });

  it("no other value of the format is nearer", () => {
    for (const [rgb] of VECTORS) {
      const own = packRgb(known("rgb332"), rgb);
      const far = (raw: number) =>
        channels(rgbOf(known("rgb332"), raw)).reduce((sum, v, c) => sum + (v - (channels(rgb)[c] as number)) ** 2, 0);
      for (let raw = 0; raw < 256; raw++) expect(far(own)).toBeLessThanOrEqual(far(raw));
      expect(levelOf(known("rgb332"), own)).toBeLessThanOrEqual(255);
    }
  });
});
