import { describe, expect, it } from "vitest";
import { openText } from "../../../shared/bitmap/open.ts";
import { checkFile, fixAll, RULES } from "../../../shared/checks/all.ts";
import { applyEdits } from "../../../shared/source/text.ts";
import { bytes, codesIn, findingsOf } from "./findings.ts";
import { describeClean, describeFindings } from "./tables.ts";

const turned = "{\n  1, 2, 3,\n  4, 5, 6,\n}";
const shape = (size: string, list = turned) => `// @bitmap ${size}\nconst uint8_t a[6] = ${list};`;

describeFindings("row-shape", "warning", [
  {
    what: "a picture on its side",
    source: shape("2x3"),
    says: "2 lines of 3 elements fit the turned size 3×2; a row of 2×3 takes 2.",
    on: "1, 2, 3",
    fixes: {
      "Change the annotation to 3x2": shape("3x2"),
      "Put one row of 2 pixels on each line": shape("2x3", "{\n  1, 2,\n  3, 4,\n  5, 6,\n}"),
      // 1 2 3 / 4 5 6, a quarter turn clockwise: 4 1 / 5 2 / 6 3; the other way: 3 6 / 2 5 / 1 4.
      "Turn the picture clockwise": shape("2x3", "{\n  4, 1,\n  5, 2,\n  6, 3,\n}"),
      "Turn the picture anticlockwise": shape("2x3", "{\n  3, 6,\n  2, 5,\n  1, 4,\n}"),
    },
  },
  {
    what: "inner lists of another width",
    source: "// @bitmap 2x3\nconst uint8_t a[2][3] = { { 1, 2, 3 }, { 4, 5, 6 } };",
    says: "2 lines of 3 elements fit the turned size 3×2",
    on: "1, 2, 3",
    fixes: { "Change the annotation to 3x2": "// @bitmap 3x2\nconst uint8_t a[2][3] = { { 1, 2, 3 }, { 4, 5, 6 } };" },
  },
  {
    what: "another width altogether",
    source: "// @bitmap 4x3\nconst uint8_t a[] = {\n  1, 2, 3, 4, 5, 6,\n  7, 8, 9, 10, 11, 12,\n};",
    says: "2 lines of 6 elements fit a width of 6; a row of 4×3 takes 4.",
    on: "1, 2, 3, 4, 5, 6",
    fixes: {
      "Change the annotation to 6x2":
        "// @bitmap 6x2\nconst uint8_t a[] = {\n  1, 2, 3, 4, 5, 6,\n  7, 8, 9, 10, 11, 12,\n};",
      "Put one row of 4 pixels on each line":
        "// @bitmap 4x3\nconst uint8_t a[] = {\n  1, 2, 3, 4,\n  5, 6, 7, 8,\n  9, 10, 11, 12,\n};",
    },
  },
  {
    what: "the size comes from a panel",
    source: `// @panel strip 2x3\n// @bitmap strip\nconst uint8_t a[6] = ${turned};`,
    says: "fit the turned size 3×2",
    on: "1, 2, 3",
    fixes: {
      "Change the annotation to 3x2": `// @panel strip 2x3\n// @bitmap strip 3x2\nconst uint8_t a[6] = ${turned};`,
      "Put one row of 2 pixels on each line":
        "// @panel strip 2x3\n// @bitmap strip\nconst uint8_t a[6] = {\n  1, 2,\n  3, 4,\n  5, 6,\n};",
      "Turn the picture clockwise":
        "// @panel strip 2x3\n// @bitmap strip\nconst uint8_t a[6] = {\n  4, 1,\n  5, 2,\n  6, 3,\n};",
      "Turn the picture anticlockwise":
        "// @panel strip 2x3\n// @bitmap strip\nconst uint8_t a[6] = {\n  3, 6,\n  2, 5,\n  1, 4,\n};",
    },
  },
  {
    what: "comments between elements keep their place",
    source: shape("2x3", "{\n  1, 2, 3, // top\n  4, 5, 6,\n}"),
    says: "2 lines of 3 elements",
    on: "1, 2, 3",
    fixes: { "Change the annotation to 3x2": shape("3x2", "{\n  1, 2, 3, // top\n  4, 5, 6,\n}") },
  },
]);

