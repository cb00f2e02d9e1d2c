/** Text between elements and between arrays that a careless scanner trips over. */

/**
 * White space and comments between two elements. Each comment holds three different characters or more, so that none
 * can be taken for the drawing of a row.
 */
export const GAPS: readonly string[] = [
  " ",
  " ",
  " ",
  "",
  "\t",
  "  ",
  " /* '{' and \"}\" */ ",
  "/* ;}, */",
  " /* it's 0x12, 0x34 */ ",
  "/**/",
  " /* U+0041 'A' */",
];

/** Comments that end a line. */
export const NOTES: readonly string[] = [
  "// first } then {",
  "// don't stop",
  '// "',
  "// 0x00, 0x7E,",
  "/* { */",
  "// #if 0",
  "/* ' */",
];

/** What stands between the arrays of a file. `@` becomes the line break of the file. */
export const FILLERS: readonly string[] = [
  "",
  "int speed = 3;",
  "void show(char c) {@  if (c == '{' || c == '\"') return; // don't }@  const char* t = \"}{\\\"\";@}",
  "static const int pins[] = {3, 5, 6}; /* pins */",
  "struct Tune { int hz; unsigned char steps[3]; };@const Tune tune = { 440, {1, 2, 3} };",
  "#ifdef __AVR__@#include <avr/pgmspace.h>@#endif",
  "/* nothing to see, \" ' { */",
  "#define AREA(w, h) ((w) * \\@  (h))",
  "namespace lantern { const uint8_t dark[2] = {0}; }",
  "enum Mode { DAY, NIGHT = 0x20, };",
  'const char label[] = R"x(}; " { )" )x";',
  "uint8_t level(uint8_t v) { return v > 64 ? 64 : v; }",
  "typedef unsigned char Dot;",
  "class Lamp { public: static const uint8_t rows[2]; private: int at = { 3 }; };",
];
