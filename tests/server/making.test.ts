import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { CodeAction, CompletionItem, CompletionList, TextEdit } from "vscode-languageserver/node";
import { TextDocument } from "vscode-languageserver-textdocument";
import type { LspClient } from "../support/lspClient.ts";
import { FULL, startClient } from "../support/lspClient.ts";

const SNIPPETS = {
  ...FULL,
  textDocument: { ...FULL.textDocument, completion: { completionItem: { snippetSupport: true } } },
};
const ART = readFileSync(new URL("../../sample-workspace/lantern_art.h", import.meta.url), "utf8");

let client: LspClient;
let plain: LspClient;
beforeAll(async () => {
  [client, plain] = await Promise.all([startClient({ capabilities: SNIPPETS }), startClient({ capabilities: {} })]);
});
afterAll(async () => {
  await Promise.all([client.stop(), plain.stop()]);
});

let opened = 0;
/** Opens the text, which has its `|` taken out. */
function open(at: LspClient, marked: string) {
  const offset = marked.indexOf("|");
  const text = marked.replace("|", "");
  const uri = `untitled:making${opened++}`;
  at.open(uri, text);
  const doc = TextDocument.create(uri, "cpp", 1, text);
  return { uri, doc, position: doc.positionAt(offset) };
}

async function complete(marked: string, at = client): Promise<{ item: CompletionItem; after: string }[]> {
  const { uri, doc, position } = open(at, marked);
  const params = { textDocument: { uri }, position };
  const answer: CompletionItem[] | CompletionList = await at.request({ method: "textDocument/completion" }, params);
  const items = Array.isArray(answer) ? answer : answer.items;
  return items.map((item) => ({ item, after: TextDocument.applyEdits(doc, [item.textEdit as TextEdit]) }));
}

describe("completion under a fresh annotation", () => {
  const ROWS = "{\n  0, 0,\n  0, 0,\n\\};";
  test.each([
    ["on the next line", "// @bitmap 2x2 cap=9\n|", `// @bitmap 2x2 cap=9\nconst uint8_t \${1:picture}[4] = ${ROWS}`],
    [
      "after a half-typed declaration",
      "// @bitmap 2x2 cap=9\nstatic const byte na|",
      `// @bitmap 2x2 cap=9\nstatic const byte \${1:na}[4] = ${ROWS}`,
    ],
    [
      "in the element type that is typed",
      "// @bitmap 2x1 mono1\nconst uint16_t |",
      `// @bitmap 2x1 mono1\nconst uint16_t \${1:picture}[1] = {\n  0x0000,\n\\};`,
    ],
    [
      "in place of half a type",
      "// @bitmap 2x2 cap=9\nconst uin|\n",
      `// @bitmap 2x2 cap=9\nconst uint8_t \${1:picture}[4] = ${ROWS}\n`,
    ],
    [
      "below comments, with the line's indentation",
      "/* @bitmap 2x2 cap=9 */\n// drop\n\n  |\nint a;",
      `/* @bitmap 2x2 cap=9 */\n// drop\n\n  const uint8_t \${1:picture}[4] = {\n    0, 0,\n    0, 0,\n  \\};\nint a;`,
    ],
    [
      "above a bitmap that has an annotation of its own",
      "// @bitmap 2x2 cap=9\n|\n// @bitmap 1x1 cap=9\nconst uint8_t picture[1] = {\n  1,\n};",
      `// @bitmap 2x2 cap=9\nconst uint8_t \${1:picture_2}[4] = ${ROWS}\n// @bitmap 1x1 cap=9\nconst uint8_t picture[1] = {\n  1,\n};`,
    ],
  ])("offers the array %s", async (_, text, after) => {
    expect((await complete(text)).map((c) => c.after)).toEqual([after]);
  });

  test("tells its size in words, and is a placeholder's snippet", async () => {
    const [found] = await complete("// @bitmap 9x9 cap=64\n|");
    expect(found?.item).toMatchObject({
      label: "Array for 9×9 gray8",
      detail: "81 elements, 9 rows",
      insertTextFormat: 2,
      insertTextMode: 1,
    });
  });

  test("is plain text for a client without snippets", async () => {
    const [found] = await complete("// @bitmap 2x1 cap=9\n|", plain);
    expect(found?.item.insertTextFormat).toBe(1);
    expect(found?.after).toBe("// @bitmap 2x1 cap=9\nconst uint8_t picture[2] = {\n  0, 0,\n};");
  });

  test.each([
    ["on the annotation's own line", "/* @bitmap 2x2 */ |"],
    ["without a size", "// @bitmap gray8\n|"],
    ["for words that are wrong", "// @bitmap 2x2 gry8\n|"],
    ["for other markers", "// @palette rgb565\n|"],
    ["before the array that it stands for", "// @bitmap 2x2\n|\nconst uint8_t a[4] = {1, 2, 3, 4};"],
    ["behind a statement", "// @bitmap 2x2\nint a;\n|"],
    ["in a statement of another kind", "// @bitmap 2x2\nreturn x|"],
    ["before other words", "// @bitmap 2x2\nconst uint8_t na| other"],
    ["inside a list", "const Icon icons[] = {\n  // @bitmap 2x2\n  |\n};"],
    ["without an annotation", "const uint8_t na|"],
    ["in a function after it", "// @bitmap 2x2\nvoid f() {\n  |\n}"],
    ["for more than anyone wants in a list", "// @bitmap 640x480\n|"],
  ])("offers none %s", async (_, text) => {
    expect(await complete(text)).toEqual([]);
  });
});

