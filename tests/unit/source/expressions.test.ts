import { describe, expect, it } from "vitest";
import { element } from "./reading.ts";

/** C17 6.3.1.1, 6.3.1.8, 6.5 (clauses from memory). [expression, for avr (16-bit int), for the host (32-bit int)] */
const byTarget: [string, string, string][] = [
  ["1 << 15", "-32768", "32768"],
  ["0xFF << 8", "-256", "65280"],
  ["32767 + 1", "-32768", "32768"],
  ["32768 + 1", "32769", "32769"],
  ["256 * 256", "0", "65536"],
  ["256L * 256", "65536", "65536"],
  ["~0u", "65535", "4294967295"],
  ["~0", "-1", "-1"],
  ["-1 + 0u", "65535", "4294967295"],
  ["-1 > 0u", "1", "1"],
  ["-1L > 0u", "0", "0"],
  ["(uint16_t)-1 + 1", "0", "65536"],
  ["(uint8_t)255 + 1", "256", "256"],
  ["~(uint8_t)0", "-1", "-1"],
  ["-1 >> 1", "-1", "-1"],
  ["0xFFFF >> 4", "4095", "4095"],
  ["0x8000 << 1", "0", "65536"],
  ["1 ? -1 : 0u", "65535", "4294967295"],
  ["(unsigned)70000", "4464", "70000"],
  ["(long)-1", "-1", "-1"],
  ["(size_t)-1", "65535", "-1"],
  ["'A' * 1000", "-536", "65000"],
];

describe("the target decides the width of int", () => {
  it.each(byTarget)("%s", (expression, avr, host) => {
    expect([element(expression, "avr"), element(expression, "host")]).toEqual([avr, host]);
  });
});

/** [expression, value everywhere] */
const values: [string, number][] = [
  ["2 + 3 * 4", 14],
  ["(2 + 3) * 4", 20],
  ["10 - 3 - 2", 5],
  ["-7 / 2", -3],
  ["-7 % 3", -1],
  ["1 | 2 ^ 3 & 1", 3],
  ["1 + 1 << 2", 8],
  ["3 > 2 > 1", 0],
  ["1 == 1 != 0", 1],
  ["0 || 2 && 3", 1],
  ["!5 + !0", 1],
  ["- -5", 5],
  ["+7", 7],
  ["1 ? 2 : 0 ? 3 : 4", 2],
  ["0 ? 2 : 0 ? 3 : 4", 4],
  ["0b101 | B010 | 010", 15],
  ["'A' + 1", 66],
  ["true + true", 2],
  ["(uint8_t)300", 44],
  ["(int8_t)200", -56],
  ["(bool)4", 1],
  ["(unsigned char)-1", 255],
  ["uint8_t(511)", 255],
  ["int(7) + 1", 8],
  ["static_cast<uint8_t>(300)", 44],
  ["static_cast<std::uint8_t>(300)", 44],
  ["(const uint8_t)(1 + 299)", 44],
  ["1 /* one */ + // and\n 2", 3],
  ["1 + \\\n 2", 3],
];

describe("operators", () => {
  it.each(values)("%s is %i", (expression, value) => {
    expect(element(expression)).toBe(String(value));
  });
});

/** [lines before, expression, value] */
const macros: [string, string, number][] = [
  ["#define ON 64", "ON", 64],
  ["#define ON 64\n#define FULL ON * 2", "FULL + 1", 129],
  ["#define A 1 + 1", "A * 2", 3],
  ["#define A (1 + 1)", "A * 2", 4],
  ["#define ROW(a, b) ((a) << 4 | (b))", "ROW(3, 1 + 1)", 50],
  ["#define TWICE(x) ((x) * 2)", "TWICE(TWICE(3))", 12],
  ["#define FIRST(a, b) a", "FIRST((1 + 2) * 3, 4)", 9],
  ["#define NINE() 9", "NINE()", 9],
  ["#define A B1\n#define B1 7", "A", 7],
  ["#define A 1\n#undef A\n#define A 2", "A", 2],
  ["#define A 1 // one\n#define B A /* and\n one */ + 1", "B", 2],
  ["#define A 1 + \\\n  2", "A", 3],
  ["#define A 1\r\n#define B \\\r\n  A", "B", 1],
  // Token art: C17 6.10.3 replaces tokens, whatever they make together.
  ["#define X )*2+1\n#define _ )*2\n#define s ((((0", "s X _ X X", 11],
];

