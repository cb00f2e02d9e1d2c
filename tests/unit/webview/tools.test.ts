import { expect, test } from "vitest";
import type { BitmapInfo } from "../../../shared/protocol/lsp.ts";
import { smoothstep } from "../../../webview/tools/gradient.ts";
import type { StrokeStep } from "../../../webview/tools/ink.ts";
import { START_OPTIONS, type ToolOptions } from "../../../webview/tools/options.ts";
import { type ToolName, toolOf } from "../../../webview/tools/tools.ts";
import { drop } from "../../support/pictures.ts";

type Cell = readonly [x: number, y: number];

interface Given {
  readonly picture: readonly (readonly number[])[];
  readonly tool: ToolName;
  readonly path: readonly Cell[];
  readonly level?: number;
  readonly options?: Partial<ToolOptions>;
  readonly info?: Partial<BitmapInfo>;
  readonly mask?: StrokeStep["mask"];
}

const { cap: _, limit: __, ...GREY } = drop().bitmap;

/** The picture after a stroke along the path. */
function after({ picture, tool, path, level = 9, options = {}, info = {}, mask }: Given): number[][] {
  const size = { width: picture[0]?.length ?? 0, height: picture.length };
  const pixels = picture.flat();
  const point = ([x, y]: Cell) => ({ x, y });
  const from = point(path[0] ?? [0, 0]);
  let [marks, last]: [ReadonlyMap<number, number>, typeof from] = [new Map(), from];
  for (const cell of path) {
    const to = point(cell);
    const all = { ...START_OPTIONS, ...options };
    const bitmap = { ...GREY, ...size, ...info };
    const step = { pixels: () => pixels, size, from, last, to, level, marks, options: all, bitmap, mask };
    marks = toolOf(tool).step?.(step) ?? marks;
    last = to;
  }
  const out = pixels.map((value, i) => marks.get(i) ?? value);
  return picture.map((_, y) => out.slice(y * size.width, (y + 1) * size.width));
}

const dark = (width: number, height: number) => Array.from({ length: height }, () => new Array<number>(width).fill(0));
/** `#` for what is lit. */
const seen = (picture: number[][]) => picture.map((row) => row.map((value) => (value > 0 ? "#" : ".")).join(""));

test.each<[string, Partial<ToolOptions>, string[]]>([
  ["1", { width: 1 }, ["......", "......", "..#...", "......", "......"]],
  ["2, which reaches right and down", { width: 2 }, ["......", "......", "..##..", "..##..", "......"]],
  ["3 round", { width: 3 }, ["......", "..#...", ".###..", "..#...", "......"]],
  ["3 square", { width: 3, tip: "square" }, ["......", ".###..", ".###..", ".###..", "......"]],
  ["5 round, cut off at the edges of the picture", { width: 5 }, [".###..", "#####.", "#####.", "#####.", ".###.."]],
  ["64 square", { width: 64, tip: "square" }, ["######", "######", "######", "######", "######"]],
])("a brush of width %s", (_, options, expected) => {
  expect(seen(after({ picture: dark(6, 5), tool: "draw", path: [[2, 2]], options }))).toEqual(expected);
});

test("the brush goes along lines and edges, and a filled box has no edge to thicken", () => {
  const path: Cell[] = [
    [1, 1],
    [5, 4],
  ];
  const options = { width: 2 } as const;
  expect(seen(after({ picture: dark(8, 6), tool: "box", path, options }))).toEqual([
    "........",
    ".######.",
    ".######.",
    ".##..##.",
    ".######.",
    ".######.",
  ]);
  expect(seen(after({ picture: dark(8, 6), tool: "box", path, options: { ...options, filled: "filled" } }))).toEqual([
    "........",
    ".#####..",
    ".#####..",
    ".#####..",
    ".#####..",
    "........",
  ]);
  expect(seen(after({ picture: dark(8, 6), tool: "oval", path, options: { filled: "filled" } }))).toEqual([
    "........",
    "..###...",
    ".#####..",
    ".#####..",
    "..###...",
    "........",
  ]);
});

test.each<[ToolOptions["symmetry"], string[]]>([
  ["off", ["##....", "#.....", "......", "......", "......"]],
  ["columns", ["##..##", "#....#", "......", "......", "......"]],
  ["rows", ["##....", "#.....", "......", "#.....", "##...."]],
  ["both", ["##..##", "#....#", "......", "#....#", "##..##"]],
])("symmetry %s", (symmetry, expected) => {
  const path: Cell[] = [
    [0, 1],
    [0, 0],
    [1, 0],
  ];
  expect(seen(after({ picture: dark(6, 5), tool: "draw", path, options: { symmetry } }))).toEqual(expected);
  const lit = after({ picture: dark(6, 5), tool: "draw", path, options: { symmetry } });
  // Erasing the same way leaves nothing.
  expect(seen(after({ picture: lit, tool: "erase", path, options: { symmetry } })).join("")).not.toContain("#");
});

