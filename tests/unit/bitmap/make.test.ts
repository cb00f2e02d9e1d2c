import { describe, expect, test } from "vitest";
import { makeBitmap, nameRefused } from "../../../shared/bitmap/make.ts";
import { openText } from "../../../shared/bitmap/open.ts";

/** Annotation and statement as they would be written at the end of a text, or why they are not. */
function made(words: string, text = "", file = "art.cpp"): string {
  const made = makeBitmap(openText(text, file), { words, name: "kettle", offset: text.length });
  return "refused" in made ? made.refused : `${made.annotation}\n${made.statement}`;
}

const head = (words: string, text: string, file?: string) => made(words, text, file).split("\n")[1];

describe("a new bitmap in a file without any", () => {
  test.each([
    ["3x2", "const uint8_t kettle[6] = {\n    0,   0,   0,\n    0,   0,   0,\n};"],
    ["3x2 cap=64", "const uint8_t kettle[6] = {\n   0,  0,  0,\n   0,  0,  0,\n};"],
    ["9x2 mono1", "const uint8_t kettle[4] = {\n  0x00, 0x00,\n  0x00, 0x00,\n};"],
    ["5x2 mono1 invert", "const uint8_t kettle[2] = {\n  0xF8,\n  0xF8,\n};"],
    ["2x12 mono1 pack=pages", "const uint8_t kettle[4] = {\n  0x00, 0x00,\n  0x00, 0x00,\n};"],
    ["3x2 mono1 pack=each invert", "const uint8_t kettle[6] = {\n  1, 1, 1,\n  1, 1, 1,\n};"],
    ["2x1 rgb565", "const uint16_t kettle[2] = {\n  0x0000, 0x0000,\n};"],
    ["2x1 rgb888", "const uint8_t kettle[6] = {\n  0x00, 0x00, 0x00, 0x00, 0x00, 0x00,\n};"],
    ["2x1 rgb888 pack=each", "const uint32_t kettle[2] = {\n  0x00000000, 0x00000000,\n};"],
    ["3x1 gray4 skip=2 lead=1", "const uint8_t kettle[5] = {\n  0x00, 0x00,\n  0x00,\n  0x00, 0x00,\n};"],
    [
      "2x2 frames=2 cap=9",
      "const uint8_t kettle[8] = {\n  /* frame 0 */\n  0, 0,\n  0, 0,\n  /* frame 1 */\n  0, 0,\n  0, 0,\n};",
    ],
    [
      "3x7 mono1 pack=columns frames=2 first='&'",
      "const uint8_t kettle[6] = {\n  0x00, 0x00, 0x00, /* '&' */\n  0x00, 0x00, 0x00, /* '\\'' */\n};",
    ],
  ])("%s", (words, statement) => {
    expect(made(words)).toBe(`// @bitmap ${words}\n${statement}`);
  });

  test.each([
    ["static in a header, which several files may include", "art.h", "", "static const uint8_t kettle[2] = {"],
    ["in flash in a sketch", "lantern.ino", "", "const uint8_t kettle[2] PROGMEM = {"],
    ["not in flash without the header's word", "art.c", "#include <stdint.h>\n", "const uint8_t kettle[2] = {"],
  ])("is %s", (_, file, text, expected) => {
    expect(head("2x1", text, file)).toBe(expected);
  });
});

describe("a new bitmap takes after those of the file", () => {
  const panel = "// @panel shelf 2x1 gray8 cap=64\n";
  test.each([
    [
      "storage and macros",
      "static constexpr PROGMEM byte dot[1] = {7};",
      "2x1",
      "static constexpr PROGMEM byte kettle[2] = {",
    ],
    ["the empty brackets", "const uint8_t dot[] = {7};", "2x1", "const uint8_t kettle[] = {"],
    [
      "all but the type for wide pixels",
      "static const uint8_t dot[1] = {7};",
      "2x1 rgb565",
      "static const uint16_t kettle[2] = {",
    ],
    [
      "no signed type for packed bits",
      "static const int8_t dot[1] = {7};",
      "8x1 mono1",
      "static const uint8_t kettle[1] = {",
    ],
  ])("%s", (_, declaration, words, expected) => {
    expect(head(words, `// @bitmap 1x1\n${declaration}`)).toBe(expected);
  });

  test("wide elements for the same format and packing alone", () => {
    const text = "// @bitmap 1x1 mono1\nconst uint16_t dot[1] = {0x8000};";
    expect(head("2x1 mono1", text)).toBe("const uint16_t kettle[1] = {");
    expect(head("2x1 mono1 pack=columns", text)).toBe("const uint8_t kettle[2] = {");
  });

  test.each([
    ["hexadecimal in small letters", "// @bitmap 2x1\nconst uint8_t dot[] = {\n\t0x0a, 0xff\n};", "\t0x00, 0x00\n"],
    ["binary", "// @bitmap 8x1 mono1\nconst uint8_t dot[] = {\n    0b00011000,\n};", "    0b00000000,\n"],
    ["decimal without columns", "// @bitmap 2x1\nconst uint8_t dot[] = {\n  10, 5,\n};", "  0, 0,\n"],
    ["decimal in columns", `${panel}// @bitmap shelf\nconst uint8_t dot[] = {\n  10,  5,\n};`, "   0,  0,\n"],
    [
      "columns of short numbers",
      `${panel}// @bitmap shelf 2x2\nconst uint8_t dot[] = {\n   5, 10,\n   6,  7,\n};`,
      "   0,  0,\n",
    ],
  ])("spells numbers in %s", (_, text, row) => {
    const words = /mono1/.test(text) ? "8x1 mono1" : /@panel/.test(text) ? "shelf" : "2x1";
    expect(made(words, text)).toContain(`= {\n${row}}`);
  });

  test("the nearest above before others", () => {
    const text = "// @bitmap 1x1\nconst uint8_t a[] = {1};\n// @bitmap 1x1\nstatic byte b[] = {2};\n";
    expect(head("1x1", text)).toBe("static byte kettle[] = {");
  });

  test("with the line ends of the file", () => {
    expect(made("1x1 cap=9", "int a;\r\n")).toBe("// @bitmap 1x1 cap=9\nconst uint8_t kettle[1] = {\r\n  0,\r\n};");
  });
});

