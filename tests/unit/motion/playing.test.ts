import { describe, expect, it } from "vitest";
import { openText } from "../../../shared/bitmap/open.ts";
import { liveMotions } from "../../../shared/motion/live.ts";
import { playerOf } from "../../../shared/motion/play.ts";
import { framesOf, motionIn, PANEL } from "./live.ts";

const zeros = [0, 0, 0, 0, 0, 0];

describe("what parameters are given", () => {
  it.each([
    ["the number of the frame", "uint8_t f(uint8_t x, uint8_t y, uint8_t t) { return t; }", [0, 1, 2]],
    ["whatever they are called", "uint8_t f(int column, int row, long frame) { return frame * 2; }", [0, 2, 4]],
    ["wrapped to their type", "uint8_t f(int x, int y, uint8_t t) { return t + 254; }", [254, 255, 0]],
    ["milliseconds", "uint8_t f(int x, int y, unsigned long ms) { return ms; }", [0, 100, 200]],
    [
      "milliseconds by the ending of a name",
      "uint8_t f(int x, int y, uint16_t at_ms) { return at_ms; }",
      [0, 100, 200],
    ],
    ["seconds", "uint8_t f(int x, int y, float seconds) { return seconds * 100; }", [0, 10, 20]],
    ["the size", "uint8_t f(int x, int y, int width, int h) { return width * 10 + h; }", [32, 32, 32]],
    ["time that others ask for", "uint8_t f(int x, int y) { return millis() + micros() / 1000; }", [0, 200, 144]],
  ])("%s", (_, code, first) => {
    expect(framesOf(`// @motion bed code fps=10\n${code}`, 3).map((f) => f[0])).toEqual(first);
  });

  it("columns go right and rows go down", () => {
    expect(framesOf("// @motion bed code\nuint8_t f(int x, int y) { return x + 10 * y; }", 1)).toEqual([
      [0, 1, 2, 10, 11, 12],
    ]);
  });
});

describe("frames that are filled", () => {
  it("in an array of the file", () => {
    const code = "uint8_t lamps[6];\n// @motion bed code buffer=lamps\nvoid f(int t) { lamps[t] = 9; }";
    expect(framesOf(code, 2)).toEqual([
      [9, 0, 0, 0, 0, 0],
      [9, 9, 0, 0, 0, 0],
    ]);
  });

  it("where they are pointed to", () => {
    const code = "// @motion bed code\nvoid f(uint8_t *out, int t) { *(out + 5) = t + 1; }";
    expect(framesOf(code, 2)).toEqual([
      [0, 0, 0, 0, 0, 1],
      [0, 0, 0, 0, 0, 2],
    ]);
  });

  it("in the layout of the buffer's bitmap", () => {
    const code = `// @bitmap 4x2 mono1 bits=lsb
uint8_t bits[2] = { 0 };
// @motion code buffer=bits fps=5
void f(uint8_t t) { bits[0] = 1 << t; bits[1] = 8; }`;
    expect(framesOf(code, 2, "a.h")).toEqual([
      [1, 0, 0, 0, 0, 0, 0, 1],
      [0, 1, 0, 0, 0, 0, 0, 1],
    ]);
  });

  it("in the panel's layout and elements of 16 bits", () => {
    const code = `// @panel grid 2x1 rgb565
uint16_t grid[2];
// @motion grid code buffer=grid
void f() { grid[0] = 0xF800; grid[1]++; }`;
    expect(framesOf(code, 2)).toEqual([
      [0xf800, 1],
      [0xf800, 2],
    ]);
  });

  it("going back begins anew, so a frame is always the same", () => {
    const motion = motionIn(
      `${PANEL}uint8_t b[6];\n// @motion bed code buffer=b\nvoid f() { static int n; b[0] = n++; }`,
    );
    const player = playerOf(motion);
    expect([3, 1, 2, 0, 5].map((n) => player?.frame(n)[0])).toEqual([3, 1, 2, 0, 5]);
  });
});