test("Fill takes what touches or all of a value, and with symmetry also what is at the images of the pixel", () => {
  const picture = [
    [1, 0, 1, 0, 2],
    [1, 0, 1, 0, 2],
  ];
  const fill = (options: Partial<ToolOptions>) => after({ picture, tool: "fill", path: [[0, 0]], options })[0];
  expect(fill({})).toEqual([9, 0, 1, 0, 2]);
  expect(fill({ region: "everywhere" })).toEqual([9, 0, 9, 0, 2]);
  expect(fill({ symmetry: "columns" })).toEqual([9, 0, 1, 0, 9]);
  // The picture need not be alike on both sides: what is filled on one is not copied to the other.
  const uneven = [[1, 1, 0, 1, 2]];
  expect(after({ picture: uneven, tool: "fill", path: [[0, 0]], options: { symmetry: "columns" } })[0]).toEqual([
    9, 9, 0, 1, 9,
  ]);
});

test("strength goes part of the way, once for all the times that a stroke passes", () => {
  const path: Cell[] = [
    [0, 0],
    [2, 0],
    [0, 0],
    [2, 0],
  ];
  const picture = [[0, 100, 255]];
  const at = (strength: number, tool: ToolName = "draw") =>
    after({ picture, tool, path, level: 200, options: { strength, width: 3 } })[0];
  expect(at(100)).toEqual([200, 200, 200]);
  // from + (to − from) · share, rounded.
  expect(at(25)).toEqual([50, 125, 241]);
  expect(at(1)).toEqual([2, 101, 254]);
  expect(at(50, "erase")).toEqual([0, 50, 128]);
});

test("strength blends each channel of a colour by itself", () => {
  // 5-6-5: red 31, green 0, blue 0 half way to red 0, green 63, blue 10.
  const picture = [[0xf800]];
  const info = { format: "rgb565", kind: "rgb", most: 0xffff, full: 255, light: "srgb" } as const;
  const level = (63 << 5) | 10;
  const out = after({ picture, tool: "draw", path: [[0, 0]], level, options: { strength: 50 }, info })[0]?.[0] ?? 0;
  expect([out >> 11, (out >> 5) & 63, out & 31]).toEqual([16, 32, 5]);
});

test("between dark and lit there is neither strength nor a rung", () => {
  const info = { format: "mono1", kind: "mono", most: 1, full: 1 } as const;
  const options = { strength: 10, mode: "darken" } as const;
  expect(after({ picture: [[0]], tool: "draw", path: [[0, 0]], level: 1, options, info })).toEqual([[1]]);
});

test("lighten and darken go to the next rung, once a stroke; up to the cap and down to 0", () => {
  const path: Cell[] = [
    [0, 0],
    [5, 0],
    [0, 0],
  ];
  const info = { format: "gray4", most: 15, full: 15, cap: 8, limit: 8 } as const;
  const step = (mode: ToolOptions["mode"]) =>
    after({ picture: [[0, 1, 7, 8, 9, 15]], tool: "draw", path, options: { mode }, info })[0];
  // Formats of so few values have each of them as a rung; 9 and 15 are over the cap already.
  expect(step("lighten")).toEqual([1, 2, 8, 8, 9, 15]);
  expect(step("darken")).toEqual([0, 0, 6, 7, 8, 14]);
});

test("lighten in eight bits takes the rungs of the ladder", () => {
  const picture = [[0, 3, 20, 255]];
  const path: Cell[] = [
    [0, 0],
    [3, 0],
  ];
  const lit = after({ picture, tool: "draw", path, options: { mode: "lighten" } })[0] ?? [];
  // CIE 15:2018: Y = L*/κ up to L* 8, else ((L* + 16)/116)³; rungs every 100/13 of L*: 2, 5, 10, 17, 26 …
  expect(lit.slice(0, 3)).toEqual([2, 5, 26]);
  expect(lit[3]).toBe(255);
});

