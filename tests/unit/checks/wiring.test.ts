import { describe, expect, it } from "vitest";
import { findingsOf } from "./findings.ts";
import { describeClean, describeFindings } from "./tables.ts";

const ART = "// @bitmap sill\nconst uint8_t a[4] = {1, 2, 3, 4};\n";
const panel = (wire: string, size = "2x2") => `// @panel sill ${size} wire=${wire}\n`;
const table = (list: string, size = "4", type = "uint8_t") =>
  `// @wiring sill\nconst ${type} order[${size}] = {${list}};\n`;

describeFindings("wiring", "error", [
  {
    what: "a part that is misspelt",
    source: panel("serpentin;top-left") + ART,
    says: "`serpentin` is no part of `wire`",
    on: "serpentin",
    fixes: { "Change to `serpentine`": panel("serpentine;top-left") + ART },
  },
  {
    what: "a second order",
    source: panel("rows;bottom-left;columns") + ART,
    says: "`wire` has an order already: rows.",
    on: "columns",
    fixes: { "Remove `columns`": panel("rows;bottom-left") + ART },
  },
  {
    what: "an empty part",
    source: panel("rows;;bottom-left") + ART,
    says: "A part of `wire` is empty",
    on: ";",
    fixes: { "Remove `;`": panel("rows;bottom-left") + ART },
  },
  {
    what: "a turn that there is not, at the turn itself",
    source: panel("2x2@0,0>0,0/45") + ART,
    says: "`45` is no turn of a block",
    on: "45",
  },
  { what: "half a block", source: panel("2x2@0,0") + ART, says: "`2x2@0,0` is no block", on: "2x2@0,0" },
  {
    what: "a block past the panel",
    source: panel("rows;2x1@0,0>0,0;2x2@0,1>0,1") + ART,
    says: "goes past the panel of 2×2: 2 pixels are outside, the first 0,2.",
    on: "2x2@0,1>0,1",
  },
  {
    what: "pixels in no block",
    source: panel("2x1@0,0>0,0") + ART,
    says: "2 pixels of the panel are in no block, the first 0,1.",
    on: "2x1@0,0>0,0",
    fixes: { "Add the block `2x1@0,1>0,1`": panel("2x1@0,0>0,0;2x1@0,1>0,1") + ART },
  },
  {
    what: "a driver without room",
    source: panel("1x2") + ART,
    says: "has no room for the panel of 2×2",
    on: "1x2",
  },
  {
    what: "a table too short",
    source: `// @panel sill 2x2\n${table("0, 1, 2", "")}${ART}`,
    says: "order has 3 entries; sill has 4 pixels",
    on: "order",
  },
  {
    what: "a table too short, where `wire=` says what it is to be",
    source: `${panel("serpentine")}${table("0, 1, 2", "3")}${ART}`,
    says: "order has 3 entries",
    on: "order",
    fixes: {
      "Write the table from `wire=`": `${panel("serpentine")}${table("\n  0, 1,\n  3, 2\n", "4")}${ART}`,
    },
  },
  {
    what: "an address outside the canvas",
    source: `// @panel sill 2x2\n${table("0, 1, 2, 4")}${ART}`,
    says: "Entry 3 (pixel 1,1) is 4, outside the driver's canvas of 2×2",
    on: "4",
    fixes: {
      "Change it to 3, the one address that no other entry has": `// @panel sill 2x2\n${table("0, 1, 2, 3")}${ART}`,
    },
  },
  {
    what: "a negative address",
    source: `// @panel sill 2x2\n${table("0, 1, -2, 3", "4", "int8_t")}${ART}`,
    says: "Entry 2 (pixel 0,1) is -2, outside",
    on: "-2",
    fixes: {
      "Change it to 2, the one address that no other entry has": `// @panel sill 2x2\n${table("0, 1, 2, 3", "4", "int8_t")}${ART}`,
    },
  },
  {
    what: "an address given twice",
    source: `// @panel sill 2x2 wire=8x2\n${table("0, 9, 2, 9")}${ART}`,
    says: "Entry 3 (pixel 1,1) is 9, as entry 1 (pixel 1,0) is already.",
    on: "9",
  },
  {
    what: "a table that says otherwise than `wire=`",
    source: `${panel("serpentine")}${table("0, 1, 2, 3")}${ART}`,
    severity: "warning",
    says: "Entry 2 (pixel 0,1) is 2, but `wire=` gives 3 (2 of 4 entries differ).",
    on: "2",
    fixes: {
      "Write the table from `wire=`": `${panel("serpentine")}${table("0, 1, 3, 2")}${ART}`,
      "Change `wire=` to `rows`": `${panel("rows")}${table("0, 1, 2, 3")}${ART}`,
    },
  },
  {
    what: "a second table",
    source: `// @panel sill 2x2\n${table("0, 1, 2, 3")}${table("0, 1, 3, 2").replace("order", "again")}${ART}`,
    says: "sill has its wiring in order already",
    on: "@wiring",
  },
  {
    what: "a table whose values are not known",
    source: `// @panel sill 2x2\n${table("0, 1, 2, LAST")}${ART}`,
    says: "The wiring of sill is not known: ",
    on: "order",
  },
  {
    what: "the driver's order, of which nothing is said",
    source: `// @panel sill 2x2\n${ART.replace("sill", "sill order=driver")}`,
    severity: "warning",
    says: "Nothing is said of the wiring of sill",
    on: "order=driver",
  },
]);

describeClean("wiring", [
  ["no wiring", `// @panel sill 2x2\n${ART}`],
  ["a canvas alone, beside a table", `// @panel sill 2x2 wire=9x1\n${table("0, 8, 3, 5")}${ART}`],
  ["a table as `wire=` says", `${panel("serpentine;top-right")}${table("1, 0, 2, 3")}${ART}`],
  ["modules in a chain", `${panel("4x2;2x2@0,0>0,0;2x2@0,2>2,0/180", "2x4")}`],
  ["a table of a panel that is not known", `${table("0, 1, 2, 3")}${ART}`],
]);

describe("a table with many faults", () => {
  it("gives 50 findings at most", () => {
    const list = Array.from({ length: 81 }, () => 7).join(", ");
    const found = findingsOf(`// @panel sill 9x9\n${table(list, "81")}`, "wiring");
    expect(found.length).toBe(50);
    expect(found.map((f) => f.message).join()).toContain("(And 30 more here.)");
  });
});

describe("the words of `wire=`", () => {
  it.each([
    ["0x4", "A canvas has sides of 1 to 65535"],
    ["4x4;5x5", "`wire` has a canvas already: 4x4."],
    ["top-left;top-left", "`wire` has a corner already: top-left."],
    ["0x2@0,0>0,0", "A block has at least one pixel."],
    ["rows;", "A part of `wire` is empty"],
    ["zigzag", "`zigzag` is no part of `wire`"],
  ])("wire=%s", (wire, says) => {
    expect(findingsOf(panel(wire), "wiring")[0]?.message).toContain(says);
  });
});
