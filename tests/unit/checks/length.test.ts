import { describe, expect, it } from "vitest";
import { readPictures } from "../../support/readPictures.ts";
import { bytes, findingsOf } from "./findings.ts";
import { describeClean, describeFindings } from "./tables.ts";

const six = "// @bitmap 3x2\n";

describeFindings("length", "error", [
  {
    what: "designators that go back: nothing is added behind the last of them",
    source: bytes("3x2", "{ [2] = 1, [0] = 2, 3, 4, [1] = 5, 6, [0] = 7, 8 }", ""),
    says: "a has 3 elements; 3×2 gray8 takes 6.",
    on: "}",
    fixes: { "Change the annotation to 3x1": bytes("3x1", "{ [2] = 1, [0] = 2, 3, 4, [1] = 5, 6, [0] = 7, 8 }", "") },
  },
  {
    what: "too many for the declared size",
    source: bytes("3x1", "{ 1, 2, 3, 4 }", "3"),
    says: "1 element of a has no room: it is declared with 3 and 4 are written.",
    on: "4",
    fixes: {
      "Remove the last 1 element": bytes("3x1", "{ 1, 2, 3 }", "3"),
    },
  },
  {
    what: "two frames where one is declared",
    source: bytes("2x1", "{ 1, 2, 3, 4 }", "2"),
    says: "2 elements of a have no room",
    on: "3, 4",
    fixes: {
      "Remove the last 2 elements": bytes("2x1", "{ 1, 2 }", "2"),
    },
  },
  {
    what: "too few, on lines",
    source: `${six}const uint8_t a[] = {\n  1, 2, 3,\n  4,\n};`,
    says: "a has 4 elements; 3×2 gray8 takes 6. The first pixel without an element is 1,1.",
    on: "}",
    fixes: { "Add 2 elements of 0": `${six}const uint8_t a[] = {\n  1, 2, 3,\n  4, 0, 0,\n};` },
  },
  {
    what: "a row too few, with a size in the way",
    source: bytes("3x2", "{ 1, 2, 3 }", "3"),
    says: "a has 3 elements; 3×2 gray8 takes 6. The first pixel without an element is 0,1.",
    on: "}",
    fixes: {
      "Add 3 elements of 0": bytes("3x2", "{ 1, 2, 3, 0, 0, 0 }", "6"),
      "Change the annotation to 3x1": bytes("3x1", "{ 1, 2, 3 }", "3"),
    },
  },
  {
    what: "a frame cut off",
    source: bytes("2x1 frames=3", "{ 1, 2, 3, 4, 5 }"),
    says: "That is not a whole number of frames: 2 and 1 element.",
    on: "}",
    fixes: { "Add 1 element of 0": bytes("2x1 frames=3", "{ 1, 2, 3, 4, 5, 0 }") },
  },
  {
    what: "a frame too few",
    source: bytes("2x1 frames=3", "{ 1, 2, 3, 4 }"),
    says: "a has 4 elements; 3 frames of 2×1 gray8 take 6. The first pixel without an element is 0,0 of frame 2. That is 2 whole frames.",
    on: "}",
    fixes: {
      "Add 2 elements of 0": bytes("2x1 frames=3", "{ 1, 2, 3, 4, 0, 0 }"),
      "Change the annotation to 2 frames": bytes("2x1 frames=2", "{ 1, 2, 3, 4 }"),
    },
  },
  {
    what: "two frames written, one declared and two annotated",
    source: bytes("2x1 frames=2", "{ 1, 2, 3, 4 }", "2"),
    says: "2 elements of a have no room",
    on: "3, 4",
    fixes: { "Change the declared size to 4": bytes("2x1 frames=2", "{ 1, 2, 3, 4 }", "4") },
  },
  {
    what: "in hexadecimal, with CR LF",
    source: "// @bitmap 8x3 mono1\r\nconst uint8_t a[] = {\r\n\t0x0F,\r\n\t0x10\r\n};",
    says: "a has 2 elements; 8×3 mono1 takes 3.",
    on: "}",
    fixes: {
      "Add 1 element of 0": "// @bitmap 8x3 mono1\r\nconst uint8_t a[] = {\r\n\t0x0F,\r\n\t0x10,\r\n\t0x00\r\n};",
      "Change the annotation to 8x2": "// @bitmap 8x2 mono1\r\nconst uint8_t a[] = {\r\n\t0x0F,\r\n\t0x10\r\n};",
    },
  },
  {
    what: "one pixel to an element",
    source: bytes("3x2 mono1", "{ 1, 0, 1, 0, 1, 0 }"),
    says: "a has 6 elements; 3×2 mono1 takes 2, so 4 are left over. With one pixel to an element (`pack=each`) the length is right.",
    on: "1, 0, 1, 0",
    severity: "warning",
    fixes: {
      "Remove the last 4 elements": bytes("3x2 mono1", "{ 1, 0 }"),
      "Change the annotation to 3 frames": bytes("3x2 mono1 frames=3", "{ 1, 0, 1, 0, 1, 0 }"),
      "Change the annotation to 3x6": bytes("3x6 mono1", "{ 1, 0, 1, 0, 1, 0 }"),
      "Change the annotation to one pixel per element": bytes("3x2 mono1 pack=each", "{ 1, 0, 1, 0, 1, 0 }"),
    },
    left: {
      "Remove the last 4 elements": ["padding-bits"],
      "Change the annotation to 3 frames": ["padding-bits", "padding-bits", "padding-bits"],
      "Change the annotation to 3x6": ["padding-bits", "padding-bits", "padding-bits"],
    },
  },
  {
    what: "too many, comments between them are kept",
    source: bytes("2x1", "{ 1, 2, /* three */ 3, }"),
    says: "a has 3 elements; 2×1 gray8 takes 2, so 1 is left over.",
    on: "3",
    severity: "warning",
    fixes: { "Remove the last 1 element": bytes("2x1", "{ 1, 2 /* three */ , }") },
  },
  {
    what: "declared larger than the bitmap",
    source: bytes("2x1", "{ 1, 2 }", "4"),
    says: "a is declared with 4 elements, but 2×1 gray8 takes 2 and 2 are written.",
    on: "4",
    severity: "warning",
    fixes: {
      "Change the declared size to 2": bytes("2x1", "{ 1, 2 }", "2"),
    },
  },
  {
    what: "the compiler fills up",
    source: bytes("3x1", "{ 1 }", "3"),
    says: "2 of 3 elements of a are not written; the compiler fills them with 0 (2 pixels, from 1,0 on).",
    on: "}",
    severity: "warning",
    fixes: { "Write the missing zeros out": bytes("3x1", "{ 1, 0, 0 }", "3") },
  },
  {
    what: "the compiler fills inner lists up",
    source: "// @bitmap 2x2\nconst uint8_t a[2][2] = { { 1 }, { 2, 3 } };",
    says: "1 of 4 elements of a are not written; the compiler fills them with 0 (1 pixel, from 1,0 on).",
    on: "}",
    severity: "warning",
    fixes: { "Write the missing zeros out": "// @bitmap 2x2\nconst uint8_t a[2][2] = { { 1, 0 }, { 2, 3 } };" },
  },
  ...["{}", "{ 0 }", "{ 0x00 }"].map((list) => ({
    what: `${list} asks for an empty picture`,
    source: bytes("2x1", list, "2"),
    says: "are not written",
    on: "}",
    severity: "information",
    fixes: {
      "Write the missing zeros out": bytes(
        "2x1",
        { "{}": "{0, 0}", "{ 0 }": "{ 0, 0 }", "{ 0x00 }": "{ 0x00, 0x00 }" }[list] ?? "",
        "2",
      ),
    },
  })),
]);

