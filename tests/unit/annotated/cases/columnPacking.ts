import { type ArrayCase, drawn } from "./arrayCase.ts";

const corner = `
  #....
  #....
  #....
  #....
  #....
  #....
  #####`;

const threeBySixteen = `
  ##.
  .#.
  .#.
  .#.
  .#.
  .#.
  .#.
  .#.
  ..#
  ..#
  ..#
  ..#
  ...
  ...
  ...
  #..`;

/** mono1 down columns: bytes of a glyph's columns, two bytes or one word a column, and bits running on. */
export const columnPacking: ArrayCase[] = [
  {
    what: "columns, top pixel in the least significant bit by default",
    source: "// @bitmap 5x7 mono1 pack=columns\nconst uint8_t corner[5] = { 0x7f, 0x40, 0x40, 0x40, 0x40 };",
    pictures: drawn(corner),
  },
  {
    what: "columns, top pixel in the most significant bit",
    source: "// @bitmap 5x7 mono1 pack=columns bits=msb\nconst uint8_t corner[5] = { 0xfe, 0x02, 0x02, 0x02, 0x02 };",
    pictures: drawn(corner),
  },
  {
    what: "columns from the low end with the unused bit first",
    source:
      "// @bitmap 5x7 mono1 pack=columns spare=first\nconst uint8_t corner[5] = { 0xfe, 0x80, 0x80, 0x80, 0x80 };",
    pictures: drawn(corner),
  },
  {
    what: "columns from the high end with the unused bit first",
    source:
      "// @bitmap 5x7 mono1 pack=columns bits=msb spare=first\nconst uint8_t corner[5] = { 0x7f, 0x01, 0x01, 0x01, 0x01 };",
    pictures: drawn(corner),
  },
  {
    what: "columns taller than a byte take two",
    source: "// @bitmap 3x16 mono1 pack=columns\nconst uint8_t a[] = { 0x01, 0x80, 0xff, 0x00, 0x00, 0x0f };",
    pictures: drawn(threeBySixteen),
  },
  {
    what: "a column in one 16-bit element: the low byte comes first with the low bit",
    source: "// @bitmap 3x16 mono1 pack=columns\nconst uint16_t a[] = { 0x8001, 0x00ff, 0x0f00 };",
    pictures: drawn(threeBySixteen),
  },
  {
    what: "a column in one 16-bit element, its high byte first",
    source: "// @bitmap 3x16 mono1 pack=columns bytes=be\nconst uint16_t a[] = { 0x0180, 0xff00, 0x000f };",
    pictures: drawn(threeBySixteen),
  },
  {
    what: "columns padded to 16 bits in bytes",
    source: "// @bitmap 2x5 mono1 pack=columns pad=16\nconst uint8_t a[] = { 0x1f, 0x00, 0x02, 0x00 };",
    pictures: drawn(`
      #.
      ##
      #.
      #.
      #.`),
  },
  {
    what: "columns running on",
    // 11111 10001 01110, low bit first
    source: "// @bitmap 3x5 mono1 pack=columns pad=frame\nconst uint8_t a[] = { 0x3f, 0x3a };",
    pictures: drawn(`
      ##.
      #.#
      #.#
      #.#
      ##.`),
  },
  {
    what: "columns running on, high bit first",
    // 11111 10001 01110 -> 1111 1100 0101 110(0)
    source: "// @bitmap 3x5 mono1 pack=columns pad=frame bits=msb\nconst uint8_t a[] = { 0xfc, 0x5c };",
    pictures: drawn(`
      ##.
      #.#
      #.#
      #.#
      ##.`),
  },
  {
    what: "columns from the bottom: the first pixel of a column is its lowest",
    source: "// @bitmap 5x7 mono1 pack=columns from=bottom-left\nconst uint8_t a[] = { 0x7f, 0x01, 0x01, 0x01, 0x01 };",
    pictures: drawn(corner),
  },
  {
    what: "columns from the right: the first column is the rightmost",
    source: "// @bitmap 5x7 mono1 pack=columns from=top-right\nconst uint8_t a[] = { 0x40, 0x40, 0x40, 0x40, 0x7f };",
    pictures: drawn(corner),
  },
  {
    what: "columns from the bottom right",
    source:
      "// @bitmap 5x7 mono1 pack=columns from=bottom-right\nconst uint8_t a[] = { 0x01, 0x01, 0x01, 0x01, 0x7f };",
    pictures: drawn(corner),
  },
];
