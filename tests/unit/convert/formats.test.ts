/** Other formats: texts before and after, and titles, worked out by hand. */
import { describe, expect, test } from "vitest";
import { converted, offered } from "./converting.ts";

describe("formats", () => {
  test.each([
    [
      // 64 · 15 / 255 = 3.76 would be 4, above the cap of floor(3.76).
      "gray8 to gray4: the cap rounded down, and no level above it",
      "format:gray4",
      "// @bitmap 2x2 cap=64\nconst uint8_t a[4] = {\n   0, 17,\n  34, 64,\n};\n",
      "// @bitmap 2x2 gray4 cap=3\nconst uint8_t a[2] = {\n  0x01,\n  0x23,\n};\n",
    ],
    [
      "the night level follows the scale as the cap does",
      "format:gray4",
      "// @bitmap 2x1 cap=68 night=17\nconst uint8_t a[] = {0, 68};\n",
      "// @bitmap 2x1 gray4 cap=4 night=1\nconst uint8_t a[] = {0x04};\n",
    ],
    [
      "a cap in percent stays",
      "format:gray2",
      "// @bitmap 2x1 gray8 cap=50% -- dusk\nconst uint8_t a[] = {0, 85};\n",
      "// @bitmap 2x1 gray2 cap=50% -- dusk\nconst uint8_t a[] = {0x10};\n",
    ],
    [
      "a panel's cap is written out where the scale is another",
      "format:gray4",
      "// @panel lantern 2x1 gray8 cap=64\n// @bitmap lantern\nconst uint8_t a[2] = {\n  17, 51,\n};\n",
      "// @panel lantern 2x1 gray8 cap=64\n// @bitmap lantern gray4 cap=3\nconst uint8_t a[1] = {\n  0x13,\n};\n",
    ],
    [
      "gray8 to mono1: lit from half of the cap",
      "format:mono1",
      "// @bitmap 3x1 cap=64\nconst uint8_t a[3] = {31, 32, 64};\n",
      "// @bitmap 3x1 mono1\nconst uint8_t a[1] = {0x60};\n",
    ],
    [
      "mono1 in columns to gray8: lit at the cap, column by column",
      "format:gray8",
      "// @panel lantern 9x9 gray8 cap=64\n// @bitmap lantern 2x2 mono1 pack=columns bits=lsb\nconst uint8_t a[2] = {\n  0x01, 0x02,\n};\n",
      "// @panel lantern 9x9 gray8 cap=64\n// @bitmap lantern 2x2 gray8 scan=columns\nconst uint8_t a[4] = {\n  0x40, 0x00,\n  0x00, 0x40,\n};\n",
    ],
    [
      "rgb565 to rgb888, byte by byte",
      "format:rgb888",
      "// @bitmap 2x1 rgb565\nconst uint16_t a[2] PROGMEM = {\n  0xF800, 0x07FF,\n};\n",
      "// @bitmap 2x1 rgb888\nconst uint16_t a[2] PROGMEM = {\n  0xFF, 0x00, 0x00, 0x00, 0xFF, 0xFF,\n};\n"
        .replace("uint16_t", "uint8_t")
        .replace("[2]", "[6]"),
    ],
    [
      "rgb332 to rgb565 takes elements of 16 bits",
      "format:rgb565",
      "// @bitmap 2x1 rgb332\nconst uint8_t a[] = {0xE0, 0x03};\n",
      "// @bitmap 2x1 rgb565\nconst uint16_t a[] = {0xF800, 0x001F};\n",
    ],
    [
      "greys to colours that mean the same light",
      "format:rgb888",
      "// @bitmap 2x1\nconst uint8_t a[2] = {\n  0, 128,\n};\n",
      "// @bitmap 2x1 rgb888 light=linear\nconst uint8_t a[6] = {\n  0x00, 0x00, 0x00, 0x80, 0x80, 0x80,\n};\n",
    ],
    [
      // 0.2126 · 255 = 54.2, 0.7152 · 255 = 182.4, 0.0722 · 255 = 18.4 (ITU-R BT.709, luminance signal)
      "red, green and blue to their luminance",
      "format:gray8",
      "// @bitmap 3x1 rgb888\nconst uint8_t a[9] = {\n  0xFF, 0, 0, 0, 0xFF, 0, 0, 0, 0xFF,\n};\n",
      "// @bitmap 3x1 gray8 light=srgb\nconst uint8_t a[3] = {\n  0x36, 0xB6, 0x12,\n};\n",
    ],
    [
      "indices to the colours that they mean",
      "format:rgb565",
      "// @bitmap 2x1 palette1 palette=p\nconst uint8_t a[1] = {0x40};\n// @palette rgb565\nconst uint16_t p[] = {0x1234, 0xFFFF};\n",
      "// @bitmap 2x1 rgb565\nconst uint16_t a[2] = {0x1234, 0xFFFF};\n// @palette rgb565\nconst uint16_t p[] = {0x1234, 0xFFFF};\n",
    ],
    [
      "indices of more bits",
      "format:palette4",
      "// @bitmap 2x1 palette1 palette=p\nconst uint8_t a[1] = {0x40};\n// @palette rgb565\nconst uint16_t p[] = {0x1234, 0xFFFF};\n",
      "// @bitmap 2x1 palette4 palette=p\nconst uint8_t a[1] = {0x01};\n// @palette rgb565\nconst uint16_t p[] = {0x1234, 0xFFFF};\n",
    ],
    [
      "colours to a palette under a free name",
      "format:palette1",
      "\uFEFF// a_colours\r\n\t// @bitmap 3x1 rgb565\r\n\tconst uint16_t a[3] PROGMEM = {\r\n\t\t0xFFFF, 0x1234, 0xFFFF,\r\n\t};\r\n",
      "\uFEFF// a_colours\r\n\t// @palette rgb565\r\n\tconst uint16_t a_colours_2[2] PROGMEM = {\r\n\t\t0x1234, 0xFFFF,\r\n\t};\r\n\r\n\t// @bitmap 3x1 palette1 palette=a_colours_2\r\n\tconst uint8_t a[1] PROGMEM = {\r\n\t\t0xA0,\r\n\t};\r\n",
    ],
    [
      "the same elements under another name",
      "format:rgb332",
      "// @bitmap 2x1 gray8\nconst uint8_t a[] = { 0, 255 /* full */ };\n",
      "// @bitmap 2x1 rgb332 light=linear\nconst uint8_t a[] = { 0, 255 /* full */ };\n",
    ],
  ])("%s", (_, id, before, after) => {
    expect(converted(before, id)).toBe(after);
  });
});

