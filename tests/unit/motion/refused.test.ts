import { describe, expect, it } from "vitest";
import { openText } from "../../../shared/bitmap/open.ts";
import { checkFile } from "../../../shared/checks/all.ts";
import { framesOf, PANEL, told } from "./live.ts";

const pixel = (body: string) => `${PANEL}// @motion bed code\nuint8_t f(uint8_t x, uint8_t y, uint8_t t) { ${body} }`;

describe("what can't be played is named at its place", () => {
  it.each([
    ["goto out; out: return 1;", ["error: goto: `goto` is not played.", "error: out: A label is not played."]],
    ['asm("nop"); return 1;', ["error: asm: Assembly is not played."]],
    ["return x + wurst;", ["error: wurst: `wurst` is not known in this file or those that it includes."]],
    [
      "return constrian(x, 1, 2);",
      [
        "error: constrian(x, 1, 2): `constrian` is not defined in this file or those that it includes, and what it gives is not known. Did you mean `constrain`?",
      ],
    ],
    ["auto g = [](int v) { return v; }; return 1;", ["error: [: A function without a name is not played."]],
    ["return min(x);", ["error: min(x): `min` takes 2 arguments, not 1."]],
    ["return (int)&x;", ["error: &x: An address that becomes a number is not played."]],
    ["return 1 % 2.5f;", ["error: 1 % 2.5f: `%` takes whole numbers."]],
    ["x = ;", ["error: ;: `;` is not expected here."]],
    ["3 = x; return 1;", ["error: 3: This can't be assigned to."]],
    ["union { int a; } u; return 1;", ["error: union: A union is not played."]],
    ["break;", ["error: break: `break` stands in no loop."]],
    // The rest of the function is still read.
    [
      "goto a; return b;",
      ["error: goto: `goto` is not played.", "error: b: `b` is not known in this file or those that it includes."],
    ],
  ])("%s", (body, expected) => {
    expect(told(pixel(body))).toEqual(expected);
  });

  it.each([
    [
      "a template",
      "template <typename T> T twice(T v) { return v + v; }",
      "return twice(x);",
      "twice(x): `twice` is not played: it is a template.",
    ],
    [
      "an object",
      "class Lamp { public: int level(); };\nLamp lamp;",
      "return lamp.level();",
      /^error: lamp: `lamp` is not played: /,
    ],
    [
      "a function told apart by types",
      "int pick(int v) { return v; } int pick(float v) { return 2; }",
      "return pick(x);",
      /^error: pick\(x\): There are several functions `pick`/,
    ],
    [
      "a pointer to a function",
      "int (*draw)(int);",
      "return draw(x);",
      /^error: draw\(x\): `draw` is not (?:played|defined)/,
    ],
    ["a member with a first value", "struct Drop { int x = 1; };", "Drop d; return d.x;", /^error: (?:Drop|d): /],
  ])("%s that the file declares", (_, before, body, expected) => {
    const [first] = told(pixel(body).replace(PANEL, `${PANEL}${before}\n`));
    if (typeof expected === "string") expect(first).toBe(`error: ${expected}`);
    else expect(first).toMatch(expected);
  });

  it("macros that hang on a condition which the file does not decide, where they are used", () => {
    const before = "#ifdef NIGHT\n#define GLOW 9\n#else\n#define GLOW 42\n#endif\n#define HALF .5f\n";
    const text = pixel("return GLOW * HALF + 0 * GLOW;").replace(PANEL, PANEL + before);
    expect(told(text)).toEqual([
      "information: GLOW: `#ifdef NIGHT` is not decided by this file: played as if it does not hold.",
    ]);
    expect(framesOf(text, 1)[0]?.[0]).toBe(21);
    // What is not used is not told.
    expect(told(text.replace("GLOW * HALF + 0 * GLOW", "3"))).toEqual([]);
  });

  it("calls of what is elsewhere are passed over where nothing comes of them", () => {
    const text = `${PANEL}uint8_t b[6];\n// @motion bed code buffer=b\nvoid f() { b[0] = 1; strip.show(); send(b, 6); }`;
    expect(told(text)).toEqual([
      "information: strip.show(): `strip.show` is not defined in this file or those that it includes: the call is passed over.",
      "information: send(b, 6): `send` is not defined in this file or those that it includes: the call is passed over.",
    ]);
  });

  it.each([
    [
      "before no function",
      `${PANEL}// @motion bed code\nint z;\nint f(int x, int y) { return 1; }`,
      "error: @motion: `code` stands before no function: it must come right before one that has a body in this file.",
    ],
    [
      "without a size",
      "// @motion code\nint f(int x, int y) { return 1; }",
      "error: @motion: Code needs the name of a panel, or `buffer=` with the name of a bitmap, to know the size of its frames.",
    ],
    [
      "a parameter that means nothing",
      `${PANEL}// @motion bed code\nint f(int x, int y, int soil) { return 1; }`,
      /^error: soil: It is not known what `soil` is given\./,
    ],
    [
      "a buffer that is not there",
      `${PANEL}// @motion bed code buffer=nowhere\nvoid f() { }`,
      "error: nowhere: There is no array `nowhere` in this file.",
    ],
    [
      "a buffer that is too small",
      `${PANEL}uint8_t b[5];\n// @motion bed code buffer=b\nvoid f() { }`,
      "error: f: The buffer has 5 elements; a frame of 3×2 in gray8 takes 6.",
    ],
    [
      "no buffer at all",
      `${PANEL}// @motion bed code\nvoid f(int t) { }`,
      "error: f: `buffer=` must name the array that this function fills.",
    ],
    [
      "a speed that is none",
      `${PANEL}// @motion bed code fps=fast\nint f(int x, int y) { return 1; }`,
      /^error: fps=fast: `fast` is no speed/,
    ],
  ])("%s", (_, text, expected) => {
    const [first] = told(text);
    if (typeof expected === "string") expect(first).toBe(expected);
    else expect(first).toMatch(expected);
  });
});

