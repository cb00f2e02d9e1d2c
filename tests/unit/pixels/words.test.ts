import { describe, expect, it } from "vitest";
import { edits, nearest } from "../../../shared/pixels/words.ts";

/** Optimal string alignment distances; by hand from the definition (insert, delete, replace, swap of neighbours). */
const distances: [string, string, number][] = [
  ["", "", 0],
  ["", "abc", 3],
  ["abc", "", 3],
  ["rows", "rows", 0],
  ["row", "rows", 1],
  ["rwos", "rows", 1],
  ["rosw", "rows", 1],
  ["kitten", "sitting", 3],
  ["ca", "abc", 3],
  ["pagse", "pages", 1],
  ["gray8", "grey8", 1],
];

describe("distance of words", () => {
  it.each(distances)("%j and %j: %i", (a, b, distance) => {
    expect(edits(a, b)).toBe(distance);
  });

  it("is given up where it must exceed the limit", () => {
    expect(edits("abcdef", "a", 2)).toBeGreaterThan(2);
    expect(edits("x".repeat(1000), "y".repeat(1000), 3)).toBeGreaterThan(3);
  });
});

/** [word, candidates, the one that is meant] */
const near: [string, string[], string | undefined][] = [
  ["pagse", ["rows", "columns", "pages", "each"], "pages"],
  ["PAGES", ["rows", "pages"], "pages"],
  ["mono", ["mono1", "gray8"], "mono1"],
  ["lst", ["list", "check"], "list"],
  ["colums", ["rows", "columns"], "columns"],
  ["x", ["y"], "y"],
  ["x", ["why"], undefined],
  ["ab", ["abcd"], undefined],
  ["zigzag", ["rows", "columns"], undefined],
  ["rows", [], undefined],
  ["gray3", ["gray2", "gray4"], "gray2"],
];

describe("nearest word", () => {
  it.each(near)("%j among %j: %j", (word, candidates, found) => {
    expect(nearest(word, candidates)).toBe(found);
  });
});
