import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { CodeLens, DocumentSymbol, SymbolInformation } from "vscode-languageserver/node";
import type { LspClient } from "../support/lspClient.ts";
import { FULL, positionOf, startClient } from "../support/lspClient.ts";

const sample = (name: string) => readFileSync(new URL(`../../sample-workspace/${name}`, import.meta.url), "utf8");
const ART = sample("lantern_art.h");
const TABLE = `struct Icon { const char *name; uint8_t data[2]; };
// @bitmap 2x1 entries
const Icon table[2] = { {"a", {1, 2}}, {"b", {3, 4}} };
// @bitmap 3x1 mono1
const uint8_t far[1] = { SOMEWHERE };
`;

type Hover = { readonly contents: { readonly value: string } };

let client: LspClient;
let plain: LspClient;
beforeAll(async () => {
  client = await startClient({ initializationOptions: { commands: ["dotwright.paint"] } });
  const { documentSymbol: _, ...textDocument } = FULL.textDocument ?? {};
  plain = await startClient({ capabilities: { ...FULL, textDocument } });
});
afterAll(() => Promise.all([client.stop(), plain.stop()]));

const uri = "file:///garden/outline.h";
const inDocument = { textDocument: { uri } };

async function lenses(by: LspClient, text: string): Promise<CodeLens[]> {
  by.open(uri, text);
  const found: CodeLens[] = await by.request({ method: "textDocument/codeLens" }, inDocument);
  return Promise.all(
    found.map(
      (l): Promise<CodeLens> => (l.command ? Promise.resolve(l) : by.request({ method: "codeLens/resolve" }, l)),
    ),
  );
}

test("a hover on a name links to the paint editor, for a client that can run the command", async () => {
  const at = "file:///garden/shed (old).h";
  const link = async (by: LspClient) => {
    by.open(at, TABLE);
    const request = { textDocument: { uri: at }, position: positionOf(TABLE, "table") };
    const hover = await by.request({ method: "textDocument/hover" }, request);
    return /\[Paint\]\(command:dotwright\.paint\?([^()\s]+)\)/.exec((hover as Hover).contents.value)?.[1];
  };
  const identity = expect.objectContaining({ name: "table[0].data", ordinal: 0, siblings: 1 });
  expect(JSON.parse(decodeURIComponent((await link(client)) ?? ""))).toEqual([at, identity]);
  expect(await link(plain)).toBeUndefined();
});

describe("code lenses", () => {
  test("say what each bitmap is, above it", async () => {
    const found = await lenses(plain, ART);
    expect(found.map((l) => l.command?.title).slice(0, 2)).toEqual([
      "drop_icon · 9×9 gray8 · 81 bytes · peak 64 of cap 64 · about 22 mA · 0.16 ms a frame",
      "sun_icon · 9×9 gray8 · 81 bytes · peak 64 of cap 64 · about 20 mA · 0.16 ms a frame",
    ]);
    expect(found.map((l) => l.command?.title)).toContain(
      "numerals · 5×7 gray8, 10 frames · 350 bytes · peak 64 of cap 64 · about 19 mA · 0.16 ms a frame",
    );
    expect(found[0]?.range.start).toEqual(positionOf(ART, "const uint8_t drop_icon"));
    expect(found.map((l) => l.command?.command)).toEqual(found.map(() => ""));
  });

  test("of a client that can run the command begin with Paint", async () => {
    const [paint, facts] = await lenses(client, TABLE);
    const identity = { name: "table[0].data", ordinal: 0, siblings: 1 };
    expect(paint?.command).toMatchObject({
      title: "Paint",
      command: "dotwright.paint",
      arguments: [uri, expect.objectContaining(identity)],
    });
    expect(facts?.command?.title).toBe("table[0].data · 2×1 gray8 · 2 bytes · peak 2 of 255");
    expect(facts?.range.start).toEqual(positionOf(TABLE, "{1, 2}"));
  });

  test("say why there is no picture", async () => {
    const titles = (await lenses(plain, TABLE)).map((l) => l.command?.title);
    expect(titles[2]).toMatch(/^far · 3×1 mono1 · 1 byte · no picture: /);
  });

  test("are resolved also after the text moved on, and survive their bitmap", async () => {
    plain.open(uri, TABLE);
    const [first]: CodeLens[] = await plain.request({ method: "textDocument/codeLens" }, inDocument);
    const start = { line: 0, character: 0 };
    plain.change(uri, 2, [{ range: { start, end: start }, text: "// above\n\n" }]);
    const resolve = (): Promise<CodeLens> => plain.request({ method: "codeLens/resolve" }, first);
    expect((await resolve()).command?.title).toBe("table[0].data · 2×1 gray8 · 2 bytes · peak 2 of 255");
    plain.change(uri, 3, [{ text: "int gone;\n" }]);
    expect((await resolve()).command?.title).toBe("table[0].data");
    plain.close(uri);
    expect((await resolve()).command).toBeUndefined();
  });
});

describe("document symbols", () => {
  test("are the panels and bitmaps, with a table's bitmaps below it", async () => {
    client.open(uri, `// @panel shelf 2x1 gray8\n${TABLE}`);
    const found: DocumentSymbol[] = await client.request({ method: "textDocument/documentSymbol" }, inDocument);
    const shown = (s: DocumentSymbol): unknown => [
      s.name,
      s.kind,
      s.detail,
      ...(s.children ? [s.children.map(shown)] : []),
    ];
    // LSP 3.17 SymbolKind: Array 18, Object 19, Struct 23.
    expect(found.map(shown)).toEqual([
      ["shelf", 19, "panel 2×1 gray8"],
      [
        "table",
        23,
        "2 bitmaps",
        [
          ["table[0].data", 18, "2×1 gray8"],
          ["table[1].data", 18, "2×1 gray8"],
        ],
      ],
      ["far", 18, "3×1 mono1"],
    ]);
    const inside = (
      outer: DocumentSymbol,
      inner: { start: { line: number; character: number }; end: { line: number; character: number } },
    ) => {
      const key = (p: { line: number; character: number }) => p.line * 1e6 + p.character;
      return key(outer.range.start) <= key(inner.start) && key(inner.end) <= key(outer.range.end);
    };
    for (const symbol of found) {
      expect(inside(symbol, symbol.selectionRange), symbol.name).toBe(true);
      for (const child of symbol.children ?? []) expect(inside(symbol, child.range), child.name).toBe(true);
    }
  });

  test("are a flat list for a client that knows no tree", async () => {
    plain.open(uri, TABLE);
    const found: SymbolInformation[] = await plain.request({ method: "textDocument/documentSymbol" }, inDocument);
    expect(found.map((s) => [s.name, s.containerName, s.location.uri])).toEqual([
      ["table", undefined, uri],
      ["table[0].data", "table", uri],
      ["table[1].data", "table", uri],
      ["far", undefined, uri],
    ]);
  });
});
