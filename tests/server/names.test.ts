/** Definition, references and renaming of the names in annotations. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type {
  Location,
  SymbolInformation,
  TextDocumentEdit,
  TextEdit,
  WorkspaceEdit,
} from "vscode-languageserver/node";
import { TextDocument } from "vscode-languageserver-textdocument";
import type { LspClient } from "../support/lspClient.ts";
import { FULL, positionOf, startClient } from "../support/lspClient.ts";

const BOARD = `// @panel lantern 2x1 gray8 cap=9
// @panel shelf 3x1 gray8
`;
const ART = `// A lantern that is no panel: lantern.
// @bitmap lantern -- lantern
const unsigned char drop[] = { 1, 2 };
// @bitmap 1x1 lantern
const unsigned char lantern[] = { 3 };
`;
const FILES: Record<string, string> = {
  "board.h": BOARD,
  "art.h": ART,
  "below/more.h":
    "/* @bitmap lantern\n */ const unsigned char pot[] = { 4, 5 };\r\n// @wiring lantern\nint order[] = { 1, 0 };\n",
  // Its own board is nearer.
  "other/board.h": "// @panel lantern 4x1 gray8\n",
  "other/art.h": "// @bitmap lantern\nconst unsigned char vent[] = { 1, 2, 3, 4 };\n",
  "plain.h": "extern int lantern_count; // lantern\n",
  "palettes.h": `// @palette rgb565
const uint16_t warm[] = { 0, 0xfd00 };
// @bitmap 2x1 palette1 palette=warm -- warm
const uint8_t dawn[] = { 0x40 };
const int shades = sizeof(warm); // warm
// @palette rgb565
static const uint16_t cold[] = { 0, 1 };
// @bitmap 2x1 palette1 palette=cold
const uint8_t dusk[] = { 0x40 };
`,
  "main.cpp": '#include "palettes.h"\nint first() { return cold[0]; }\n',
};

const folder = mkdtempSync(join(tmpdir(), "dotwright-names-"));
const home = pathToFileURL(folder).href;
const uri = (name: string) => `${home}/${name}`;

let client: LspClient;
beforeAll(async () => {
  for (const [name, text] of Object.entries(FILES)) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), text);
  }
  const { textDocument } = FULL;
  const capabilities = { ...FULL, textDocument: { ...textDocument, rename: { prepareSupport: true } } };
  client = await startClient({ folder: home, capabilities });
  client.open(uri("art.h"), ART);
  client.open(uri("palettes.h"), FILES["palettes.h"] ?? "");
  // Stored files have been looked through when the panel is known.
  for (let asked = -1; (await bitmaps("art.h")) < 2; ) {
    await client.until(() => (client.refreshes.count > asked ? true : undefined));
    asked = client.refreshes.count;
  }
});
afterAll(async () => {
  await client.stop();
  rmSync(folder, { recursive: true });
});

async function bitmaps(name: string): Promise<number> {
  const reply = await client.own("dotwright/bitmaps", { uri: uri(name) });
  return "ok" in reply ? reply.ok.bitmaps.length : 0;
}

const at = (name: string, piece: string, into = 0, n = 0) => ({
  textDocument: { uri: uri(name) },
  position: positionOf(FILES[name] ?? "", piece, into, n),
});
/** `file:line:column` from 1. */
const shown = ({ uri: found, range }: Location) =>
  `${found.slice(home.length + 1)}:${range.start.line + 1}:${range.start.character + 1}`;
const define = async (...place: Parameters<typeof at>) => {
  const found = await client.request<object, Location | null>({ method: "textDocument/definition" }, at(...place));
  return found && shown(found);
};
const references = async (declared: boolean, ...place: Parameters<typeof at>) => {
  const params = { ...at(...place), context: { includeDeclaration: declared } };
  return (await client.request<object, Location[]>({ method: "textDocument/references" }, params)).map(shown).sort();
};
const rename = (newName: string, ...place: Parameters<typeof at>) =>
  client.request<object, WorkspaceEdit>({ method: "textDocument/rename" }, { ...at(...place), newName });

/** The texts of the files that an edit changes, with the versions that it is for. */
function applied(edit: WorkspaceEdit): Record<string, [number | null, string]> {
  const changes = (edit.documentChanges ?? []) as TextDocumentEdit[];
  return Object.fromEntries(
    changes.map(({ textDocument, edits }) => {
      const name = textDocument.uri.slice(home.length + 1);
      const document = TextDocument.create("", "cpp", 0, FILES[name] ?? "");
      return [name, [textDocument.version, TextDocument.applyEdits(document, edits as TextEdit[])]];
    }),
  );
}

