import { describe, expect, it } from "vitest";
import { editPixels, findBitmap, identityOf } from "../../../shared/bitmap/edit.ts";
import { openText } from "../../../shared/bitmap/open.ts";
import { type Change, firstBitmap, paint } from "./paint.ts";

/** [what, options, declaration, pixels, declaration afterwards] */
const painted: [string, string, string, Change[], string][] = [
  ["a bit of a row", "8x2 mono1", "uint8_t a[] = { 0x00, 0x3C };", [[0, 0, 1]], "uint8_t a[] = { 0x80, 0x3C };"],
  [
    "two bits of one element",
    "8x1 mono1",
    "uint8_t a[] = { 0x3C };",
    [
      [0, 0, 1],
      [7, 0, 1],
    ],
    "uint8_t a[] = { 0xBD };",
  ],
  ["a bit taken away", "8x1 mono1", "uint8_t a[] = { 0b10000001 };", [[7, 0, 0]], "uint8_t a[] = { 0b10000000 };"],
  [
    "std::array of others",
    "2x2 gray8",
    "std::array<std::array<uint8_t, 2>, 2> a{{ {{1, 2}}, {{3, 4}} }};",
    [[0, 1, 9]],
    "std::array<std::array<uint8_t, 2>, 2> a{{ {{1, 2}}, {{9, 4}} }};",
  ],
  [
    "a bit of a page",
    "2x16 mono1 pack=pages",
    "uint8_t a[] = { 1, 2, 4, 8 };",
    [[1, 8, 1]],
    "uint8_t a[] = { 1, 2, 4, 9 };",
  ],
  ["inverted", "8x1 mono1 invert", "uint8_t a[] = { 0xFF };", [[0, 0, 1]], "uint8_t a[] = { 0x7F };"],
  ["a nibble", "3x1 gray4", "uint8_t a[] = { 0x12, 0x3F };", [[2, 0, 9]], "uint8_t a[] = { 0x12, 0x9F };"],
  ["an index", "4x1 palette2", "uint8_t a[] = { 0b00011011 };", [[0, 0, 2]], "uint8_t a[] = { 0b10011011 };"],
  ["a colour", "2x1 rgb565", "uint16_t a[] = { 0x12AB, 7 };", [[0, 0, 0xf81f]], "uint16_t a[] = { 0xF81F, 7 };"],
  [
    "a colour of which one byte changes",
    "2x1 rgb565",
    "uint8_t a[] = { 0xF8, 0x1f, 0xff, 0xFF };",
    [[0, 0, 0xf800]],
    "uint8_t a[] = { 0xF8, 0x00, 0xff, 0xFF };",
  ],
  [
    "a colour with its bytes swapped",
    "2x1 rgb565 bytes=le",
    "uint16_t a[] = { 0x3A12, 7 };",
    [[0, 0, 0xf81f]],
    "uint16_t a[] = { 0x1FF8, 7 };",
  ],
  [
    "one of two colours in an element",
    "2x1 rgb565",
    "uint32_t a[] = { 0x12345AB8 };",
    [[1, 0, 0xf81f]],
    "uint32_t a[] = { 0x1234F81F };",
  ],
  [
    "three bytes, of which two change",
    "1x1 rgb888",
    "uint8_t a[] = { 255, 184, 77 };",
    [[0, 0, 0x00b800]],
    "uint8_t a[] = { 0, 184, 0 };",
  ],
  [
    "a colour beside a fourth channel, which stays",
    "1x1 rgb888",
    "uint32_t a[] = { 0xFF102030 };",
    [[0, 0, 0xffb84d]],
    "uint32_t a[] = { 0xFFFFB84D };",
  ],
  [
    "an index behind the colours",
    "2x1 palette4 skip=2",
    "uint8_t a[] = { 0xE0, 0x03, 0x01 };",
    [[0, 0, 1]],
    "uint8_t a[] = { 0xE0, 0x03, 0x11 };",
  ],
  ["a grey", "2x1", "uint8_t a[] = { 7, 255 };", [[0, 0, 64]], "uint8_t a[] = { 64, 255 };"],
  ["an inverted grey", "2x1 invert", "uint8_t a[] = { 0, 0 };", [[0, 0, 0]], "uint8_t a[] = { 255, 0 };"],
  ["a frame", "2x1 frames=2", "uint8_t a[] = { 1, 2, 3, 4 };", [[1, 0, 9, 1]], "uint8_t a[] = { 1, 2, 3, 9 };"],
  [
    "the same value",
    "2x1",
    "uint8_t a[] = { 0x07, 7 };",
    [
      [0, 0, 7],
      [1, 0, 7],
    ],
    "uint8_t a[] = { 0x07, 7 };",
  ],
  [
    "twice: the last holds",
    "2x1",
    "uint8_t a[] = { 1, 2 };",
    [
      [0, 0, 7],
      [0, 0, 9],
    ],
    "uint8_t a[] = { 9, 2 };",
  ],
  [
    "there and back",
    "8x1 mono1",
    "uint8_t a[] = { 0x0f };",
    [
      [0, 0, 1],
      [0, 0, 0],
    ],
    "uint8_t a[] = { 0x0f };",
  ],
  [
    "lit stays as it is spelt",
    "3x1 mono1 pack=each",
    "uint8_t a[] = { 200, 0, 7 };",
    [
      [0, 0, 1],
      [1, 0, 1],
      [2, 0, 0],
    ],
    "uint8_t a[] = { 200, 1, 0 };",
  ],
  ["unused bits stay", "3x1 mono1", "uint8_t a[] = { 0x1F };", [[0, 0, 1]], "uint8_t a[] = { 0x9F };"],
  ["a wide element", "16x1 mono1", "uint16_t a[] = { 0x00FF };", [[0, 0, 1]], "uint16_t a[] = { 0x80FF };"],
  ["the sign bit", "8x1 mono1", "int8_t a[] = { 1 };", [[0, 0, 1]], "int8_t a[] = { -127 };"],
  ["64 bits", "64x1 mono1", "uint64_t a[] = { 0x1ULL };", [[0, 0, 1]], "uint64_t a[] = { 0x8000000000000001ULL };"],
  [
    "skipped elements stay",
    "2x1 skip=2",
    "uint8_t a[] = { 2, 1, 5, 6 };",
    [[0, 0, 7]],
    "uint8_t a[] = { 2, 1, 7, 6 };",
  ],
  ["what is not written", "2x2", "uint8_t a[4] = { 5 };", [[1, 1, 7]], "uint8_t a[4] = { 5, 0, 0, 7 };"],
];

