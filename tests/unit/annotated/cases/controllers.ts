import { type ArrayCase, drawn } from "./arrayCase.ts";

/** Display memories as their data sheets lay them out, each read by the options that say the same. */
export const controllers: ArrayCase[] = [
  {
    // Solomon Systech SSD1306 data sheet, section 8.7: pages of eight rows, D0 is the top row of its page.
    what: "SSD1306 graphic memory",
    source:
      "// @bitmap 4x16 mono1 pack=pages\nconst uint8_t a[] PROGMEM = { 0xfe, 0x01, 0x01, 0xfe, 0x0f, 0x10, 0x10, 0x0e };",
    pictures: drawn(`
      .##.
      #..#
      #..#
      #..#
      #..#
      #..#
      #..#
      #..#
      #...
      #..#
      #..#
      #..#
      .##.
      ....
      ....
      ....`),
  },
  {
    // Philips PCD8544 data sheet, RAM format: six banks of 84 bytes, LSB at the top.
    what: "PCD8544 display data",
    source: "// @bitmap 3x16 mono1 pack=pages\nconst unsigned char a[] = { 0x03, 0x00, 0x00, 0x00, 0x80, 0xc0 };",
    pictures: drawn(`
      #..
      #..
      ...
      ...
      ...
      ...
      ...
      ...
      ...
      ...
      ...
      ...
      ...
      ...
      ..#
      .##`),
  },
  {
    // Samsung KS0108B data sheet: eight pages (X address) of eight rows, DB0 at the top of its page.
    what: "KS0108B display data",
    source: "// @bitmap 2x24 mono1 pack=pages\nconst uint8_t a[] = { 0x01, 0x00,  0x10, 0x08,  0x00, 0x80 };",
    pictures: drawn(`
      #.
      ..
      ..
      ..
      ..
      ..
      ..
      ..
      ..
      ..
      ..
      .#
      #.
      ..
      ..
      ..
      ..
      ..
      ..
      ..
      ..
      ..
      ..
      .#`),
  },
  {
    // Maxim MAX7219 data sheet, no-decode mode: D7..D0 drive DP A B C D E F G, registers 1-8 are the digits.
    // DP wired to the left column, so D7 is left: common practice, no source.
    what: "MAX7219 digit registers as the rows of an 8x8 matrix",
    source:
      "// @bitmap 8x8 mono1\nconst byte fan[8] = {\n  B11000000,\n  B11100110,\n  B01101110,\n  B00011100,\n  B00111000,\n  B01110110,\n  B01100111,\n  B00000011\n};",
    file: "lantern.ino",
    pictures: drawn(`
      ##......
      ###..##.
      .##.###.
      ...###..
      ..###...
      .###.##.
      .##..###
      ......##`),
  },
  {
    // Sitronix ST7920 data sheet, GDRAM: each address holds a 16-bit word, D15 is the left pixel.
    what: "ST7920 graphic words",
    source: "// @bitmap 16x3 mono1\nconst uint16_t a[] = { 0xC003, 0x8001, 0x00F0 };",
    pictures: drawn(`
      ##............##
      #..............#
      ........####....`),
  },
  {
    // The same words as the two bytes in which they are sent, high byte first.
    what: "ST7920 graphic words kept as bytes",
    source: "// @bitmap 16x3 mono1\nconst uint8_t a[] = { 0xC0, 0x03, 0x80, 0x01, 0x00, 0xF0 };",
    pictures: drawn(`
      ##............##
      #..............#
      ........####....`),
  },
  {
    // Good Display IL3820 data sheet, RAM: rows, D7 left, 1 = white (from memory): ink (`#`) is a stored 0.
    what: "IL3820 black-and-white RAM",
    source: "// @bitmap 16x2 mono1 invert\nconst uint8_t a[] = { 0xFF, 0x7F, 0x0F, 0xFE };",
    pictures: drawn(`
      ........#.......
      ####...........#`),
  },
  {
    // Holtek HT16K33 data sheet, display RAM: per COM an even byte for ROW0-7, an odd byte for ROW8-15, D0 = ROW0.
    what: "HT16K33 display RAM, one 16-bit word a COM",
    source: "// @bitmap 16x2 mono1 bits=lsb\nstatic const uint16_t a[2] = { 0x8001, 0x0102 };",
    pictures: drawn(`
      #..............#
      .#......#.......`),
  },
  {
    what: "HT16K33 display RAM as its bytes",
    source: "// @bitmap 16x2 mono1 bits=lsb\nstatic const uint8_t a[4] = { 0x01, 0x80, 0x02, 0x01 };",
    pictures: drawn(`
      #..............#
      .#......#.......`),
  },
  {
    // Sino Wealth SH1106 data sheet (from memory): as the SSD1306, with 132 columns.
    what: "SH1106 display data",
    source: "// @bitmap 3x8 mono1 pack=pages\nconst uint8_t a[] = { 0x01, 0x80, 0x7e };",
    pictures: drawn(`
      #..
      ..#
      ..#
      ..#
      ..#
      ..#
      ..#
      .#.`),
  },
  {
    // Sitronix ST7565 data sheet, display data RAM: pages of eight lines, D0 is the top one.
    what: "ST7565 display data",
    source: "// @bitmap 2x16 mono1 pack=pages\nconst uint8_t a[] = { 0x03, 0x00, 0x00, 0x81 };",
    pictures: drawn(`
      #.
      #.
      ..
      ..
      ..
      ..
      ..
      ..
      .#
      ..
      ..
      ..
      ..
      ..
      ..
      .#`),
  },
  {
    // UltraChip UC1701 data sheet, display data RAM: pages, LSB at the top.
    what: "UC1701 display data",
    source: "// @bitmap 4x8 mono1 pack=pages\nconst uint8_t a[] = { 0x01, 0x02, 0x04, 0xf8 };",
    pictures: drawn(`
      #...
      .#..
      ..#.
      ...#
      ...#
      ...#
      ...#
      ...#`),
  },
  {
    // Solomon Systech SSD1327 data sheet, GDDRAM: two pixels a byte, the left one in the low nibble unless remapped.
    what: "SSD1327 grey levels",
    source: "// @bitmap 4x2 gray4 bits=lsb\nconst uint8_t a[] = { 0x10, 0x32,  0xfe, 0x0a };",
    format: "gray4",
    pictures: drawn(`
      0 1 2 3
      14 15 10 0`),
  },
  {
    // The remap command (A0h) swaps the nibbles: from memory.
    what: "SSD1327 grey levels with the nibbles remapped",
    source: "// @bitmap 4x2 gray4\nconst uint8_t a[] = { 0x01, 0x23,  0xef, 0xa0 };",
    format: "gray4",
    pictures: drawn(`
      0 1 2 3
      14 15 10 0`),
  },
  {
    // Solomon Systech SSD1322 data sheet, GDDRAM (from memory): four pixels in two bytes, the high nibble first.
    what: "SSD1322 grey levels, one column address a 16-bit word",
    source: "// @bitmap 8x1 gray4\nconst uint16_t a[] = { 0x0123, 0xfed0 };",
    format: "gray4",
    pictures: drawn("0 1 2 3 15 14 13 0"),
  },
  {
    // Solomon Systech SSD1675 data sheet, RAM (from memory): rows, D7 left, 1 = white: ink is a stored 0.
    what: "SSD1675 black-and-white RAM",
    source: "// @bitmap 8x3 mono1 invert\nconst uint8_t a[] = { 0xE7, 0xDB, 0x00 };",
    pictures: drawn(`
      ...##...
      ..#..#..
      ########`),
  },
  {
    // MIPI DCS, 16 bits a pixel on an 8-bit bus (from memory): red first, the high byte before the low one.
    what: "16-bit colours as an 8-bit bus takes them",
    source: "// @bitmap 3x1 rgb565\nconst uint8_t a[] = { 0xF8, 0x00, 0x07, 0xE0, 0x00, 0x1F };",
    format: "rgb565",
    pictures: drawn("f800 07e0 001f"),
  },
  {
    what: "the same bytes as the words of a little-endian microcontroller, sent as they lie in its memory",
    source: "// @bitmap 3x1 rgb565 bytes=le\nconst uint16_t a[] = { 0x00F8, 0xE007, 0x1F00 };",
    format: "rgb565",
    pictures: drawn("f800 07e0 001f"),
  },
];
