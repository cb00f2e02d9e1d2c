import { type ArrayCase, drawn } from "./arrayCase.ts";

const zero = `
  .##
  #.#
  #.#
  #.#
  ##.`;
const one = `
  .#.
  ##.
  .#.
  .#.
  ###`;
/** The two digits above, columns from the low bit. */
const digits = "0x1e, 0x11, 0x0f, 0x12, 0x1f, 0x10";

/** Several frames, elements that are no pixels, and glyph sets. */
export const framesAndGlyphs: ArrayCase[] = [
  {
    what: "frames one after the other",
    source: "// @bitmap 2x2 gray8 frames=3 fps=20\nconst uint8_t a[] = { 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12 };",
    pictures: drawn("1 2\n3 4", "5 6\n7 8", "9 10\n11 12"),
  },
  {
    what: "a header before the frames and a duration before each",
    source:
      "// @bitmap 2x2 gray8 frames=2 skip=2 lead=1\nconst uint8_t a[] = {\n  2, 2,        // size\n  90, 1, 2, 3, 4,\n  80, 5, 6, 7, 8,\n};",
    pictures: drawn("1 2\n3 4", "5 6\n7 8"),
  },
  {
    what: "skipped elements are whole elements, however wide",
    source: "// @bitmap 8x2 mono1 skip=1 pad=byte\nconst uint16_t a[] = { 0xffff, 0x8142 };",
    pictures: drawn("#......#\n.#....#."),
  },
  {
    what: "glyphs with their width before their columns",
    source: `// @bitmap 3x5 mono1 pack=columns frames=2 lead=1\nconst uint8_t a[] = { 3, 0x1e, 0x11, 0x0f,  3, 0x12, 0x1f, 0x10 };`,
    pictures: drawn(zero, one),
  },
  {
    what: "the first character as a C character literal",
    source: `// @bitmap 3x5 mono1 pack=columns frames=2 first='0'\nconst uint8_t digits[] PROGMEM = { ${digits} };`,
    pictures: drawn(zero, one),
  },
  {
    what: "the first character as a code point",
    source: `// @bitmap 3x5 mono1 pack=columns frames=2 first=U+0030\nconst uint8_t digits[] PROGMEM = { ${digits} };`,
    pictures: drawn(zero, one),
  },
  {
    what: "the first character is a blank",
    source: "// @bitmap 3x5 mono1 pack=columns frames=2 first=' '\nconst uint8_t a[] = { 0, 0, 0, 0x00, 0x17, 0x00 };",
    pictures: drawn("...\n...\n...\n...\n...", ".#.\n.#.\n.#.\n...\n.#."),
  },
  {
    what: "the first character is an escaped quote",
    source: `// @bitmap 3x5 mono1 pack=columns frames=2 first='\\''\nconst uint8_t a[] = { ${digits} };`,
    pictures: drawn(zero, one),
  },
  {
    what: "the characters listed",
    source: `// @bitmap 3x5 mono1 pack=columns frames=2 chars="01"\nconst uint8_t digits[] PROGMEM = { ${digits} };`,
    pictures: drawn(zero, one),
  },
  {
    what: "a blank among the characters listed",
    source:
      '// @bitmap 3x5 mono1 frames=3 chars="0 1" pack=columns\nconst uint8_t a[] = { 0x1e, 0x11, 0x0f, 0, 0, 0, 0x12, 0x1f, 0x10 };',
    pictures: drawn(zero, "...\n...\n...\n...\n...", one),
  },
];
