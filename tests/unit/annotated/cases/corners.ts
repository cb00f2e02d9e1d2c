import { type ArrayCase, drawn } from "./arrayCase.ts";

const rows = "const uint8_t a[] = { 0x80, 0x0f, 0x70 };";

/** `from` mirrors the reading coordinates of packed rows. Columns and pages stand with their packing. */
export const corners: ArrayCase[] = [
  {
    what: "rows from the top left",
    source: `// @bitmap 8x3 mono1 from=top-left\n${rows}`,
    pictures: drawn(`
      #.......
      ....####
      .###....`),
  },
  {
    what: "rows from the top right",
    source: `// @bitmap 8x3 mono1 from=top-right\n${rows}`,
    pictures: drawn(`
      .......#
      ####....
      ....###.`),
  },
  {
    what: "rows from the bottom left",
    source: `// @bitmap 8x3 mono1 from=bottom-left\n${rows}`,
    pictures: drawn(`
      .###....
      ....####
      #.......`),
  },
  {
    what: "rows from the bottom right",
    source: `// @bitmap 8x3 mono1 from=bottom-right\n${rows}`,
    pictures: drawn(`
      ....###.
      ####....
      .......#`),
  },
  {
    what: "the unused bits stay where reading ends when rows come from the right",
    source: "// @bitmap 5x2 mono1 from=top-right\nconst uint8_t a[] = { 0x98, 0x60 };",
    pictures: drawn(`
      ##..#
      ..##.`),
  },
  {
    what: "each frame is mirrored by itself",
    source: "// @bitmap 8x2 mono1 from=bottom-left frames=2\nconst uint8_t a[] = { 0x80, 0x01, 0xf0, 0x0f };",
    pictures: drawn(
      `
      .......#
      #.......`,
      `
      ....####
      ####....`,
    ),
  },
];