test.each([
  [-1, 0],
  [0, 0],
  [0.1, 0.028],
  [0.125, 0.04296875],
  [0.2, 0.104],
  [0.25, 0.15625],
  [0.5, 0.5],
  [0.75, 0.84375],
  [0.9, 0.972],
  [1, 1],
  [2, 1],
])("smoothstep of %d is %d, as the Khronos GLSL reference defines it", (share, expected) => {
  expect(smoothstep(share)).toBeCloseTo(expected, 12);
});

test("a gradient in equal steps, and in slow ones at the ends", () => {
  const path: Cell[] = [
    [0, 0],
    [8, 0],
  ];
  const over = (options: Partial<ToolOptions>, level = 0) =>
    after({ picture: dark(9, 1), tool: "gradient", path, level, options: { second: 255, ...options } })[0];
  expect(over({})).toEqual([0, 32, 64, 96, 128, 159, 191, 223, 255]);
  // smoothstep of the Khronos GLSL reference at eighths: .04296875, .15625, .31640625, .5 and their complements.
  expect(over({ ease: "smoothstep" })).toEqual([0, 11, 40, 81, 128, 174, 215, 244, 255]);
  // CIE 15:2018, L* 12.5, 25, 37.5, 50 … of 100.
  expect(over({ ease: "even" })).toEqual([0, 4, 11, 25, 47, 79, 123, 181, 255]);
  expect(over({}, 255)).toEqual(new Array(9).fill(255));
});

test("a straight gradient stays as it is before its beginning and beyond its end, whatever its direction", () => {
  const path: Cell[] = [
    [4, 0],
    [2, 0],
  ];
  const options = { second: 100 };
  expect(after({ picture: dark(7, 1), tool: "gradient", path, level: 0, options })[0]).toEqual([
    100, 100, 100, 50, 0, 0, 0,
  ]);
  const slanted: Cell[] = [
    [0, 0],
    [2, 2],
  ];
  expect(after({ picture: dark(3, 3), tool: "gradient", path: slanted, level: 0, options })).toEqual([
    [0, 25, 50],
    [25, 50, 75],
    [50, 75, 100],
  ]);
});

test("a radial gradient depends on the distance from the press alone", () => {
  const path: Cell[] = [
    [2, 2],
    [2, 0],
  ];
  const options = { second: 100, shape: "radial" } as const;
  const side = Math.round(50 * Math.SQRT2);
  expect(after({ picture: dark(5, 5), tool: "gradient", path, level: 0, options })).toEqual([
    [100, 100, 100, 100, 100],
    [100, side, 50, side, 100],
    [100, 50, 0, 50, 100],
    [100, side, 50, side, 100],
    [100, 100, 100, 100, 100],
  ]);
});

test("a gradient without a direction is none", () => {
  const path: Cell[] = [
    [1, 0],
    [1, 0],
  ];
  expect(after({ picture: [[5, 6, 7]], tool: "gradient", path })).toEqual([[5, 6, 7]]);
});

test("a gradient over what touches leaves the rest, as does one within a mask", () => {
  const picture = [[0, 0, 5, 0, 0]];
  const path: Cell[] = [
    [0, 0],
    [4, 0],
  ];
  const given = { picture, path, tool: "gradient", level: 100 } as const;
  expect(after({ ...given, options: { area: "touching", second: 60 } })).toEqual([[100, 90, 5, 0, 0]]);
  expect(after({ ...given, options: { second: 60 }, mask: (index) => index > 2 })).toEqual([[0, 0, 5, 70, 60]]);
});

test("with symmetry a gradient runs on the side of the press and is seen again on the other", () => {
  const gradient = (path: readonly Cell[]) =>
    after({ picture: dark(9, 1), tool: "gradient", path, level: 100, options: { second: 60, symmetry: "columns" } })[0];
  expect(
    gradient([
      [0, 0],
      [4, 0],
    ]),
  ).toEqual([100, 90, 80, 70, 60, 70, 80, 90, 100]);
  // From the axis: the side it goes to.
  expect(
    gradient([
      [4, 0],
      [8, 0],
    ]),
  ).toEqual([60, 70, 80, 90, 100, 90, 80, 70, 60]);
});

test("a gradient of colours blends each channel, and never leaves the format", () => {
  const info = { format: "rgb332", kind: "rgb", most: 255, full: 255, light: "srgb" } as const;
  const path: Cell[] = [
    [0, 0],
    [2, 0],
  ];
  const out = after({ picture: dark(3, 1), tool: "gradient", path, level: 0b111_000_00, options: { second: 3 }, info });
  expect(out).toEqual([[0b111_000_00, 0b100_000_10, 0b000_000_11]]);
});
