/** Frames apart and together: texts before and after, written by hand. */
import { describe, expect, test } from "vitest";
import { converted, offered } from "./converting.ts";

describe("split", () => {
  test.each([
    [
      "two frames, with their words gone",
      "int n;\n\n// @bitmap 2x1 frames=2 fps=4 cap=9 -- a blink\nconst uint8_t a[4] = {\n  1, 2, /* frame 0 */\n  3, 4, /* frame 1 */\n}; // end\n",
      "int n;\n\n// @bitmap 2x1 cap=9 -- a blink\nconst uint8_t a_0[2] = {\n  1, 2,\n};\n\n// @bitmap 2x1 cap=9\nconst uint8_t a_1[2] = {\n  3, 4,\n}; // end\n",
    ],
    [
      "glyphs, each with its character beside the words",
      '/* @bitmap 3x1 mono1 frames=2 chars="+-" */\nconst uint8_t a[] = {0x40, 0xE0};\n',
      "/* @bitmap 3x1 mono1 */\nconst uint8_t a_0[] = {0x40};\n\n/* @bitmap 3x1 mono1 -- '-' */\nconst uint8_t a_1[] = {0xE0};\n",
    ],
    [
      "frames in the first of two brackets",
      "\t// @bitmap 2x1 frames=2\r\n\tconst uint8_t a[2][2] = {{1, 2}, {3, 4}};\r\n",
      "\t// @bitmap 2x1\r\n\tconst uint8_t a_0[2] = {1, 2};\r\n\r\n\t// @bitmap 2x1\r\n\tconst uint8_t a_1[2] = {3, 4};\r\n",
    ],
    [
      "under other names where one is taken",
      "int a_1;\n// @bitmap 1x1 frames=2 lead=1\nconst uint8_t a[4] = {7, 1, 8, 2};\n",
      "int a_1;\n// @bitmap 1x1 lead=1\nconst uint8_t a_frame_0[2] = {\n  7,\n  1\n};\n\n// @bitmap 1x1 lead=1\nconst uint8_t a_frame_1[2] = {\n  8,\n  2\n};\n",
    ],
  ])("%s", (_, before, after) => {
    expect(converted(before, "frames:split")).toBe(after);
  });

  test("says what stays behind", () => {
    const text = "// @bitmap 1x1 frames=2\nconst uint8_t a[] = {1, /* lit */ 2};\nshow(a);\n";
    expect(offered(text).get("frames:split")).toBe(
      "Split into 2 arrays, one a frame: drops 1 comment in the list, 1 other mention of a stays as it is",
    );
  });

  test.each([
    [
      "glyphs with widths",
      "const uint8_t w[] = {1, 1};\n// @bitmap 1x1 frames=2 widths=w\nconst uint8_t a[] = {1, 2};\n",
    ],
    ["elements before the frames", "// @bitmap 1x1 frames=2 skip=1\nconst uint8_t a[] = {9, 1, 2};\n"],
    ["a comment between", "// @bitmap 1x1 frames=2\n// blinks\nconst uint8_t a[] = {1, 2};\n"],
    ["one frame", "// @bitmap 2x1\nconst uint8_t a[] = {1, 2};\n"],
  ])("is not offered with %s", (_, text) => {
    expect(offered(text).has("frames:split")).toBe(false);
  });
});

describe("join", () => {
  const TWO =
    "// @bitmap 2x1\nconst uint8_t a_0[2] = {\n  1, 2,\n};\n\n// @bitmap 2x1 -- then\nconst uint8_t a_1[2] = {3, 4}; // end\n";

  test("neighbours of one structure become frames", () => {
    expect(offered(TWO).get("frames:join")).toBe("Join 2 arrays, a_0 to a_1, into one of 2 frames: drops 1 comment");
    expect(converted(TWO, "frames:join")).toBe(
      "// @bitmap 2x1 frames=2\nconst uint8_t a[4] = {\n  1, 2, /* frame 0 */\n  3, 4, /* frame 1 */\n}; // end\n",
    );
  });

  test("arrays that have frames already add up, and the first one's name stays where it is no number", () => {
    const text =
      "// @bitmap 1x1 frames=2\nconst uint8_t a[] = {1, 2};\n// @bitmap 1x1\nconst uint8_t b[] = {3};\n// @bitmap 2x1\nconst uint8_t c[] = {3, 4};\n";
    expect(converted(text, "frames:join")).toBe(
      "// @bitmap 1x1 frames=3\nconst uint8_t a[] = {\n  1, /* frame 0 */\n  2, /* frame 1 */\n  3 /* frame 2 */\n};\n// @bitmap 2x1\nconst uint8_t c[] = {3, 4};\n",
    );
  });

  test.each([
    ["something between", TWO.replace("};\n\n//", "};\nint n;\n//")],
    ["another size", TWO.replace("2x1 -- then", "1x2")],
    ["another declaration", TWO.replace("const uint8_t a_1", "static const uint8_t a_1")],
    ["characters", TWO.replace("2x1 -- then", "2x1 first='B'").replace("2x1\n", "2x1 first='A'\n")],
  ])("is not offered with %s", (_, text) => {
    expect(offered(text).has("frames:join")).toBe(false);
  });

  test("what was split is joined again", () => {
    const text = "// @bitmap 2x1 frames=2\nconst uint8_t a[4] = {\n  1, 2, /* frame 0 */\n  3, 4, /* frame 1 */\n};\n";
    expect(converted(converted(text, "frames:split") ?? "", "frames:join")).toBe(text);
  });
});