describe("words that give no bitmap are refused in words", () => {
  test.each([
    ["", "A bitmap needs a size"],
    ["mono1", "A bitmap needs a size"],
    ["9x9 shelf", "No panel `shelf` is known"],
    ["9x9 gray9", "Did you mean `gray"],
    ["9x9 gray8 pack=pages", "can't be combined"],
    ["0x9", "at least 1x1"],
    ["70000x1", "larger than any display"],
    ["60000x60000", "larger than can be laid out"],
    ["2000x2000", "4000000 elements"],
    ["9x9 entries", "table of structs"],
    ["9x9 @bitmap 8x8", "Only the words of one @bitmap"],
    ["9x9\nint a;", "one line"],
    ["9x9 \\", "one line"],
    ['9x9 frames=2 chars="abc"', "lists 3 characters"],
  ])("%j", (words, message) => {
    expect(made(words)).toContain(message);
  });
});

describe("a name", () => {
  const text =
    '#include "board.h"\n#define MOST 9\nenum Level { DIM = 1, BRIGHT };\nstruct Icon { int inside; };\nextern int later[2];\n' +
    "const uint8_t drop[2] = {1, 2}, rain[1] = {2};\nnamespace garden { int shed; void water(int param) { int local = 1; } }\n" +
    "// a comment on leaf\nint used = MOST + sizeof(elsewhere);\ntypedef int level_t;\n";
  const refused = (name: string) => nameRefused(openText(text, "art.h"), name);

  test.each(["MOST", "DIM", "BRIGHT", "Level", "Icon", "drop", "rain", "shed", "water", "used", "level_t"])(
    "%s is taken",
    (name) => expect(refused(name)).toBe(`\`${name}\` is already taken in this file.`),
  );
  test.each(["kettle", "later", "leaf", "local", "param", "inside", "elsewhere", "garden_2", "_x"])(
    "%s is free",
    (name) => expect(refused(name)).toBeUndefined(),
  );
  test.each([
    ["", "needs a name"],
    ["2nd", "no digit first"],
    ["drop icon", "can't be a name"],
    ["größe", "can't be a name"],
    ["static", "keyword"],
    ["consteval", "keyword"],
    ["uint8_t", "already means something"],
  ])("%j is refused", (name, why) => expect(refused(name)).toContain(why));
});

describe("a model that is half typed", () => {
  const half = "// @bitmap 2x1\nstatic const uint8_t a[2] [ PROGMEM = {1, 2};\n";
  test("makes no array that can't be read back: it is plain C", () => {
    expect(head("2x1", half)).toBe("const uint8_t kettle[2] = {");
    const [read] = openText(made("2x1", half), "art.cpp").bitmaps;
    expect([read?.array.name, read?.why]).toEqual(["kettle", undefined]);
  });

  test("is followed where its type is known in the file only", () => {
    const own = "typedef uint8_t level_t;\n// @bitmap 2x1\nconst level_t a[2] = {1, 2};\n";
    expect(head("2x1", own)).toBe("const level_t kettle[2] = {");
    const text = '#include "types.h"\n// @bitmap 2x1\nconst level_t a[2] = {1, 2};\n';
    const includes = () => ({ id: "src/types.h", text: "typedef uint8_t level_t;\n" });
    const request = { words: "2x1", name: "kettle", offset: text.length };
    expect(makeBitmap(openText(text, "art.cpp", { includes }), request)).toMatchObject({
      statement: expect.stringContaining("const level_t kettle[2]"),
    });
  });
});
