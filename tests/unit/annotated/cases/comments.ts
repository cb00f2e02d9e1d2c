import { type ArrayCase, named } from "./arrayCase.ts";

const vent = "const uint8_t vent[] = { 0x81, 0x42 };";
const shape = "#......#\n.#....#.";

/** Comments that all mean the same annotation of the same array. */
const alike: [what: string, source: string][] = [
  ["line comment", `// @bitmap 8x2 mono1\n${vent}`],
  ["line comment without a blank", `//@bitmap 8x2 mono1\n${vent}`],
  ["tabs between words", `//\t@bitmap\t8x2\tmono1\n${vent}`],
  ["indented", `\t  // @bitmap 8x2 mono1\n\t  ${vent}`],
  ["block comment", `/* @bitmap 8x2 mono1 */\n${vent}`],
  ["block comment on the declaration's line", `/* @bitmap 8x2 mono1 */ ${vent}`],
  ["block comment without blanks", `/*@bitmap 8x2 mono1*/\n${vent}`],
  ["documentation line with three slashes", `/// @bitmap 8x2 mono1\n${vent}`],
  ["documentation line with an exclamation mark", `//! @bitmap 8x2 mono1\n${vent}`],
  ["documentation block", `/** @bitmap 8x2 mono1 */\n${vent}`],
  ["documentation block with an exclamation mark", `/*! @bitmap 8x2 mono1 */\n${vent}`],
  ["inner line of a documentation block", `/**\n * The vent, half open.\n * @bitmap 8x2 mono1\n */\n${vent}`],
  ["inner line without a star", `/*\n  The vent, half open.\n\n  @bitmap 8x2 mono1\n*/\n${vent}`],
  ["beside a documentation command", `/**\n * @brief The vent.\n *\n * @bitmap 8x2 mono1\n */\n${vent}`],
  ["options on the lines after the marker", `/*\n * @bitmap 8x2\n *   mono1\n *   pack=rows\n */\n${vent}`],
  [
    "a blank line ends the options",
    `/*\n * @bitmap 8x2 mono1\n *\n * pack=pagse is how the other one is kept\n */\n${vent}`,
  ],
  ["free text", `// @bitmap 8x2 mono1 -- the vent, pack=whatever, half open\n${vent}`],
  ["free text over two lines", `/* @bitmap 8x2 mono1 -- the vent,\n   half open */\n${vent}`],
  ["free text in a one-line block", `/* @bitmap 8x2 mono1 -- the vent */\n${vent}`],
  ["the next marker ends the options", `/*\n * @panel status 8x2 mono1\n * @bitmap status\n */\n${vent}`],
  ["markers stacked in line comments", `// @panel status 8x2 mono1\n// @bitmap status\n${vent}`],
  ["other comments between", `// @bitmap 8x2 mono1\n// The vent, {half} open; "wide" 'x\n/* } */\n${vent}`],
  ["a blank line between", `// @bitmap 8x2 mono1\n\n\n${vent}`],
  ["a preprocessor line between", `// @bitmap 8x2 mono1\n#define VENT_HEIGHT 2\n${vent}`],
  ["CR LF line ends", `// @bitmap 8x2 mono1\r\n${vent}\r\n`],
  ["byte order mark", `\uFEFF// @bitmap 8x2 mono1\n${vent}`],
  ["characters outside the basic plane before it", `/* \u{1F331}\u{1F331} */ // @bitmap 8x2 mono1\n${vent}`],
];

export const comments: ArrayCase[] = alike.map(([what, source]) => ({ what, source, pictures: named("vent", shape) }));