describeClean("length", [
  ["as many as it takes", bytes("2x1", "{ 1, 2 }")],
  ["as many as declared", bytes("2x1", "{ 1, 2 }", "2")],
  ["an unused bit", bytes("3x1 mono1", "{ 0x20 }")],
  ["skip and lead", bytes("1x1 skip=2 lead=1 frames=2", "{ 9, 9, 0, 1, 0, 2 }")],
  ["a list that is being typed", "// @bitmap 9x9\nconst uint8_t a[] = { 1, 2,"],
  ["a size that is not known", "// @bitmap 2x1\nconst uint8_t a[N] = { 1 };"],
  ["not annotated", "const uint8_t a[9] = { 1 };"],
]);

describe("numbers in a wide type, one pixel to each", () => {
  const source = (list: string) => `// @bitmap 9x9 gray8\nint n[81] = { ${list} };`;

  it.each([
    ["written in full", Array.from({ length: 81 }, (_, i) => i).join(", ")],
    ["and the rest left to the compiler", "1, 2, 3"],
  ])("%s: the first fix says so", (_what, list) => {
    const [finding] = findingsOf(source(list), "length");
    expect(finding?.fixes.map(({ title }) => title)[0]).toBe("Change the annotation to one pixel per element");
    expect(finding?.message).toContain("With one pixel to an element (`pack=each`) the length is right.");
    expect(readPictures(finding?.fixes[0]?.after ?? "").pictures[0]).toMatchObject({ width: 9, height: 9 });
  });
});
