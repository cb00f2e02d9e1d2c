import { describe, expect, it } from "vitest";
import { firstArray, type Read, read, readAll } from "./reading.ts";

/** C17 6.7.9 paragraphs 25-30, examples 3, 4, 6 and 7, quoted from memory. */
const fromTheStandard: [string, string, Read][] = [
  ["example 3", "int y[4][3] = { { 1, 3, 5 }, { 2, 4, 6 }, { 3, 5, 7 }, };", [1, 3, 5, 2, 4, 6, 3, 5, 7, 0, 0, 0]],
  ["example 3, braces left out", "int y[4][3] = { 1, 3, 5, 2, 4, 6, 3, 5, 7 };", [1, 3, 5, 2, 4, 6, 3, 5, 7, 0, 0, 0]],
  ["example 4", "int z[4][3] = { { 1 }, { 2 }, { 3 }, { 4 } };", [1, 0, 0, 2, 0, 0, 3, 0, 0, 4, 0, 0]],
  [
    "example 6",
    "short q[4][3][2] = { { 1 }, { 2, 3 }, { 4, 5, 6 } };",
    [1, 0, 0, 0, 0, 0, 2, 3, 0, 0, 0, 0, 4, 5, 6, 0, 0, 0, 0, 0, 0, 0, 0, 0],
  ],
  [
    "example 6, braces left out",
    "short q[4][3][2] = { 1, 0, 0, 0, 0, 0, 2, 3, 0, 0, 0, 0, 4, 5, 6 };",
    [1, 0, 0, 0, 0, 0, 2, 3, 0, 0, 0, 0, 4, 5, 6, 0, 0, 0, 0, 0, 0, 0, 0, 0],
  ],
  [
    "example 6, fully braced",
    "short q[4][3][2] = { { { 1 }, }, { { 2, 3 }, }, { { 4, 5 }, { 6 }, } };",
    [1, 0, 0, 0, 0, 0, 2, 3, 0, 0, 0, 0, 4, 5, 6, 0, 0, 0, 0, 0, 0, 0, 0, 0],
  ],
];

describe("C17 6.7.9", () => {
  it.each(fromTheStandard)("%s", (_what, source, values) => {
    expect(Object.values(read(source))).toEqual([values]);
  });

  it("example 7: a typedef of an array without a size", () => {
    expect(readAll("typedef int A[];\nA a = { 1, 2 }, b = { 3, 4, 5 };")).toEqual([
      ["a", [1, 2]],
      ["b", [3, 4, 5]],
    ]);
  });
});

/** [declaration and list, values] */
const placed: [string, Read][] = [
  ["uint8_t a[3] = { 1 };", [1, 0, 0]],
  ["uint8_t a[3] = {};", [0, 0, 0]],
  ["uint8_t a[2] = { 1, 2, 3 };", [1, 2]],
  ["uint8_t a[][3] = { 1, 2, 3, 4 };", [1, 2, 3, 4, 0, 0]],
  ["uint8_t a[][3] = { { 1 }, { 2 } };", [1, 0, 0, 2, 0, 0]],
  ["uint8_t a[][3] = { { 1 }, 2, 3 };", [1, 0, 0, 2, 3, 0]],
  ["uint8_t a[][3] = { 1, 2, 3, { 4 } };", [1, 2, 3, 4, 0, 0]],
  ["uint8_t a[2][2][2] = { { 1, 2, { 3 } }, { { 4 }, 5 } };", [1, 2, 3, 0, 4, 0, 5, 0]],
  ["uint8_t a[2][2][2] = { 1, 2, { 3 }, { { 4 } } };", [1, 2, 3, 0, 4, 0, 0, 0]],
  ["uint8_t a[2][2] = { { 1, 2, 9 }, { 3 } };", [1, 2, 3, 0]],
  ["uint8_t a[2][2] = { {}, { 3 } };", [0, 0, 3, 0]],
  ["uint8_t a[1][2] = { { 1, 2 }, { 3 } };", [1, 2]],
  ["uint8_t a[2][] = { 1, 2 };", "an inner dimension has no size"],
  ["uint8_t a[2] = { { 1 }, { { 2 } } };", "there are more braces than dimensions"],
  ["uint8_t a[99999][99999] = { 1 };", "it has 9999800001 elements, too many to lay out"],
  // Takes no longer for being laid out by designators.
  ["uint8_t a[4000000000] = { [1] = 1, 2 };", "it has 4000000000 elements, too many to lay out"],
];

describe("where elements stand", () => {
  it.each(placed)("%s", (source, values) => {
    expect(read(source)).toEqual({ a: values });
  });
});

describe("elements that have no room, and those that are not written", () => {
  it.each([
    ["uint8_t a[2] = { 1, 2, 3 };", { excess: 1, gaps: [] }],
    ["uint8_t a[2] = { 1 };", { excess: 0, gaps: [[1, 2]] }],
    ["uint8_t a[] = { 1 };", { excess: 0, gaps: [] }],
    ["uint8_t a[2][2] = { { 1, 2, 9 }, { 3 } };", { excess: 1, gaps: [[3, 4]] }],
    [
      "uint8_t a[3][2] = { { 1 }, { 2 } };",
      {
        excess: 0,
        gaps: [
          [1, 2],
          [3, 4],
          [4, 6],
        ],
      },
    ],
    ["uint8_t a[][2] = { 1, 2, 3 };", { excess: 0, gaps: [[3, 4]] }],
    ["uint8_t a[1][2] = { { 1, 2 }, { 3, 4 } };", { excess: 2, gaps: [] }],
  ])("%s", (source, expected) => {
    const { excess, gaps } = firstArray(source);
    expect({ excess, gaps: gaps.map(({ from, to }) => [from, to]) }).toEqual(expected);
  });
});
