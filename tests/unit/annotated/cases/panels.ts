import { type ArrayCase, drawn, named } from "./arrayCase.ts";

/** What a bitmap takes from its panel, and what it says for itself. */
export const panels: ArrayCase[] = [
  {
    what: "size and format of the greenhouse lantern",
    source: `// @panel lantern 9x9 gray8 cap=64 full=5mA budget=250mA tint=#ffb84d lattice=diamond
// @bitmap lantern
const uint8_t drop_icon[81] PROGMEM = {
   0,  0,  0,  0,  8,  0,  0,  0,  0,
   0,  0,  0,  8, 24,  8,  0,  0,  0,
   0,  0,  8, 24, 40, 24,  8,  0,  0,
   0,  8, 24, 40, 56, 40, 24,  8,  0,
   8, 24, 40, 56, 64, 56, 40, 24,  8,
   8, 24, 40, 56, 64, 56, 40, 24,  8,
   0,  8, 24, 40, 56, 40, 24,  8,  0,
   0,  0,  8, 24, 40, 24,  8,  0,  0,
   0,  0,  0,  8,  8,  8,  0,  0,  0,
};`,
    pictures: named(
      "drop_icon",
      `
      0 0 0 0 8 0 0 0 0
      0 0 0 8 24 8 0 0 0
      0 0 8 24 40 24 8 0 0
      0 8 24 40 56 40 24 8 0
      8 24 40 56 64 56 40 24 8
      8 24 40 56 64 56 40 24 8
      0 8 24 40 56 40 24 8 0
      0 0 8 24 40 24 8 0 0
      0 0 0 8 8 8 0 0 0`,
    ),
  },
  {
    what: "art smaller than the panel keeps the panel's packing",
    source:
      "// @panel status 128x32 mono1 pack=pages\n// @bitmap status 3x8\nconst uint8_t a[] = { 0x01, 0x80, 0xf0 };",
    pictures: drawn(`
      #..
      ...
      ...
      ...
      ..#
      ..#
      ..#
      .##`),
  },
  {
    what: "the bitmap's packing overrides the panel's, and its bit order follows its own packing",
    source: "// @panel status 8x2 mono1 pack=columns\n// @bitmap status pack=rows\nconst uint8_t a[] = { 0x80, 0x03 };",
    pictures: drawn(`
      #.......
      ......##`),
  },
  {
    what: "a bit order said on the panel holds for the bitmap's packing too",
    source:
      "// @panel status 8x2 mono1 pack=columns bits=lsb\n// @bitmap status pack=rows\nconst uint8_t a[] = { 0x80, 0x03 };",
    pictures: drawn(`
      .......#
      ##......`),
  },
  {
    what: "the bitmap's corner overrides the panel's",
    source:
      "// @panel bed 3x2 gray8 from=bottom-right scan=serpentine\n// @bitmap bed from=top-left\nconst uint8_t a[] = { 1, 2, 3, 4, 5, 6 };",
    pictures: drawn(`
      1 2 3
      6 5 4`),
  },
  {
    what: "scan and corner come from the panel, for its art of another size too",
    source:
      "// @panel bed 12x8 gray8 from=bottom-right scan=serpentine\n// @bitmap bed 3x2\nconst uint8_t a[] = { 1, 2, 3, 4, 5, 6 };",
    pictures: drawn(`
      4 5 6
      3 2 1`),
  },
  {
    what: "the bitmap's format overrides the panel's",
    source: "// @panel bed 4x2 mono1\n// @bitmap bed gray8\nconst uint8_t a[] = { 1, 2, 3, 4, 5, 6, 7, 8 };",
    pictures: drawn(`
      1 2 3 4
      5 6 7 8`),
  },
  {
    what: "a panel without a format is gray8",
    source: "// @panel bed 2x2\n// @bitmap bed\nconst uint8_t a[] = { 1, 2, 3, 4 };",
    pictures: drawn("1 2\n3 4"),
  },
  {
    what: "a panel may stand after the art that names it",
    source: "// @bitmap bed\nconst uint8_t a[] = { 0x81, 0x42 };\n// @panel bed 8x2 mono1",
    pictures: drawn("#......#\n.#....#."),
  },
  {
    what: "several arrays on one panel, each with its own frames",
    source:
      "// @panel bed 2x1 gray8\n// @bitmap bed frames=2\nconst uint8_t a[] = { 1, 2, 3, 4 };\n// @bitmap bed\nconst uint8_t b[] = { 5, 6 };",
    pictures: [
      { name: "a", frames: ["1 2", "3 4"] },
      { name: "b", frames: ["5 6"] },
    ],
  },
  {
    what: "options before size and panel",
    source:
      "// @panel status 128x32 mono1\n// @bitmap bits=lsb status 8x2\nconst uint8_t a[] = { 0x80, 0x03 };\n// @bitmap pack=columns mono1 2x8\nconst uint8_t b[] = { 0x01, 0x80 };",
    pictures: [
      { name: "a", frames: [".......#\n##......"] },
      { name: "b", frames: ["#.\n..\n..\n..\n..\n..\n..\n.#"] },
    ],
  },
];
