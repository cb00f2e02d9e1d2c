import { type ArrayCase, drawn } from "./arrayCase.ts";

/** Colours: one in an element, several in one, one in several; every order of bytes. */
export const colourPixels: ArrayCase[] = [
  {
    what: "rgb565 in 16-bit elements",
    source: "// @bitmap 2x2 rgb565\nconst uint16_t a[] = { 0xf800, 0x07e0, 0x001f, 0xfd20 };",
    format: "rgb565",
    pictures: drawn(`
      f800 07e0
      001f fd20`),
  },
  {
    what: "rgb565 in 16-bit elements with its bytes swapped",
    source: "// @bitmap 2x1 rgb565 bytes=le\nconst uint16_t a[] = { 0x00f8, 0xe007 };",
    format: "rgb565",
    pictures: drawn("f800 07e0"),
  },
  {
    // MIPI DCS over eight bits sends the high byte first (from memory).
    what: "rgb565 as byte pairs, high byte first",
    source: "// @bitmap 2x1 rgb565\nconst uint8_t a[] = { 0xf8, 0x00, 0x07, 0xe0 };",
    format: "rgb565",
    pictures: drawn("f800 07e0"),
  },
  {
    what: "rgb565 as byte pairs, low byte first",
    source: "// @bitmap 2x1 rgb565 bytes=le\nconst uint8_t a[] = { 0x00, 0xf8, 0xe0, 0x07 };",
    format: "rgb565",
    pictures: drawn("f800 07e0"),
  },
  {
    what: "rgb565, two in a 32-bit element, the first in the high half",
    source: "// @bitmap 2x1 rgb565\nconst uint32_t a[] = { 0xf80007e0 };",
    format: "rgb565",
    pictures: drawn("f800 07e0"),
  },
  {
    what: "rgb565, two in a 32-bit element as its bytes lie in a little-endian memory",
    source: "// @bitmap 2x1 rgb565 bytes=le\nconst uint32_t a[] = { 0xe00700f8 };",
    format: "rgb565",
    pictures: drawn("f800 07e0"),
  },
  {
    what: "rgb565, one in a 32-bit element",
    source: "// @bitmap 2x1 rgb565 pack=each\nconst uint32_t a[] = { 0xf800, 0x07e0 };",
    format: "rgb565",
    pictures: drawn("f800 07e0"),
  },
  {
    what: "rgb888 as three bytes",
    source: "// @bitmap 2x1 rgb888\nconst uint8_t a[] = { 0xff, 0xb8, 0x4d, 0x01, 0x02, 0x03 };",
    format: "rgb888",
    pictures: drawn("ffb84d 010203"),
  },
  {
    what: "rgb888 as three bytes, blue first",
    source: "// @bitmap 2x1 rgb888 bytes=le\nconst uint8_t a[] = { 0x4d, 0xb8, 0xff, 0x03, 0x02, 0x01 };",
    format: "rgb888",
    pictures: drawn("ffb84d 010203"),
  },
  {
    what: "rgb888 in a 32-bit element, whatever stands beside it",
    source: "// @bitmap 2x1 rgb888\nconst uint32_t a[] = { 0x00ffb84d, 0xff010203 };",
    format: "rgb888",
    pictures: drawn("ffb84d 010203"),
  },
  {
    what: "rgb888 in a 32-bit element, blue highest",
    source: "// @bitmap 1x1 rgb888 bytes=le\nconst uint32_t a[] = { 0x4db8ff };",
    format: "rgb888",
    pictures: drawn("ffb84d"),
  },
  {
    what: "rgb332 in bytes, on a serpentine strip from the bottom right",
    source: "// @bitmap 3x2 rgb332 scan=serpentine from=bottom-right\nconst uint8_t a[] = { 1, 2, 3, 4, 5, 6 };",
    format: "rgb332",
    pictures: drawn(`
      04 05 06
      03 02 01`),
  },
  {
    what: "rgb332, four in a 32-bit element",
    source: "// @bitmap 4x1 rgb332\nconst uint32_t a[] = { 0xe01c03ff };",
    format: "rgb332",
    pictures: drawn("e0 1c 03 ff"),
  },
  {
    what: "rgb565 down the columns, with leading elements in each frame",
    source:
      "// @bitmap 2x2 rgb565 scan=columns frames=2 lead=1\nconst uint16_t a[] = { 9, 0xf800, 0x07e0, 0x001f, 0xfd20, 9, 1, 2, 3, 4 };",
    format: "rgb565",
    pictures: drawn(
      `
      f800 001f
      07e0 fd20`,
      `
      0001 0003
      0002 0004`,
    ),
  },
  {
    what: "rgb565 inverted",
    source: "// @bitmap 2x1 rgb565 invert\nconst uint16_t a[] = { 0x07ff, 0xffff };",
    format: "rgb565",
    pictures: drawn("f800 0000"),
  },
  {
    what: "rgb888 in bytes, rows padded to four",
    source: "// @bitmap 1x2 rgb888 pad=32\nconst uint8_t a[] = { 1, 2, 3, 0, 4, 5, 6, 0 };",
    format: "rgb888",
    pictures: drawn(`
      010203
      040506`),
  },
  {
    what: "rgb332, rows padded to a 32-bit element, which holds them last",
    source: "// @bitmap 3x1 rgb332 spare=first\nconst uint32_t a[] = { 0x00e01c03 };",
    format: "rgb332",
    pictures: drawn("e0 1c 03"),
  },
];
