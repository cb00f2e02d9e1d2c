import { type ArrayCase, drawn } from "./arrayCase.ts";

const vent = drawn("#......#\n.#....#.");
const around = (declaration: string, before = "") => `${before}// @bitmap 8x2 mono1\n${declaration}`;

/**
 * Initialisers whose values come round a corner: read as the compiler reads them, or shown read-only with a reason,
 * never as another picture and never passed over.
 */
export const readRightOrNot: ArrayCase[] = [
  {
    what: "a string of hexadecimal escapes",
    source: around(String.raw`const char vent[] = "\x81\x42";`),
    pictures: vent,
  },
  {
    what: "a string in pieces",
    source: around(`${String.raw`const char vent[3] = "\x81" /* '"' */`}\n  "B";`),
    pictures: vent,
  },
  {
    what: "a string of octal escapes without room for the end mark",
    file: "vent.c",
    source: around(String.raw`const unsigned char vent[2] = "\201\102";`),
    pictures: vent,
  },
  {
    what: "designated elements",
    file: "vent.c",
    source: "// @bitmap 4x1 gray8\nconst uint8_t row[] = { [2] = 7, 9, [0] = 1 };",
    pictures: drawn("1 0 7 9"),
  },
  {
    what: "an element designated by a character",
    file: "vent.c",
    source: "// @bitmap 3x1 gray8\nconst uint8_t row[] = { ['\\2'] = 5 };",
    pictures: drawn("0 0 5"),
  },
  {
    what: "a call macro that makes two elements",
    source: around(
      "const uint8_t vent[] = { ROW16(0b1000000101000010) };",
      "#define ROW16(v) (uint8_t)((v) >> 8), (uint8_t)((v) & 0xff)\n",
    ),
    pictures: vent,
  },
  {
    what: "a name that makes two elements",
    source: around("const uint8_t vent[] = { WIDE };", "#define WIDE 0x81, 0x42\n"),
    pictures: vent,
  },
  {
    what: "a branch chosen by a name that this file does not define",
    source: around("const uint8_t vent[] = {\n#ifdef MIRRORED\n  0x18,\n#else\n  0x81,\n#endif\n  0x42\n};"),
    pictures: vent,
  },
];

/** What this file alone cannot tell: always read-only, with a reason. */
export const neverKnown: [what: string, source: string][] = [
  ["a name from elsewhere", around("const uint8_t vent[] = { 0x81, LOWER_EDGE };")],
  ["a call from elsewhere", around("const uint8_t vent[] = { MIRROR(0x81), 0x42 };")],
  ["data from another file", around('const uint8_t vent[] = {\n#include "vent.inc"\n};')],
  ["data from another file before a row", around('const uint8_t vent[] = {\n#include "vent.inc"\n  0x42\n};')],
];
