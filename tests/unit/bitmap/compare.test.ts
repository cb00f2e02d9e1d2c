import { describe, expect, it } from "vitest";
import { changedPixels, compareFiles, differenceInWords } from "../../../shared/bitmap/compare.ts";
import { openText } from "../../../shared/bitmap/open.ts";

/** The differences of two texts in words, each after the bitmap's name. */
function words(before: string, after: string): string[] {
  const found = compareFiles(openText(before, "old.h"), openText(after, "new.h"));
  return found.map((d) => `${(d.after ?? d.before)?.array.name}: ${differenceInWords(d)}`);
}

const drop = (words: string, values: string, name = "drop") =>
  `// @bitmap ${words}\nconst uint8_t ${name}[] = { ${values} };\n`;

// [what changes, before, after, the differences]
const cases: [string, string, string, string[]][] = [
  ["nothing", drop("2x2", "1, 2, 3, 4"), drop("2x2", "1, 2, 3, 4"), []],
  ["the spelling of numbers", drop("2x2", "1, 2, 3, 4"), `\n${drop("2x2 -- tidy", "0x01, 0x02,\n 0x03, 04")}`, []],
  ["the packing", drop("4x2 mono1", "0x90, 0x60"), drop("4x2 mono1 pack=columns", "1, 2, 2, 1"), []],
  ["pixels, up", drop("2x2", "1, 2, 3, 4"), drop("2x2", "1, 34, 3, 9"), ["drop: 2 of 4 pixels changed, up to +32"]],
  ["pixels, down", drop("2x2", "1, 2, 3, 4"), drop("2x2", "0, 2, 3, 4"), ["drop: 1 of 4 pixels changed, up to −1"]],
  [
    "pixels, both",
    drop("2x2", "1, 2, 3, 4"),
    drop("2x2", "9, 2, 0, 4"),
    ["drop: 2 of 4 pixels changed, up to +8 and −3"],
  ],
  ["lit pixels", drop("8x1 mono1", "0x81"), drop("8x1 mono1", "0x83"), ["drop: 1 of 8 pixels changed"]],
  ["a lone pixel", drop("1x1", "1"), drop("1x1", "2"), ["drop: 1 of 1 pixel changed, up to +1"]],
  [
    "frames",
    drop("1x1 frames=3 fps=4", "1, 2, 3"),
    drop("1x1 frames=3 fps=8", "1, 7, 2"),
    ["drop: fps 4 to fps 8, 2 of 3 frames changed (frame 1: 1 pixel, up to +5; frame 2: 1 pixel, up to −1)"],
  ],
  ["more frames", drop("1x1 frames=2", "1, 2"), drop("1x1 frames=3", "1, 2, 9"), ["drop: 2 frames to 3 frames"]],
  [
    "the size: what both have is compared",
    drop("2x2", "1, 2, 3, 4"),
    drop("3x2", "1, 2, 9, 3, 5, 9"),
    ["drop: 2×2 to 3×2, 1 of 6 pixels changed, up to +1"],
  ],
  ["the format alone", drop("2x1 gray8", "0, 255"), drop("2x1 mono1", "0x40"), ["drop: gray8 to mono1"]],
  ["the cap", drop("1x1 cap=9", "1"), drop("1x1", "1"), ["drop: cap 9 to no cap"]],
  ["a name", drop("2x1", "1, 2"), drop("2x1", "1, 2", "tear"), ["tear: renamed from drop"]],
  [
    "bitmaps",
    drop("2x1", "1, 2") + drop("1x1", "1", "leaf"),
    drop("1x1", "1", "leaf") + drop("3x1", "1, 2, 3", "moon"),
    ["moon: added, 3×1 gray8", "drop: removed, 2×1 gray8"],
  ],
  [
    "a picture to none",
    drop("1x1", "1"),
    drop("1x1", "GLOW"),
    ["drop: no longer a picture: `GLOW` is not defined in this file"],
  ],
  [
    "a colour of the palette: every pixel that has it",
    `// @palette rgb888\nconst uint32_t bed[2] = { 0, 0x102030 };\n${drop("4x1 palette1 palette=bed", "0x50")}`,
    `// @palette rgb888\nconst uint32_t bed[2] = { 0, 0x102038 };\n${drop("4x1 palette1 palette=bed", "0x50")}`,
    ["drop: 2 of 4 pixels changed, up to +8"],
  ],
];

describe("what differs when there changes", () => {
  it.each(cases)("%s", (_, before, after, expected) => {
    expect(words(before, after)).toEqual(expected);
  });
});

it("counts arrays of one name in order", () => {
  const twice = (second: number) => `#ifdef A\n${drop("1x1", "1")}#else\n${drop("1x1", `${second}`)}#endif\n`;
  const [only, ...others] = compareFiles(openText(twice(2), "old.h"), openText(twice(5), "new.h"));
  expect([only?.after?.array.ordinal, others]).toEqual([1, []]);
});

it("names the pixels as the newer version counts them", () => {
  const bitmap = (text: string) => openText(text, "a.h").bitmaps[0];
  const [before, after] = [bitmap(drop("2x2", "1, 2, 3, 4")), bitmap(drop("3x2", "1, 2, 9, 3, 5, 9"))];
  expect(before && after && changedPixels(before, after, 0)).toEqual([4]);
});