describe("the language", () => {
  const result = (body: string, file = "a.cpp", before = "") =>
    framesOf(`${before}\n// @motion bed code\nuint8_t f(int x, int y) { ${body} }`, 1, file)[0]?.[0];

  it.each([
    ["int has 16 bits for sketches", "return (30000 + 30000 < 0) + sizeof(int);", "a.ino", 3],
    ["and 32 elsewhere", "return (30000 + 30000 < 0) + sizeof(int);", "a.cpp", 4],
    ["characters are int in C", "return sizeof 'a' + (1 == 1 ? sizeof(1 == 1) : 0);", "a.c", 8],
    ["and char in C++", "return sizeof 'a' + sizeof(1 == 1);", "a.cpp", 2],
    ["auto", "auto v = 2.5f; auto *p = &v; return *p * 4;", "a.cpp", 10],
    [
      "a loop over a list",
      "const uint8_t s[] = { 3, 4, 5 }; int n = 0; for (uint8_t v : s) n += v; return n;",
      "a.cpp",
      12,
    ],
    [
      "a loop that changes a list",
      "uint8_t s[] = { 3, 4 }; for (auto &v : s) v *= 2; return s[0] + s[1];",
      "a.cpp",
      14,
    ],
    [
      "one past the end may be pointed to",
      "uint8_t s[3] = { 1, 2, 3 }; int n = 0; for (uint8_t *p = s; p != &s[3]; p++) n += *p; return n;",
      "a.cpp",
      6,
    ],
    ["a declaration in a condition", "if (int v = x + 3; v > 2) return v; return 0;", "a.cpp", 3],
    ["a name inside hides one outside", "int v = 1; { int v = 2; v++; } return v;", "a.cpp", 1],
    ["binary macros of sketches", "return B101 + 0b11;", "a.ino", 8],
    ["strings", 'const char *s = "drip" "s"; return s[4];', "a.cpp", 115],
    ["what is not given a value begins with 0", "static int v; int w = v; return w + 7;", "a.cpp", 7],
    [
      "initialisers of structs",
      "struct P { uint8_t a; int16_t b[2]; } p = { 1, { 2, 3 } }; return p.b[1] * 10 + p.a;",
      "a.cpp",
      31,
    ],
  ])("%s", (_, body, file, expected) => {
    expect(result(body, file)).toBe(expected);
  });

  it("names of headers that are included are known", () => {
    const header =
      "#pragma once\n#define TWICE(v) ((v) * 2)\nconst uint8_t tones[3] = { 1, 2, 30 };\ninline uint8_t tone(uint8_t i) { return tones[i]; }\n";
    const text = `#include "tones.h"\n${PANEL}// @motion bed code\nuint8_t f(int x, int y) { return TWICE(tone(x)); }`;
    const file = openText(text, "a.cpp", {
      includes: (name) => (name === "tones.h" ? { id: "/garden/tones.h", text: header } : undefined),
    });
    const [motion] = liveMotions(file);
    const player = motion && playerOf(motion);
    expect(player && Array.from(player.frame(0))).toEqual([2, 4, 60, 2, 4, 60]);
  });

  it("what a file defines itself comes before the library", () => {
    expect(result("return min(3, 4);", "a.cpp", "#define min(a, b) 77")).toBe(77);
    expect(result("return lerp(3, 4);", "a.cpp", "int lerp(int a, int b) { return a * b; }")).toBe(12);
  });

  it("variables of a function that calls itself are each call's own", () => {
    const before =
      "int sum(int n) { int here = n; if (n == 0) return 0; int below = sum(n - 1); return here + below; }";
    expect(result("return sum(10) + max(sum(2), sum(3));", "a.cpp", before)).toBe(61);
  });

  it.each([
    ["noexcept", "// @motion bed code\nstatic uint8_t\nf(int x, int y) noexcept\n{ return 7; }"],
    ["attributes", "// @motion bed code\n__attribute__((noinline)) uint8_t f(const int x, const int y) { return 7; }"],
    ["a namespace", "namespace art {\n// @motion bed code\nuint8_t f(int x, int y) { return 7; }\n}"],
    ["C linkage", '// @motion bed code\nextern "C" uint8_t f(int x, int y) { return 7; }'],
    ["a declaration before", "uint8_t f(int x, int y);\n// @motion bed code\nuint8_t f(int x, int y) { return 7; }"],
  ])("a function with %s", (_, code) => {
    expect(framesOf(code, 1)[0]?.[0]).toBe(7);
  });

  it("a condition that the file does not decide is taken not to hold", () => {
    expect(result("\n#ifdef NIGHT\nreturn 1;\n#else\nreturn 2;\n#endif\n")).toBe(2);
  });

  it("random numbers are alike in every run", () => {
    // avr-libc's first numbers after the start, seed 1: those of Park and Miller.
    expect(result("random(); return random() == 282475249;")).toBe(1);
  });
});

it("a panel of three rows of nothing stays dark", () => {
  expect(framesOf("uint8_t b[6];\n// @motion bed code buffer=b\nvoid f() {}", 1)).toEqual([zeros]);
});
