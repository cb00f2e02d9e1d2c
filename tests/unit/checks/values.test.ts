import { describe, expect, it } from "vitest";
import { bytes, findingsOf } from "./findings.ts";
import { describeClean, describeFindings } from "./tables.ts";

const signed = (list: string) => `// @bitmap 2x1\nconst int8_t a[] = ${list};`;
const wide = (options: string, list: string) => `// @bitmap ${options}\nconst int16_t a[] = ${list};`;

describeFindings("out-of-range", "error", [
  {
    what: "above a byte",
    source: bytes("2x1", "{ 300, 2 }"),
    says: "300 is outside 0 to 255, what an unsigned 8-bit element holds; the compiler stores 44 or refuses it.",
    on: "300",
    fixes: { "Clamp to 255": bytes("2x1", "{ 255, 2 }") },
  },
  {
    what: "wraps to the clamped value",
    source: bytes("2x1", "{ 511, 2 }"),
    says: "511 is outside 0 to 255",
    on: "511",
    fixes: { "Clamp to 255": bytes("2x1", "{ 255, 2 }") },
  },
  {
    what: "below a byte",
    source: bytes("2x1", "{ -3, 2 }"),
    says: "-3 is outside 0 to 255",
    on: "-3",
    fixes: { "Clamp to 0": bytes("2x1", "{ 0, 2 }") },
  },
  {
    what: "in hexadecimal",
    source: bytes("2x1", "{ 0x1ff, 0x0f }"),
    says: "511 is outside 0 to 255",
    on: "0x1ff",
    fixes: { "Clamp to 255": bytes("2x1", "{ 0x0ff, 0x0f }") },
  },
  {
    what: "in binary",
    source: bytes("2x1", "{ 0b101010101, 1 }"),
    says: "341 is outside 0 to 255",
    on: "0b101010101",
    fixes: { "Clamp to 255": bytes("2x1", "{ 0b011111111, 1 }") },
  },
  {
    what: "an expression",
    source: bytes("2x1", "{ 100 * 3, 7 }"),
    says: "300 is outside 0 to 255",
    on: "100 * 3",
    fixes: { "Clamp to 255": bytes("2x1", "{ 255, 7 }") },
  },
  {
    what: "above a grey in a wider element",
    source: wide("2x1 pack=each", "{ 300, 2 }"),
    says: "300 is outside 0 to 255, what gray8 holds.",
    on: "300",
    fixes: { "Clamp to 255": wide("2x1 pack=each", "{ 255, 2 }") },
  },
  {
    what: "below one in a signed element",
    source: wide("2x1 pack=each", "{ -1, 2 }"),
    says: "-1 is outside 0 to 255, what gray8 holds.",
    on: "-1",
    fixes: { "Clamp to 0": wide("2x1 pack=each", "{ 0, 2 }") },
  },
  {
    what: "a decimal beyond a signed element",
    source: signed("{ 200, 2 }"),
    says: "200 is outside -128 to 127",
    on: "200",
    fixes: { "Clamp to 127": signed("{ 127, 2 }") },
  },
  {
    what: "more than 0 and 1 in a bool",
    source: "// @bitmap 2x1 mono1 pack=each\nconst bool a[] = { 2, 0 };",
    says: "2 is outside 0 to 1, what a bool holds",
    on: "2",
    fixes: { "Clamp to 1": "// @bitmap 2x1 mono1 pack=each\nconst bool a[] = { 1, 0 };" },
  },
  {
    what: "64 bits",
    source: bytes("2x1", "{ 0xFFFFFFFFFFFFFFFFull, 2 }"),
    says: "18446744073709551615 is outside 0 to 255",
    on: "0xFFFFFFFFFFFFFFFFull",
    fixes: { "Clamp to 255": bytes("2x1", "{ 0x00000000000000FFull, 2 }") },
  },
]);

describeClean("out-of-range", [
  ["the highest and the lowest", bytes("2x1", "{ 255, 0 }")],
  ["bits in a signed element", "// @bitmap 8x2 mono1\nconst int8_t a[] = { 0xFF, 0b10000000 };"],
  ["any value but 0 is lit", bytes("2x1 mono1 pack=each", "{ 200, 0 }")],
  ["elements that are skipped", wide("1x1 pack=each skip=1", "{ 300, 2 }")],
  ["values that are not known", bytes("2x1", "{ GLOW, 300 }")],
]);

