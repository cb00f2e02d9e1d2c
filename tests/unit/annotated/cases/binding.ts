import { type ArrayCase, drawn, named } from "./arrayCase.ts";

const vent = "#......#\n.#....#.";

/** Which initialiser an annotation belongs to. */
export const binding: ArrayCase[] = [
  {
    what: "on the line of the opening brace",
    source: "const uint8_t vent[] = { // @bitmap 8x2 mono1\n  0x81,\n  0x42,\n};",
    pictures: named("vent", vent),
  },
  {
    what: "on the line of an opening brace that stands alone",
    source: "const uint8_t vent[] =\n{ // @bitmap 8x2 mono1\n  0x81, 0x42\n};",
    pictures: named("vent", vent),
  },
  {
    what: "on the line of the opening brace, to the whole list and not its first item",
    source: "const uint8_t vent[2][2] = { // @bitmap 8x2 mono1 frames=2\n  { 0x81, 0x42 },\n  { 0xff, 0x00 },\n};",
    pictures: named("vent", vent, "########\n........"),
  },
  {
    what: "inside a list of numbers, to that list",
    source: "const uint8_t vent[] = {\n  // @bitmap 8x2 mono1\n  0x81, 0x42\n};",
    pictures: named("vent", vent),
  },
  {
    what: "after the numbers of a list, to that list",
    source: "const uint8_t vent[] = {\n  0x81, 0x42\n  // @bitmap 8x2 mono1\n};",
    pictures: named("vent", vent),
  },
  {
    what: "between the equals sign and the brace",
    source: "const uint8_t vent[] = /* @bitmap 8x2 mono1 */ { 0x81, 0x42 };",
    pictures: named("vent", vent),
  },
  {
    what: "inside a table, to the row after it",
    source: "const uint8_t set[2][2] = {\n  { 0xff, 0xff },\n  // @bitmap 8x2 mono1\n  { 0x81, 0x42 },\n};",
    pictures: drawn(vent),
  },
  {
    what: "before a struct whose type is written in the same statement",
    source: '// @bitmap 8x2 mono1\nconst struct { const char *n; uint8_t bits[2]; } vent = { "vent", { 0x81, 0x42 } };',
    pictures: drawn(vent),
  },
  {
    what: "before a table of structs whose type is written in the same statement",
    source:
      '// @bitmap 8x2 mono1 entries\nconst struct Vent { uint8_t bits[2]; const char *n; } vents[] = { { { 0x81, 0x42 }, "a" } };',
    pictures: drawn(vent),
  },
  {
    what: "before a struct, to the first list of numbers in it",
    source:
      "struct Icon { uint8_t w, h; uint8_t bits[2]; };\n// @bitmap 8x2 mono1\nconst Icon vent = { 8, 2, { 0x81, 0x42 } };",
    pictures: drawn(vent),
  },
  {
    what: "inside a struct's initialiser, to the list after it",
    source:
      "struct Icon { uint8_t w, h; uint8_t mask[2]; uint8_t bits[2]; };\nconst Icon vent = {\n  8, 2,\n  { 0xff, 0xff },\n  // @bitmap 8x2 mono1\n  { 0x81, 0x42 },\n};",
    pictures: drawn(vent),
  },
  {
    what: "on the line of two opening braces, to the nearer",
    source:
      "struct Icon { uint8_t w, h; uint8_t bits[2]; };\nconst Icon vent = { 8, 2, { // @bitmap 8x2 mono1\n    0x81, 0x42 } };",
    pictures: drawn(vent),
  },
  {
    what: "entries of a table of structs, each with a string key",
    source: `struct Icon { const char *key; uint8_t bits[2]; };
// @bitmap entries 8x2 mono1
const Icon icons[] = {
  { "vent", { 0x81, 0x42 } },
  { "{fan}", { 0xff, 0x00 } },
};`,
    pictures: [{ frames: [vent] }, { frames: ["########\n........"] }],
  },
  {
    what: "the first of several declarators",
    source: "// @bitmap 8x1 mono1\nconst uint8_t off[1] = { 0x01 }, on[1] = { 0xff };",
    pictures: named("off", ".......#"),
  },
  {
    what: "a later one of several declarators",
    source: "const uint8_t off[1] = { 0x01 }, /* @bitmap 8x1 mono1 */ on[1] = { 0xff };",
    pictures: named("on", "########"),
  },
  {
    what: "a number before the list is no list",
    source: "// @bitmap 8x2 mono1\nconst uint8_t height = 2, vent[] = { 0x81, 0x42 };",
    pictures: named("vent", vent),
  },
  {
    what: "a string among a declaration's attributes is no initialiser",
    source: '// @bitmap 8x2 mono1\nextern "C" const uint8_t vent[2] __attribute__((section(".art"))) = { 0x81, 0x42 };',
    pictures: named("vent", vent),
  },
  {
    what: "a local static",
    source:
      "void drawVent(int x) {\n  if (x > 3) { x = 3; }\n  // @bitmap 8x2 mono1\n  static const uint8_t vent[] = { 0x81, 0x42 };\n  show(x, vent);\n}",
    pictures: named("vent", vent),
  },
  {
    what: "a class member",
    source:
      "class Vent {\n public:\n  void open();\n  // @bitmap 8x2 mono1\n  static constexpr uint8_t vent[] = { 0x81, 0x42 };\n};",
    pictures: named("vent", vent),
  },
  {
    what: "a member with a default initialiser",
    source: "struct Vent {\n  int angle = 0;\n  // @bitmap 8x2 mono1\n  uint8_t vent[2] = { 0x81, 0x42 };\n};",
    pictures: named("vent", vent),
  },
  {
    what: "in namespaces",
    source:
      "namespace greenhouse { namespace {\n// @bitmap 8x2 mono1\nconstexpr uint8_t vent[] = { 0x81, 0x42 };\n} }\nnamespace greenhouse::art {\n// @bitmap 8x1 mono1\nconstexpr uint8_t on[] = { 0xff };\n}",
    pictures: [
      { name: "vent", frames: [vent] },
      { name: "on", frames: ["########"] },
    ],
  },
  {
    what: 'in extern "C"',
    source: 'extern "C" {\n// @bitmap 8x2 mono1\nconst uint8_t vent[] = { 0x81, 0x42 };\n}',
    pictures: named("vent", vent),
  },
  {
    what: "an array without an annotation is not guessed, whatever stands near it",
    source:
      "// vent icon, 8x2, mono1\n#define VENT_WIDTH 8\n#define VENT_HEIGHT 2\nconst uint8_t vent_8x2[] = { 0x81, 0x42 };",
    pictures: [],
  },
  {
    what: "two arrays, each by the annotation before it",
    source:
      "// @bitmap 8x2 mono1\nconst uint8_t vent[] = { 0x81, 0x42 };\n\n// @bitmap 2x1 gray8\nconst uint8_t glow[] = { 3, 4 };\nconst uint8_t tune[] = { 1, 2 };",
    pictures: [
      { name: "vent", frames: [vent] },
      { name: "glow", frames: ["3 4"] },
    ],
  },
];
