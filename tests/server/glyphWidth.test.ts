/** `dotwright/glyphWidth` over stdio. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { TextDocument } from "vscode-languageserver-textdocument";
import type { LspClient } from "../support/lspClient.ts";
import { startClient } from "../support/lspClient.ts";

const URI = "file:///garden/numerals.h";
const TEXT = `#include <stdint.h>
static const uint8_t numeral_widths[2] = {4, 3};
// @bitmap 4x2 mono1 frames=2 chars="01" widths=numeral_widths
static const uint8_t numerals[] = {0xF0, 0x90, 0x40, 0xE0};
`;

let client: LspClient;
beforeAll(async () => {
  client = await startClient();
});
afterAll(() => client.stop());

test("a glyph gets another width in the array that holds the widths", async () => {
  client.open(URI, TEXT);
  const listed = await client.own("dotwright/bitmaps", { uri: URI });
  const bitmap = "ok" in listed ? listed.ok.bitmaps[0] : undefined;
  expect(bitmap).toMatchObject({ widths: [4, 3], characters: [48, 49] });
  if (!bitmap) return;
  const { identity } = bitmap;
  const changed = await client.own("dotwright/glyphWidth", { uri: URI, identity, frame: 1, width: 2 });
  if ("err" in changed) throw new Error(changed.err);
  const text = TextDocument.applyEdits(TextDocument.create(URI, "cpp", 1, TEXT), [...changed.ok.edits]);
  expect(text).toBe(TEXT.replace("{4, 3}", "{4, 2}"));
  expect(await client.own("dotwright/glyphWidth", { uri: URI, identity, frame: 1, width: 5 })).toEqual({
    err: "5 is no width of a glyph of numerals, which is 4 columns wide",
  });
  const gone = { ...identity, name: "letters" };
  expect(await client.own("dotwright/glyphWidth", { uri: URI, identity: gone, frame: 1, width: 2 })).toEqual({
    err: "letters is no longer there",
  });
});
