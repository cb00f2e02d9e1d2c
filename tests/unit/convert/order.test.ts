/** Arrays re-ordered between the panel's order and the driver's: texts before and after, written by hand. */
import { describe, expect, test } from "vitest";
import { openText } from "../../../shared/bitmap/open.ts";
import { pixelsOf } from "../../../shared/bitmap/resolve.ts";
import { converted, offered } from "./converting.ts";

const doc = (panel: string, words: string, list: string, size = "") =>
  `// @panel sill ${panel}\n// @bitmap sill${words}\nconst uint8_t a[${size}] = {\n${list}\n};\n`;

const PANEL = doc("3x2 wire=serpentine", "", "  1, 2, 3,\n  4, 5, 6,");
const DRIVER = doc("3x2 wire=serpentine", " order=driver", "  1, 2, 3,\n  6, 5, 4,");

describe("the order of the numbers", () => {
  test.each([
    ["to the driver's", "order:driver", PANEL, DRIVER],
    ["back", "order:panel", DRIVER, PANEL],
    [
      "on a canvas with more addresses than pixels",
      "order:driver",
      doc("2x2 wire=3x2;top-right", "", "  1, 2,\n  3, 4,", "4"),
      doc("2x2 wire=3x2;top-right", " order=driver", "  2, 1, 0,\n  4, 3, 0,", "6"),
    ],
    [
      "modules one above the other, side by side at the driver, bits packed",
      "order:driver",
      doc("4x4 mono1 wire=8x2;4x2@0,0>0,0;4x2@0,2>4,0", "", "  0x10,\n  0x20,\n  0x40,\n  0x80,", "4"),
      doc("4x4 mono1 wire=8x2;4x2@0,0>0,0;4x2@0,2>4,0", " order=driver", "  0x14,\n  0x28,", "2"),
    ],
  ])("%s", (_what, id, before, after) => {
    expect(converted(before, id)).toBe(after);
  });

  test("by a table", () => {
    const wired = (words: string, list: string) =>
      `// @panel sill 2x2\n// @wiring sill\nconst uint8_t t[4] = {3, 2, 1, 0};\n// @bitmap sill${words}\nconst uint8_t a[4] = {${list}};\n`;
    expect(converted(wired("", "1, 2, 3, 4"), "order:driver")).toBe(wired(" order=driver", "\n  4, 3,\n  2, 1\n"));
  });

  test("is not offered where nothing is said of the wiring, or the picture is smaller", () => {
    expect(offered(doc("2x2", "", "1, 2, 3, 4")).has("order:driver")).toBe(false);
    expect(offered(doc("2x2 wire=serpentine", " 2x1", "1, 2")).has("order:driver")).toBe(false);
  });

  test("is not offered where addresses without a pixel are in use", () => {
    const at = (spare: number) => doc("2x2 wire=3x2", " order=driver", `1, 2, 0, 3, 4, ${spare}`, "6");
    expect(offered(at(0)).has("order:panel")).toBe(true);
    expect(offered(at(9)).has("order:panel")).toBe(false);
  });
});

describe("reading in the driver's order", () => {
  const bitmapOf = (text: string) => {
    const file = openText(text, "art.cpp");
    return { bitmap: file.bitmaps[0], problems: file.problems.map((p) => p.message) };
  };

  test.each([
    ["3x2 wire=serpentine;bottom-right", "", "1, 2, 3, 4, 5, 6", [4, 5, 6, 3, 2, 1]],
    // The canvas itself read from another corner, column by column.
    ["2x3 wire=3x2;2x3@0,0>0,0/90", " from=top-right scan=columns", "1, 2, 3, 4, 5, 6", [6, 5, 4, 3, 2, 1]],
    ["2x2 wire=16x1;serpentine", " pack=each", "1, 2, 3, 4, 9, 9, 9, 9, 9, 9, 9, 9, 9, 9, 9, 9", [1, 2, 4, 3]],
  ])("%s", (panel, words, list, pixels) => {
    const { bitmap, problems } = bitmapOf(doc(panel, `${words} order=driver`, list));
    expect(problems).toEqual([]);
    expect(bitmap?.why).toBeUndefined();
    expect([...(bitmap && pixelsOf(bitmap, 0) ? (pixelsOf(bitmap, 0) as Uint8Array) : [])]).toEqual(pixels);
  });

  test("a wrong wiring gives no picture, and the reason", () => {
    const { bitmap } = bitmapOf(doc("2x2 wire=2x1@0,0>0,0", " order=driver", "1, 2, 3, 4"));
    expect(bitmap?.why).toBe("it is stored in driver order, and the wiring of sill is not known");
  });

  test("needs the panel, all of it", () => {
    expect(bitmapOf("// @bitmap 2x2 order=driver\nconst uint8_t a[4] = {1, 2, 3, 4};\n").problems).toEqual([
      "`order=driver` needs a panel: its `wire=` or @wiring says what the driver's order is.",
    ]);
    expect(bitmapOf(doc("2x2 wire=rows", " 2x1 order=driver", "1, 2")).problems).toEqual([
      "What is stored in driver order holds the whole panel `sill` of 2x2, not 2x1.",
    ]);
  });
});
