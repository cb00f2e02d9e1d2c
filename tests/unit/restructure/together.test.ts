/** Several arrays edited as one set: texts before and after, written by hand. */
import { describe, expect, test } from "vitest";
import { openText } from "../../../shared/bitmap/open.ts";
import { pixelsOf } from "../../../shared/bitmap/resolve.ts";
import type { Restructuring } from "../../../shared/bitmap/restructure/change.ts";
import { restructureTogether } from "../../../shared/bitmap/restructure/restructure.ts";
import { checkFile } from "../../../shared/checks/all.ts";
import { applyEdits } from "../../../shared/source/text.ts";

const DIGITS = `// @bitmap 2x2 -- zero
const uint8_t digit_0[4] = {
  1, 2, // top
  3, 4,
};
// @bitmap 2x2
const uint8_t digit_1[4] = {
  0x05, 0x06,
  0x07, 0x08, // foot
};
int between;
// @bitmap 2x2 frames=2 fps=4
const uint8_t blink[8] = {
  9, 9, 9, 9, // on
  0, 0, 0, 0, // off
};
`;

/** Of all bitmaps of a text, or of those named. */
function changed(text: string, change: Restructuring, names?: readonly string[]) {
  const opened = openText(text, "art.cpp");
  const set = opened.bitmaps.filter((b) => !names || names.includes(b.array.name));
  const world = { reopen: (t: string) => openText(t, "art.cpp"), findings: checkFile };
  const done = restructureTogether(opened, set, change, world);
  if ("refused" in done) return { text: `refused: ${done.refused}`, names: [], pixels: [] };
  return {
    text: applyEdits(text, done.edits),
    names: done.bitmaps.map((b) => b.array.name),
    pixels: done.bitmaps.flatMap((b) =>
      Array.from({ length: b.frames }, (_, f) => [...(pixelsOf(b, f) ?? [])].join(" ")),
    ),
  };
}
const framed = (order: readonly (number | "dark")[], text = DIGITS, names?: readonly string[]) =>
  changed(text, { kind: "frames", order }, names);
const wider = { kind: "size", left: 0, top: 0, right: 1, bottom: 0 } as const;

describe("sizes", () => {
  test("all arrays of the set are extended, each with its annotation and its declared size", () => {
    expect(changed(DIGITS, wider).text).toBe(`// @bitmap 3x2 -- zero
const uint8_t digit_0[6] = {
  1, 2, 0, // top
  3, 4, 0,
};
// @bitmap 3x2
const uint8_t digit_1[6] = {
  0x05, 0x06, 0x00,
  0x07, 0x08, 0x00, // foot
};
int between;
// @bitmap 3x2 frames=2 fps=4
const uint8_t blink[12] = {
  9, 9, 0, 9, 9, 0, // on
  0, 0, 0, 0, 0, 0, // off
};
`);
  });

  test("cropped, and back again by an extent", () => {
    const cut = changed(DIGITS, { kind: "size", left: -1, top: 0, right: 0, bottom: -1 });
    expect(cut.pixels).toEqual(["2", "6", "9", "0"]);
  });

  const SHARED = `#define N 4
// @bitmap 2x2
const uint8_t digit_0[N] = { 1, 2, 3, 4 };
// @bitmap 2x2
const uint8_t digit_1[N] = { 5, 6, 7, 8 };
`;
  test("a size that they share by name is written once; with only some of them it is refused", () => {
    expect(changed(SHARED, wider).text).toBe(`#define N 6
// @bitmap 3x2
const uint8_t digit_0[N] = { 1, 2, 0, 3, 4, 0 };
// @bitmap 3x2
const uint8_t digit_1[N] = { 5, 6, 0, 7, 8, 0 };
`);
    expect(changed(SHARED, wider, ["digit_0"]).text).toBe("refused: digit_1 would change with it");
  });

  test("where one of them can't follow none does", () => {
    const text = DIGITS.replace("0x05, 0x06", "HALF(0x05), 0x06").replace("// foot", "");
    expect(changed(`#define HALF(a) a / unknown\n${text}`, wider).text).toMatch(/^refused: .*digit_1/);
  });
});

