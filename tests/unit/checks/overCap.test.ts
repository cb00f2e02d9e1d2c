import { bytes } from "./findings.ts";
import { describeClean, describeFindings } from "./tables.ts";

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
    // 213 · 30 % = 63.9, 214 · 30 % = 64.2.
    what: "a drive that divides unevenly",
    source: cap("{ 214, 213, 1 }", "3x1 cap=64 drive=30%"),
    says: "Pixel 0,0 is 214 (driven at 64.2), over the cap of 64.",
    on: "214",
    fixes: {
      "Clamp to 213": cap("{ 213, 213, 1 }", "3x1 cap=64 drive=30%"),
      "Clamp all of a to 213": cap("{ 213, 213, 1 }", "3x1 cap=64 drive=30%"),
      "Scale a from 214 down to 213": cap("{ 213, 212, 1 }", "3x1 cap=64 drive=30%"),
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