describe("what goes wrong in a frame is named at its place", () => {
  it.each([
    ["return 64 / (x - 1);", "error: 64 / (x - 1): Here a number is divided by zero."],
    ["return 64 % (t - 4);", "error: 64 % (t - 4): Here a number is divided by zero. (First in frame 4.)"],
    [
      "uint8_t a[4] = { 1 }; return a[t];",
      "error: a[t]: Here the index is 4; the array has 4 elements, from 0 to 3. (First in frame 4.)",
    ],
    [
      "static uint8_t a[2][3]; return a[0][x + t];",
      "error: a[0][x + t]: Here the index is 3; the array has 3 elements, from 0 to 2. (First in frame 1.)",
    ],
    ["uint8_t a[4] = { 1 }; uint8_t *p = a; p += 4 + t; return *p;", "error: *p: Here the pointer has left its array."],
    ["uint8_t *p = 0; return *p;", "error: *p: Here a null pointer is followed."],
    [
      "static const uint8_t a[2] = { 1, 2 }; uint8_t *p = (uint8_t *)a; *p = 3; return 1;",
      "error: *p = 3: Here something is written that is constant.",
    ],
    ["uint8_t a[4]; memset(a, 0, 5); return 1;", "error: a: Here the pointer has left its array."],
    [
      "return 1 << (t + 31);",
      "error: 1 << (t + 31): Here a number of 32 bits is shifted by 32: what that gives is undefined. (First in frame 1.)",
    ],
    ["return (int)(1e30f * (t + 1));", /does not fit in int32_t: what the conversion gives is undefined\.$/],
    ["return f(x, y, t + 1);", "error: f(x, y, t + 1): The calls nest deeper than 200."],
    ["return 65 + x;", "warning: f: Frame 0 of `f` holds the value 65; the cap is 64."],
  ])("%s", (body, expected) => {
    const found = told(pixel(body));
    expect(found).toHaveLength(1);
    if (typeof expected === "string") expect(found[0]).toBe(expected);
    else expect(found[0]).toMatch(expected);
  });

  it.each([
    ["while (1) { }", "while (1)"],
    ["for (;;) x++;", "for (;;)"],
    ["for (int i = 0; i < 9; i++) for (uint8_t j = 0; j < 300; j++) x++;", "for (uint8_t j = 0; j < 300; j++)"],
    ["while (x < 9) for (int i = 0; i < 20; i++) y++;", "while (x < 9)"],
    ["do x++; while (x != y || true);", "do"],
  ])("a loop without an end: %s", (body, place) => {
    const began = performance.now();
    expect(told(pixel(`${body} return x;`))).toEqual([
      `error: ${place}: This loop does not end within a frame: it is stopped after a budget of steps.`,
    ]);
    // A budget of steps, not of time: what is held here is only that it is no matter of seconds.
    expect(performance.now() - began).toBeLessThan(3000);
  });

  describe("flash is an address space of its own on AVR", () => {
    const declared =
      "const uint8_t PROGMEM tones[3] = { 1, 2, 3 };\nconst uint8_t held[3] = { 4, 5, 6 };\nstruct P { int a; };\nconst P points[2] PROGMEM = { { 1 }, { 2 } };\n";
    const text = (body: string) => pixel(body).replace(PANEL, PANEL + declared);
    const directly = "This is in flash (PROGMEM): on AVR it is read by pgm_read_byte and the like.";
    const none = "Here flash is read, but this is not in it: there is no PROGMEM.";
    it.each([
      ["return tones[x % 3];", `error: tones[x % 3]: ${directly}`],
      ["const uint8_t *p = tones; return *p;", `error: *p: ${directly}`],
      ["return points[1].a;", `error: points[1].a: ${directly}`],
      ["P p = points[1]; return p.a;", `error: points[1]: ${directly}`],
      ["return pgm_read_byte(&held[1]);", `error: pgm_read_byte(&held[1]): ${none}`],
      ["return pgm_read_byte(&tones[3]);", "error: pgm_read_byte(&tones[3]): Here the pointer has left its array."],
      ["return pgm_read_byte(tones + 1) + held[1] + sizeof(tones);", undefined],
    ])("%s", (body, expected) => {
      expect(told(text(body), "a.ino")).toEqual(expected === undefined ? [] : [expected]);
      // Elsewhere there is one address space.
      if (expected?.includes("flash")) expect(told(text(body), "a.cpp")).toEqual([]);
    });
  });

  it("a value that the format does not hold", () => {
    const text = `${PANEL.replace("gray8 cap=64", "gray4")}// @motion bed code\nint f(int x, int y) { return 14 + x; }`;
    expect(told(text)).toEqual(["error: f: The pixel 2,0 of frame 0 gets 16; gray4 goes from 0 to 15."]);
  });
});

it("findings move with the text, and are not worked out anew", () => {
  const text = pixel("while (1) { } return x;");
  told(text);
  const times = Array.from({ length: 5 }, (_, i) => {
    const began = performance.now();
    expect(told(`/* moved by ${i} */\n${text}`)[0]).toMatch(/^error: while \(1\): This loop/);
    return performance.now() - began;
  });
  // Its budget of steps alone takes longer.
  expect(Math.min(...times)).toBeLessThan(25);
});

it("light that a function makes flash is told as that of any animation", () => {
  const code = "uint8_t f(uint8_t x, uint8_t y, uint8_t t) { return t % 2 ? 255 : 0; }";
  const found = (fps: number) =>
    checkFile(openText(`// @panel bed 3x2 gray8\n// @motion bed code fps=${fps}\n${code}`, "a.cpp"));
  expect(found(20).map(({ code: of, severity }) => [of, severity])).toEqual([["flashing", "warning"]]);
  expect(found(20)[0]?.message).toMatch(/^At 20 fps light flashes 10 times within one second/);
  // Six changes in a second are three flashes (WCAG 2.2, G19).
  expect(found(6)).toEqual([]);
});
