import { expect, test } from "vitest";
import { columnsOf, paddings, rowPictures } from "../../../client/rowPictures.ts";
import { thumbnail } from "../../../client/thumbnail.ts";
import type { RowPixels } from "../../../shared/protocol/lsp.ts";
import { info } from "./bitmaps.ts";
import { colours, drawn } from "./svg.ts";

const row = (line: number, y: number, pixels: number[], more: Partial<RowPixels> = {}): RowPixels => ({
  frame: 0,
  x: 0,
  y,
  width: pixels.length,
  height: 1,
  line,
  pixels,
  ...more,
});
const column = (line: number, x: number, pixels: number[], frame = 0): RowPixels => ({
  frame,
  x,
  y: 0,
  width: 1,
  height: pixels.length,
  line,
  pixels,
});

test("a row is drawn in the panel's tint, at its share of full light", () => {
  const bitmap = info({ width: 3, height: 20, cap: 64, tint: "#ffb84d" });
  const [picture, ...others] = rowPictures(bitmap, 64, [row(7, 0, [0, 64, 32])]);
  expect([picture?.line, others]).toEqual([7, []]);
  const seen = colours(picture?.uri ?? "");
  expect([seen.length, seen[0]?.length]).toEqual([16, 50]);
  for (const line of seen)
    expect([line[0], line[16], line[17], line[32]]).toEqual(["#000000", "#000000", "#ffb84d", "#ffb84d"]);
  // Half the light of #ffb84d by the transfer functions of IEC 61966-2-1.
  const decode = (c: number) => ((c / 255 + 0.055) / 1.055) ** 2.4;
  const encode = (l: number) => (l <= 0.0031308 ? 12.92 * l : 1.055 * l ** (1 / 2.4) - 0.055);
  const half = [0xff, 0xb8, 0x4d].map((c) =>
    Math.round(255 * encode(decode(c) / 2))
      .toString(16)
      .padStart(2, "0"),
  );
  expect(seen[0]?.[41]).toBe(`#${half.join("")}`);
});

test("each line has its own picture", () => {
  const bitmap = info({ width: 2, height: 20 });
  const pictures = rowPictures(bitmap, 255, [row(3, 0, [9, 0]), row(4, 1, [0, 9])]);
  expect(pictures.map((p) => [p.line, drawn(p.uri, 16, 1)])).toEqual([
    [3, ["#."]],
    [4, [".#"]],
  ]);
});

test("several rows on a line stand side by side with a gap", () => {
  const bitmap = info({ width: 2, height: 20 });
  const [picture] = rowPictures(bitmap, 255, [row(3, 0, [9, 0]), row(3, 1, [0, 9])]);
  // Black margins of one pixel stand at both sides of the gap of four.
  expect(drawn(picture?.uri ?? "", 2, 1)[0]).toBe("########.........  ........########");
});

test("the rows of a whole low frame are the frame", () => {
  const bitmap = info({ width: 3, height: 4, most: 1 });
  const rows = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
    [1, 1, 1],
  ];
  const [picture] = rowPictures(
    bitmap,
    1,
    rows.map((pixels, y) => row(5, y, pixels)),
  );
  expect(drawn(picture?.uri ?? "", 4, 1)).toEqual(["#..", ".#.", "..#", "###"]);
});

test("the columns of a glyph are the glyph, and glyphs stand apart", () => {
  const bitmap = info({ width: 2, height: 4, frames: 2, most: 1 });
  const rows = [
    column(1, 0, [1, 1, 1, 1]),
    column(1, 1, [0, 0, 0, 1]),
    column(1, 0, [1, 0, 0, 0], 1),
    column(1, 1, [0, 0, 1, 0], 1),
  ];
  const [picture] = rowPictures(bitmap, 1, rows);
  const wanted = ["##...  ##..", "##...  ....", "##...  ..##", "####.  ...."];
  expect(drawn(picture?.uri ?? "", 2, 1)).toEqual(wanted.flatMap((line) => [line, line]));
});

test("a band of 8 rows is as wide as it is", () => {
  const bitmap = info({ width: 128, height: 32, most: 1 });
  const pixels = Array.from({ length: 128 * 8 }, (_, i) => (i % 128 === 127 || i < 128 ? 1 : 0));
  const [picture] = rowPictures(bitmap, 1, [{ frame: 0, x: 0, y: 8, width: 128, height: 8, line: 20, pixels }]);
  const seen = drawn(picture?.uri ?? "", 2, 1);
  expect(seen).toEqual(["#".repeat(128), ...new Array(7).fill(`${".".repeat(127)}#`)]);
});

test("a row too wide for a line is averaged, and pictures that do not fit are left out", () => {
  const wide = info({ width: 1024, height: 20 });
  const bright = row(0, 0, new Array<number>(1024).fill(255));
  const [picture] = rowPictures(wide, 255, [bright, { ...bright, y: 1 }]);
  const [line = []] = colours(picture?.uri ?? "");
  expect([line.length, new Set(line.slice(1, -1))]).toEqual([258, new Set(["#ffffff"])]);
});

test("a thumbnail has the first frame's pixels", () => {
  const bitmap = info({ width: 4, height: 2, most: 1 });
  const { uri, width, height } = thumbnail(bitmap, { frame: 0, pixels: [1, 0, 0, 1, 0, 1, 1, 0] }, 1);
  expect([width, height]).toEqual([32, 16]);
  expect(drawn(uri, 8)).toEqual(["#..#", ".##."]);
});

test.each([
  ["no tabs", 7, 7],
  ["\ta", 4, 5],
  ["  \ta", 4, 5],
  ["\t\t", 8, 16],
])("%j has its columns", (text, tabSize, columns) => {
  expect(columnsOf(text, tabSize)).toBe(columns);
});

test.each([
  [[], []],
  [
    [30, 30, 30],
    [0, 0, 0],
  ],
  [
    [30, 34, 28],
    [4, 0, 6],
  ],
  // One far longer line, such as one with a long comment, does not move the others.
  [
    [30, 34, 120],
    [4, 0, 0],
  ],
  [
    [2, 30, 30],
    [0, 0, 0],
  ],
])("pictures after lines of %j columns line up", (columns, free) => {
  expect(paddings(columns)).toEqual(free);
});

test("colours are drawn as they are, whatever the tint", () => {
  // RGB565 (Linux V4L2): red, green and blue at full, then half red.
  const bitmap = info({ width: 4, height: 20, kind: "rgb", format: "rgb565", most: 65535, tint: "#ffb84d" });
  const [picture] = rowPictures(bitmap, 255, [row(0, 0, [0xf800, 0x07e0, 0x001f, 0x8000])]);
  const [line = []] = colours(picture?.uri ?? "");
  expect([1, 17, 33, 49].map((x) => line[x])).toEqual(["#ff0000", "#00ff00", "#0000ff", "#880000"]);
});
