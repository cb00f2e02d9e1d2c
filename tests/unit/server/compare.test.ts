/** The older version of a document, which is kept between requests, follows the panels and files around it. */
import { expect, test } from "vitest";
import { createDocuments, type Parsed } from "../../../server/documents.ts";
import { compared } from "../../../server/features/compare.ts";
import { createPanels } from "../../../server/panels.ts";
import { panelsIn } from "../../../shared/bitmap/panels.ts";
import { readSource } from "../../../shared/source/read.ts";

const ART = "file:///greenhouse/art.h";
const BOARD = "file:///greenhouse/board.h";
const VALUES = "file:///greenhouse/values.h";
const board = (size: string) =>
  panelsIn(readSource(`// @panel lantern ${size} gray8\n`, { target: "host" }), "board.h", BOARD);
const art = (last: number) =>
  `#include "values.h"\n// @bitmap lantern\nconst unsigned char drop[] = { LIT, 2, 3, ${last} };\n`;

test("both versions are seen with the same panel and the same headers", () => {
  const panels = createPanels(true);
  panels.set(BOARD, board("2x2"));
  let values = "#define LIT 10\n";
  const files = { shown: (uri: string) => uri, inside: () => true };
  const documents = createDocuments(() => ({ target: undefined }), {
    panels,
    files,
    unopened: (uri) => (uri === VALUES ? values : undefined),
  });
  documents.open({ uri: ART, languageId: "cpp", version: 1, text: art(5) });
  const shown = () => {
    const reply = compared(documents.parsed(ART) as Parsed, { uri: ART, before: art(4) });
    if ("err" in reply) throw new Error(reply.err);
    const { before, after } = reply.ok.shown ?? {};
    return [before, after].map((side) => [side?.bitmap.width, side?.bitmap.height, side?.frames[0]?.pixels[0]]);
  };
  const [first] = shown();
  expect(shown()).toEqual([first, first]);
  expect(first).toEqual([2, 2, 10]);
  panels.set(BOARD, board("4x1"));
  expect(shown()).toEqual([
    [4, 1, 10],
    [4, 1, 10],
  ]);
  values = "#define LIT 11\n";
  documents.arrived(VALUES);
  expect(shown()).toEqual([
    [4, 1, 11],
    [4, 1, 11],
  ]);
});
