import { describe, expect, test } from "vitest";
import type { Found } from "../../../client/findings.ts";
import { findingsOf } from "../../../client/findings.ts";
import { info } from "./bitmaps.ts";

// Two bitmaps, laid out by hand: the second one's pixels stand in columns 2, 5 and 8 of its lines.
//
//  0  // @bitmap 3x1
//  1  const uint8_t lid[3] = { 1, 2, 3 };
//  2
//  3  // @bitmap 3x2 frames=2
//  4  const uint8_t drop[12] = {
//  5    1, 2, 3,
//  6    4, 5, 6,
//  7    7, 8, 9,
//  8    7, 8,
//  9  };
const range = (line: number, character: number, endLine: number, endCharacter: number) => ({
  start: { line, character },
  end: { line: endLine, character: endCharacter },
});
const lid = info({ name: "lid", width: 3, height: 1, declaration: range(1, 0, 1, 35) });
const drop = info({ name: "drop", width: 3, height: 2, frames: 2, declaration: range(4, 0, 9, 2) });
const written = (line: number, columns: number[]) => columns.flatMap((c) => [line, c, line, c + 1]);
const NOT = [-1, -1, -1, -1];
const FRAMES = [
  { frame: 0, pixels: [1, 2, 3, 4, 5, 6], elements: [...written(5, [2, 5, 8]), ...written(6, [2, 5, 8])] },
  { frame: 1, pixels: [7, 8, 9, 7, 8, 0], elements: [...written(7, [2, 5, 8]), ...written(8, [2, 5]), ...NOT] },
];

/** By VS Code's API: error 0, warning 1, information 2, hint 3. */
const found = (code: string, at: Found["range"], severity = 1): Found => ({
  source: "dotwright",
  code,
  severity,
  message: `about ${code}`,
  range: at,
});
const shown = (...diagnostics: Found[]) => findingsOf(diagnostics, drop, [lid, drop], FRAMES);
const placed = (code: string, at: Found["range"]) => shown(found(code, at)).map(({ place }) => place);

test.each([
  [0, "error"],
  [1, "warning"],
  [2, "information"],
  [3, "information"],
])("severity %i is told as %s", (severity, word) => {
  expect(shown(found("memory", drop.declaration, severity))).toEqual([{ severity: word, message: "about memory" }]);
});

test.each([
  ["the whole declaration", range(4, 0, 9, 2), 1],
  ["a word of the annotation above it", range(3, 11, 3, 14), 1],
  ["the place right behind the bitmap before", range(1, 35, 2, 0), 1],
  ["the bitmap before", range(1, 14, 1, 17), 0],
  ["both", range(1, 14, 4, 5), 0],
  ["what comes after", range(9, 0, 9, 3), 0],
  ["a later line", range(12, 0, 12, 4), 0],
])("a finding on %s: %o", (_where, at, count) => {
  expect(shown(found("annotation", at))).toHaveLength(count);
});

test("the first bitmap has what stands above it, to the start of the file", () => {
  const diagnostics = [found("annotation", range(0, 3, 0, 10)), found("annotation", range(3, 3, 3, 10))];
  expect(findingsOf(diagnostics, lid, [lid, drop], [])).toEqual([{ severity: "warning", message: "about annotation" }]);
});

test("other extensions' diagnostics are theirs", () => {
  expect(shown({ ...found("over-cap", range(5, 2, 5, 3)), source: "compiler" })).toEqual([]);
});

describe("pixels", () => {
  test.each([
    ["one number", range(6, 5, 6, 6), { on: "pixels", frame: 0, pixels: [4] }],
    ["numbers of two lines", range(5, 8, 6, 3), { on: "pixels", frame: 0, pixels: [2, 3] }],
    ["one that ends where the next begins", range(5, 2, 5, 5), { on: "pixels", frame: 0, pixels: [0] }],
    ["one of a later frame", range(7, 8, 7, 9), { on: "pixels", frame: 1, pixels: [2] }],
    ["two frames: those of the first", range(6, 8, 7, 3), { on: "pixels", frame: 0, pixels: [5] }],
    ["no number", range(4, 14, 4, 18), undefined],
  ])("of a finding on %s", (_what, at, place) => {
    for (const code of ["over-cap", "out-of-range", "padding-bits"]) expect(placed(code, at)).toEqual([place]);
  });

  test("of a number that holds several are all marked", () => {
    const packed = [
      { frame: 0, pixels: [1, 0, 1, 0, 0, 0], elements: [2, 2, 2, 5, 5, 5].flatMap((c) => written(5, [c])) },
    ];
    const [one] = findingsOf([found("padding-bits", range(5, 2, 5, 3))], drop, [drop], packed);
    expect(one?.place).toEqual({ on: "pixels", frame: 0, pixels: [0, 1, 2] });
  });

  test("of several findings are told apart", () => {
    const [first, second] = shown(found("over-cap", range(5, 2, 5, 3)), found("over-cap", range(5, 5, 5, 6)));
    expect([first?.place, second?.place]).toEqual([
      { on: "pixels", frame: 0, pixels: [0] },
      { on: "pixels", frame: 0, pixels: [1] },
    ]);
  });

  test("that were not asked for leave a finding without a place", () => {
    const frames = [{ frame: 0, pixels: [1, 2, 3, 4, 5, 6] }];
    const [one] = findingsOf([found("over-cap", range(5, 2, 5, 3))], drop, [drop], frames);
    expect(one).toEqual({ severity: "warning", message: "about over-cap" });
  });
});

test.each([
  ["row-shape", range(5, 8, 6, 3), { on: "rows", frame: 0, rows: [0, 1] }],
  ["row-shape", range(8, 2, 8, 6), { on: "rows", frame: 1, rows: [1] }],
  ["length", range(9, 0, 9, 1), { on: "end" }],
  ["flashing", range(7, 2, 8, 6), { on: "frame", frame: 1 }],
  ["current", range(5, 2, 5, 3), { on: "frame", frame: 0 }],
  ["bus", range(7, 2, 7, 3), { on: "frame", frame: 1 }],
  ["uniform", range(5, 2, 5, 3), undefined],
])("%s on %o", (code, at, place) => {
  expect(placed(code, at)).toEqual([place]);
});

test("a finding on the only frame is about the bitmap as a whole", () => {
  const [frame] = FRAMES;
  const one = { ...drop, frames: 1 };
  const [told] = findingsOf([found("current", range(5, 2, 5, 3))], one, [one], frame ? [frame] : []);
  expect(told).toEqual({ severity: "warning", message: "about current" });
});
