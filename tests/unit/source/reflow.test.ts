import { describe, expect, it } from "vitest";
import { reflow } from "../../../shared/source/reflow.ts";
import { applyEdits, commonPrefix, commonSuffix, lineAt, lineStarts } from "../../../shared/source/text.ts";
import { firstArray } from "./reading.ts";

function laidOut(text: string, perLine: number): string | undefined {
  const edits = reflow(text, firstArray(text), perLine);
  return edits && applyEdits(text, edits);
}

/** [text, elements to a line, text afterwards] */
const cases: [string, number, string | undefined][] = [
  ["uint8_t a[] = { 1, 2, 3, 4 };", 2, "uint8_t a[] = {\n  1, 2,\n  3, 4\n};"],
  ["uint8_t a[] = {1, 2, 3, 4,};", 2, "uint8_t a[] = {\n  1, 2,\n  3, 4,\n};"],
  ["uint8_t a[] = {\n  1, 2, 3,\n  4, 5, 6,\n};", 2, "uint8_t a[] = {\n  1, 2,\n  3, 4,\n  5, 6,\n};"],
  ["  uint8_t a[] = {\r\n\t\t1, 2, 3, 4\r\n  };", 2, "  uint8_t a[] = {\r\n\t\t1, 2,\r\n\t\t3, 4\r\n  };"],
  ["uint8_t a[] = {\n  1, 2,\n  3, 4,\n};", 2, "uint8_t a[] = {\n  1, 2,\n  3, 4,\n};"],
  ["uint8_t a[] = { 1, 2, 3 };", 2, "uint8_t a[] = {\n  1, 2,\n  3\n};"],
  ["uint8_t a[] = { 1, /* two */ 2, 3, 4 };", 2, undefined],
  ["uint8_t a[] = { 1, 2, 3, 4 /* end */ };", 2, undefined],
  ["uint8_t a[2][2] = { { 1, 2 }, { 3, 4 } };", 2, undefined],
  ["uint8_t a[] = {};", 2, undefined],
];

describe("a list laid out anew", () => {
  it.each(cases)("%j by %i", (text, perLine, after) => {
    expect(laidOut(text, perLine)).toBe(after);
  });
});

describe("text", () => {
  it("lines end after LF, CR LF and a lone CR", () => {
    const starts = lineStarts("a\nb\r\nc\rd");
    expect(Array.from(starts)).toEqual([0, 2, 5, 7]);
    expect([0, 1, 2, 4, 5, 6, 7, 8].map((at) => lineAt(starts, at))).toEqual([0, 0, 1, 1, 2, 2, 3, 3]);
  });

  it.each([
    ["abc", [{ start: 1, end: 2, text: "X" }], "aXc"],
    [
      "abc",
      [
        { start: 3, end: 3, text: "!" },
        { start: 0, end: 1, text: "" },
      ],
      "bc!",
    ],
    [
      "abc",
      [
        { start: 1, end: 1, text: "1" },
        { start: 1, end: 1, text: "2" },
      ],
      "a12bc",
    ],
    [
      "abc",
      [
        { start: 1, end: 2, text: "X" },
        { start: 1, end: 1, text: "+" },
      ],
      "a+Xc",
    ],
  ])("edits of %s", (text, edits, after) => {
    expect(applyEdits(text, edits)).toBe(after);
  });

  it("what two texts share at their beginning and end, also over whole blocks", () => {
    const long = "ab".repeat(5000);
    for (const [before, after] of [
      ["", ""],
      ["x", ""],
      [long, long],
      ["x", long],
    ]) {
      expect(commonPrefix(`${long}1${before}`, `${long}2${after}`)).toBe(10_000);
      expect(commonSuffix(`${before}1${long}`, `${after}2${long}`, 10_001)).toBe(10_000);
    }
    expect(commonPrefix(long, long)).toBe(10_000);
    expect(commonSuffix(long, long, 7)).toBe(7);
  });

  it("edits that overlap are refused", () => {
    const edits = [
      { start: 0, end: 2, text: "" },
      { start: 1, end: 3, text: "" },
    ];
    expect(() => applyEdits("abc", edits)).toThrow("edits overlap at offset 1");
  });
});
