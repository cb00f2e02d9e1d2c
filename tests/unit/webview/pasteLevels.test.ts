/** Levels of what is pasted, from other formats and from pictures. */
import { describe, expect, test } from "vitest";
import type { BitmapInfo } from "../../../shared/protocol/lsp.ts";
import { between, inverted, type Values } from "../../../webview/selection/levels.ts";
import { pieceOf } from "../../../webview/selection/piece.ts";
import { pieceFromRgba, rgbaOf } from "../../../webview/selection/png.ts";
import { drop, mono, sky } from "../../support/pictures.ts";

const gray = (bits: number, light: Values["light"] = "linear"): Values => ({
  format: `gray${bits}`,
  kind: "gray",
  most: 2 ** bits - 1,
  light,
});
const rgb565: Values = { format: "rgb565", kind: "rgb", most: 0xffff, light: "srgb" };
const rgb888: Values = { format: "rgb888", kind: "rgb", most: 0xffffff, light: "srgb" };
const palette: Values = {
  format: "palette2",
  kind: "palette",
  most: 3,
  light: "srgb",
  colours: [0, 0xff0000, 0xffffff],
};

describe("between formats", () => {
  test.each<[string, Values, Values, number, number]>([
    ["a share of full", gray(8), gray(4), 64, 4],
    ["and back", gray(4), gray(8), 4, 68],
    ["half is lit", gray(8), { ...gray(1), format: "mono1", kind: "mono" }, 128, 1],
    ["less is dark", gray(8), { ...gray(1), format: "mono1", kind: "mono" }, 127, 0],
    // IEC 61966-2-1: half of the light is code value 188; see CHECK-VALUES of the eye's scale for its neighbours.
    ["duty to a code value", gray(8), gray(8, "srgb"), 128, 188],
    ["a colour to its luminance", rgb888, gray(8, "srgb"), 0x808080, 128],
    // ITU-R BT.709: green is 0.7152 of the light of white.
    ["green", rgb888, gray(8), 0x00ff00, 182],
    ["a level to a grey", gray(8, "srgb"), rgb888, 0x55, 0x555555],
    ["a colour to the nearest", rgb888, rgb565, 0xff8000, 0xfc00],
    ["a colour to the nearest of a palette", rgb888, palette, 0xd02010, 1],
    ["the same format stays as it is", palette, palette, 3, 3],
  ])("%s", (_, from, to, value, expected) => {
    expect(between(from, to)(value)).toBe(expected);
  });

  test("a level is held within the cap", () => {
    expect(between(gray(4), gray(8), 64)(15)).toBe(64);
    expect(between(rgb888, gray(8), 64)(0xffffff)).toBe(64);
    expect(between(gray(8), rgb888, 64)(255)).toBe(0x404040);
    // 7 of 31 is shown as 58 and 15 of 63 as 61; the next ones, 66 and 65, would be above.
    expect(between(gray(8), rgb565, 64)(255)).toBe((7 << 11) | (15 << 5) | 7);
  });
});

test("colours are inverted channel by channel, indices to the nearest colour", () => {
  expect(inverted(rgb565)(0xf81f)).toBe(0x07e0);
  expect(inverted(palette)(0)).toBe(2);
  expect(inverted(palette)(2)).toBe(0);
  expect(inverted(palette)(1)).toBe(2);
});

describe("pixels of a picture", () => {
  const dot = (r: number, g: number, b: number, a = 255) => ({ width: 1, height: 1, data: [r, g, b, a] });
  const { bitmap } = drop();
  const srgb: BitmapInfo = { ...bitmap, light: "srgb" };
  const { cap: _, limit: __, ...free } = bitmap;
  test.each<[string, BitmapInfo, ReturnType<typeof dot>, number]>([
    ["white is the cap", bitmap, dot(255, 255, 255), 64],
    ["white is full without one", free, dot(255, 255, 255), 255],
    ["code 188 is half of the light", free, dot(188, 188, 188), 128],
    ["a display of code values takes them as they are, of its cap", srgb, dot(128, 128, 128), 32],
    ["half covered white is half of the light", free, dot(255, 255, 255, 128), 128],
    ["what is not there is dark", free, dot(255, 255, 255, 0), 0],
    ["a dark grey is dark", mono(2, 2).bitmap, dot(187, 187, 187), 0],
    ["a bright one is lit", mono(2, 2).bitmap, dot(188, 188, 188), 1],
  ])("%s", (_, to, picture, expected) => {
    expect([...pieceFromRgba(picture, to).pixels]).toEqual([expected]);
  });
});

describe("a picture and back", () => {
  const { bitmap } = drop();
  test.each<[string, BitmapInfo, number]>([
    ["levels of light up to a cap", bitmap, 64],
    ["code values up to a cap", { ...bitmap, light: "srgb", cap: 128, limit: 128 }, 128],
    ["lit and dark", mono(8, 8).bitmap, 1],
    ["colours", sky(2, 2, "rgb888").bitmap, 0xffffff],
  ])("%s: the brightest is white, and values stay", (_, of, brightest) => {
    const values = [0, Math.floor(brightest / 3), brightest];
    const piece = pieceOf({ width: values.length, height: 1 }, values);
    const data = rgbaOf(piece, of);
    expect([...data.slice(-4)]).toEqual([255, 255, 255, 255]);
    expect([...pieceFromRgba({ width: values.length, height: 1, data }, of).pixels]).toEqual(values);
  });
});