describe("frames", () => {
  test("arrays keep their places and names, what they hold changes places, each number in the spelling that stands there", () => {
    const { text, pixels } = framed([1, 0, 2, 3]);
    expect(text).toBe(
      DIGITS.replace("1, 2, // top\n  3, 4", "5, 6, // top\n  7, 8").replace(
        "0x05, 0x06,\n  0x07, 0x08",
        "0x01, 0x02,\n  0x03, 0x04",
      ),
    );
    expect(pixels).toEqual(["5 6 7 8", "1 2 3 4", "9 9 9 9", "0 0 0 0"]);
  });

  test("the first goes to the end, and what was behind it moves up, also into an array of several frames", () => {
    expect(framed([1, 2, 3, 0]).pixels).toEqual(["5 6 7 8", "9 9 9 9", "0 0 0 0", "1 2 3 4"]);
  });

  test("within one array they are added, deleted and moved as ever, with their comments", () => {
    expect(framed([0, 1, 3, 2]).text).toBe(
      DIGITS.replace("9, 9, 9, 9, // on\n  0, 0, 0, 0, // off", "0, 0, 0, 0, // off\n  9, 9, 9, 9, // on"),
    );
    expect(framed([0, 1, 2]).text).toBe(
      DIGITS.replace("2x2 frames=2", "2x2").replace("[8]", "[4]").replace("  0, 0, 0, 0, // off\n", ""),
    );
    expect(framed([0, 1, 2, 2, 3]).pixels.slice(2)).toEqual(["9 9 9 9", "9 9 9 9", "0 0 0 0"]);
  });

  test("a frame more than an array of one frame has is a new array behind it", () => {
    const dark = framed([0, "dark", 1, 2, 3]);
    expect(dark.names).toEqual(["digit_0", "digit_2", "digit_1", "blink"]);
    expect(dark.text).toContain(
      "  3, 4,\n};\n\n// @bitmap 2x2\nconst uint8_t digit_2[4] = {\n  0, 0, // top\n  0, 0,\n};\n// @bitmap 2x2\nconst uint8_t digit_1[4]",
    );
    const copy = framed([0, 1, 1, 2, 3]);
    expect(copy.names).toEqual(["digit_0", "digit_1", "digit_2", "blink"]);
    expect(copy.pixels).toEqual(["1 2 3 4", "5 6 7 8", "5 6 7 8", "9 9 9 9", "0 0 0 0"]);
    expect(copy.text).toContain("const uint8_t digit_2[4] = {\n  0x05, 0x06,\n  0x07, 0x08, // foot\n};");
  });

  test.each<[(number | "dark")[], string]>([
    [[1, 2, 3], "digit_0 has only this frame: an array is deleted in the text, as other code may name it"],
    [[1, 0], "frames of a set are added, deleted and moved one at a time"],
    [[0, 1, 2, 7], "the set has no frame 7"],
    [[0, 0, 0, 1, 2, 3], "one array at a time is added behind digit_0"],
  ])("%j is refused", (order, why) => {
    expect(framed(order).text).toBe(`refused: ${why}`);
  });

  test("values that are not known are neither moved nor taken", () => {
    const text = DIGITS.replace("0x07, 0x08", "0x07, UNKNOWN");
    expect(framed([1, 0, 2, 3], text).text).toMatch(/^refused: /);
  });

  test("nothing is written where nothing changes", () => {
    expect(framed([0, 1, 2, 3]).text).toBe(DIGITS);
  });
});

test("a speed goes to the arrays that have frames of their own", () => {
  expect(changed(DIGITS, { kind: "speed", fps: 8 }).text).toBe(DIGITS.replace("fps=4", "fps=8"));
  expect(changed(DIGITS, { kind: "speed", fps: 8 }, ["digit_0", "digit_1"]).text).toMatch(/^refused: each array/);
});
