import { describe, expect, it } from "vitest";
import { type Change, paint } from "./paint.ts";

const above = "// @bitmap 8x2 mono1\n";
const array = (first: string, second = "0xff,") => `${above}const uint8_t a[] = {\n  ${first}\n  ${second}\n};`;

/** [what, first line of the list, pixels of row 0, first line afterwards] */
const kept: [string, string, Change[], string][] = [
  ["after the row", "0x3c, // ..####..", [[0, 0, 1]], "0xbc, // #.####.."],
  ["in a block comment", "0x3c, /* ..####.. */", [[2, 0, 0]], "0x1c, /* ...###.. */"],
  ["before the row", "/* ..####.. */ 0x3c,", [[7, 0, 1]], "/* ..####.# */ 0x3d,"],
  ["without blanks", "0x3c, /*..####..*/", [[0, 0, 1]], "0xbc, /*#.####..*/"],
  ["other symbols", "0x3c, // __XXXX__", [[0, 0, 1]], "0xbc, // X_XXXX__"],
  ["spaces are dark", "0x3c, /*  ####  */", [[0, 0, 1]], "0xbc, /*# ####  */"],
  ["spaces are dark, with one at each end", "0x3c, /*   ####   */", [[0, 0, 1]], "0xbc, /* # ####   */"],
  ["ones and noughts", "0x3c, // 00111100", [[0, 0, 1]], "0xbc, // 10111100"],
  ["symbols apart", "0x3c, // . . # # # # . .", [[0, 0, 1]], "0xbc, // # . # # # # . ."],
  ["all dark", "0x0c ^ 0x0c, // ........", [[0, 0, 1]], "0x80, // #......."],
  ["all lit", "0xff, // ########", [[0, 0, 0]], "0x7f, // .#######"],
  ["two drawings", "/* ..####.. */ 0x3c, // __OOOO__", [[0, 0, 1]], "/* #.####.. */ 0xbc, // O_OOOO__"],
  [
    "several pixels",
    "0x3c, // ..####..",
    [
      [0, 0, 1],
      [3, 0, 0],
      [4, 0, 1],
    ],
    "0xac, // #.#.##..",
  ],
];

describe("a drawing beside its row is kept up", () => {
  it.each(kept)("%s", (_what, before, changes, after) => {
    expect(paint(array(before), changes)).toBe(array(after));
  });

  it("in the other row nothing changes", () => {
    expect(paint(array("0x3c, // ..####..", "0xff, // ########"), [[0, 0, 1]])).toBe(
      array("0xbc, // #.####..", "0xff, // ########"),
    );
  });

  it("grey: 0 is dark, all else is lit", () => {
    const text = "// @bitmap 3x1\nuint8_t a[] = {\n  0, 64, 0, // .#.\n};";
    expect(
      paint(text, [
        [0, 0, 7],
        [1, 0, 9],
      ]),
    ).toBe("// @bitmap 3x1\nuint8_t a[] = {\n  7, 9, 0, // ##.\n};");
  });

  it("with CR LF", () => {
    const text = array("0x3c, // ..####..").replaceAll("\n", "\r\n");
    expect(paint(text, [[0, 0, 1]])).toBe(array("0xbc, // #.####..").replaceAll("\n", "\r\n"));
  });
});

/** [what, first line of the list, pixels, first line afterwards] */
const leftAlone: [string, string, Change[], string][] = [
  ["stale before the edit", "0x3c, // .######.", [[0, 0, 1]], "0xbc, // .######."],
  ["three symbols", "0x3c, // ..#@##..", [[0, 0, 1]], "0xbc, // ..#@##.."],
  ["too short", "0x3c, // .####..", [[0, 0, 1]], "0xbc, // .####.."],
  ["words", "0x3c, // the drop", [[0, 0, 1]], "0xbc, // the drop"],
  ["a word of as many letters", "0xff, // aaaaaaaa", [[0, 0, 0]], "0x7f, // aaaaaaaa"],
  ["in a string", '0x3c, // "..####.."', [[0, 0, 1]], '0xbc, // "..####.."'],
];

describe("a comment that is no drawing of the row is left alone", () => {
  it.each(leftAlone)("%s", (_what, before, changes, after) => {
    expect(paint(array(before), changes)).toBe(array(after));
  });

  it.each([
    "{ 0x3c, 0x3c /* ..####.. */ }",
    "{ 0x3c, /* ..####.. */ 0x3c }",
    "{\n  0x3c, 0x3c, // ..####..\n}",
    "{\n  /* ..####.. */\n  0x3c, 0x3c,\n}",
  ])("%j: whose row it is can't be told", (list) => {
    const text = `${above}const uint8_t a[] = ${list};`;
    expect(paint(text, [[0, 0, 1]])).toBe(text.replace("0x3c", "0xbc"));
  });

  it("a drawing of the same row in the other frame stays", () => {
    const text = "// @bitmap 8x1 mono1 frames=2\nuint8_t a[] = {\n  0x3c, // ..####..\n  0x3c, // ..####..\n};";
    expect(paint(text, [[0, 0, 1, 1]])).toBe(
      "// @bitmap 8x1 mono1 frames=2\nuint8_t a[] = {\n  0x3c, // ..####..\n  0xbc, // #.####..\n};",
    );
  });

  it("pages have no row on a line", () => {
    const text = "// @bitmap 1x8 mono1 pack=pages\nuint8_t a[] = {\n  0x3a, // #\n};";
    expect(paint(text, [[0, 0, 1]])).toBe(text.replace("0x3a", "0x3b"));
  });
});
