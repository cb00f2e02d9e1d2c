/** Which numbers of the text are selected for pixels, and which pixels for numbers. */
import { expect, test } from "vitest";
import { pixelsIn, spansOfPixels } from "../../../client/selected.ts";

/** Elements of two columns each, three to a line from line 10, for a picture of 3×2; the last is not written. */
const plain = [0, 1, 2, 3, 4, 5].flatMap((i) => {
  const [line, column] = [10 + Math.floor(i / 3), 2 + (i % 3) * 4];
  return i === 5 ? [-1, -1, -1, -1] : [line, column, line, column + 2];
});
const frames = [{ frame: 0, pixels: [], elements: plain }];
const showing = { frames, shown: { bitmap: { width: 3 } } };
const at = (line: number, from: number, to: number, last = line) => ({
  start: { line, character: from },
  end: { line: last, character: to },
});

test.each<[string, readonly number[], ReturnType<typeof at>[]]>([
  ["neighbours are one run", [0, 1], [at(10, 2, 8)]],
  ["what is between them parts them", [0, 2], [at(10, 2, 4), at(10, 10, 12)]],
  ["so does the end of a line", [1, 2, 3], [at(10, 6, 12), at(11, 2, 4)]],
  ["in order of the text", [4, 0], [at(10, 2, 4), at(11, 6, 8)]],
  ["what is not written has none", [4, 5], [at(11, 6, 8)]],
  ["none is none", [], []],
])("%s", (_, pixels, spans) => {
  expect(spansOfPixels(showing, 0, pixels)).toEqual(spans);
});

test("a packed element is one number, however many of its pixels are selected", () => {
  const packed = { ...showing, frames: [{ frame: 0, pixels: [], elements: [3, 0, 3, 4, 3, 0, 3, 4, 3, 6, 3, 10] }] };
  expect(spansOfPixels(packed, 0, [0, 1])).toEqual([at(3, 0, 4)]);
  expect(spansOfPixels(packed, 0, [1, 2])).toEqual([at(3, 0, 10)]);
});

test("too many runs are none", () => {
  const elements = Array.from({ length: 1002 }, (_, i) => [i, 0, i, 1]).flat();
  const long = { frames: [{ frame: 0, pixels: [], elements }] };
  const every = Array.from({ length: 1002 }, (_, i) => i);
  expect(spansOfPixels(long, 0, every)).toEqual([]);
  expect(spansOfPixels(long, 0, every.slice(0, 500))).toHaveLength(500);
  expect(spansOfPixels(long, 1, [0])).toEqual([]);
});

test.each<[string, ReturnType<typeof at>[], readonly number[] | undefined]>([
  ["a selection over two numbers", [at(10, 3, 7)], [0, 1]],
  ["over lines", [at(10, 9, 3, 11)], [2, 3]],
  ["several selections", [at(10, 2, 4), at(11, 6, 8)], [0, 4]],
  ["a single number is the cursor's matter", [at(10, 2, 4)], undefined],
  ["what only touches a number is not on it", [at(10, 4, 8)], undefined],
  ["a cursor is no selection", [at(10, 3, 3)], undefined],
  ["nor are spaces", [at(10, 4, 6)], undefined],
])("%s", (_, selections, pixels) => {
  const found = pixelsIn(showing, selections);
  expect(found?.pixels).toEqual(pixels);
  if (found && pixels) expect(found.place.y * 3 + found.place.x).toBe(pixels[0]);
});

test("the frame is told", () => {
  const second = plain.map((value, i) => (value < 0 || i % 2 === 1 ? value : value + 20));
  const two = { ...showing, frames: [...frames, { frame: 1, pixels: [], elements: second }] };
  expect(pixelsIn(two, [at(30, 0, 20)])?.place).toEqual({ frame: 1, x: 0, y: 0 });
  // Of a selection over several frames the one at hand counts.
  expect(pixelsIn(two, [at(9, 0, 20, 40)], 1)?.place.frame).toBe(1);
  expect(pixelsIn(two, [at(9, 0, 20, 40)])?.place.frame).toBe(0);
});
