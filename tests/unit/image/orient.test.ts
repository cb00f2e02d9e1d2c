import { describe, expect, it } from "vitest";
import { cutSheet } from "../../../shared/image/sheet.ts";
import type { Mirror, RgbaPicture, Turn } from "../../../shared/pixels/rgba.ts";
import { cropped, oriented, sizeRefused } from "../../../shared/pixels/rgba.ts";
import { greyPicture } from "../../support/rgba.ts";

const rowsOf = ({ width, height, data }: RgbaPicture) =>
  Array.from({ length: height }, (_, y) =>
    Array.from({ length: width }, (_, x) => data[4 * (y * width + x)]).join(" "),
  );

const letter = greyPicture([1, 2], [3, 4], [5, 6]);

describe("turned and mirrored", () => {
  it.each<[Turn, Mirror | undefined, string[]]>([
    [0, undefined, ["1 2", "3 4", "5 6"]],
    [90, undefined, ["5 3 1", "6 4 2"]],
    [180, undefined, ["6 5", "4 3", "2 1"]],
    [270, undefined, ["2 4 6", "1 3 5"]],
    [0, "left-right", ["2 1", "4 3", "6 5"]],
    [0, "top-bottom", ["5 6", "3 4", "1 2"]],
    [90, "left-right", ["1 3 5", "2 4 6"]],
    [90, "top-bottom", ["6 4 2", "5 3 1"]],
  ])("%s degrees, %s", (turn, mirror, rows) => {
    expect(rowsOf(oriented(letter, turn, mirror))).toEqual(rows);
  });

  it("keeps samples of 16 bits", () => {
    const deep = { width: 2, height: 1, most: 65_535, data: Uint16Array.of(1, 2, 3, 65_535, 40_000, 5, 6, 7) };
    expect(Array.from(oriented(deep, 180).data)).toEqual([40_000, 5, 6, 7, 1, 2, 3, 65_535]);
  });
});

describe("cropped", () => {
  it("has transparent black outside the picture", () => {
    expect(Array.from(cropped(letter, 1, 2, 2, 1).data)).toEqual([6, 6, 6, 255, 0, 0, 0, 0]);
    expect(rowsOf(cropped(letter, -1, -1, 2, 2))).toEqual(["0 0", "0 1"]);
  });
});

describe("sheets", () => {
  const sheet = greyPicture([1, 9, 2, 9, 3], [9, 9, 9, 9, 9], [4, 9, 5, 9, 6]);

  it("are cut row by row", () => {
    const cut = cutSheet(sheet, { width: 1, height: 1, gap: 1, margin: 0 });
    expect("refused" in cut ? cut.refused : cut.map((p) => p.data[0])).toEqual([1, 2, 3, 4, 5, 6]);
    const inner = cutSheet(sheet, { width: 3, height: 1, gap: 0, margin: 1 });
    expect("refused" in inner ? inner.refused : inner.map(rowsOf)).toEqual([["9 9 9"]]);
  });

  it("are refused where cells do not fill them", () => {
    expect(cutSheet(sheet, { width: 2, height: 1, gap: 0, margin: 0 })).toEqual({
      refused: "cells of 2×1 with 0 pixels between do not fill the sheet of 5×3",
    });
    expect(cutSheet(sheet, { width: 9, height: 9, gap: 1, margin: 2 })).toEqual({
      refused: "cells of 9×9 with 1 pixels between and 2 around them do not fill the sheet of 5×3",
    });
  });
});

describe("sizes", () => {
  it.each([
    [0, 4, "it has no pixels"],
    [50_000, 50_000, "it is 50000×50000 pixels large; pictures of up to 16777216 pixels are read"],
    [70_000, 1, "it is 70000×1 pixels large; pictures of up to 16777216 pixels are read"],
    [4096, 4096, undefined],
  ])("%d×%d", (width, height, refused) => {
    expect(sizeRefused(width, height)).toBe(refused);
  });
});
