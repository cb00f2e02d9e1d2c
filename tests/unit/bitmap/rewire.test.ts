/** A wiring that was found, written into the source: texts before and after. */
import { expect, test } from "vitest";
import { openText } from "../../../shared/bitmap/open.ts";
import { wireEdits } from "../../../shared/bitmap/wired/rewire.ts";
import { indexPanels } from "../../../shared/light/panelIndex.ts";
import { applyEdits } from "../../../shared/source/text.ts";

const ART = "// @bitmap sill\nconst uint8_t a[4] = {1, 2, 3, 4};\n";
const TABLE = "// @wiring sill\nconst uint8_t order[4] = {\n  0, 1,\n  2, 3,\n};\n";

function rewired(text: string, index: number[], wire?: string): string {
  const file = openText(text, "art.h");
  const made = wireEdits(file, file.bitmaps[0]?.panel, { index, wire });
  if ("refused" in made) return made.refused;
  const after = applyEdits(text, made.edits);
  // What is written is read as the wiring that was found.
  const { panels, wirings } = openText(after, "art.h");
  expect([...(panels[0]?.wiring?.index ?? [])]).toEqual(index);
  expect(wirings.problems).toEqual([]);
  return after;
}

test.each([
  [
    "a panel of whose wiring nothing is said",
    `// @panel sill 2x2 cap=64 -- on the sill\n${ART}`,
    [0, 1, 3, 2],
    "serpentine",
    `// @panel sill 2x2 cap=64 wire=serpentine -- on the sill\n${ART}`,
  ],
  [
    "other words",
    `// @panel sill 2x2 wire=top-right cap=64\n${ART}`,
    [0, 1, 3, 2],
    "serpentine",
    `// @panel sill 2x2 wire=serpentine cap=64\n${ART}`,
  ],
  [
    "no rule: a table, and no words that say otherwise",
    `// @panel sill 2x2 wire=columns cap=64\n\n${ART}`,
    [0, 3, 1, 2],
    undefined,
    `// @panel sill 2x2 cap=64\n\n// @wiring sill\nconst uint8_t sill_wiring[4] = {\n  0, 3,\n  1, 2\n};\n\n${ART}`,
  ],
  [
    "no rule, on a driver with more addresses",
    `// @panel sill 2x2 wire=3x3\n\n${ART}`,
    [8, 3, 1, 2],
    undefined,
    `// @panel sill 2x2 wire=3x3\n\n// @wiring sill\nconst uint8_t sill_wiring[4] = {\n  8, 3,\n  1, 2\n};\n\n${ART}`,
  ],
  [
    "a table that is there is put right",
    `// @panel sill 2x2\n${TABLE}${ART}`,
    [3, 2, 1, 0],
    "bottom-right",
    `// @panel sill 2x2\n${TABLE.replace("0, 1,\n  2, 3", "3, 2,\n  1, 0")}${ART}`,
  ],
])("%s", (_what, before, index, wire, after) => {
  expect(rewired(before, index, wire)).toBe(after);
});

test("is refused where it can't be written", () => {
  expect(rewired("// @bitmap 2x2\nconst uint8_t a[4] = {1, 2, 3, 4};\n", [0, 1, 2, 3])).toBe(
    "the bitmap names no panel",
  );
  const file = openText(`// @panel sill 2x2\n${ART}`, "art.h");
  const { panels } = file;
  const elsewhere = openText(ART, "other.h", { panels: indexPanels(panels) });
  expect(wireEdits(elsewhere, elsewhere.bitmaps[0]?.panel, { index: [0, 1, 2, 3] })).toEqual({
    refused: "sill is defined in another file: open that",
  });
  expect(rewired(`// @panel sill 2x2\n${ART}`, [0, 1, 2])).toBe("sill has 4 pixels now");
  expect(
    rewired(`// @panel sill 2x2\n${TABLE.replace("2, 3", "2")}${ART}`.replace("[4] = {\n", "[3] = {\n"), [0, 1, 2, 3]),
  ).toBe("order has 3 entries");
});