describe("titles say what is lost", () => {
  test.each([
    [
      "format:gray4",
      "// @bitmap 3x1\nconst uint8_t a[] = {0, 17, 18};\n",
      "Convert to gray4: 1 of 3 pixels takes another level",
    ],
    ["format:gray4", "// @bitmap 3x1\nconst uint8_t a[] = {0, 17, 255};\n", "Convert to gray4"],
    [
      "format:mono1",
      "// @bitmap 3x1 cap=64\nconst uint8_t a[] = {1, 2, 64};\n",
      "Convert to mono1, lit from 32 up: 2 of 3 pixels take another level",
    ],
    ["format:gray8", "// @bitmap 3x1 mono1\nconst uint8_t a[] = {0x20};\n", "Convert to gray8, lit at 255"],
    [
      "format:gray8",
      "// @bitmap 2x1 rgb888\nconst uint8_t a[] = {255, 0, 0, 9, 9, 9};\n",
      "Convert to gray8 by luminance (ITU-R BT.709): 1 of 2 pixels takes another colour",
    ],
    [
      "format:palette2",
      "// @bitmap 2x1 rgb565\nconst uint16_t a[] = {0, 0xFFFF};\n",
      "Convert to palette2 with a palette of 2 colours",
    ],
    [
      "format:gray4",
      "#define ON 255\n// @bitmap 2x1\nconst uint8_t a[] = {ON, /* lit */ 1};\n",
      "Convert to gray4: 1 of 2 pixels takes another level; drops 1 comment in the list, writes names and expressions as numbers",
    ],
  ])("%s", (id, text, title) => {
    expect(offered(text).get(id)).toBe(title);
  });

  test("a scale in which the cap leaves nothing lit is not offered", () => {
    const ids = [...offered("// @bitmap 1x1 cap=64\nconst uint8_t a[] = {64};\n").keys()];
    expect(ids.filter((id) => id.startsWith("format:gray"))).toEqual(["format:gray4"]);
  });

  test("colours that do not fit are no palette, and a head stays what it is", () => {
    const many = Array.from({ length: 17 }, (_, i) => i).join(", ");
    const ids = [...offered(`// @bitmap 17x1 rgb565\nconst uint16_t a[] = {${many}};\n`).keys()];
    expect(ids.filter((id) => id.startsWith("format:palette"))).toEqual(["format:palette8"]);
    const head = "// @palette rgb332\n// @bitmap 2x1 palette8 skip=2 palette=head\nconst uint8_t a[] = {1, 2, 0, 1};\n";
    expect([...offered(head).keys()].filter((id) => id.startsWith("format"))).toEqual([]);
  });
});