describe("macros", () => {
  it.each(macros)("%s: %s", (before, expression, value) => {
    expect(element(expression, "host", before)).toBe(String(value));
  });
});

/** [lines before, expression, the reason in words] */
const unknown: [string, string, string][] = [
  ["#define NAME(a) #a", "NAME(1)", "a string is not a number"],
  ["#define GLUE(a, b) a##b", "GLUE(+, 2)", "`+2` is pasted, but is not one token"],
  ["", "sizeof(other)", "`other` is not defined in this file"],
  ["", "GLOW", "`GLOW` is not defined in this file"],
  ["", "1 + GLOW * 2", "`GLOW` is not defined in this file"],
  ["", "glow(1)", "`glow(…)` is not known in this file"],
  ["#define A A", "A", "`A` is not defined in this file"],
  ["#define A B\n#define B A", "A", "`A` is not defined in this file"],
  ["#define F(a, b) a", "F(1)", "`F` takes 2 arguments, not 1"],
  ["#define F() 1", "F(1)", "`F` takes 0 arguments, not 1"],
  ["#define NOTHING", "NOTHING", "the expression is not complete"],
  ["", "(1, 2)", "`(1, 2)` uses the comma operator"],
  ["", "1 +", "the expression is not complete"],
  ["", "1 2", "`2` is not expected here"],
  ["", "* 2", "`*` is not expected here"],
  ["", "1 ? 2", "the expression is not complete"],
  ["", "1.5", "`1.5` is not an integer"],
  ["", "08", "`08` is not an integer"],
  ["", "99999999999999999999", "`99999999999999999999` is not an integer"],
  ["", "'ab'", "'ab' is not a single character"],
  ["", "'a' + \"b\"", "a string is not a number"],
  ["", "1 / 0", "a division by zero"],
  ["", "1 % (2 - 2)", "a division by zero"],
  ["", "1 << 64", "a shift by more than the width is undefined"],
  ["", "1 << -1", "a shift by more than the width is undefined"],
  ["", "static_cast<Glow>(1)", "the type of a cast is not known"],
  ["", "nest::", "a name is missing after `::`"],
  ["", "nest::glow", "`glow` is not defined in this file"],
  ["", `${"(".repeat(200)}1${")".repeat(200)}`, "the expression nests too deep"],
  ["", `${"- ".repeat(200)}1`, "the expression nests too deep"],
  ["#ifdef DAY\n#define GLOW 9\n#endif", "GLOW", "`GLOW` depends on `#ifdef DAY`"],
];

describe("expressions whose value is not known, in words", () => {
  it.each(unknown)("%s: %s", (before, expression, why) => {
    expect(element(expression, "host", before)).toBe(why);
  });

  it("a shift as wide as int is undefined for the target in force only", () => {
    expect(element("1 << 20", "avr")).toBe("a shift by more than the width is undefined");
    expect(element("1 << 20", "host")).toBe("1048576");
  });

  it("macros that grow without end are given up", () => {
    const lines = Array.from({ length: 40 }, (_, i) => `#define M${i + 1} M${i} + M${i}`);
    expect(element("M40", "host", `#define M0 1\n${lines.join("\n")}`)).toBe("the expression is too long");
  });

  it("macros that nest without end are given up", () => {
    const lines = Array.from({ length: 150 }, (_, i) => `#define M${i + 1} M${i}`);
    expect(element("M150", "host", `#define M0 1\n${lines.join("\n")}`)).toBe("the macros nest too deep");
  });
});
