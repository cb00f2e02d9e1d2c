import { expect, test } from "vitest";
import { readSource } from "../../../shared/source/read.ts";
import { usesOf } from "../../../shared/source/uses.ts";

/** The uses of the array `a` behind its declaration: kind and text of each. */
function uses(code: string, subscripts = 1): string[] {
  const text = `const unsigned char a[4] = { 1, 2, 3, 4 };\n${code}\n`;
  const source = readSource(text, { target: "avr" });
  const start = text.indexOf("a[4]");
  const wanted = { name: "a", subscripts, declared: { start, end: start + 1 } };
  return (usesOf(source, [wanted]).get(wanted) ?? []).map(
    ({ kind, span }) => `${kind} ${text.slice(span.start, span.end)}`,
  );
}

test.each<[string, string[]]>([
  ["int f(int i) { return a[i] + a [ i + 1 ]; }", ["element a[i]", "element a [ i + 1 ]"]],
  ["int f(int i) { return i & a[0] && a[a[i]]; }", ["element a[0]", "element a[a[i]]", "element a[i]"]],
  ["int f(int i) { if (i == a[1]) return a[2] == i; }", ["element a[1]", "element a[2]"]],
  ["int f() { return pgm_read_byte(&a[1]) + pgm_read_byte(a + 2); }", ["flash a[1]", "flash a"]],
  ["void f(void *to) { memcpy_P(to, a, 4); memcpy(to, a, 4); }", ["flash a", "other a"]],
  ["int n = sizeof(a) / sizeof a[0];", ["size a", "size a[0]"]],
  [
    "void f() { a[0] = 1; a[1] += 2; a[2]++; --a[3]; }",
    ["written a[0]", "written a[1]", "written a[2]", "written a[3]"],
  ],
  ["const unsigned char *p = a; void f() { draw(&a[1], a); }", ["other a", "other a[1]", "other a"]],
  ["extern const unsigned char a[4]; void f(unsigned char *a, int b[]);", ["other a[4]", "other a"]],
  ["#define FIRST a[0]\nint f() { return x.a[1] + p->a[2]; }", ["macro a[0]"]],
  ["// a[1]\nconst char *s = \"a[2]\"; int c = 'a'; /* a[3] */ int ab[2], ba;", []],
  ["const unsigned char *const all[2] = { a, a };", ["other a", "other a"]],
  ["int f() { return a[0", ["other a"]],
])("%s", (code, expected) => {
  expect(uses(code)).toEqual(expected);
});

test("an element of several dimensions takes as many subscripts", () => {
  expect(uses("int f(int y) { return a[y][1] + sum(a[y]); }", 2)).toEqual(["element a[y][1]", "other a[y]"]);
});
