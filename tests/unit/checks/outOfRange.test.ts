import { bytes } from "./findings.ts";
import { describeClean, describeFindings } from "./tables.ts";

const signed = (list: string) => `// @bitmap 2x1\nconst int8_t a[] = ${list};`;
const wide = (options: string, list: string) => `// @bitmap ${options}\nconst int16_t a[] = ${list};`;

const warm = (bitmap: string) => `// @palette rgb565\nconst uint16_t warm[] = { 0, 0xffff };\n${bitmap}`;

describeFindings("out-of-range", "error", [
  {
    what: "an index that the palette has no colour for",
    source: warm(bytes("4x1 palette2 palette=warm frames=2", "{ 0x44, 0x1b }")),
    says: "Pixel 2,0 in frame 1 is index 2, but the palette warm has 2 colours, from 0 to 1.",
    on: "0x1b",
  },
  {
    what: "an index that is written nowhere, as inverted pixels are",
    source: warm(bytes("2x1 palette8 palette=warm invert", "{ 255 }", "2")),
    says: "Pixel 1,0 is index 255",
    on: "a",
  },
  {
    what: "an index above its format",
    source: "// @bitmap 2x1 palette4 pack=each\nconst uint8_t a[] = { 16, 3 };",
    says: "16 is outside 0 to 15, what palette4 holds.",
    on: "16",
    fixes: { "Clamp to 15": "// @bitmap 2x1 palette4 pack=each\nconst uint8_t a[] = { 15, 3 };" },
  },
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
  ["indices of the palette", warm(bytes("4x1 palette2 palette=warm", "{ 0x44 }"))],
  ["indices without a palette", bytes("4x1 palette2", "{ 0x1b }")],
  ["bits beside a colour", "// @bitmap 1x1 rgb888\nconst uint32_t a[] = { 0xff102030 };"],
  ["the highest and the lowest", bytes("2x1", "{ 255, 0 }")],
  ["bits in a signed element", "// @bitmap 8x2 mono1\nconst int8_t a[] = { 0xFF, 0b10000000 };"],
  ["any value but 0 is lit", bytes("2x1 mono1 pack=each", "{ 200, 0 }")],
  ["elements that are skipped", wide("1x1 pack=each skip=1", "{ 300, 2 }")],
  ["values that are not known", bytes("2x1", "{ GLOW, 300 }")],
]);