describe("dotwright/newBitmap", () => {
  test("puts annotation and array after the statement of the cursor, and tells where the name stands", async () => {
    const { uri, doc, position } = open(client, "int a = |1;\nint b;\n");
    const reply = await client.own("dotwright/newBitmap", { uri, position, words: "2x1 cap=9", name: "kettle" });
    if ("err" in reply) throw new Error(reply.err);
    const after = TextDocument.applyEdits(doc, [...reply.ok.edits] as TextEdit[]);
    expect(after).toBe("int a = 1;\n\n// @bitmap 2x1 cap=9\nconst uint8_t kettle[2] = {\n  0, 0,\n};\n\nint b;\n");
    const made = TextDocument.create(uri, "cpp", 2, after);
    expect(made.getText(reply.ok.nameRange as Parameters<typeof made.getText>[0])).toBe("kettle");
    expect(reply.ok).toMatchObject({ version: 1, elements: 2, formatGiven: false });
  });

  test("in the style of the sample, for its panel, under a free name", async () => {
    const { uri, position } = open(client, `${ART}\n|`);
    const reply = await client.own("dotwright/newBitmap", { uri, position, words: "lantern" });
    if ("err" in reply) throw new Error(reply.err);
    const row = "   0,  0,  0,  0,  0,  0,  0,  0,  0,\n";
    expect(reply.ok.edits[0]?.newText).toBe(
      `// @bitmap lantern\nconst uint8_t picture[81] PROGMEM = {\n${row.repeat(9)}};\n`,
    );
    expect(reply.ok).toMatchObject({ name: "picture", formatGiven: true });
  });

  test("only judges where asked to", async () => {
    const { uri, position } = open(client, "|");
    const reply = await client.own("dotwright/newBitmap", { uri, position, words: "9x9 mono1", judge: true });
    expect(reply).toMatchObject({ ok: { edits: [], elements: 18, formatGiven: true } });
  });

  test.each([
    ["9x9 frames=4", true, 324, "animation"],
    ["9x9 frames=1", true, 81, "picture"],
    ["9x9 -- frames=4", false, 81, "picture"],
  ])("tells whether the words give a number of frames: %s", async (words, framesGiven, elements, name) => {
    const { uri, position } = open(client, "|");
    const reply = await client.own("dotwright/newBitmap", { uri, position, words, judge: true });
    expect(reply).toMatchObject({ ok: { framesGiven, elements, name } });
  });

  test.each([
    ["9x9", "drop", "already taken"],
    ["9x9", "int", "keyword"],
    ["9x9", "a b", "can't be a name"],
    ["9x9 shelf", "kettle", "No panel `shelf`"],
    ["4000x4000", "kettle", "16000000 elements"],
  ])("refuses %s %s", async (words, name, message) => {
    const { uri, position } = open(client, "const uint8_t drop[1] = {1};\n|");
    const reply = await client.own("dotwright/newBitmap", { uri, position, words, name });
    expect(reply).toEqual({ err: expect.stringContaining(message) });
  });

  test("tells what there is to choose from", async () => {
    const { uri } = open(client, "// @panel shelf 5x4 mono1\n// @bitmap 3x3\n|");
    const reply = await client.own("dotwright/newBitmapChoices", { uri });
    if ("err" in reply) throw new Error(reply.err);
    expect(reply.ok.panels).toEqual([{ name: "shelf", width: 5, height: 4, format: "mono1" }]);
    expect(reply.ok.sizes.slice(0, 2)).toEqual(["5x4", "3x3"]);
    expect(reply.ok.formats).toContainEqual({ name: "rgb565", depth: 16 });
  });
});

