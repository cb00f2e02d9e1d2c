import { describe, expect, it } from "vitest";
import { openText } from "../../../shared/bitmap/open.ts";
import { checkFile } from "../../../shared/checks/all.ts";
import { hexOf } from "../../../shared/pixels/colour.ts";

const open = (source: string) => openText(source, "art.h");
const colours = (source: string) =>
  open(source).bitmaps.map((b) => Array.from(b.palette?.colours ?? [], hexOf).join(" "));
const problems = (source: string) =>
  open(source).problems.map(({ start, end, message, suggestion }) => [source.slice(start, end), message, suggestion]);

const icon = "// @bitmap 2x1 palette4 palette=warm\nconst uint8_t icon[] = { 0x01 };";

describe("colours of a palette", () => {
  it.each([
    ["rgb565", "// @palette rgb565\nconst uint16_t warm[] = { 0, 0xfd20, 0xffff };", "#000000 #ffa600 #ffffff"],
    ["byte pairs", "// @palette rgb565 bytes=le\nconst uint8_t warm[] = { 0x20, 0xfd, 0, 0xf8 };", "#ffa600 #ff0000"],
    ["rgb888 bytes", "// @palette rgb888\nconst uint8_t warm[] = { 255, 184, 77, 1, 2, 3 };", "#ffb84d #010203"],
    ["rgb888 words", "// @palette rgb888\nconst uint32_t warm[] = { 0xffb84d, 0x010203 };", "#ffb84d #010203"],
    [
      "rows of three",
      "// @palette rgb888\nconst uint8_t warm[][3] = { {255, 184, 77}, {1, 2, 3} };",
      "#ffb84d #010203",
    ],
    ["rgb332", "// @palette rgb332\nconst uint8_t warm[2] = { 0xe0 };", "#ff0000 #000000"],
    ["greys", "// @palette gray8\nconst uint8_t warm[] = { 7, 64 };", "#070707 #404040"],
    ["packed greys", "// @palette gray4\nconst uint8_t warm[] = { 0x0f, 0x5a };", "#000000 #ffffff #555555 #aaaaaa"],
    ["one in a wide element", "// @palette gray8 pack=each\nconst uint32_t warm[] = { 7, 64 };", "#070707 #404040"],
    [
      "a count before them",
      "// @palette rgb565 skip=1\nconst uint16_t warm[] = { 2, 0xf800, 0x07e0 };",
      "#ff0000 #00ff00",
    ],
  ])("%s", (_what, palette, expected) => {
    expect(colours(`${palette}\n${icon}`)).toEqual([expected]);
    // Where it stands does not matter.
    expect(colours(`${icon}\n${palette}`)).toEqual([expected]);
    expect(problems(`${palette}\n${icon}`)).toEqual([]);
  });

  it("are at most 256", () => {
    const list = Array.from({ length: 300 }, (_, i) => i).join();
    expect(open(`// @palette rgb565\nconst uint16_t warm[] = { ${list} };`).palettes[0]?.colours).toHaveLength(256);
  });

  it("come from the panel too", () => {
    const warm = "// @palette rgb565\nconst uint16_t warm[] = { 0, 0xffff };";
    const grid = "// @panel grid 2x1 palette4 palette=warm\n// @bitmap grid\nconst uint8_t icon[] = { 0x01 };";
    expect(colours(`${grid}\n${warm}`)).toEqual(["#000000 #ffffff"]);
  });

  it("may stand before the pixels", () => {
    const source =
      "// @palette rgb888\n// @bitmap 4x1 palette2 skip=6 palette=head\nconst uint8_t a[] = { 0, 0, 0, 255, 184, 77, 0x44 };";
    expect(colours(source)).toEqual(["#000000 #ffb84d"]);
    expect(problems(source)).toEqual([]);
    expect(open(source).palettes.map((p) => p.colours.length)).toEqual([2]);
  });
});

