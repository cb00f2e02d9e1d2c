import { type ArrayCase, drawn } from "./arrayCase.ts";

/** Greys and palette indices of one, two and four bits that share elements. */
export const deepPixels: ArrayCase[] = [
  {
    what: "gray4, left in the high nibble",
    source: "// @bitmap 4x2 gray4\nconst uint8_t a[] = { 0x0f, 0xa5, 0x12, 0x34 };",
    format: "gray4",
    pictures: drawn(`
      0 15 10 5
      1 2 3 4`),
  },
  {
    what: "gray4, left in the low nibble",
    source: "// @bitmap 4x1 gray4 bits=lsb\nconst uint8_t a[] = { 0x0f, 0xa5 };",
    format: "gray4",
    pictures: drawn("15 0 5 10"),
  },
  {
    what: "gray4, an odd row ends with half a byte",
    source: "// @bitmap 3x2 gray4\nconst uint8_t a[] = { 0x12, 0x30, 0x45, 0x60 };",
    format: "gray4",
    pictures: drawn(`
      1 2 3
      4 5 6`),
  },
  {
    what: "gray4, the half byte before the row",
    source: "// @bitmap 3x2 gray4 spare=first\nconst uint8_t a[] = { 0x01, 0x23, 0x04, 0x56 };",
    format: "gray4",
    pictures: drawn(`
      1 2 3
      4 5 6`),
  },
  {
    what: "gray4, rows running on within the frame",
    source: "// @bitmap 3x2 gray4 pad=frame\nconst uint8_t a[] = { 0x12, 0x34, 0x56 };",
    format: "gray4",
    pictures: drawn(`
      1 2 3
      4 5 6`),
  },
  {
    what: "gray4, frames running on too",
    source: "// @bitmap 3x1 gray4 pad=none frames=2\nconst uint8_t a[] = { 0x12, 0x34, 0x56 };",
    format: "gray4",
    pictures: drawn("1 2 3", "4 5 6"),
  },
  {
    what: "gray4, down the columns, top in the low nibble",
    source: "// @bitmap 2x4 gray4 pack=columns\nconst uint8_t a[] = { 0x21, 0x43, 0x65, 0x87 };",
    format: "gray4",
    pictures: drawn(`
      1 5
      2 6
      3 7
      4 8`),
  },
  {
    what: "gray2, four to a byte",
    source: "// @bitmap 4x2 gray2\nconst uint8_t a[] = { 0x1b, 0xe4 };",
    format: "gray2",
    pictures: drawn(`
      0 1 2 3
      3 2 1 0`),
  },
  {
    what: "gray2, from the low bits",
    source: "// @bitmap 4x2 gray2 bits=lsb\nconst uint8_t a[] = { 0x1b, 0xe4 };",
    format: "gray2",
    pictures: drawn(`
      3 2 1 0
      0 1 2 3`),
  },
  {
    what: "gray2 in pages: a band of eight rows takes two bytes a column",
    source: "// @bitmap 2x8 gray2 pack=pages\nconst uint8_t a[] = { 0xe4, 0x00, 0x00, 0x1b };",
    format: "gray2",
    pictures: drawn(`
      0 0
      1 0
      2 0
      3 0
      0 3
      0 2
      0 1
      0 0`),
  },
  {
    what: "gray2, a row in a 16-bit element, high byte first",
    source: "// @bitmap 8x1 gray2\nconst uint16_t a[] = { 0x1be4 };",
    format: "gray2",
    pictures: drawn("0 1 2 3 3 2 1 0"),
  },
  {
    what: "gray2, a row in a 16-bit element, low byte first",
    source: "// @bitmap 8x1 gray2 bytes=le\nconst uint16_t a[] = { 0x1be4 };",
    format: "gray2",
    pictures: drawn("3 2 1 0 0 1 2 3"),
  },
  {
    what: "gray4, a row in a 64-bit element",
    source: "// @bitmap 16x1 gray4\nconst uint64_t a[] = { 0x0123456789abcdefULL };",
    format: "gray4",
    pictures: drawn("0 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15"),
  },
  {
    what: "gray2, 24 pixels in the low 48 bits of a 64-bit element",
    source: "// @bitmap 24x1 gray2 spare=first\nconst uint64_t a[] = { 0x0000c0000000001bULL };",
    format: "gray2",
    pictures: drawn("3 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 1 2 3"),
  },
  {
    what: "gray4, one to an element",
    source: "// @bitmap 3x1 gray4 pack=each\nconst uint8_t a[] = { 3, 15, 0 };",
    format: "gray4",
    pictures: drawn("3 15 0"),
  },
  {
    what: "gray4 inverted",
    source: "// @bitmap 2x1 gray4 invert\nconst uint8_t a[] = { 0x0f };",
    format: "gray4",
    pictures: drawn("15 0"),
  },
  {
    what: "palette1",
    source:
      "// @palette rgb565\nconst uint16_t two[] = { 0, 0xffff };\n// @bitmap 4x1 palette1 palette=two\nconst uint8_t a[] = { 0xa0 };",
    format: "palette1",
    pictures: drawn("1 0 1 0"),
  },
  {
    what: "palette2 from the low bits",
    source: "// @bitmap 4x1 palette2 bits=lsb\nconst uint8_t a[] = { 0xe4 };",
    format: "palette2",
    pictures: drawn("0 1 2 3"),
  },
  {
    what: "palette4 behind its colours",
    source:
      "// @palette rgb565\n// @bitmap 4x1 palette4 skip=6 palette=head\nconst uint8_t a[] = { 0x00, 0x00, 0xf8, 0x00, 0xff, 0xff, 0x01, 0x20 };",
    format: "palette4",
    pictures: drawn("0 1 2 0"),
  },
  {
    what: "palette8 in frames, from the bottom",
    source: "// @bitmap 2x2 palette8 frames=2 from=bottom-left\nconst uint8_t a[] = { 1, 2, 3, 4, 5, 6, 7, 8 };",
    format: "palette8",
    pictures: drawn(
      `
      3 4
      1 2`,
      `
      7 8
      5 6`,
    ),
  },
];