describeFindings("row-shape", "warning", [
  {
    // Two elements a pixel: lines of six are rows of three.
    what: "colours of two elements each",
    source: "// @bitmap 2x3 rgb565\nconst uint8_t a[] = {\n  1, 2, 3, 4, 5, 6,\n  7, 8, 9, 8, 7, 6,\n};",
    says: "2 lines of 6 elements fit the turned size 3×2; a row of 2×3 takes 4.",
    on: "1, 2, 3, 4, 5, 6",
    fixes: {
      "Change the annotation to 3x2":
        "// @bitmap 3x2 rgb565\nconst uint8_t a[] = {\n  1, 2, 3, 4, 5, 6,\n  7, 8, 9, 8, 7, 6,\n};",
      "Put one row of 2 pixels on each line":
        "// @bitmap 2x3 rgb565\nconst uint8_t a[] = {\n  1, 2, 3, 4,\n  5, 6, 7, 8,\n  9, 8, 7, 6,\n};",
      // As shown: 0102 0304 0506 over 0708 0908 0706.
      "Turn the picture clockwise":
        "// @bitmap 2x3 rgb565\nconst uint8_t a[] = {\n  7, 8, 1, 2,\n  9, 8, 3, 4,\n  7, 6, 5, 6,\n};",
      "Turn the picture anticlockwise":
        "// @bitmap 2x3 rgb565\nconst uint8_t a[] = {\n  5, 6, 7, 6,\n  3, 4, 9, 8,\n  1, 2, 7, 8,\n};",
    },
  },
]);

describeClean("row-shape", [
  ["a row of greys on a line", "// @bitmap 6x2 gray4\nconst uint8_t a[] = {\n  1, 2, 3,\n  4, 5, 6,\n};"],
  ["one row on a line", shape("3x2")],
  ["several rows on a line", shape("1x6")],
  ["half a row on a line", shape("6x1")],
  ["all on one line", shape("2x3", "{ 1, 2, 3, 4, 5, 6 }")],
  ["uneven lines", shape("2x3", "{\n  1, 2, 3,\n  4, 5,\n  6\n}")],
  [
    "lines of 8, as tools wrap them",
    `// @bitmap 12x2\nconst uint8_t a[] = {\n${"  1, 2, 3, 4, 5, 6, 7, 8,\n".repeat(3)}};`,
  ],
  ["another length", shape("2x2")],
  ["pages", "// @bitmap 2x24 mono1 pack=pages\nconst uint8_t a[] = {\n  1, 2, 3,\n  4, 5, 6,\n};"],
]);

describeFindings("uniform", "information", [
  {
    what: "one colour",
    source: "// @bitmap 2x1 rgb565\nconst uint16_t a[] = { 0xf800, 0xf800 };",
    says: "Every pixel of a is 0xF800 #ff0000.",
    on: "a",
  },
  {
    what: "one index",
    source:
      "// @palette rgb332\nconst uint8_t warm[] = { 0, 0xe0 };\n// @bitmap 2x1 palette4 palette=warm\nconst uint8_t a[] = { 0x11 };",
    says: "Every pixel of a is index 1 #ff0000.",
    on: "a",
  },
  { what: "all dark", source: bytes("2x1", "{ 0, 0 }"), says: "Every pixel of a is 0.", on: "a" },
  { what: "all frames", source: bytes("1x1 frames=2", "{ 7, 7 }"), says: "Every pixel of a is 7.", on: "a" },
]);

describeClean("uniform", [
  ["frames that differ", bytes("1x1 frames=2", "{ 7, 8 }")],
  ["a single pixel", bytes("1x1", "{ 7 }")],
  ["filled up by the compiler", bytes("2x1", "{ 0 }", "2")],
]);

