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

describeClean("memory", [
  ["frames that differ", bytes("2x1 frames=2", "{ 1, 2,  2, 1 }")],
  ["glyphs that look alike", bytes('2x1 frames=3 chars="O0Q"', "{ 1, 2,  1, 2,  3, 4 }")],
  ["frames that are not drawn yet", bytes("2x1 frames=2", "{ 1, 2,  1, 2 }")],
  ["greys", bytes("2x1", "{ 0, 254 }")],
  ["full of its cap is not full", bytes("2x1 cap=64", "{ 0, 64 }")],
  ["one pixel, which takes a byte either way", bytes("1x2", "{ 0, 255 }")],
  ["what the compiler fills up", bytes("2x1 frames=3", "{ 1, 2, 1, 2 }", "6")],
]);
