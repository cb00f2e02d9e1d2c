/** What pasted text is read as, and what is said of text that is no picture. */
import { expect, test } from "vitest";
import { copiedText } from "../../../shared/bitmap/copied.ts";
import { openText } from "../../../shared/bitmap/open.ts";
import { pasted } from "../../../shared/bitmap/pasted.ts";

const HOME = openText(
  "#define GLOW 42\n// @panel lantern 9x9 gray8 cap=64\n// @bitmap lantern\nconst uint8_t drop_icon[81] = {0};\n",
  "art.h",
);

const LEAF = [..."0001100000111100011111101110011111000011011001100011110000011000"].join(" ");

/** A mono picture as it is often found: its rows drawn in comments, and no annotation. */
function leaf(): string {
  const lines = LEAF.replaceAll(" ", "").match(/.{8}/g) ?? [];
  const drawn = (row: string) => row.replaceAll("0", ".").replaceAll("1", "#");
  const rows = lines.map((row) => `  0x${Number.parseInt(row, 2).toString(16)}, // ${drawn(row)}`);
  return `const uint8_t leaf_icon[8] = {\n${rows.join("\n")}\n};`;
}

const read = (text: string) => {
  const found = pasted(text, HOME, 3);
  if ("refused" in found) return found.refused;
  return [found.width, found.height, found.pixels.join(" "), found.bitmap?.format.name ?? "numbers"];
};

test.each<[string, string, (string | number)[]]>([
  ["an annotated array", "// @bitmap 4x2 mono1\nuint8_t a[] = {0xA0, 0x50};", [4, 2, "1 0 1 0 0 1 0 1", "mono1"]],
  ["a panel and a name of the file", "// @bitmap lantern 2x1\nuint8_t a[] = {GLOW, 1};", [2, 1, "42 1", "gray8"]],
  ["the first frame", "// @bitmap 2x1 frames=2\nuint8_t a[] = {1, 2, 3, 4};", [2, 1, "1 2", "gray8"]],
  [
    "an X bitmap",
    "#define i_width 8\n#define i_height 1\nstatic char i_bits[] = {0x05};",
    [8, 1, "1 0 1 0 0 0 0 0", "mono1"],
  ],
  ["lines as rows", "int a[] = {\n 1, 2,\n 3, 4,\n};", [2, 2, "1 2 3 4", "numbers"]],
  ["numbers alone", " 1, 2, 0x0a, 4,\n 5, 6, 7, 8,\n", [4, 2, "1 2 10 4 5 6 7 8", "numbers"]],
  ["names among them", "GLOW, 1, 0,\n0, GLOW, 0", [3, 2, "42 1 0 0 42 0", "numbers"]],
  ["as wide as the picture where lines do not tell", "1, 2, 3, 4,\n5, 6", [3, 2, "1 2 3 4 5 6", "numbers"]],
  ["one line is one row", "1, 2, 3, 4", [4, 1, "1 2 3 4", "numbers"]],
  ["a drawn mono picture without an annotation", leaf(), [8, 8, LEAF, "mono1"]],
])("%s", (_, text, expected) => {
  expect(read(text)).toEqual(expected);
});

test.each([
  ["", "The clipboard holds no text and no picture."],
  ["Water the ferns", "“Water the ferns” on the clipboard is neither an array of numbers nor a picture."],
  ["{{{ 1, 2", "“{{{ 1, 2” on the clipboard is neither an array of numbers nor a picture."],
  ["1, -2, 3", "-2 on the clipboard is no level: levels are 0 and more."],
  [
    "int a[] = {1, 2, elsewhere};",
    "The values of a on the clipboard are not known: `elsewhere` is not defined in this file.",
  ],
  [
    "1, 2, 3,\n4, 5,\n6, 7, 8",
    "The 8 numbers on the clipboard make no rows: their lines differ, and they are no rows of 3 pixels.",
  ],
])("%j is refused in words", (text, words) => {
  expect(read(text)).toBe(words);
});

test("a wrong annotation is told", () => {
  expect(read("// @bitmap 4y2\nuint8_t a[] = {1};")).toContain("The text on the clipboard has a mistake: ");
});

test("copied pixels take after the array they come from", () => {
  const file = openText(
    "// @bitmap 4x2 gray4\nstatic const uint8_t PROGMEM fan_icon[] = {\n\t0x0F, 0xA0,\n\t0x00, 0x31\n};\r\n",
    "art.h",
  );
  const [model] = file.bitmaps;
  expect(model && copiedText(file, model, { width: 2, height: 2, pixels: [1, 2, 10, 15] })).toBe(
    "// @bitmap 2x2 gray4\nstatic const uint8_t PROGMEM fan_icon_2[] = {\n\t0x12,\n\t0xAF\n};\n",
  );
});
