import { readFileSync } from "node:fs";
import { afterAll, beforeAll, expect, test } from "vitest";
import { TextDocument } from "vscode-languageserver-textdocument";
import type { BitmapInfo, LspReply } from "../../shared/protocol/lsp.ts";
import type { LspClient } from "../support/lspClient.ts";
import { startClient } from "../support/lspClient.ts";

const GRID = readFileSync(new URL("../../sample-workspace/colour_grid.h", import.meta.url), "utf8");

let client: LspClient;
beforeAll(async () => {
  client = await startClient();
});
afterAll(() => client.stop());

let opened = 0;
async function document(text: string): Promise<{ uri: string; bitmap: (name: string) => BitmapInfo }> {
  const uri = `file:///garden/recolour${opened++}.h`;
  client.open(uri, text);
  const reply = await client.own("dotwright/bitmaps", { uri });
  if ("err" in reply) throw new Error(reply.err);
  const bitmap = (name: string) => reply.ok.bitmaps.find((b) => b.name === name) as BitmapInfo;
  return { uri, bitmap };
}

const after = (text: string, reply: LspReply<"dotwright/recolour">) => {
  if ("err" in reply) return reply.err;
  return TextDocument.applyEdits(TextDocument.create("", "cpp", 1, text), [...reply.ok.edits]);
};

test("a bitmap tells its palette's format and raw values, and which others it colours", async () => {
  const { bitmap } = await document(GRID);
  expect(bitmap("seedling")).toMatchObject({
    palette: "seedling_colours",
    colours: [0x000000, 0x006500, 0x4a4100, 0x7b5100],
    paletteArray: { format: "rgb565", values: [0x0000, 0x0320, 0x4a00, 0x7a80] },
  });
  expect(bitmap("seedling").paletteArray?.fixed).toBeUndefined();
  expect(bitmap("dawn").paletteArray).toBeUndefined();
});

test("changes only the number of the colour, in its own spelling", async () => {
  const { uri, bitmap } = await document(GRID);
  const { identity } = bitmap("seedling");
  const reply = await client.own("dotwright/recolour", {
    uri,
    version: 1,
    identity,
    index: 2,
    value: 0x11aa,
    before: 0x4a00,
  });
  expect(after(GRID, reply)).toBe(GRID.replace("0x4A00", "0x11AA"));
});

test("finds the palette again when the text has moved on, and refuses a colour that was changed meanwhile", async () => {
  const { uri, bitmap } = await document(GRID);
  const { identity } = bitmap("seedling");
  const start = { line: 0, character: 0 };
  const head = "// one more line\n";
  client.change(uri, 2, [{ range: { start, end: start }, text: head }]);
  const change = { uri, version: 1, identity, index: 2, value: 0x11aa };
  const reply = await client.own("dotwright/recolour", { ...change, before: 0x4a00 });
  expect(after(head + GRID, reply)).toBe((head + GRID).replace("0x4A00", "0x11AA"));
  expect(await client.own("dotwright/recolour", { ...change, before: 1 })).toEqual({
    err: "colour 2 of seedling_colours was changed meanwhile",
  });
  expect(await client.own("dotwright/recolour", { ...change, version: 9 })).toEqual({
    err: "version 9 has not arrived yet; the newest is 2",
  });
});

test("says why the numbers of a palette can’t be written", async () => {
  const text = `#define TWO 0x0000, 0x0320
// @palette rgb565
const uint16_t warm[] = { TWO };
// @bitmap 2x1 palette4 palette=warm
const uint8_t icon[] = { 0x01 };
// @bitmap 2x1 palette4 palette=warm
const uint8_t other[] = { 0x10 };
`;
  const { uri, bitmap } = await document(text);
  expect(bitmap("icon").paletteArray?.others).toEqual(["other"]);
  const { identity } = bitmap("icon");
  const reply = await client.own("dotwright/recolour", { uri, version: 1, identity, index: 1, value: 7 });
  expect(reply).toMatchObject({ err: expect.stringContaining("`TWO` makes several") });
  const gone = { ...identity, name: "gone" };
  expect(await client.own("dotwright/recolour", { uri, version: 1, identity: gone, index: 1, value: 7 })).toEqual({
    err: "gone is no longer there",
  });
});
