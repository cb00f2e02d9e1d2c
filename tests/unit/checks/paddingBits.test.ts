import { bytes } from "./findings.ts";
import { describeClean, describeFindings } from "./tables.ts";

const mono = (list: string, options = "5x2 mono1") => bytes(options, list);

describeFindings("padding-bits", "warning", [
  {
    what: "half a byte after a row of greys",
    source: bytes("3x1 gray4", "{ 0x12, 0x34 }"),
    says: "0x34 would be 0x30 without them.",
    on: "0x34",
    fixes: { "Clear the unused bits": bytes("3x1 gray4", "{ 0x12, 0x30 }") },
  },
  {
    what: "beside a colour in a wide element",
    source: "// @bitmap 2x1 rgb888\nconst uint32_t a[] = { 0xff102030, 0x010203 };",
    says: "0xFF102030 would be 0x00102030 without them.",
    on: "0xff102030",
    fixes: { "Clear the unused bits": "// @bitmap 2x1 rgb888\nconst uint32_t a[] = { 0x00102030, 0x010203 };" },
  },
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
  ["colours that fill their elements", "// @bitmap 2x1 rgb565\nconst uint16_t a[] = { 0xffff, 1 };"],
  ["a colour of several elements", bytes("1x1 rgb888", "{ 255, 255, 255 }")],
  ["none set", mono("{ 0xF8, 0x08 }")],
  ["no unused bits", bytes("8x1 mono1", "{ 0x0F }")],
  ["whole pixels", bytes("3x1", "{ 255, 1, 2 }")],
  ["elements before the pixels", mono("{ 0xFF, 0xF8, 0x08 }", "5x2 mono1 skip=1")],
]);