const cap = (list: string, options = "3x1 cap=64") => bytes(options, list);

describeFindings("over-cap", "warning", [
  {
    what: "one pixel",
    source: cap("{ 7, 65, 64 }"),
    says: "Pixel 1,0 is 65, over the cap of 64.",
    on: "65",
    fixes: {
      "Clamp to 64": cap("{ 7, 64, 64 }"),
      "Clamp all of a to 64": cap("{ 7, 64, 64 }"),
      "Scale a from 65 down to 64": cap("{ 7, 64, 63 }"),
    },
  },
  {
    what: "a run on a line",
    source: cap("{ 0x80, 0xFF, 0x01 }"),
    says: "2 pixels from 0,0 reach 255, over the cap of 64.",
    on: "0x80, 0xFF",
    fixes: {
      "Clamp to 64": cap("{ 0x40, 0x40, 0x01 }"),
      "Clamp all of a to 64": cap("{ 0x40, 0x40, 0x01 }"),
      // round(128 * 64 / 255) = 32, round(1 * 64 / 255) = 0
      "Scale a from 255 down to 64": cap("{ 0x20, 0x40, 0x00 }"),
    },
  },
  {
    what: "a run over two source lines stands on its first pixel",
    source: cap("{ 65,\n 66, 1 }"),
    says: "2 pixels from 0,0 reach 66",
    on: "65",
    fixes: {
      "Clamp to 64": cap("{ 64,\n 64, 1 }"),
      "Clamp all of a to 64": cap("{ 64,\n 64, 1 }"),
      "Scale a from 66 down to 64": cap("{ 63,\n 64, 1 }"),
    },
  },
  {
    what: "in a frame",
    source: cap("{ 1, 2, 3, 4, 5, 99 }", "3x1 cap=64 frames=2"),
    says: "Pixel 2,0 in frame 1 is 99, over the cap of 64.",
    on: "99",
    fixes: {
      "Clamp to 64": cap("{ 1, 2, 3, 4, 5, 64 }", "3x1 cap=64 frames=2"),
      "Clamp all of a to 64": cap("{ 1, 2, 3, 4, 5, 64 }", "3x1 cap=64 frames=2"),
      // round(v * 64 / 99)
      "Scale a from 99 down to 64": cap("{ 1, 1, 2, 3, 3, 64 }", "3x1 cap=64 frames=2"),
    },
  },
  {
    what: "a share of full scale, rounded down",
    source: cap("{ 63, 64, 1 }", "3x1 cap=25%"),
    says: "Pixel 1,0 is 64, over the cap of 63.",
    on: "64",
    fixes: {
      "Clamp to 63": cap("{ 63, 63, 1 }", "3x1 cap=25%"),
      "Clamp all of a to 63": cap("{ 63, 63, 1 }", "3x1 cap=25%"),
      "Scale a from 64 down to 63": cap("{ 62, 63, 1 }", "3x1 cap=25%"),
    },
  },
  {
    what: "what the firmware drives",
    source: cap("{ 128, 130, 1 }", "3x1 cap=64 drive=50%"),
    says: "Pixel 1,0 is 130 (driven at 65), over the cap of 64.",
    on: "130",
    fixes: {
      "Clamp to 128": cap("{ 128, 128, 1 }", "3x1 cap=64 drive=50%"),
      "Clamp all of a to 128": cap("{ 128, 128, 1 }", "3x1 cap=64 drive=50%"),
      "Scale a from 130 down to 128": cap("{ 126, 128, 1 }", "3x1 cap=64 drive=50%"),
    },
  },
  {
    what: "the cap of the panel",
    source: "// @panel lantern 2x1 cap=64\n// @bitmap lantern\nconst uint8_t a[] = { 65, 1 };",
    says: "Pixel 0,0 is 65, over the cap of 64.",
    on: "65",
    fixes: {
      "Clamp to 64": "// @panel lantern 2x1 cap=64\n// @bitmap lantern\nconst uint8_t a[] = { 64, 1 };",
      "Clamp all of a to 64": "// @panel lantern 2x1 cap=64\n// @bitmap lantern\nconst uint8_t a[] = { 64, 1 };",
      "Scale a from 65 down to 64": "// @panel lantern 2x1 cap=64\n// @bitmap lantern\nconst uint8_t a[] = { 64, 1 };",
    },
  },
]);

