import { expect, test } from "vitest";
import type { BitmapInfo } from "../../../shared/protocol/lsp.ts";
import { parseFor, parseValue } from "../../../webview/entry.ts";
import { COLOUR_ART } from "../../support/colourArt.ts";
import { drop } from "../../support/pictures.ts";
import { shownFrom } from "../../support/shownFrom.ts";

const bitmapOf = (name: string): BitmapInfo => shownFrom(COLOUR_ART, name).bitmap;
const [dawn, berries, petals] = ["dawn", "berries", "petals"].map(bitmapOf) as [BitmapInfo, BitmapInfo, BitmapInfo];

// Colours of the kernel's drm_format_helper_test.c. It truncates (0A33, 1260, A800, 6B8E); we go to the nearest.
test.each([
  ["#0E449C", 0x1233],
  ["#114d05", 0x1261],
  ["#A80303", 0xa020],
  ["#6C7073", 0x6b8e],
  ["#ff00ff", 0xf81f],
  ["#f0f", 0xf81f],
])("%s is %i in 5, 6 and 5 bits", (typed, value) => {
  expect(parseValue(typed, dawn)).toMatchObject({ value });
});

test("the same in 3, 3 and 2 bits, where both rules agree", () => {
  expect(parseValue("#ff00ff", berries)).toEqual({ value: 0xe3 });
});

test("what was asked for is told where the format has not got it", () => {
  expect(parseValue("#123456", dawn)).toEqual({ value: 0x11aa, wanted: 0x123456 });
  expect(parseValue("#103552", dawn)).toEqual({ value: 0x11aa });
  expect(parseValue("#123456", petals)).toEqual({ value: 0x123456 });
});

test.each([
  ["0xF81F", 0xf81f],
  ["63519", 63519],
  ["100%", 0xffff],
  ["50%", (16 << 11) | (32 << 5) | 16],
  ["50 %", (16 << 11) | (32 << 5) | 16],
  ["100% 0% 50%", (31 << 11) | 16],
  ["12.5%, 0%, 0%", 4 << 11],
])("%s as a colour of 5, 6 and 5 bits", (typed, value) => {
  expect(parseValue(typed, dawn)).toEqual({ value });
});

test.each([
  ["0x10000", "0x10000 is above 0xFFFF, the highest value"],
  ["101%", "101% is more than full"],
  ["50% 20%", "“50% 20%” is not a colour: write #ffb84d, a raw value, or 50% or 50% 20% 0%"],
  ["#12345", "“#12345” is not a colour: write #ffb84d, a raw value, or 50% or 50% 20% 0%"],
  ["", "“” is not a colour: write #ffb84d, a raw value, or 50% or 50% 20% 0%"],
])("%s is no colour: %s", (typed, refused) => {
  expect(parseValue(typed, dawn)).toEqual({ refused });
});

test("an index by number or by the nearest colour of the palette; beyond the palette it is refused", () => {
  const seedling = bitmapOf("seedling");
  expect(parseValue("2", seedling)).toEqual({ value: 2 });
  expect(parseValue("0x3", seedling)).toEqual({ value: 3 });
  expect(parseValue("#006500", seedling)).toEqual({ value: 1 });
  expect(parseValue("#00ff00", seedling)).toEqual({ value: 1, wanted: 0x00ff00 });
  expect(parseValue("4", seedling)).toMatchObject({ refused: expect.stringContaining("3, the highest") });
  // Without colours there are only numbers.
  expect(parseValue("#fff", bitmapOf("unnamed"))).toMatchObject({ refused: expect.stringContaining("not a level") });
});

test("levels as before, and colours of a palette's own format", () => {
  expect(parseValue("25%", drop().bitmap)).toEqual({ value: 64 });
  expect(parseFor("#123456", "rgb565")).toEqual({ value: 0x11aa, wanted: 0x123456 });
  expect(parseFor("50%", "gray8")).toEqual({ value: 128 });
  expect(parseFor("#123456", "gray8")).toHaveProperty("refused");
});
