import { bytes } from "./findings.ts";
import { describeClean, describeFindings } from "./tables.ts";

const cap = (list: string, options = "3x1 cap=64") => bytes(options, list);

const colour = (list: string, options: string) => `// @bitmap 2x1 rgb565 ${options}\nconst uint16_t a[] = { ${list} };`;

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
      // L* 76.19 of 128/255 · L* 57.19 of 64/255, of 100: 43.57, which 35/255 gives. A dim pixel stays lit.
      "Scale a from 255 down to 64, evenly to the eye": cap("{ 0x23, 0x40, 0x01 }"),
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
      "Scale a from 99 down to 64, evenly to the eye": cap("{ 1, 2, 2, 3, 4, 64 }", "3x1 cap=64 frames=2"),
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
      // 129 · 50 % = 64.5, of which firmware keeps 64.
      "Clamp to 129": cap("{ 128, 129, 1 }", "3x1 cap=64 drive=50%"),
      "Clamp all of a to 129": cap("{ 128, 129, 1 }", "3x1 cap=64 drive=50%"),
      "Scale a from 130 down to 129": cap("{ 127, 129, 1 }", "3x1 cap=64 drive=50%"),
    },
  },
  {
    // 216 · 30 % = 64.8, 217 · 30 % = 65.1.
    what: "a drive that divides unevenly",
    source: cap("{ 217, 216, 1 }", "3x1 cap=64 drive=30%"),
    says: "Pixel 0,0 is 217 (driven at 65.1), over the cap of 64.",
    on: "217",
    fixes: {
      "Clamp to 216": cap("{ 216, 216, 1 }", "3x1 cap=64 drive=30%"),
      "Clamp all of a to 216": cap("{ 216, 216, 1 }", "3x1 cap=64 drive=30%"),
      "Scale a from 217 down to 216": cap("{ 216, 215, 1 }", "3x1 cap=64 drive=30%"),
    },
  },
  {
    // Channels of 31, 33 and 8 (of 31, 63, 31) are 255, 134 and 66 in eight bits; 129 is 31 · 255 / 63 = 125.5.
    what: "a channel of a colour",
    source: colour("0xFC28, 0x7BEF", "cap=128"),
    says: "Pixel 0,0 is #ff8642, a channel of 255, over the cap of 128.",
    on: "0xFC28",
    fixes: {
      // 15 of 31 is 123 and 16 would be 132; 31 of 63 is 125 and 32 would be 130.
      "Clamp to 128": colour("0x7BE8, 0x7BEF", "cap=128"),
      "Clamp all of a to 128": colour("0x7BE8, 0x7BEF", "cap=128"),
      // 255, 134, 66 by 128/255 are 128, 67, 33: 15 of 31 (16 is too much), 17 of 63, 4 of 31. 123, 125, 123: 62, 63, 62.
      "Scale a from 255 down to 128": colour("0x7A24, 0x4208", "cap=128"),
    },
  },
  {
    what: "colours of a palette: which of them to change is the user's choice",
    source: `// @palette rgb888\nconst uint32_t warm[] = { 0x101010, 0x00ff00 };\n${bytes("4x1 palette4 palette=warm cap=25%", "{ 0x01, 0x00 }")}`,
    says: "Pixel 1,0 is #00ff00, a channel of 255, over the cap of 63.",
    on: "0x01",
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
  // 255 · 25 % = 63.75, of which firmware keeps 63: full-scale art is within a cap of 25 %, which is 63.
  ["full scale driven at the cap's own share", cap("{ 255, 0, 1 }", "3x1 cap=25% drive=25%")],
  ["a colour within it", colour("0x4208, 0x0000", "cap=66")],
  ["driven below it", cap("{ 255, 0, 1 }", "3x1 cap=64 drive=25%")],
  ["the own cap over that of the panel", "// @panel p 1x1 cap=9\n// @bitmap p cap=99\nconst uint8_t a[] = { 65 };"],
]);