describe("pixels that are painted", () => {
  it.each(painted)("%s", (_what, options, before, changes, after) => {
    const above = `// @bitmap ${options}\n`;
    expect(paint(above + before, changes)).toBe(above + after);
  });
});

const grey = "// @bitmap 2x2 frames=2\nconst uint8_t a[8] = { 1, 2, 3, 4, 5, 6, 7, 8 };";

/** [what, source, pixel, reason] */
const refused: [string, string, Change, string][] = [
  ["left of the picture", grey, [-1, 0, 1], "a has no pixel -1,0 in frame 0"],
  ["right of it", grey, [2, 0, 1], "a has no pixel 2,0 in frame 0"],
  ["under it", grey, [0, 2, 1], "a has no pixel 0,2 in frame 0"],
  ["after the last frame", grey, [0, 0, 1, 2], "a has no pixel 0,0 in frame 2"],
  ["before the first frame", grey, [0, 0, 1, -1], "a has no pixel 0,0 in frame -1"],
  ["between pixels", grey, [0.5, 0, 1], "a has no pixel 0.5,0 in frame 0"],
  ["a fraction", grey, [0, 0, 1.5], "a has no pixel 0,0 in frame 0"],
  ["no number", grey, [0, 0, Number.NaN], "a has no pixel 0,0 in frame 0"],
  ["too bright", grey, [0, 0, 256], "256 is not a value of gray8"],
  ["darker than dark", grey, [0, 0, -1], "-1 is not a value of gray8"],
  ["not a bit", "// @bitmap 8x1 mono1\nuint8_t a[] = { 1 };", [0, 0, 2], "2 is not a value of mono1"],
  [
    "after the end of the array",
    "// @bitmap 2x2\nuint8_t a[] = { 1, 2 };",
    [0, 1, 7],
    "pixel 0,1 lies after the end of a, which has 2 elements",
  ],
  [
    "a value that is not known",
    "// @bitmap 2x1\nuint8_t a[] = { GLOW, 2 };",
    [1, 0, 7],
    "a can't be edited: `GLOW` is not defined in this file",
  ],
  [
    "a list that is not closed",
    "// @bitmap 2x1\nuint8_t a[] = { 1, 2",
    [0, 0, 7],
    "a can't be edited: the list is not closed",
  ],
  [
    "pixels that do not divide into the elements",
    "// @bitmap 1x1 rgb888\nuint16_t a[] = { 1 };",
    [0, 0, 7],
    "a can't be edited: pixels of 24 bits do not divide into elements of 16 bits",
  ],
  [
    "an unknown type",
    "// @bitmap 1x1\nCell a[] = { 1 };",
    [0, 0, 7],
    "a can't be edited: its element type is not known from this file (`Cell`)",
  ],
  [
    "a pointer to a string",
    '// @bitmap 1x1\nconst char *a = "x";',
    [0, 0, 7],
    "a can't be edited: it is no array of numbers, but is given a string",
  ],
];