describeFindings("unreadable", "warning", [
  {
    what: "a value",
    source: bytes("2x1", "{ 1, GLOW }"),
    says: "a can't be shown as a picture: `GLOW` is not defined in this file.",
    on: "GLOW",
  },
  { what: "a size", source: bytes("2x1", "{ 1, 2 }", "N"), says: "its size is not known", on: "a" },
  {
    what: "pixels that do not divide into the elements",
    source: "// @bitmap 1x1 rgb888\nconst uint16_t a[] = { 1 };",
    says: "pixels of 24 bits do not divide into elements of 16 bits",
    on: "a",
  },
]);

const misspelt = "// @bitmap 2x1 mono1 pakc=rows\nconst uint8_t a[] = { 0x80 };";

describeFindings("annotation", "error", [
  {
    what: "a misspelt word",
    source: bytes("2x1 cpa=9", "{ 1, 2 }"),
    says: "cpa",
    on: "cpa",
    fixes: { "Change to `cap`": bytes("2x1 cap=9", "{ 1, 2 }") },
  },
  {
    what: "nothing to stand on",
    source: "// @bitmap 2x1\nint x;",
    says: "stands before no list of numbers",
    on: "@bitmap",
  },
]);

describeFindings("unknown-panel", "error", [
  {
    what: "a misspelt panel",
    source: "// @panel lantern 2x1\n// @bitmap lanter\nconst uint8_t a[] = { 1, 2 };",
    says: "lanter",
    on: "lanter",
    fixes: { "Change to `lantern`": "// @panel lantern 2x1\n// @bitmap lantern\nconst uint8_t a[] = { 1, 2 };" },
  },
]);

describe("all fixes of one kind", () => {
  /** [code, kind, source, text afterwards; undefined where there is nothing to fix together] */
  const together: [string, string, string, string | undefined][] = [
    ["out-of-range", "clamp", bytes("3x1", "{ 300, 1, -1 }"), bytes("3x1", "{ 255, 1, 0 }")],
    ["out-of-range", "clamp", bytes("3x1", "{ 300, 1, 2 }"), undefined],
    ["out-of-range", "cut", bytes("3x1", "{ 300, 1, -1 }"), undefined],
    ["padding-bits", "clear", bytes("5x2 mono1", "{ 0xFA, 0x09 }"), bytes("5x2 mono1", "{ 0xF8, 0x08 }")],
    ["over-cap", "clamp", bytes("1x3 cap=9", "{ 10, 1, 11 }"), bytes("1x3 cap=9", "{ 9, 1, 9 }")],
    ["over-cap", "clamp-array", bytes("1x3 cap=9", "{ 10, 1, 11 }"), undefined],
    ["annotation", "spelling", `${misspelt}\n${misspelt}`, `${misspelt}\n${misspelt}`.replaceAll("pakc", "pack")],
  ];

  it.each(together)("%s by %s", (code, kind, source, after) => {
    const file = openText(source, "art.h");
    const fix = fixAll(file, checkFile(file), code as Parameters<typeof fixAll>[2], kind);
    expect(fix && applyEdits(source, fix.edits)).toBe(after);
    if (fix) expect(codesIn(applyEdits(source, fix.edits))).not.toContain(code);
  });
});

describe("the rules", () => {
  it("each code has one rule with a sentence for the docs", () => {
    const codes = RULES.flatMap((rule) => rule.codes);
    expect(new Set(codes).size).toBe(codes.length);
    for (const { doc } of RULES) expect(doc).toMatch(/^[A-Z].*\.$/);
  });

  it("findings come in the order of the text, and move with it", () => {
    const text = `${bytes("3x1", "{ 300, 1, -1 }")}\n${misspelt.replaceAll(" a[", " b[")}`;
    const first = openText(text, "art.h");
    const spans = checkFile(first).map((f) => f.span.start);
    expect(spans).toEqual([...spans].sort((a, b) => a - b));
    const moved = openText(`int x;\n${text}`, "art.h", { previous: first });
    expect(checkFile(moved).map((f) => f.span.start - 7)).toEqual(spans);
    expect(checkFile(moved).map((f) => f.code)).toEqual(["out-of-range", "out-of-range", "annotation"]);
  });

  it("an empty text has none", () => {
    expect(codesIn("")).toEqual([]);
    expect(findingsOf("const uint8_t a[] = { 300 };", "out-of-range")).toEqual([]);
  });
});
