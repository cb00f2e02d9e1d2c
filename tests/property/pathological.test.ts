import { expect, test } from "vitest";
import { editPixels } from "../../shared/bitmap/edit.ts";
import { openText } from "../../shared/bitmap/open.ts";
import { pixelsOf } from "../../shared/bitmap/resolve.ts";
import { checkFile, fixesOf } from "../../shared/checks/all.ts";

/** What a text gives: the codes of its findings, and how many of its bitmaps have a picture. */
function outcome(text: string): { codes: string[]; pictures: number } {
  const opened = openText(text, "art.cpp");
  const findings = checkFile(opened);
  for (const finding of findings) fixesOf(opened, finding);
  const pictures = opened.bitmaps.filter((b) => pixelsOf(b, 0) !== undefined).length;
  return { codes: [...new Set(findings.map((f) => f.code))].sort(), pictures };
}

const good = "\n// @bitmap 2x2\nconst uint8_t drop[4] = {1, 2, 3, 4};\n";
const many = (piece: string, count = 100_000) => piece.repeat(count);
const data = `const uint8_t big[] = {\n${many("0x00, 0x7E, 0xFF, 0x10,\n", 100)}};\n`;
const row = (count: number) => Array.from({ length: count }, (_, i) => i % 256).join(",");
const chain = Array.from({ length: 64 }, (_, i) => `#define A${i} A${i + 1} + A${i + 1}\n`).join("");
const calls = Array.from({ length: 64 }, (_, i) => `#define F${i}(x) F${i + 1}(x + x)\n`).join("");