describe("pixels that can't be painted", () => {
  it.each(refused)("%s", (_what, source, change, why) => {
    expect(paint(source, [change])).toBe(why);
  });

  it("one that can't be painted refuses all", () => {
    expect(
      paint(grey, [
        [0, 0, 9],
        [9, 9, 9],
      ]),
    ).toBe("a has no pixel 9,9 in frame 0");
  });

  it("a pixel that has changed since the painter saw it", () => {
    const seen = (before: number) => editPixels(grey, firstBitmap(grey), [{ frame: 1, x: 0, y: 1, value: 9, before }]);
    expect(seen(7)).toHaveProperty("edits.0.text", "9");
    expect(seen(6)).toEqual({ refused: "pixel 0,1 of a was changed meanwhile" });
  });

  it("no pixels are no edits", () => {
    expect(paint(grey, [])).toBe(grey);
  });
});

const icon = (name: string, values = "1, 2, 3, 4", options = "2x2") =>
  `// @bitmap ${options}\nconst uint8_t ${name}[] = { ${values} };\n`;

/** [what, text before, text now, where the first bitmap of the first is now or why not] */
const found: [string, string, string, number | string][] = [
  ["nothing changed", icon("a"), icon("a"), 0],
  ["lines before it", icon("a"), `int x;\n${icon("a")}`, 0],
  ["other values", icon("a"), icon("a", "9, 8, 7, 6"), 0],
  ["another array before it", icon("a"), icon("b") + icon("a"), 1],
  [
    "one of the same name after it",
    icon("a"),
    icon("a") + icon("a"),
    "there are now 2 arrays named a, and it is not clear which was meant",
  ],
  ["its neighbours have changed places", icon("b") + icon("a"), icon("a") + icon("b"), 1],
  ["renamed", icon("a"), icon("c"), "a is no longer there"],
  ["gone", icon("a"), "", "a is no longer there"],
  ["no longer annotated", icon("a"), "const uint8_t a[] = { 1, 2, 3, 4 };", "a is no longer there"],
  ["another size", icon("a"), icon("a", "1, 2, 3, 4", "4x1"), "a has changed its shape"],
  ["another format", icon("a"), icon("a", "1, 2, 3, 4", "8x4 mono1"), "a has changed its shape"],
  ["inverted", icon("a"), icon("a", "1, 2, 3, 4", "2x2 invert"), "a has changed its shape"],
  ["another element more", icon("a"), icon("a", "1, 2, 3, 4, 5"), "a has changed its shape"],
  ["another corner", icon("a"), icon("a", "1, 2, 3, 4", "2x2 from=top-right"), "a has changed its shape"],
  ["another type", icon("a"), icon("a").replace("uint8_t", "uint16_t"), "a has changed its shape"],
  [
    "zeros that the compiler filled in are written out, as painting one does",
    icon("a", "1, 2").replace("[]", "[4]"),
    icon("a").replace("[]", "[4]"),
    0,
  ],
  ["another cap", icon("a"), icon("a", "1, 2, 3, 4", "2x2 cap=9"), 0],
];

describe("a bitmap found again", () => {
  it.each(found)("%s", (_what, before, now, expected) => {
    const identity = identityOf(firstBitmap(before));
    const file = openText(now, "art.h");
    const again = findBitmap(file, identity);
    if (typeof expected === "string") expect(again).toEqual({ refused: expected });
    else expect(again).toBe(file.bitmaps[expected]);
  });

  it("by its place among those of its name, where their number is the same", () => {
    const text = `#ifdef DAY\n${icon("a")}#else\n${icon("a", "5, 6, 7, 8")}#endif\n`;
    const file = openText(text, "art.h");
    const second = file.bitmaps[1];
    const moved = openText(`\n${text}`, "art.h");
    expect(second && findBitmap(moved, identityOf(second))).toBe(moved.bitmaps[1]);
  });

  it("its JSON finds it as well", () => {
    const identity = JSON.parse(JSON.stringify(identityOf(firstBitmap(icon("a")))));
    expect(findBitmap(openText(icon("a"), "art.h"), identity)).toHaveProperty("array.name", "a");
  });
});
