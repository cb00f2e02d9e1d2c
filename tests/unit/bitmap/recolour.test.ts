import { describe, expect, it } from "vitest";
import { openText } from "../../../shared/bitmap/open.ts";
import { type ColourChange, recolour } from "../../../shared/bitmap/recolour.ts";
import type { Bitmap } from "../../../shared/bitmap/resolve.ts";
import { applyEdits } from "../../../shared/source/text.ts";

const ICON = "\n// @bitmap 2x1 palette4 palette=warm\nconst uint8_t icon[] = { 0x01 };\n";
const changed = (text: string, change: ColourChange) => {
  const bitmap = openText(text, "art.h").bitmaps[0] as Bitmap;
  const rewrite = recolour(text, bitmap, change);
  return "refused" in rewrite ? rewrite.refused : applyEdits(text, rewrite.edits);
};

describe("another colour in a palette", () => {
  it.each([
    [
      "rgb565",
      "const uint16_t warm[] = { 0, 0xfd20, 0xFFFF };",
      0x11aa,
      "const uint16_t warm[] = { 0, 0x11aa, 0xFFFF };",
    ],
    [
      "rgb565 bytes=le",
      "const uint8_t warm[] = { 0, 0, 0x20, 0xfd };",
      0x11aa,
      "const uint8_t warm[] = { 0, 0, 0xaa, 0x11 };",
    ],
    [
      "rgb888",
      "const uint8_t warm[][3] = { {0, 0, 0}, {255, 184, 77} };",
      0xff0007,
      "const uint8_t warm[][3] = { {0, 0, 0}, {255, 0, 7} };",
    ],
    // The byte above a colour of 24 bits stays as it is.
    ["rgb888", "const uint32_t warm[] = { 0, 0x80ffb84d };", 0x010203, "const uint32_t warm[] = { 0, 0x80010203 };"],
    ["rgb332", "const uint8_t warm[] = { 0, BERRY };", 0x1c, "const uint8_t warm[] = { 0, 28 };"],
    ["gray4", "const uint8_t warm[] = { 0x0f, 0x5a };", 3, "const uint8_t warm[] = { 0x03, 0x5a };"],
    [
      "rgb565 skip=1",
      "const uint16_t warm[] = { 2, 0xf800, 0x07e0 };",
      0x1234,
      "const uint16_t warm[] = { 2, 0xf800, 0x1234 };",
    ],
  ])("%s: %s", (format, before, value, after) => {
    const text = (array: string) => `#define BERRY 0xE0\n// @palette ${format}\n${array}${ICON}`;
    expect(changed(text(before), { index: 1, value })).toBe(text(after));
  });

  it("is written before the pixels of the same array", () => {
    const text = (colour: string) =>
      `// @palette rgb888\n// @bitmap 4x1 palette2 skip=6 palette=head\nconst uint8_t a[] = { 0, 0, 0, ${colour}, 0x44 };\n`;
    expect(changed(text("255, 184, 77"), { index: 1, value: 0xff0000 })).toBe(text("255, 0, 0"));
  });

  it("is written out where the compiler fills with zero", () => {
    const text = (list: string) => `// @palette rgb565\nconst uint16_t warm[4] = { ${list} };${ICON}`;
    expect(changed(text("0x0000, 0x0320"), { index: 3, value: 0x7a80 })).toBe(text("0x0000, 0x0320, 0x0000, 0x7a80"));
  });

  it.each([
    [{ index: 2, value: 0 }, "warm has no colour 2"],
    [{ index: -1, value: 0 }, "warm has no colour -1"],
    [{ index: 1, value: 0x10000 }, "65536 is not a value of rgb565"],
    [{ index: 1, value: 1.5 }, "1.5 is not a value of rgb565"],
    [{ index: 1, value: 7, before: 3 }, "colour 1 of warm was changed meanwhile"],
  ])("%o is refused: %s", (change, why) => {
    expect(changed(`// @palette rgb565\nconst uint16_t warm[] = { 0, 4 };${ICON}`, change)).toBe(why);
  });

  it("is refused where the elements have no text of their own, or there is no palette", () => {
    const shared = `#define TWO 1, 2\n// @palette rgb565\nconst uint16_t warm[] = { TWO };${ICON}`;
    expect(changed(shared, { index: 1, value: 7 })).toContain("makes several");
    expect(changed("// @bitmap 2x1 palette4\nconst uint8_t icon[] = { 0x01 };\n", { index: 1, value: 7 })).toBe(
      "icon has no palette in this file",
    );
  });
});
