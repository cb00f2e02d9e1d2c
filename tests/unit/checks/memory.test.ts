import { bytes } from "./findings.ts";
import { describeClean, describeFindings } from "./tables.ts";

describeFindings("memory", "information", [
  {
    what: "a frame that comes again",
    source: bytes("2x1 frames=3", "{ 1, 2,  3, 4,  1, 2 }"),
    says: "Frame 2 of a is the same as frame 0: 2 bytes could be saved",
    on: "a",
  },
  {
    what: "there and back",
    source: bytes("1x1 frames=4 fps=2", "{ 1, 2, 3, 2 }"),
    says: "Frame 3 of a is the same as frame 1: 1 byte could be saved",
    on: "a",
  },
  {
    what: "several frames",
    source: bytes("1x1 frames=5", "{ 1, 2, 1, 2, 3 }"),
    says: "2 of the 5 frames of a are the same as frames before them, such as 2 and 0: 2 bytes could be saved",
    on: "a",
  },
  {
    what: "greys that are only dark or full",
    source: bytes("9x2", `{ ${"0, ".repeat(17)}255 }`),
    says: "a uses only 0 and 255: `mono1` would take 4 bytes instead of 18.",
    on: "a",
  },
  {
    what: "nibbles that are only dark or full",
    source: bytes("8x1 gray4", "{ 0x00, 0xF0, 0x0F, 0xFF }"),
    says: "a uses only 0 and 15: `mono1` would take 1 byte instead of 4.",
    on: "a",
  },
]);

describeFindings("memory", "information", [
  {
    // 17 = 255 / 15
    what: "levels that four bits have too",
    source: bytes("4x1", "{ 0, 17, 255, 136 }"),
    says: "a uses only levels that gray4 has too: `gray4` would take 2 bytes instead of 4.",
    on: "a",
  },
  {
    // 85 = 255 / 3
    what: "levels that two bits have too",
    source: bytes("4x1", "{ 0, 85, 170, 255 }"),
    says: "`gray2` would take 1 byte instead of 4.",
    on: "a",
  },
  {
    // Kernel test vectors: F800 and FFE0 are full channels, which each format has.
    what: "colours that fewer bits have too",
    source: "// @bitmap 2x1 rgb565\nconst uint16_t a[] = { 0xF800, 0xFFE0 };",
    says: "`rgb332` would take 2 bytes instead of 4.",
    on: "a",
  },
  {
    what: "few colours, with the bytes of a palette",
    source: `// @bitmap 8x4 rgb565\nconst uint16_t a[] = { ${"0x1234, 0x4321, ".repeat(16)} };`,
    says: "a uses 2 colours: `palette1` would take 8 bytes with its palette instead of 64.",
    on: "a",
  },
]);

describeClean("memory", [
  ["frames that differ", bytes("2x1 frames=2", "{ 1, 2,  2, 1 }")],
  ["glyphs that look alike", bytes('2x1 frames=3 chars="O0Q"', "{ 1, 2,  1, 2,  3, 4 }")],
  ["frames that are not drawn yet", bytes("2x1 frames=2", "{ 1, 2,  1, 2 }")],
  ["colours that no smaller format has", "// @bitmap 2x1 rgb565\nconst uint16_t a[] = { 0x1234, 0x4321 };"],
  ["greys", bytes("2x1", "{ 0, 254 }")],
  ["full of its cap is not full", bytes("2x1 cap=64", "{ 0, 64 }")],
  ["one pixel, which takes a byte either way", bytes("1x2", "{ 0, 255 }")],
  ["what the compiler fills up", bytes("2x1 frames=3", "{ 1, 2, 1, 2 }", "6")],
]);
