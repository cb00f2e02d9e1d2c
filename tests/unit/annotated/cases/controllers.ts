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
];
