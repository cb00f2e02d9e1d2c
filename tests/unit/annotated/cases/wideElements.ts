import { type ArrayCase, drawn } from "./arrayCase.ts";

/** mono1 in elements wider than a byte: a row in one integer, and which of its bytes is taken first. */
export const wideElements: ArrayCase[] = [
  {
    what: "16 pixels in one element, most significant bit left",
    source: "// @bitmap 16x2 mono1\nconst uint16_t a[] = { 0x8001, 0x0ff4 };",
    pictures: drawn(`
      #..............#
      ....########.#..`),
  },
  {
    what: "16 pixels in one element, least significant bit left: the low byte comes first",
    source: "// @bitmap 16x2 mono1 bits=lsb\nconst uint16_t a[] = { 0x0003, 0xf010 };",
    pictures: drawn(`
      ##..............
      ....#.......####`),
  },
  {
    what: "low byte first, each byte from its high bit",
    source: "// @bitmap 16x1 mono1 bytes=le\nconst uint16_t a[] = { 0x0f80 };",
    pictures: drawn("#...........####"),
  },
  {
    what: "high byte first, each byte from its low bit",
    source: "// @bitmap 16x1 mono1 bits=lsb bytes=be\nconst uint16_t a[] = { 0x0f80 };",
    pictures: drawn("####...........#"),
  },
  {
    what: "12 pixels in the high bits of one element",
    source: "// @bitmap 12x2 mono1\nconst uint16_t a[] = { 0x8010, 0x7fa0 };",
    pictures: drawn(`
      #..........#
      .########.#.`),
  },
  {
    what: "12 pixels in the low bits of one element",
    source: "// @bitmap 12x2 mono1 spare=first\nconst uint16_t a[] = { 0x0801, 0x07fa };",
    pictures: drawn(`
      #..........#
      .########.#.`),
  },
  {
    what: "24 pixels in the high bits of a 32-bit element",
    source: "// @bitmap 24x2 mono1\nconst uint32_t a[] = { 0x80000100, 0x0FF0F000 };",
    pictures: drawn(`
      #......................#
      ....########....####....`),
  },
  {
    what: "24 pixels in the low bits of a 32-bit element",
    source: "// @bitmap 24x2 mono1 spare=first\nconst uint32_t a[] = { 0x00800001, 0x000FF0F0 };",
    pictures: drawn(`
      #......................#
      ....########....####....`),
  },
  {
    what: "24 pixels from the least significant bit of a 32-bit element",
    source: "// @bitmap 24x2 mono1 bits=lsb\nconst uint32_t a[] = { 0x00800001, 0x000FF0F0 };",
    pictures: drawn(`
      #......................#
      ....####....########....`),
  },
  {
    what: "48 pixels in the low bits of a 64-bit element",
    source:
      "// @bitmap 48x2 mono1 spare=first\nstatic const uint64_t a[] = { 0x0000800000000001ULL, 0x00000000ffff0002ULL };",
    pictures: drawn(`
      #..............................................#
      ................################..............#.`),
  },
  {
    what: "64 pixels in one element, beyond what a double holds exactly",
    source: "// @bitmap 64x2 mono1\nstatic const uint64_t a[] = { 0x8000000000000003ULL, 0xf00000000000000dULL };",
    pictures: drawn(`
      #.............................................................##
      ####........................................................##.#`),
  },
  {
    what: "64 pixels in one element from the least significant bit",
    source: "// @bitmap 64x1 mono1 bits=lsb\nstatic const uint64_t a[] = { 0x8000000000000003ULL };",
    pictures: drawn("##.............................................................#"),
  },
  {
    what: "rows padded to bytes within 16-bit elements; the last byte is unused",
    source: "// @bitmap 5x3 mono1 pad=byte\nconst uint16_t a[] = { 0x9860, 0xf000 };",
    pictures: drawn(`
      #..##
      .##..
      ####.`),
  },
  {
    what: "the same rows each on an element of its own",
    source: "// @bitmap 5x3 mono1 pad=element\nconst uint16_t a[] = { 0x9800, 0x6000, 0xf000 };",
    pictures: drawn(`
      #..##
      .##..
      ####.`),
  },
  {
    what: "rows of two bytes within a 32-bit element",
    source: "// @bitmap 9x2 mono1 pad=byte\nconst uint32_t a[] = { 0x80807e00 };",
    pictures: drawn(`
      #.......#
      .######..`),
  },
  {
    what: "a frame of byte rows starts on a new 16-bit element",
    source: "// @bitmap 5x3 mono1 pad=byte frames=2\nconst uint16_t a[] = { 0x9860, 0xf000, 0x0088, 0x5000 };",
    pictures: drawn(
      `
      #..##
      .##..
      ####.`,
      `
      .....
      #...#
      .#.#.`,
    ),
  },
  {
    what: "one pixel per 32-bit element: any non-zero value is lit",
    source: "// @bitmap 3x1 mono1 pack=each\nconst uint32_t a[] = { 0x00010000, 0, 0x80000000 };",
    pictures: drawn("#.#"),
  },
];
