import { type ArrayCase, named } from "./arrayCase.ts";

const data = "0x81, 0x42";

/** Ways to declare the same two bytes; what stands before the last line stands before the annotation. */
const alike: [declaration: string, file?: string][] = [
  [`const uint8_t vent[] PROGMEM = { ${data} };`],
  [`PROGMEM const uint8_t vent[] = { ${data} };`],
  [`const uint8_t PROGMEM vent[] = { ${data} };`],
  [`const PROGMEM uint8_t vent[2] = { ${data} };`],
  [`static const unsigned char PROGMEM vent[2] = { ${data} };`],
  [`static const unsigned char vent[] PROGMEM={${data.replace(" ", "")},};`],
  [`unsigned const char static vent[] = { ${data} };`],
  [`uint8_t vent[] = { ${data} };`],
  [`constexpr uint8_t vent[] = { ${data} };`],
  [`static constexpr std::uint8_t vent[2] { ${data} };`],
  [`const byte vent[] = { ${data} };`, "lantern.ino"],
  [`const __flash uint8_t vent[] = { ${data} };`, "vent.c"],
  [`SECT(".art") ALIGNED const uint8_t vent[] IN_FLASH KEEP = { ${data} };`],
  [`const uint8_t vent[] SECT(".art{") = { ${data} };`],
  [`const uint8_t vent[] __attribute__((aligned(4))) = { ${data} };`],
  [`__attribute__((section(".art"), used)) const uint8_t vent[] = { ${data} };`],
  [`alignas(4) const uint8_t vent[] = { ${data} };`],
  [`[[gnu::aligned(4)]] const uint8_t vent[] = { ${data} };`],
  [`typedef unsigned char line_t;\nconst line_t vent[] = { ${data} };`],
  [`using line_t = uint8_t;\nconst line_t vent[] = { ${data} };`],
  [`#define BANDS 1\n#define VENT_ROWS 2\nconst uint8_t vent[BANDS * VENT_ROWS] = { ${data} };`],
  ["const signed char vent[] = { -127, 66 };"],
  ["const int8_t vent[2] = { -0x7f, 0x42 };"],
  [`const uint8_t vent[2][1] = { { 0x81 }, { 0x42 } };`],
  [`const uint8_t vent[2][1] = { ${data} };`],
  [`const uint8_t vent[1][2][1] = { { { 0x81 }, { 0x42 } } };`],
  [`const uint8_t\n  vent\n  []\n  =\n{\n  ${data}\n}\n;`],
  [`extern const uint8_t vent[2];\nconst uint8_t vent[2] = { ${data} };`],
];

const oneList: ArrayCase[] = alike.map(([declaration, file]) => {
  const start = declaration.search(/^(?!typedef|using|#|extern)/m);
  return {
    what: declaration.replace(/\s+/g, " "),
    ...(file === undefined ? {} : { file }),
    source: `#include <stdint.h>\n${declaration.slice(0, start)}// @bitmap 8x2 mono1\n${declaration.slice(start)}`,
    pictures: named("vent", "#......#\n.#....#."),
  };
});

/** Lists in lists, and what the compiler fills with zeros. */
export const declarations: ArrayCase[] = [
  ...oneList,
  {
    what: "a table of frames",
    source: "// @bitmap 3x1 gray8 frames=2\nconst uint8_t a[2][3] = { { 1, 2, 3 }, { 4, 5, 6 } };",
    pictures: named("a", "1 2 3", "4 5 6"),
  },
  {
    what: "a table of frames of rows",
    source:
      "// @bitmap 3x2 gray8 frames=2\nconst uint8_t a[][2][3] = {\n  { { 1, 2, 3 }, { 4, 5, 6 } },\n  { { 7, 8, 9 }, { 10, 11, 12 } },\n};",
    pictures: named("a", "1 2 3\n4 5 6", "7 8 9\n10 11 12"),
  },
  {
    what: "inner lists that are short are filled with zeros",
    source: "// @bitmap 4x2 gray8\nconst uint8_t a[2][4] = { { 1, 2 }, { 3 } };",
    pictures: named("a", "1 2 0 0\n3 0 0 0"),
  },
  {
    what: "lists with braces left out after a list with them",
    source: "// @bitmap 2x3 gray8\nconst uint8_t a[3][2] = { { 1 }, 2, 3, 4 };",
    pictures: named("a", "1 0\n2 3\n4 0"),
  },
  {
    what: "a tail that the compiler fills with zeros",
    source: "// @bitmap 8x4 mono1\nconst uint8_t a[4] = { 0xff, 0x81 };",
    pictures: named("a", "########\n#......#\n........\n........"),
  },
  {
    what: "an empty list",
    source: "// @bitmap 2x2 gray8\nuint8_t a[4] = {};",
    pictures: named("a", "0 0\n0 0"),
  },
];
