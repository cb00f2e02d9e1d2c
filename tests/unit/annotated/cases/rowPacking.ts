import { type ArrayCase, drawn } from "./arrayCase.ts";

/** mono1 along rows in bytes: which end comes first, where a row starts afresh, on which side its unused bits lie. */
export const rowPacking: ArrayCase[] = [
  {
    what: "rows, most significant bit left, each row padded to its element",
    source: "// @bitmap 10x3 mono1\nconst uint8_t arch[] = { 0x80, 0x40, 0x7f, 0x00, 0x0c, 0x00 };",
    pictures: drawn(`
      #........#
      .#######..
      ....##....`),
  },
  {
    // Xlib manual, XReadBitmapFile: leftmost pixel in the least significant bit, rows padded to bytes.
    what: "rows, least significant bit left: the bytes of the published XBM example",
    source: "// @bitmap 10x3 mono1 bits=lsb\nconst uint8_t leaf[] = { 0x01, 0x02, 0x80, 0x01, 0x0f, 0xfc };",
    pictures: drawn(`
      #........#
      .......##.
      ####......`),
  },
  {
    what: "unused bits after the pixels, most significant bit first",
    source: "// @bitmap 5x2 mono1 spare=last\nconst uint8_t a[] = { 0xc0, 0x28 };",
    pictures: drawn(`
      ##...
      ..#.#`),
  },
  {
    // Hitachi HD44780U data sheet, character patterns in CGRAM: five dots in bits 4-0 (from memory).
    what: "unused bits before the pixels, most significant bit first: five-dot cells in the low bits",
    source: "// @bitmap 5x7 mono1 spare=first\nconst uint8_t drop[7] = { 0x04, 0x04, 0x0e, 0x1f, 0x1f, 0x17, 0x0e };",
    pictures: drawn(`
      ..#..
      ..#..
      .###.
      #####
      #####
      #.###
      .###.`),
  },
  {
    what: "unused bits before the pixels in reading order are the low ones when reading starts at the low end",
    source: "// @bitmap 5x2 mono1 bits=lsb spare=first\nconst uint8_t a[] = { 0x18, 0xa0 };",
    pictures: drawn(`
      ##...
      ..#.#`),
  },
  {
    what: "unused bits after the pixels are the high ones when reading starts at the low end",
    source: "// @bitmap 5x2 mono1 bits=lsb spare=last\nconst uint8_t a[] = { 0x03, 0x14 };",
    pictures: drawn(`
      ##...
      ..#.#`),
  },
  {
    what: "rows padded to 16 bits in bytes",
    source: "// @bitmap 5x2 mono1 pad=16\nconst uint8_t a[] = { 0x98, 0x00, 0x60, 0x00 };",
    pictures: drawn(`
      #..##
      .##..`),
  },
  {
    what: "rows padded to 32 bits in bytes",
    source: "// @bitmap 5x2 mono1 pad=32\nconst uint8_t a[] = { 0x98, 0, 0, 0, 0x60, 0, 0, 0 };",
    pictures: drawn(`
      #..##
      .##..`),
  },
  {
    what: "rows padded to 32 bits, least significant bit first",
    source: "// @bitmap 9x2 mono1 pad=32 bits=lsb\nconst uint8_t a[] = { 0x13, 0x01, 0, 0, 0x60, 0x00, 0, 0 };",
    pictures: drawn(`
      ##..#...#
      .....##..`),
  },
  {
    what: "rows padded to 16 bits with the unused bits before the pixels",
    source: "// @bitmap 5x2 mono1 pad=16 spare=first\nconst uint8_t a[] = { 0x00, 0x13, 0x00, 0x0c };",
    pictures: drawn(`
      #..##
      .##..`),
  },
  {
    what: "bits running on from row to row, each frame on a new element",
    // 10011 01100 11111 and 00000 11111 00000
    source: "// @bitmap 5x3 mono1 pad=frame frames=2\nconst uint8_t a[] = { 0x9b, 0x3e, 0x07, 0xc0 };",
    pictures: drawn(
      `
      #..##
      .##..
      #####`,
      `
      .....
      #####
      .....`,
    ),
  },
  {
    what: "bits running on from frame to frame",
    source: "// @bitmap 5x3 mono1 pad=none frames=2\nconst uint8_t a[] = { 0x9b, 0x3e, 0x0f, 0x80 };",
    pictures: drawn(
      `
      #..##
      .##..
      #####`,
      `
      .....
      #####
      .....`,
    ),
  },
  {
    what: "bits running on, least significant bit first",
    source: "// @bitmap 3x3 mono1 pad=frame bits=lsb\nconst uint8_t a[] = { 0xd5, 0x01 };",
    pictures: drawn(`
      #.#
      .#.
      ###`),
  },
  {
    what: "one pixel per element: non-zero is lit",
    source: "// @bitmap 4x2 mono1 pack=each\nconst uint8_t a[] = { 1, 0, 0, 255, 0, 2, 0x80, 0 };",
    pictures: drawn(`
      #..#
      .##.`),
  },
  {
    what: "one pixel per element of type bool",
    source: "// @bitmap 2x2 mono1 pack=each\nconst bool a[4] = { true, false, false, true };",
    pictures: drawn(`
      #.
      .#`),
  },
  {
    what: "inverted: a stored 0 is lit",
    source: "// @bitmap 8x2 mono1 invert\nconst uint8_t a[] = { 0x7e, 0xfd };",
    pictures: drawn(`
      #......#
      ......#.`),
  },
  {
    what: "inverted with unused bits, which are no pixels",
    source: "// @bitmap 5x2 mono1 invert spare=first\nconst uint8_t a[] = { 0x1d, 0x00 };",
    pictures: drawn(`
      ...#.
      #####`),
  },
  {
    what: "inverted, one pixel per element: only a zero is lit",
    source: "// @bitmap 4x1 mono1 pack=each invert\nconst uint8_t a[] = { 1, 0, 0, 255 };",
    pictures: drawn(".##."),
  },
];
