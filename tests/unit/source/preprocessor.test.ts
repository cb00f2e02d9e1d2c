import { describe, expect, it } from "vitest";
import { type Read, readAll } from "./reading.ts";

const named = (name: string, ...values: number[]) => `const uint8_t ${name}[] = { ${values.join(", ")} };`;
const [one, two, three] = [named("a", 1), named("b", 2), named("c", 3)];

/** [what, source, arrays that are compiled or may be] */
const conditions: [string, string, [string, Read][]][] = [
  ["#if 0", `#if 0\n${one}\n#endif\n${two}`, [["b", [2]]]],
  ["#if 1 … #else", `#if 1\n${one}\n#else\n${two}\n#endif`, [["a", [1]]]],
  ["#if 0 … #else", `#if 0\n${one}\n#else\n${two}\n#endif`, [["b", [2]]]],
  ["a chain: the first true branch", `#if 0\n${one}\n#elif 1\n${two}\n#elif 1\n${three}\n#endif`, [["b", [2]]]],
  ["a chain: none but #else", `#if 0\n${one}\n#elif 0\n${two}\n#else\n${three}\n#endif`, [["c", [3]]]],
  ["a chain: the rest is skipped", `#if 1\n${one}\n#elif DAY\n${two}\n#else\n${three}\n#endif`, [["a", [1]]]],
  ["nested in a skipped branch", `#if 0\n#if 1\n${one}\n#else\n${two}\n#endif\n#endif\n${three}`, [["c", [3]]]],
  ["nested in a compiled one", `#if 1\n#if 0\n${one}\n#else\n${two}\n#endif\n#endif`, [["b", [2]]]],
  ["an include guard", `#ifndef DROP_H\n#define DROP_H\n${one}\n#endif`, [["a", [1]]]],
  [
    "an include guard after a comment",
    `// art\n#ifndef DROP_H /* once */\n\n#define DROP_H 1\n${one}\n#endif`,
    [["a", [1]]],
  ],
  ["a default for a name", "#ifndef ON\n#define ON 64\n#endif\nconst uint8_t a[] = { ON };", [["a", [64]]]],
  ["a name that is defined", `#define DAY\n#ifdef DAY\n${one}\n#else\n${two}\n#endif`, [["a", [1]]]],
  ["#ifndef of one that is", `#define DAY\n#ifndef DAY\n${one}\n#else\n${two}\n#endif`, [["b", [2]]]],
  [
    "defined() with operators",
    `#define DAY 1\n#if defined(DAY) && DAY > 0\n${one}\n#else\n${two}\n#endif`,
    [["a", [1]]],
  ],
  ["defined without parentheses", `#define DAY\n#if !defined DAY\n${one}\n#else\n${two}\n#endif`, [["b", [2]]]],
  ["#elifdef (C23)", `#define DAY\n#if 0\n${one}\n#elifdef DAY\n${two}\n#else\n${three}\n#endif`, [["b", [2]]]],
  ["#elifndef (C23)", `#define DAY\n#if 0\n${one}\n#elifndef DAY\n${two}\n#else\n${three}\n#endif`, [["c", [3]]]],
  ["64-bit arithmetic", `#if 0x7FFFFFFF + 1 > 0\n${one}\n#else\n${two}\n#endif`, [["a", [1]]]],
  ["a joined line", `#if 1 && \\\n 0\n${one}\n#else\n${two}\n#endif`, [["b", [2]]]],
  ["blanks round the #", `  #  if 0\n${one}\n\t# else\n${two}\n # endif`, [["b", [2]]]],
  ["a comment over lines after #else", `#if 0\n${one}\n#else /* of\n 0 */\n${two}\n#endif`, [["b", [2]]]],
  ["#if 0 round quotes that do not close", `#if 0\nit's here "\n${one}\n#endif\n${two}`, [["b", [2]]]],
  ["#if 0 round a comment with #endif", `#if 0\n/*\n#endif\n*/\n${one}\n#endif\n${two}`, [["b", [2]]]],
  ["#if without an end", `${one}\n#if 0\n${two}`, [["a", [1]]]],
  [
    "#else and #endif without an #if",
    `#else\n${one}\n#endif\n${two}`,
    [
      ["a", [1]],
      ["b", [2]],
    ],
  ],
  ["CR LF", `#if 0\r\n${one}\r\n#else\r\n${two}\r\n#endif\r\n`, [["b", [2]]]],
  [
    "a string in a directive",
    `#define NOTE "/* not a comment" /* one */\n#if 0 /* "\n*/\n${one}\n#endif\n${two}`,
    [["b", [2]]],
  ],
  ["an unknown directive", `#pragma once\n#warning it's "\n${one}`, [["a", [1]]]],
  ["a # inside a string is none", `const char *s = "\\\n#if 0";\n${one}`, [["a", [1]]]],
];