/** Name, text, findings, pictures. A text that swallows what follows must say so or give nothing, never a wrong picture. */
const CASES: [string, string, string[], number][] = [
  ["a file of 5 MB", many(data, 2200) + good, [], 1],
  ["one line of 100,000 characters", `// @bitmap 200x200\nconst uint8_t wide[] = {${row(40_000)}};${good}`, [], 2],
  ["a line of 100,000 letters", `${many("x")};${good}`, [], 1],
  ["a comment of 100,000 stars", `/*${many("*")}*/${good}`, [], 1],
  [
    "an annotation of 100,000 words",
    `// @bitmap 2x2 ${many("zz ")}\nuint8_t a[4] = {1, 2, 3, 4};`,
    ["annotation", "unknown-panel"],
    1,
  ],
  ["an annotation at the end of the file", `${good}// @bitmap 3x3`, ["annotation"], 1],
  ["an open comment with an annotation at the end", `${good}/* @bitmap 3x3`, ["annotation"], 1],
  ["no elements", "// @bitmap 2x2\nconst uint8_t none[] = {};", ["length"], 1],
  ["no elements, sized", "// @bitmap 2x2\nconst uint8_t none[4] = {};", ["length"], 1],
  ["a size of zero", `// @bitmap 0x0\nuint8_t a[] = {1};${good}`, ["annotation"], 1],
  ["a size beyond all displays", `// @bitmap 1000000x1000000\nuint8_t a[] = {1};${good}`, ["annotation"], 1],
  ["too many frames", `// @bitmap 65535x65535 frames=16777216\nuint8_t a[] = {1};${good}`, ["annotation"], 1],
  ["more elements declared than memory", `// @bitmap 2x2\nuint8_t a[99999999999] = {1};${good}`, ["unreadable"], 1],
  ["unbalanced opening braces", `${good}${many("{", 1000)}`, [], 1],
  ["unbalanced closing braces", `${many("}", 1000)}${good}`, [], 1],
  [
    "100,000 parentheses in an element",
    `// @bitmap 1x1\nuint8_t a[] = {${many("(")}1${many(")")}};${good}`,
    ["unreadable"],
    1,
  ],
  ["100,000 open parentheses in an element", `// @bitmap 1x1\nuint8_t a[] = {${many("(")}`, ["unreadable"], 0],
  ["100,000 parentheses before an array", `int f${many("(")}${many(")")};${good}`, [], 1],
  ["100,000 brackets", `int f${many("[")}${many("]")};${good}`, [], 1],
  ["100,000 dimensions", `// @bitmap 1x1\nuint8_t a${many("[1]")} = {1};${good}`, ["annotation"], 1],
  ["100,000 nested lists", `// @bitmap 1x1\nuint8_t a[] = ${many("{")}1${many("}")};${good}`, ["unreadable"], 1],
  ["100,000 blocks", `void f() ${many("{")}${many("}")}${good}`, [], 1],
  ["100,000 minus signs", `// @bitmap 1x1\nuint8_t a[] = {${many("- ")}1};${good}`, ["unreadable"], 1],
  [
    "100,000 conditions in an element",
    `// @bitmap 1x1\nuint8_t a[] = {${many("1 ? 1 : ")}1};${good}`,
    ["unreadable"],
    1,
  ],
  ["10,000 #if", `${many("#if X\n", 10_000)}${good}`, [], 1],
  ["10,000 #if in a list", `// @bitmap 1x1\nuint8_t a[] = {\n${many("#if X\n", 10_000)}1};${good}`, ["unreadable"], 1],
  ["10,000 #if with #else and #endif", `${many("#if X\nint a;\n#else\nint b;\n#endif\n", 10_000)}${good}`, [], 1],
  ["10,000 definitions", `${Array.from({ length: 10_000 }, (_, i) => `#define N${i} ${i}\n`).join("")}${good}`, [], 1],
  [
    "10,000 definitions between elements",
    `// @bitmap 100x100 gray8\nuint8_t a[] = {\n${many("#define N 1\nN + 0,\n", 10_000)}};${good}`,
    ["uniform"],
    2,
  ],
  [
    "a macro that grows exponentially",
    `${chain}#define A64 1\n// @bitmap 1x1\nuint8_t a[] = {A0};${good}`,
    ["unreadable"],
    1,
  ],
  [
    "a macro with an argument that grows exponentially",
    `${calls}#define F64(x) x\n// @bitmap 1x1\nuint8_t a[] = {F0(1)};${good}`,
    ["unreadable"],
    1,
  ],
  ["a macro that names itself", `#define A A A\n// @bitmap 1x1\nuint8_t a[] = {A};${good}`, ["unreadable"], 1],
  ["an open string", `const char* s = "${many("x")}${good}`, ["unreadable"], 0],
  ["an open raw string", `const char* s = R"(${many("x")}${good}`, [], 0],
  ["100,000 string prefixes", `const char* s = ${many('R"( ')}`, [], 0],
  ["NUL bytes", `${many("\0")}${good}`, ["annotation"], 0],
  ["100,000 line continuations", `#define A ${many("\\\n")}1\n${good}`, [], 1],
  ["10,000 annotations", `${many("// @bitmap 2x2\n", 10_000)}uint8_t a[4] = {1, 2, 3, 4};`, ["annotation"], 1],
];

test.for(CASES)("%s", { timeout: 30_000 }, ([, text, codes, pictures]) => {
  expect(outcome(text)).toEqual({ codes, pictures });
});

/** Text that is never closed: whatever it gives, it is no picture of what is not there. */
const OPEN: [string, string][] = [
  ["100,000 open lists", many("a[] = {")],
  ["100,000 open ` = {`", many(" = {")],
  ["100,000 `={( `", many("={( ")],
  ["100,000 `={[ `", many("={[ ")],
  ["100,000 `int a[]={`", many("int a[]={")],
  ["100,000 `x={1,`", many("x={1,")],
  ["100,000 `enum {`", many("enum {")],
  ["100,000 `struct {`", many("struct s {")],
  ["100,000 `namespace {`", many("namespace n {")],
  ["100,000 `f(`", many("f(")],
  ["100,000 `/*`", many("/*")],
  ["100,000 `*/`", many("*/")],
  ['100,000 `"`', many('"')],
  ["100,000 `'`", many("'")],
  ["100,000 `#define`", many("#define A B\n")],
  ["100,000 `@bitmap`", `//${many(" @bitmap")}`],
  ["100,000 `=`", many("=")],
  ["100,000 `,`", `uint8_t a[] = {${many(",")}`],
  ["100,000 `[`", `uint8_t a[] = {${many("[")}`],
];

test.for(OPEN)("%s give no picture", { timeout: 30_000 }, ([, text]) => {
  const { codes, pictures } = outcome(text);
  expect(pictures).toBe(0);
  expect(codes.filter((code) => code !== "annotation" && code !== "unreadable")).toEqual([]);
});

test("one pixel of the largest picture is painted", { timeout: 30_000 }, () => {
  const text = `// @bitmap 1024x1024\nuint8_t a[] = {${many("0,", 1 << 20)}};`;
  const opened = openText(text, "art.cpp");
  const bitmap = opened.bitmaps[0];
  if (!bitmap) throw new Error("no bitmap was read");
  const at = text.indexOf("{") + 1 + 2 * ((1 << 20) - 1);
  expect(editPixels(text, bitmap, [{ frame: 0, x: 1023, y: 1023, value: 7 }])).toEqual({
    edits: [{ start: at, end: at + 1, text: "7" }],
  });
});
