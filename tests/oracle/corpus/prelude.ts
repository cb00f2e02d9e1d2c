/**
 * What a board's core would bring: only the compilers see it. The product meets the names in it unexplained, except
 * for those that any sketch may use (`B…` macros, `byte`, `word`, `boolean`, PROGMEM).
 */
export function preludeText(): string {
  return [
    "#pragma once",
    "#include <stdint.h>",
    "#include <stddef.h>",
    "#if defined(__AVR__)",
    "#include <avr/pgmspace.h>",
    "#else",
    "#define PROGMEM",
    "#endif",
    "#ifndef __cplusplus",
    "#include <stdbool.h>",
    "#endif",
    "typedef uint8_t byte;",
    "typedef bool boolean;",
    "typedef unsigned int word;",
    "#define IN_FLASH",
    "#define KEEP_ART __attribute__((used))",
    "#define PLACED(section_name) __attribute__((section(section_name)))",
    "#define ALIGNED_TO(n) __attribute__((aligned(n)))",
    "#define ART_API",
    "#define HIDDEN_LEVEL 37",
    "#define HIDDEN_COUNT 12",
    "#define HIDDEN_ROW(a, b) (a), (b)",
    ...binaryMacros(),
    "",
  ].join("\n");
}

/** `B0` … `B11111111` in every digit count, as in the sketch core's binary.h. */
function binaryMacros(): readonly string[] {
  return [1, 2, 3, 4, 5, 6, 7, 8].flatMap((digits) =>
    Array.from({ length: 2 ** digits }, (_, value) => `#define B${value.toString(2).padStart(digits, "0")} ${value}`),
  );
}
