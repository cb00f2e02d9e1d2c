/** What would bring all bitmaps of the workspace down: of files that are open and of stored ones. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, beforeAll, expect, test } from "vitest";
import { CancellationTokenSource } from "vscode-languageserver/node";
import { TextDocument } from "vscode-languageserver-textdocument";
import type { DimmedWorkspace } from "../../shared/protocol/lsp.ts";
import { CHECK_WORKSPACE, DIM_WORKSPACE } from "../../shared/protocol/lsp.ts";
import { fingerprintOf } from "../../shared/source/text.ts";
import type { LspClient } from "../support/lspClient.ts";
import { startClient } from "../support/lspClient.ts";

const BOARD = "// @panel lantern 2x1 gray8 cap=64\n";
const STORED = "// @bitmap lantern\nconst unsigned char glare[] = { 32, 128 };\n";
const OPEN = "// @bitmap lantern\nconst unsigned char bloom[] = { 0x80, 0x08 };\n";
const folder = mkdtempSync(join(tmpdir(), "dotwright-dim-"));
const home = pathToFileURL(folder).href;
let client: LspClient;

beforeAll(async () => {
  const files = {
    "board.h": BOARD,
    "stored.h": STORED,
    "open.h": "// another text on the disk\n",
    "plain.h": "int a;\n",
  };
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  client = await startClient({ folder: home });
  client.open(`${home}/open.h`, OPEN);
  // Until all files have been looked through.
  await client.connection.sendRequest(CHECK_WORKSPACE, {});
});
afterAll(async () => {
  await client.stop();
  rmSync(folder, { recursive: true });
});

const dim = (way: string) => client.connection.sendRequest<DimmedWorkspace>(DIM_WORKSPACE, { way });

test.each([
  ["linear", "{ 0x40, 0x04 }", "{ 16, 64 }"],
  ["clamp", "{ 0x40, 0x08 }", "{ 32, 64 }"],
])("%s: as each text is now, in its own spelling", async (way, open, stored) => {
  const { files } = await dim(way);
  const after = (name: string, text: string) => {
    const file = files.find(({ uri }) => uri.endsWith(name));
    expect(file?.fingerprint).toBe(fingerprintOf(text));
    expect(file?.fingerprint).not.toBe(fingerprintOf(text.replace("8", "9")));
    const edits = file?.bitmaps.flatMap((bitmap) => bitmap.edits) ?? [];
    return TextDocument.applyEdits(TextDocument.create("", "cpp", 1, text), [...edits]);
  };
  expect(files).toHaveLength(2);
  expect(after("open.h", OPEN)).toContain(open);
  expect(after("stored.h", STORED)).toContain(stored);
  expect(files.flatMap((f) => f.bitmaps)).toMatchObject([
    { name: "bloom", line: 1, words: expect.stringContaining(`from 128 to 64 (${way})`) },
    { name: "glare", line: 1 },
  ]);
});

test("refuses another way, and ends where it is called off", async () => {
  await expect(dim("away")).rejects.toThrow("away is no way to dim");
  const source = new CancellationTokenSource();
  source.cancel();
  const asked = client.connection.sendRequest(DIM_WORKSPACE, { way: "even" }, source.token);
  await expect(asked).rejects.toThrow("cancelled");
});