describeClean("over-cap", [
  ["at the cap", cap("{ 64, 0, 1 }")],
  ["no cap", bytes("3x1", "{ 255, 0, 1 }")],
  ["driven below it", cap("{ 255, 0, 1 }", "3x1 cap=64 drive=25%")],
  ["the own cap over that of the panel", "// @panel p 1x1 cap=9\n// @bitmap p cap=99\nconst uint8_t a[] = { 65 };"],
]);

const mono = (list: string, options = "5x2 mono1") => bytes(options, list);

describeFindings("padding-bits", "warning", [
  {
    what: "after the pixels of a row",
    source: mono("{ 0xFA, 0x08 }"),
    says: "Bits outside the 5×2 picture are set: 0xFA would be 0xF8 without them.",
    on: "0xFA",
    fixes: { "Clear the unused bits": mono("{ 0xF8, 0x08 }") },
  },
  {
    what: "before the pixels of a row",
    source: mono("{ 0x1F, 0xE3 }", "5x2 mono1 spare=first"),
    says: "0xE3 would be 0x03 without them.",
    on: "0xE3",
    fixes: { "Clear the unused bits": mono("{ 0x1F, 0x03 }", "5x2 mono1 spare=first") },
  },
  {
    what: "under the last rows of a page",
    source: mono("{ 0x1F, 0x3F }", "2x5 mono1 pack=pages"),
    says: "0x3F would be 0x1F without them.",
    on: "0x3F",
    fixes: { "Clear the unused bits": mono("{ 0x1F, 0x1F }", "2x5 mono1 pack=pages") },
  },
  {
    what: "at the end of a frame",
    source: mono("{ 0xFF, 0x80, 0xF0, 0xC0 }", "3x3 mono1 frames=2 pad=frame"),
    says: "0xC0 would be 0x80 without them.",
    on: "0xC0",
    fixes: { "Clear the unused bits": mono("{ 0xFF, 0x80, 0xF0, 0x80 }", "3x3 mono1 frames=2 pad=frame") },
  },
  {
    what: "at the end of all",
    source: mono("{ 0xAA, 0xC1 }", "3x3 mono1 pad=none"),
    says: "0xC1 would be 0x80 without them.",
    on: "0xC1",
    fixes: { "Clear the unused bits": mono("{ 0xAA, 0x80 }", "3x3 mono1 pad=none") },
  },
  {
    what: "in a wide element",
    source: "// @bitmap 12x1 mono1\nconst uint16_t a[] = { 0x8001 };",
    says: "0x8001 would be 0x8000 without them.",
    on: "0x8001",
    fixes: { "Clear the unused bits": "// @bitmap 12x1 mono1\nconst uint16_t a[] = { 0x8000 };" },
  },
]);

describeClean("padding-bits", [
  ["none set", mono("{ 0xF8, 0x08 }")],
  ["no unused bits", bytes("8x1 mono1", "{ 0x0F }")],
  ["whole pixels", bytes("3x1", "{ 255, 1, 2 }")],
  ["elements before the pixels", mono("{ 0xFF, 0xF8, 0x08 }", "5x2 mono1 skip=1")],
]);

describe("many findings in one array", () => {
  it("the fiftieth says how many more there are", () => {
    const findings = findingsOf(bytes("60x1", `{ ${Array(60).fill("300").join(", ")} }`), "out-of-range");
    expect(findings).toHaveLength(50);
    expect(findings[49]?.message).toMatch(/\(And 10 more in this array\.\)$/);
    expect(findings[48]?.message).not.toContain("more");
  });

  it("over the cap, one for each run", () => {
    const findings = findingsOf(bytes("2x60 cap=9", `{ ${Array(60).fill("10, 1").join(", ")} }`), "over-cap");
    expect(findings).toHaveLength(50);
    expect(findings[49]?.message).toContain("(And 10 more in this array.)");
  });
});
