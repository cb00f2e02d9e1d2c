import { describe, expect, it } from "vitest";
import { brightest } from "../../../server/brightest.ts";
import { panelRaster, valueRaster } from "../../../server/raster.ts";
import { openText } from "../../../shared/bitmap/open.ts";
import type { Bitmap } from "../../../shared/bitmap/resolve.ts";

function bitmapOf(options: string, list: string): Bitmap {
  const bitmap = openText(`// @bitmap ${options}\nconst uint8_t a[] = ${list};`, "art.h").bitmaps[0];
  if (!bitmap) throw new Error(options);
  return bitmap;
}

describe("raw values at full scale", () => {
  it.each([
    ["4x1 gray8", "{ 0, 1, 64, 255 }", [0, 1, 64, 255]],
    ["4x1 gray8 cap=64", "{ 0, 1, 64, 255 }", [0, 1, 64, 255]],
    ["4x1 gray8 invert", "{ 0, 1, 64, 255 }", [255, 254, 191, 0]],
    ["4x1 mono1", "{ 0xA0 }", [255, 0, 255, 0]],
    ["4x1 mono1 invert", "{ 0xA0 }", [0, 255, 0, 255]],
    ["2x1 mono1 pack=each", "{ 0, 7 }", [0, 255]],
  ])("%s %s", (options, list, data) => {
    const raster = valueRaster(bitmapOf(options, list), 0);
    expect(raster).toMatchObject({ channels: 1 });
    expect(Array.from(raster?.data ?? [])).toEqual(data);
  });

  it("frame by frame, and none for a bitmap without a picture", () => {
    const two = bitmapOf("1x1 frames=2", "{ 7, 8 }");
    expect([0, 1].map((frame) => valueRaster(two, frame)?.data[0])).toEqual([7, 8]);
    expect(valueRaster(bitmapOf("1x1", "{ GLOW }"), 0)).toBeUndefined();
  });
});

const warm = "// @palette rgb888\nconst uint32_t warm[] = { 0x102030, 0xffb84d };\n";

describe("colours at full scale", () => {
  const bitmap = (source: string) => openText(source, "art.h").bitmaps[0] as Bitmap;
  it.each([
    ["rgb565", "// @bitmap 2x1 rgb565\nconst uint16_t a[] = { 0xf800, 0x0410 };", [255, 0, 0, 0, 130, 132]],
    ["rgb332 inverted", "// @bitmap 1x1 rgb332 invert\nconst uint8_t a[] = { 0x1f };", [255, 0, 0]],
    [
      "a palette",
      `${warm}// @bitmap 3x1 palette2 palette=warm\nconst uint8_t a[] = { 0x48 };`,
      [255, 184, 77, 16, 32, 48, 0, 0, 0],
    ],
    ["no palette", "// @bitmap 2x1 palette4\nconst uint8_t a[] = { 0x0f };", [0, 0, 0, 255, 255, 255]],
  ])("%s", (_what, source, data) => {
    const raster = valueRaster(bitmap(source), 0);
    expect(raster).toMatchObject({ channels: 3 });
    expect(Array.from(raster?.data ?? [])).toEqual(data);
  });

  it.each([
    ["code values stay as they are", "rgb888", 255, [255, 184, 77]],
    ["the cap is full light", "rgb888 cap=128", 128, [255, 255, 153]],
    // IEC 61966-2-1: code of linear 184/255 = .721569 is 221, of 77/255 = .301961 is 149.
    ["duties become code values", "rgb888 light=linear", 255, [255, 221, 149]],
  ])("%s", (_what, options, top, data) => {
    const shown = bitmap(`// @bitmap 1x1 ${options}\nconst uint32_t a[] = { 0xffb84d };`);
    expect(brightest(shown)).toBe(top);
    expect(Array.from(panelRaster(shown, 0, top)?.data ?? [])).toEqual(data);
  });
});

describe("as it looks on the panel", () => {
  const shown = (options: string, list: string, top: number) =>
    Array.from(panelRaster(bitmapOf(options, list), 0, top)?.data ?? []);

  // IEC 61966-2-1 (from memory): linear .18 is code 118, .5 is 188; code 64 is linear .051269, 128 is .215861.
  it.each([
    ["3x1", "{ 0, 50, 100 }", 100, [0, 188, 255]],
    ["1x1", "{ 18 }", 100, [118]],
    ["1x1", "{ 255 }", 64, [255]],
    ["3x1 light=srgb", "{ 0, 50, 100 }", 100, [0, 128, 255]],
    ["2x1 mono1", "{ 0x40 }", 1, [0, 255]],
  ])("%s %s up to %i", (options, list, top, greys) => {
    expect(shown(options, list, top)).toEqual(greys.flatMap((v) => [v, v, v]));
  });

  it("in the tint of the panel: full light gives its code values", () => {
    expect(shown("2x1 tint=#ffb84d", "{ 0, 64 }", 64)).toEqual([0, 0, 0, 255, 184, 77]);
    // Half the light of code 128, linear .215861 / 2, is code 92 (IEC 61966-2-1: 1.055 * .1079305^(1/2.4) - .055 = .3617).
    expect(shown("1x1 tint=#000080", "{ 50 }", 100)).toEqual([0, 0, 92]);
  });

  it.each([
    ["2x1", "{ 7, 40 }", 40],
    ["2x1 cap=64", "{ 7, 40 }", 64],
    ["2x1 cap=64", "{ 7, 99 }", 99],
    ["2x1 frames=2", "{ 7, 40, 41, 0 }", 41],
    ["2x1", "{ 0, 0 }", 1],
    ["2x1 mono1", "{ 0 }", 1],
  ])("%s %s: %i is shown as fully lit", (options, list, top) => {
    expect(brightest(bitmapOf(options, list))).toBe(top);
  });
});