describe("definition", () => {
  test.each<[string, Parameters<typeof at>, string | null]>([
    ["a panel of another file", ["art.h", "@bitmap lantern", 9], "board.h:1:11"],
    ["beside a size", ["art.h", "1x1 lantern", 11], "board.h:1:11"],
    ["free text", ["art.h", "-- lantern", 4], null],
    ["other comments", ["art.h", "A lantern", 3], null],
    ["a palette", ["palettes.h", "palette=warm", 9], "palettes.h:2:16"],
    ["the key of the option", ["palettes.h", "palette=warm", 3], null],
    ["the array itself, which the tools of C++ know", ["palettes.h", "uint16_t warm", 10], null],
  ])("%s", async (_, place, expected) => {
    expect(await define(...place)).toBe(expected);
  });
});

describe("workspace symbols", () => {
  const symbols = async (query: string) => {
    const found = await client.request<object, SymbolInformation[]>({ method: "workspace/symbol" }, { query });
    return found.map(({ name, kind, location }) => `${name} ${kind} ${shown(location)}`).sort();
  };

  test("are the panels and bitmaps of open and stored files", async () => {
    expect(await symbols("lntrn")).toEqual([
      "lantern 18 art.h:5:21",
      "lantern 19 board.h:1:11",
      "lantern 19 other/board.h:1:11",
    ]);
    expect(await symbols("D")).toEqual(["dawn 18 palettes.h:4:15", "drop 18 art.h:3:21", "dusk 18 palettes.h:9:15"]);
    expect(await symbols("pot")).toEqual(["pot 18 below/more.h:2:25"]);
    expect(await symbols("nothing")).toEqual([]);
  });
});

describe("references", () => {
  test("of a panel, in open and stored files, where this definition holds", async () => {
    const uses = ["art.h:2:12", "art.h:4:16", "below/more.h:1:12", "below/more.h:3:12"];
    expect(await references(false, "art.h", "@bitmap lantern", 9)).toEqual(uses);
    expect(await references(true, "art.h", "@bitmap lantern", 9)).toEqual([...uses, "board.h:1:11"].sort());
  });

  test("of an array, in the annotations", async () => {
    expect(await references(true, "palettes.h", "uint16_t warm", 10)).toEqual(["palettes.h:3:33"]);
  });
});

describe("rename", () => {
  test("a panel in all files where it is meant, with the versions of open documents", async () => {
    const prepared = await client.request({ method: "textDocument/prepareRename" }, at("art.h", "@bitmap lantern", 9));
    expect(prepared).toEqual({
      range: { start: { line: 1, character: 11 }, end: { line: 1, character: 18 } },
      placeholder: "lantern",
    });
    const files = applied(await rename("porch", "art.h", "@bitmap lantern", 9));
    expect(files).toEqual({
      "art.h": [1, ART.replace("@bitmap lantern", "@bitmap porch").replace("1x1 lantern", "1x1 porch")],
      "board.h": [null, BOARD.replace("lantern", "porch")],
      "below/more.h": [null, FILES["below/more.h"]?.replaceAll("lantern", "porch")],
    });
  });

  test.each<[string, string]>([
    ["gray8", "may not be a format or a flag"],
    ["invert", "may not be a format or a flag"],
    ["9x9", "before its size"],
    ["a b", "can't be a panel's name"],
    ["", "can't be a panel's name"],
    ["shelf", "`shelf` is already defined in board.h"],
  ])("to %j is refused", async (name, why) => {
    await expect(rename(name, "art.h", "@bitmap lantern", 9)).rejects.toThrow(why);
  });

  test("is refused where saving a file would lose bytes", async () => {
    client.open(uri("below/more.h"), `${FILES["below/more.h"]}// \ufffd\n`);
    await expect(rename("porch", "art.h", "@bitmap lantern", 9)).rejects.toThrow(
      "below/more.h holds bytes that its encoding does not know",
    );
    client.close(uri("below/more.h"));
  });

  test("of an array changes its code and annotations, not what other words say", async () => {
    const text = FILES["palettes.h"] ?? "";
    expect(applied(await rename("amber", "palettes.h", "palette=warm", 9))).toEqual({
      "palettes.h": [
        1,
        text
          .replace("uint16_t warm", "uint16_t amber")
          .replace("palette=warm", "palette=amber")
          .replace("sizeof(warm)", "sizeof(amber)"),
      ],
    });
    await expect(rename("dusk", "palettes.h", "palette=warm", 9)).rejects.toThrow("already taken");
    await expect(rename("int", "palettes.h", "palette=warm", 9)).rejects.toThrow("keyword");
  });

  test("of an array that other files use is left to the tools of C++", async () => {
    await expect(rename("chill", "palettes.h", "palette=cold", 9)).rejects.toThrow("`cold` is used in main.cpp too");
    expect(await client.request({ method: "textDocument/prepareRename" }, at("palettes.h", "uint16_t warm", 10))).toBe(
      null,
    );
  });
});
