/** Conversions through the server: offered at the name and the annotation, worked out when chosen, applied. */
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { CodeAction, TextEdit } from "vscode-languageserver/node";
import { TextDocument } from "vscode-languageserver-textdocument";
import type { LspClient } from "../support/lspClient.ts";
import { FULL, startClient } from "../support/lspClient.ts";

let client: LspClient;
let plain: LspClient;
beforeAll(async () => {
  [client, plain] = await Promise.all([startClient({ capabilities: FULL }), startClient({ capabilities: {} })]);
});
afterAll(async () => {
  await Promise.all([client.stop(), plain.stop()]);
});

const TEXT = "// @bitmap 2x1 cap=64\nconst uint8_t drop[2] PROGMEM = {\n  17, 64,\n};\n";
const REWRITE = "refactor.rewrite.dotwright";

let opened = 0;
/** The actions at the `|` of a text, of the kinds asked for. */
async function actions(marked: string, only: string[] | undefined = [REWRITE], at = client) {
  const offset = marked.indexOf("|");
  const text = marked.replace("|", "");
  const uri = `untitled:converting${opened++}`;
  at.open(uri, text);
  const doc = TextDocument.create(uri, "cpp", 1, text);
  const position = doc.positionAt(offset);
  const context = { diagnostics: [], ...(only ? { only } : {}) };
  const params = { textDocument: { uri }, range: { start: position, end: position }, context };
  const found: CodeAction[] = await at.request({ method: "textDocument/codeAction" }, params);
  return { found, doc, uri };
}

async function chosen(action: CodeAction | undefined, doc: TextDocument): Promise<string | undefined> {
  if (!action) throw new Error("no such action");
  const resolved: CodeAction = await client.request({ method: "codeAction/resolve" }, action);
  const [change] = resolved.edit?.documentChanges ?? [];
  return change && "edits" in change ? TextDocument.applyEdits(doc, change.edits as TextEdit[]) : undefined;
}

const titled = (found: readonly CodeAction[], title: string) => found.find((a) => a.title.startsWith(title));

describe("conversions", () => {
  test.each([
    ["the name", TEXT.replace("drop", "dr|op")],
    ["the annotation", TEXT.replace("@bitmap", "@bit|map")],
    ["the element type", TEXT.replace("uint8_t", "uint|8_t")],
  ])("are offered at %s without an edit, and worked out when one is chosen", async (_, marked) => {
    const { found, doc } = await actions(marked);
    expect(found.map((a) => a.edit)).toEqual(found.map(() => undefined));
    const grey = titled(found, "Convert to gray4");
    expect(grey).toMatchObject({
      title: "Convert to gray4: 1 of 2 pixels takes another level",
      kind: `${REWRITE}.format`,
    });
    expect(await chosen(grey, doc)).toBe(
      "// @bitmap 2x1 gray4 cap=3\nconst uint8_t drop[1] PROGMEM = {\n  0x13,\n};\n",
    );
    expect(await chosen(titled(found, "Turn clockwise"), doc)).toBe(
      "// @bitmap 1x2 cap=64\nconst uint8_t drop[2] PROGMEM = {\n  17,\n  64,\n};\n",
    );
  });

  test("are grouped by kinds of their own, all of them rewriting refactorings", async () => {
    const { found } = await actions(TEXT.replace("drop", "dr|op"), [`${REWRITE}.orientation`]);
    expect(found.map((a) => a.title)).toEqual([
      "Turn clockwise",
      "Turn anticlockwise",
      "Turn half round",
      "Mirror left to right",
      "Mirror top to bottom",
    ]);
    const all = await actions(TEXT.replace("drop", "dr|op"), ["refactor.rewrite"]);
    expect(new Set(all.found.map((a) => a.kind))).toEqual(
      new Set(["format", "packing", "orientation", "literals"].map((kind) => `${REWRITE}.${kind}`)),
    );
    expect(client.initialized.capabilities.codeActionProvider).toMatchObject({
      codeActionKinds: expect.arrayContaining([REWRITE]),
    });
  });

  test("come with their edits for a client that can't ask later", async () => {
    const { found, doc, uri } = await actions(TEXT.replace("drop", "dr|op"), [REWRITE], plain);
    const edits = titled(found, "Convert to gray4")?.edit?.changes?.[uri] ?? [];
    expect(TextDocument.applyEdits(doc, edits)).toContain("drop[1]");
    expect(found.every((a) => a.edit !== undefined)).toBe(true);
  });

  test("find the array again where the text has moved on, and leave one that has changed alone", async () => {
    const { found, doc, uri } = await actions(TEXT.replace("drop", "dr|op"));
    const change = (version: number, text: string) => client.change(uri, version, [{ text }]);
    change(2, `int n;\n${TEXT}`);
    const moved = TextDocument.create(uri, "cpp", 2, `int n;\n${TEXT}`);
    expect(await chosen(titled(found, "Mirror left"), moved)).toBe(`int n;\n${TEXT.replace("17, 64", "64, 17")}`);
    change(3, TEXT.replace("2x1", "1x2"));
    expect(await chosen(titled(found, "Mirror left"), doc)).toBeUndefined();
  });

  test("follow what the document includes", async () => {
    const header = `file:///greenhouse/levels${opened}.h`;
    client.open(header, "#define GLOW 64\n");
    const uri = `file:///greenhouse/art${opened++}.cpp`;
    const text = `#include "${header.split("/").pop()}"\n// @bitmap 2x1\nconst uint8_t drop[] = {1, GLOW};\n`;
    client.open(uri, text, "cpp");
    const range = { start: { line: 2, character: 16 }, end: { line: 2, character: 16 } };
    const params = { textDocument: { uri }, range, context: { diagnostics: [], only: [REWRITE] } };
    const found: CodeAction[] = await client.request({ method: "textDocument/codeAction" }, params);
    const mirrored = await chosen(titled(found, "Mirror left"), TextDocument.create(uri, "cpp", 1, text));
    expect(mirrored).toContain("{64, 1}");
  });

  test.each([
    ["among the numbers", TEXT.replace("17,", "1|7,")],
    ["on an array without annotation", "const uint8_t dr|op[2] = {7, 8};\n"],
    ["on one whose values are not known", "// @bitmap 2x1\nconst uint8_t dr|op[2] = {UNKNOWN, 8};\n"],
    [
      "in a table of structs",
      "struct Icon { uint8_t d[2]; };\n// @bitmap 2x1 entries\nconst Icon ic|ons[] = {{{1, 2}}, {{3, 4}}};\n",
    ],
  ])("are not offered %s", async (_, marked) => {
    expect((await actions(marked)).found).toEqual([]);
  });

  test("are not offered to who asks for other kinds", async () => {
    const { found } = await actions(TEXT.replace("drop", "dr|op"), ["refactor.extract", "quickfix"]);
    expect(found).toEqual([]);
  });
});
