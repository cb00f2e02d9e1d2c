import { expect, test } from "vitest";
import { characterOfFrame, codePoint, frameOfTyped, glyphWords, isGlyphSet } from "../../../webview/glyphs.ts";
import { frameWords } from "../../../webview/words.ts";

const letters = { frames: 4, characters: [0x41, 0xb0, 0x20, 0x41] };
const icons = { frames: 12 };

test.each([
  ["A", 0, 3],
  ["A", 3, 0],
  ["°", 0, 1],
  [" ", 0, 2],
  ["U+00B0", 0, 1],
  ["u+b0", 0, 1],
  [" A ", 1, 3],
  ["B", 0, { refused: "The set has no 'B'." }],
  ["AB", 0, { refused: "Type one character, or its code as U+0041." }],
  ["U+110000", 0, { refused: "The set has no U+110000." }],
])("%j typed at frame %i", (typed, from, found) => {
  expect(frameOfTyped(letters, typed, from)).toEqual(found);
});

test("a character outside the first plane is one character", () => {
  expect(frameOfTyped({ frames: 1, characters: [0x1f4a7] }, "💧", 0)).toBe(0);
});

test("without characters it is the number of a frame", () => {
  expect(frameOfTyped(icons, "11", 0)).toBe(11);
  expect(frameOfTyped(icons, "12", 0)).toEqual({ refused: "There is no frame 12." });
  expect(frameOfTyped(icons, "A", 0)).toEqual({ refused: "There is no frame A." });
});

test("a frame in words has its character", () => {
  expect([0, 1, 2].map((frame) => characterOfFrame(letters, frame))).toEqual(["'A'", "'°'", "' '"]);
  expect(codePoint(letters, 1)).toBe("U+00B0");
  expect(glyphWords(letters, 1)).toBe("'°', frame 1");
  expect(glyphWords(icons, 1)).toBe("frame 1");
  expect(frameWords(1, letters)).toBe("'°', frame 1 of 0–3");
  expect(frameWords(1, icons)).toBe("frame 1 of 0–11");
  expect(isGlyphSet(icons)).toBe(false);
  expect(isGlyphSet({ ...icons, widths: [1] })).toBe(true);
});