describe("new bitmap like this", () => {
  const TEXT = "// @bitmap 2x1 cap=9\nconst uint8_t drop[2] PROGMEM = {\n  7, 8,\n};\n";
  const AFTER = `${TEXT.trimEnd()}\n\n// @bitmap 2x1 cap=9\nconst uint8_t drop_2[2] PROGMEM = {\n  0, 0,\n};\n`;

  async function actions(marked: string, at = client): Promise<{ action: CodeAction; doc: TextDocument }[]> {
    const { uri, doc, position } = open(at, marked);
    const range = { start: position, end: position };
    const context = { diagnostics: [], only: ["refactor"] };
    const params = { textDocument: { uri }, range, context };
    const found: CodeAction[] = await at.request({ method: "textDocument/codeAction" }, params);
    // Conversions stand at the same places; they are tested on their own.
    return found.filter(({ kind }) => kind === "refactor").map((action) => ({ action, doc }));
  }

  test.each([
    ["the name", TEXT.replace("drop", "dr|op")],
    ["the annotation", TEXT.replace("@bitmap", "@bit|map")],
  ])("is worked out when it is chosen, at %s", async (_, marked) => {
    const [found, ...more] = await actions(marked);
    if (!found) throw new Error("no action");
    expect(more).toEqual([]);
    expect(found.action).toMatchObject({ title: "New bitmap like drop", kind: "refactor" });
    expect(found.action.edit).toBeUndefined();
    const resolved: CodeAction = await client.request({ method: "codeAction/resolve" }, found.action);
    const [change] = resolved.edit?.documentChanges ?? [];
    if (!change || !("edits" in change)) throw new Error("no edit");
    expect(TextDocument.applyEdits(found.doc, change.edits as TextEdit[])).toBe(AFTER);
  });

  test("comes with its edit for a client that can't ask later", async () => {
    const [found] = await actions(TEXT.replace("drop", "dr|op"), plain);
    const edits = Object.values(found?.action.edit?.changes ?? {})[0] ?? [];
    expect(found && TextDocument.applyEdits(found.doc, edits)).toBe(AFTER);
  });

  test.each([
    ["among the numbers", TEXT.replace("7,", "7|,")],
    ["on an array without annotation", "const uint8_t dr|op[2] = {7, 8};"],
    [
      "in a table of structs",
      "struct Icon { uint8_t d[2]; };\n// @bitmap 2x1 entries\nconst Icon ic|ons[] = {{{1, 2}}, {{3, 4}}};",
    ],
  ])("is not offered %s", async (_, marked) => {
    expect(await actions(marked)).toEqual([]);
  });
});
