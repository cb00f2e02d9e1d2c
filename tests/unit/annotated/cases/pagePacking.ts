import { type ArrayCase, drawn } from "./arrayCase.ts";

const twoBands = `
  #.#
  ..#
  ..#
  ..#
  ..#
  ..#
  ..#
  .##
  #.#
  #..
  #..
  #..
  ...
  ...
  ...
  ..#`;

/** mono1 in bands of eight rows: a byte is eight pixels down, bands from the top, bytes from the left. */
export const pagePacking: ArrayCase[] = [
  {
    // Pillow 10: frombytes("1", (8, 5), b"\x01\x80\xff\x0f\x00", "raw", "1;R").transpose(TRANSPOSE);
    // its top row is #.##. and its bottom row .##..
    what: "one page, as an independent decoder reads the same five bytes",
    source: "// @bitmap 5x8 mono1 pack=pages\nconst uint8_t a[] = { 0x01, 0x80, 0xff, 0x0f, 0x00 };",
    pictures: drawn(`
      #.##.
      ..##.
      ..##.
      ..##.
      ..#..
      ..#..
      ..#..
      .##..`),
  },
  {
    what: "two pages, the upper first",
    source: "// @bitmap 3x16 mono1 pack=pages\nconst uint8_t a[] = { 0x01, 0x80, 0xff,  0x0f, 0x00, 0x81 };",
    pictures: drawn(twoBands),
  },
  {
    what: "two pages from the bottom: lower page first, lowest pixel in D0",
    source:
      "// @bitmap 3x16 mono1 pack=pages from=bottom-left\nconst uint8_t a[] = { 0x01, 0x80, 0xff, 0x0f, 0x00, 0x81 };",
    pictures: drawn(`
      ..#
      ...
      ...
      ...
      #..
      #..
      #..
      #.#
      .##
      ..#
      ..#
      ..#
      ..#
      ..#
      ..#
      #.#`),
  },
  {
    what: "a page from the right",
    source: "// @bitmap 5x8 mono1 pack=pages from=top-right\nconst uint8_t a[] = { 0x01, 0x80, 0xff, 0x0f, 0x00 };",
    pictures: drawn(`
      .##.#
      .##..
      .##..
      .##..
      ..#..
      ..#..
      ..#..
      ..##.`),
  },
  {
    what: "a page from the bottom right",
    source: "// @bitmap 3x8 mono1 pack=pages from=bottom-right\nconst uint8_t a[] = { 0x03, 0x80, 0x0c };",
    pictures: drawn(`
      .#.
      ...
      ...
      ...
      #..
      #..
      ..#
      ..#`),
  },
  {
    what: "the top pixel in the most significant bit",
    source: "// @bitmap 3x8 mono1 pack=pages bits=msb\nconst uint8_t a[] = { 0x01, 0x80, 0xf0 };",
    pictures: drawn(`
      .##
      ..#
      ..#
      ..#
      ...
      ...
      ...
      #..`),
  },
  {
    what: "a height that is no multiple of eight leaves the high bits of the last page unused",
    source: "// @bitmap 2x12 mono1 pack=pages\nconst uint8_t a[] = { 0xff, 0x81, 0x0f, 0x08 };",
    pictures: drawn(`
      ##
      #.
      #.
      #.
      #.
      #.
      #.
      ##
      #.
      #.
      #.
      ##`),
  },
  {
    what: "pages in 16-bit elements: the low byte is the left column",
    source: "// @bitmap 4x8 mono1 pack=pages\nconst uint16_t a[] = { 0x8001, 0x0fff };",
    pictures: drawn(`
      #.##
      ..##
      ..##
      ..##
      ..#.
      ..#.
      ..#.
      .##.`),
  },
  {
    what: "pages in 16-bit elements, high byte first",
    source: "// @bitmap 4x8 mono1 pack=pages bytes=be\nconst uint16_t a[] = { 0x0180, 0xff0f };",
    pictures: drawn(`
      #.##
      ..##
      ..##
      ..##
      ..#.
      ..#.
      ..#.
      .##.`),
  },
  {
    what: "frames of pages follow one another",
    source: "// @bitmap 2x8 mono1 pack=pages frames=2\nconst uint8_t a[] = { 0x01, 0x02, 0x80, 0x40 };",
    pictures: drawn(
      `
      #.
      .#
      ..
      ..
      ..
      ..
      ..
      ..`,
      `
      ..
      ..
      ..
      ..
      ..
      ..
      .#
      #.`,
    ),
  },
];
