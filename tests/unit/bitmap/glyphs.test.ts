import { describe, expect, it } from "vitest";
import { characterInWords, characterOf } from "../../../shared/bitmap/glyphs.ts";
import { openText } from "../../../shared/bitmap/open.ts";

const three = (options: string) => `// @bitmap 3x1 mono1 frames=3 ${options}\nconst uint8_t font[] = { 0, 0, 0 };\n`;
const open = (source: string) => openText(source, "font.h");
const problems = (source: string) =>
  open(source).problems.map(({ start, end, message }) => [source.slice(start, end), message]);

describe("the character of a frame", () => {
  it.each<[string, (number | undefined)[]]>([
    ["first='A'", [65, 66, 67]],
    ["first=U+1F331", [0x1f331, 0x1f332, 0x1f333]],
    ['chars="x:°"', [120, 58, 176]],
    ["", [undefined, undefined, undefined]],
  ])("%s", (options, expected) => {
    const bitmap = open(three(options)).bitmaps[0];
    expect([0, 1, 2].map((frame) => bitmap && characterOf(bitmap.options, frame))).toEqual(expected);
    expect(problems(three(options))).toEqual([]);
  });

  it.each([
    [65, "'A'"],
    [32, "' '"],
    [0xb0, "'°'"],
    [0x1f331, "'\u{1F331}'"],
    [10, "U+000A"],
    [0x301, "U+0301"],
    [0xd800, "U+D800"],
  ])("%i is written %s", (point, words) => {
    expect(characterInWords(point)).toBe(words);
  });
});

describe("widths", () => {
  it.each<[string, string, number[] | undefined]>([
    ["bytes", "const uint8_t w[] = { 3, 1, 2 };", [3, 1, 2]],
    ["more than glyphs", "const uint8_t w[] = { 3, 1, 2, 9 };", [3, 1, 2]],
    ["wide elements", "const uint64_t w[3] = { 3, 1 };", [3, 1, 0]],
  ])("%s", (_what, array, widths) => {
    const source = three("widths=w first='A'") + array;
    expect(open(source).bitmaps[0]?.widths).toEqual(widths);
    expect(problems(source)).toEqual([]);
  });
});

describe("a glyph set that is wrong", () => {
  it.each<[string, string, [string, string][]]>([
    [
      "characters listed and counted",
      three(`chars="abc" first='A'`),
      [["first='A'", "`first` says nothing beside `chars`, which lists each character."]],
    ],
    ["characters short", three('chars="ab"'), [['chars="ab"', "`chars` lists 2 characters for 3 frames."]]],
    [
      "beyond Unicode",
      three("first=U+10FFFE"),
      [["first=U+10FFFE", "3 characters from U+10FFFE on end after U+10FFFF."]],
    ],
    ["no such widths", three("widths=w"), [["w", "No array w is in this file."]]],
    [
      "misspelt widths",
      `${three("widths=wdths")}const uint8_t widths[] = { 1, 2, 3 };`,
      [["wdths", "No array wdths is in this file. Did you mean widths?"]],
    ],
    ["too few", `${three("widths=w")}const uint8_t w[] = { 1, 2 };`, [["w", "w has 2 widths for 3 glyphs."]]],
    [
      "too wide",
      `${three("widths=w first='A'")}const uint8_t w[] = { 1, 4, 3 };`,
      [["w", "w gives 'B' a width of 4, but the glyphs are 3 wide."]],
    ],
    [
      "too wide without characters",
      `${three("widths=w")}const uint8_t w[] = { 1, 3, 9 };`,
      [["w", "w gives frame 2 a width of 9, but the glyphs are 3 wide."]],
    ],
    [
      "unknown",
      `${three("widths=w")}const uint8_t w[] = { N, 3, 9 };`,
      [["w", "The widths in w are not known: `N` is not defined in this file."]],
    ],
  ])("%s", (_what, source, expected) => {
    expect(problems(source)).toEqual(expected);
  });
});