describe("conditions that the file decides", () => {
  it.each(conditions)("%s", (_what, source, expected) => {
    expect(readAll(source)).toEqual(expected);
  });
});

describe("conditions that it does not", () => {
  it.each<[string, string, [string, Read][]]>([
    [
      "both branches are read",
      `#ifdef DAY\n${one}\n#else\n${two}\n#endif\n${three}`,
      [
        ["a", [1]],
        ["b", [2]],
        ["c", [3]],
      ],
    ],
    [
      "every branch of a chain",
      `#if DAY\n${one}\n#elif DUSK\n${two}\n#else\n${three}\n#endif`,
      [
        ["a", [1]],
        ["b", [2]],
        ["c", [3]],
      ],
    ],
    [
      "but not one known to be false",
      `#if DAY\n${one}\n#elif 0\n${two}\n#else\n${three}\n#endif`,
      [
        ["a", [1]],
        ["c", [3]],
      ],
    ],
    [
      "a statement in two halves",
      `const uint8_t\n#ifdef DAY\na[] = { 1 };\n#else\nb[] = { 2 };\n#endif`,
      [
        ["a", [1]],
        ["b", [2]],
      ],
    ],
    ["a brace in two halves", `#ifdef DAY\nvoid f() {\n#else\nvoid g() {\n#endif\n}\n${one}`, [["a", [1]]]],
    [
      "one name twice",
      `#ifdef DAY\n${named("a", 1)}\n#else\n${named("a", 2)}\n#endif`,
      [
        ["a", [1]],
        ["a", [2]],
      ],
    ],
  ])("%s", (_what, source, expected) => {
    expect(readAll(source)).toEqual(expected);
  });

  it.each([
    [
      "two definitions that differ",
      "#ifdef DAY\n#define ON 1\n#else\n#define ON 2\n#endif",
      "`ON` depends on `#ifdef DAY`",
    ],
    ["one definition", "#if DAY\n#define ON 1\n#endif", "`ON` depends on `#if DAY`"],
  ])("a macro after %s is not known", (_what, before, why) => {
    expect(readAll(`${before}\nconst uint8_t a[] = { ON };`)).toEqual([["a", why]]);
  });

  it("two definitions that agree leave no doubt", () => {
    const before = "#define ON 1\n#ifdef DAY\n#define ON 1\n#endif";
    expect(readAll(`${before}\nconst uint8_t a[] = { ON };`)).toEqual([["a", [1]]]);
  });

  it.each([
    ["#ifdef DAY\n3,\n#endif", "the condition `#ifdef DAY` is not known"],
    ["#if 1\n3,\n#endif", [1, 3, 2]],
    ["#if 0\n3,\n#else\n4,\n#endif", [1, 4, 2]],
    ['#include "rows.inc"', '`#include "rows.inc"` brings elements from another file'],
    ["#define ON 9\nON,", [1, 9, 2]],
  ])("inside a list: %j", (line, expected) => {
    expect(readAll(`const uint8_t a[] = { 1,\n${line}\n2 };`)).toEqual([["a", expected]]);
  });
});

describe("what the target defines", () => {
  const source = `#ifdef __AVR__\n${one}\n#elif defined(__arm__)\n${two}\n#else\n${three}\n#endif`;
  it.each([
    ["avr", "a"],
    ["arm32", "b"],
    ["host", "c"],
  ] as const)("%s", (target, name) => {
    expect(readAll(source, target).map(([n]) => n)).toEqual([name]);
  });
});
