/** Wirings drawn by hand: the number of each address where its pixel stands on the panel. Common practice, no source. */
import { describe, expect, it } from "vitest";
import { usualFor } from "../../../shared/light/wiring/family.ts";
import { wiringOf } from "../../../shared/light/wiring/wiring.ts";

/** Rows of the panel, with the driver's address of each pixel. */
function addresses(wire: string, size: string): string[] {
  const [width = 0, height = 0] = size.split("x").map(Number);
  const { wiring, problems } = wiringOf(wire, width, height);
  if (!wiring) return problems.map(({ message }) => message);
  return Array.from({ length: height }, (_, y) => wiring.index.subarray(y * width, (y + 1) * width).join(" "));
}

describe("the order of addresses on a panel of one piece", () => {
  it.each([
    ["rows", "3x2", ["0 1 2", "3 4 5"]],
    ["columns", "3x2", ["0 2 4", "1 3 5"]],
    ["serpentine", "3x3", ["0 1 2", "5 4 3", "6 7 8"]],
    ["serpentine-columns", "3x3", ["0 5 6", "1 4 7", "2 3 8"]],
    ["top-right", "3x2", ["2 1 0", "5 4 3"]],
    ["bottom-left", "3x2", ["3 4 5", "0 1 2"]],
    ["serpentine;bottom-right", "3x3", ["8 7 6", "3 4 5", "2 1 0"]],
    ["serpentine-columns;bottom-right", "3x2", ["5 2 1", "4 3 0"]],
    ["columns;top-right", "3x2", ["4 2 0", "5 3 1"]],
    // A strip is one row of addresses; a panel folded from it runs on.
    ["6x1;serpentine", "3x2", ["0 1 2", "5 4 3"]],
    // A driver with more columns than the panel: each row begins on a row of the canvas.
    ["16x9", "3x2", ["0 1 2", "16 17 18"]],
    ["16x9;serpentine", "3x2", ["0 1 2", "18 17 16"]],
  ])("wire=%s on %s", (wire, size, rows) => {
    expect(addresses(wire, size)).toEqual(rows);
  });
});

describe("modules", () => {
  it.each([
    [
      "two side by side, one above the other at the driver",
      "2x4;2x2@0,0>0,0;2x2@2,0>0,2",
      "4x2",
      ["0 1 4 5", "2 3 6 7"],
    ],
    [
      "one above the other, side by side at the driver",
      "4x2;2x2@0,0>0,0;2x2@0,2>2,0",
      "2x4",
      ["0 1", "4 5", "2 3", "6 7"],
    ],
    // The serpentine is each module's own: the second begins anew at its own corner.
    [
      "a chain of serpentine modules on a strip",
      "18x1;3x3@0,0>0,0;3x3@3,0>9,0;serpentine",
      "6x3",
      ["0 1 2 9 10 11", "5 4 3 14 13 12", "6 7 8 15 16 17"],
    ],
    // The chain goes right in the upper row and back in the lower, whose modules hang upside down.
    [
      "every second line upside down",
      "16x1;2x2@0,0>0,0;2x2@2,0>4,0;2x2@2,2>8,0/180;2x2@0,2>12,0/180",
      "4x4",
      ["0 1 4 5", "2 3 6 7", "15 14 11 10", "13 12 9 8"],
    ],
    // What is the module's top row is at the right when it hangs turned clockwise by 90°.
    ["turned clockwise", "3x2;2x3@0,0>0,0/90", "2x3", ["3 0", "4 1", "5 2"]],
    ["turned anticlockwise", "3x2;2x3@0,0>0,0/270", "2x3", ["2 5", "1 4", "0 3"]],
    ["upside down", "3x2@0,0>0,0/180", "3x2", ["5 4 3", "2 1 0"]],
    ["seen from behind", "3x2@0,0>0,0/mirror", "3x2", ["2 1 0", "5 4 3"]],
    ["turned, then mirrored", "3x2;2x3@0,0>0,0/90/mirror", "2x3", ["0 3", "1 4", "2 5"]],
    ["mirrored, then turned", "3x2;2x3@0,0>0,0/mirror/90", "2x3", ["5 2", "4 1", "3 0"]],
    ["a serpentine module turned clockwise", "3x2;2x3@0,0>0,0/90;serpentine", "2x3", ["5 0", "4 1", "3 2"]],
  ])("%s", (_what, wire, size, rows) => {
    expect(addresses(wire, size)).toEqual(rows);
  });
});

describe("what is wrong with blocks, with the first place and the count", () => {
  it.each([
    ["4x1@0,0>0,0;2x1@2,1>2,1", "4x2", "2 pixels of the panel are in no block, the first 0,1."],
    ["4x1@0,0>0,0;4x2@0,1>0,1", "4x2", "goes past the panel of 4×2: 4 pixels are outside, the first 0,2."],
    ["5x2@0,0>0,0", "4x2", "goes past the panel of 4×2: 2 pixels are outside, the first 4,0."],
    ["4x2;4x2@0,0>1,0", "4x2", "goes past the driver's canvas of 4×2: there it takes 4×2 from 1,0."],
    ["4x2;2x4@0,0>0,0/90", "2x4", undefined],
    ["8x1;4x2@0,0>1,0", "4x2", "takes 8 addresses from 1 on, but the driver has 8 in one row."],
    ["4x2@0,0>0,0;1x1@3,1>3,1", "4x2", "`1x1@3,1>3,1` and `4x2@0,0>0,0` share 1 pixel of the panel, the first at 3,1."],
    [
      "10x1;2x3@0,0>0,0;2x2@2,0>6,0;2x1@2,2>4,0",
      "4x3",
      "`2x1@2,2>4,0` and `2x3@0,0>0,0` share 2 addresses of the driver's canvas, the first at 4,0.",
    ],
    ["3x2;serpentine", "4x2", "has no room for the panel of 4×2 as one piece"],
    ["99999x9", "4x2", undefined],
  ])("wire=%s on %s", (wire, size, says) => {
    const [width = 0, height = 0] = size.split("x").map(Number);
    const { wiring, problems } = wiringOf(wire, width, height);
    if (says === undefined) expect(problems).toEqual([]);
    else {
      expect(wiring).toBeUndefined();
      expect(problems[0]?.message).toContain(says);
    }
  });

  it("names the block that is surely missing", () => {
    expect(wiringOf("8x2;4x2@0,0>0,0", 4, 4).problems[0]?.add).toBe("4x2@0,2>4,0");
    expect(wiringOf("9x2;4x2@0,0>0,0", 4, 4).problems[0]?.add).toBeUndefined();
  });
});

describe("usual wirings", () => {
  it.each([
    ["rows", "4x4"],
    ["serpentine;bottom-right", "9x9"],
    ["serpentine-columns", "5x3"],
    ["16x1;2x2@0,0>0,0;2x2@2,0>4,0;2x2@2,2>8,0/180;2x2@0,2>12,0/180", "4x4"],
    ["8x4;4x4@0,0>0,0;4x4@0,4>4,0", "4x8"],
  ])("wire=%s on %s is found by its addresses", (wire, size) => {
    const [width = 0, height = 0] = size.split("x").map(Number);
    const { index = [] } = wiringOf(wire, width, height).wiring ?? {};
    const found = usualFor(index, width, height)?.wire() ?? "";
    expect(found.split(";").length).toBeLessThanOrEqual(wire.split(";").length + 1);
    expect(wiringOf(found, width, height).wiring?.index).toEqual(index);
  });

  it("no rule gives addresses in disorder", () => {
    expect(usualFor([0, 1, 3, 2, 5, 4], 3, 2)).toBeUndefined();
  });
});