describe("a palette that is wrong", () => {
  const warm = "// @palette rgb565\nconst uint16_t warm[] = { 0, 0xffff };\n";
  it.each<[string, string, [string, string, string?][]]>([
    ["no such array", icon.replace("warm", "wram"), [["wram", "No palette wram is in this file."]]],
    [
      "a misspelt name",
      warm + icon.replace("warm", "wram"),
      [["wram", "No palette wram is in this file. Did you mean warm?", "warm"]],
    ],
    [
      "an array that is none",
      `const uint16_t warm[] = { 0, 1 };\n${icon}`,
      [["warm", "warm is not marked as a palette: put `// @palette rgb565`, or the format it has, before it."]],
    ],
    [
      "values that are not known",
      `// @palette rgb565\nconst uint16_t warm[] = { 0, GLOW };\n${icon}`,
      [["warm", "The colours of warm are not known: `GLOW` is not defined in this file."]],
    ],
    [
      "indices for colours",
      "// @palette palette4\nconst uint8_t warm[] = { 0 };",
      [["palette4", "The colours of a palette can't be indices themselves: not `palette4`, but such as rgb565."]],
    ],
    [
      "a misspelt format",
      "// @palette rgb556\nconst uint16_t warm[] = { 0 };",
      [
        [
          "rgb556",
          "`rgb556` is not a word of @palette: expected the format of its colours. Did you mean `rgb565`?",
          "rgb565",
        ],
      ],
    ],
    [
      "a size",
      "// @palette 2x1 rgb565\nconst uint16_t warm[] = { 0 };",
      [["2x1", "`2x1` is not a word of @palette: expected the format of its colours."]],
    ],
    [
      "an option of bitmaps",
      "// @palette rgb565 cap=9\nconst uint16_t warm[] = { 0 };",
      [["cap=9", "`cap` belongs on @bitmap or @panel, not on @palette."]],
    ],
    [
      "columns of colours",
      "// @palette gray4 pack=columns\nconst uint8_t warm[] = { 0 };",
      [["pack=columns", "`pack=columns` can't be used on a palette of gray4: colours stand in one row."]],
    ],
    [
      "half a colour",
      "// @palette rgb888\nconst uint8_t warm[] = { 1, 2, 3, 4 };",
      [["rgb888", "4 elements of warm are colours, and each colour of rgb888 takes 3."]],
    ],
    [
      "no colour",
      "// @palette rgb565 skip=3\nconst uint16_t warm[] = { 0, 1 };",
      [["rgb565", "0 elements of warm are colours, and a palette needs one at least."]],
    ],
    [
      "elements too narrow",
      "// @palette rgb565 pack=each\nconst uint8_t warm[] = { 0, 1 };",
      [["rgb565", "The palette warm can't be read: a pixel of 16 bits does not fit in an element of 8 bits."]],
    ],
    [
      "a head of unknown format",
      "// @bitmap 2x1 palette4 skip=2 palette=head\nconst uint8_t a[] = { 1, 2, 0x01 };",
      [["head", "`palette=head` needs a @palette before the same array, such as `// @palette rgb565`."]],
    ],
    [
      "a head of no elements",
      "// @palette rgb332\n// @bitmap 2x1 palette4 palette=head\nconst uint8_t a[] = { 0x01 };",
      [["head", "`palette=head` needs `skip=`: the elements passed over are the colours."]],
    ],
    [
      "a head that ends in a colour",
      "// @palette rgb565\n// @bitmap 2x1 palette4 skip=3 palette=head\nconst uint8_t a[] = { 1, 2, 3, 0x01 };",
      [["head", "3 elements of a are colours, and each colour of rgb565 takes 2."]],
    ],
    [
      "a palette of greys",
      `${warm}// @bitmap 2x1 gray4 palette=warm\nconst uint8_t a[] = { 0x01 };`,
      [["palette=warm", "`palette` is for the palette formats; gray4 holds no indices."]],
    ],
    [
      "on a panel",
      `${warm}// @panel grid 2x1 palette4 palette=wram`,
      [["wram", "No palette wram is in this file. Did you mean warm?", "warm"]],
    ],
  ])("%s", (_what, source, expected) => {
    expect(problems(source)).toEqual(expected.map(([word, message, suggestion]) => [word, message, suggestion]));
    // Its indices are read and shown all the same.
    for (const bitmap of open(source).bitmaps) expect(bitmap.why).toBeUndefined();
  });
});

it("a palette that changes is judged afresh, though the pixels stay the same", () => {
  const source = (list: string) => `// @palette rgb565\nconst uint16_t warm[] = { ${list} };\n${icon}`;
  const before = open(source("0, 1"));
  expect(checkFile(before)).toEqual([]);
  const after = openText(source("0"), "art.h", { previous: before });
  expect(checkFile(after).map(({ code }) => code)).toEqual(["out-of-range"]);
  const back = openText(source("0, 1"), "art.h", { previous: after });
  expect(checkFile(back)).toEqual([]);
});
