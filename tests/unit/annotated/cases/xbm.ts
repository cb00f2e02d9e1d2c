import { type ArrayCase, named } from "./arrayCase.ts";

// Xlib manual, XReadBitmapFile: leftmost pixel in the least significant bit, rows padded to bytes.
const leaf = `
  #........#
  .......##.
  ####......`;
const data = "0x01, 0x02, 0x80, 0x01, 0x0f, 0xfc";
const size = "#define leaf_width 10\n#define leaf_height 3\n";

/** Sources in the X bitmap format need no annotation. */
export const xbm: ArrayCase[] = [
  {
    what: "the published example",
    source: `${size}static char leaf_bits[] = {\n   ${data}};\n`,
    pictures: named("leaf_bits", leaf),
  },
  {
    what: "with a hot spot, unsigned",
    source: `${size}#define leaf_x_hot 4\n#define leaf_y_hot 1\nstatic unsigned char leaf_bits[] = {\n   ${data}};\n`,
    pictures: named("leaf_bits", leaf),
  },
  {
    what: "kept in flash",
    source: `${size}const uint8_t leaf_bits[] PROGMEM = { ${data} };\n`,
    pictures: named("leaf_bits", leaf),
  },
  {
    what: "two in one file",
    source: `${size}static unsigned char leaf_bits[] = { ${data} };\n#define on_width 8\n#define on_height 1\nstatic unsigned char on_bits[] = { 0x7f };\n`,
    pictures: [
      { name: "leaf_bits", frames: [leaf] },
      { name: "on_bits", frames: ["#######."] },
    ],
  },
  {
    what: "an annotation outweighs the format",
    source: `${size}// @bitmap 8x6 mono1\nstatic unsigned char leaf_bits[] = { ${data} };\n`,
    pictures: named(
      "leaf_bits",
      `
      .......#
      ......#.
      #.......
      .......#
      ....####
      ######..`,
    ),
  },
  {
    what: "another ending of the name is no X bitmap",
    source: `${size}static unsigned char leaf_data[] = { ${data} };\n`,
    pictures: [],
  },
  {
    what: "a height without a width is no X bitmap",
    source: `#define leaf_height 3\nstatic unsigned char leaf_bits[] = { ${data} };\n`,
    pictures: [],
  },
];
