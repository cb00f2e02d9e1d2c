/** The gallery of the workspace over the language server: files stored and open, pictures, and what changes. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { PNG } from "pngjs";
import { afterAll, beforeAll, expect, test } from "vitest";
import { DidChangeWatchedFilesNotification, FileChangeType } from "vscode-languageserver/node";
import type { LspMethod, LspParams, LspResult } from "../../shared/protocol/lsp.ts";
import { type LspClient, startClient } from "../support/lspClient.ts";

const folder = mkdtempSync(join(tmpdir(), "dotwright-gallery-"));
const home = pathToFileURL(folder).href;
const BOARD = "// @panel lantern 2x1 gray8 cap=64 tint=#ff0000\n";
const ART =
  "// @bitmap lantern\nconst unsigned char drop[] = { 64, 0 };\n// @bitmap 1x1\nconst unsigned char hot[] = { 300 };\n";
const store = (name: string, text: string) => writeFileSync(join(folder, name), text);

let client: LspClient;
beforeAll(async () => {
  store("board.h", BOARD);
  store("art.h", ART);
  store("plain.h", "int x[] = { 1, 2 };\n");
  client = await startClient({ folder: home });
});
afterAll(async () => {
  await client.stop();
  rmSync(folder, { recursive: true });
});

async function ask<M extends LspMethod>(method: M, params: LspParams<M>): Promise<LspResult<M>> {
  const reply = await client.own(method, params);
  if ("err" in reply) throw new Error(reply.err);
  return reply.ok;
}
/** Asks now and with every change that the server tells, until something is so. */
async function becomes<M extends LspMethod>(method: M, params: LspParams<M>, so: (result: LspResult<M>) => boolean) {
  for (let told = client.gallery.length; ; told = client.gallery.length) {
    const result = await ask(method, params);
    if (so(result)) return result;
    await client.until(() => (client.gallery.length > told ? true : undefined));
  }
}
const changed = (name: string, type: FileChangeType) =>
  client.connection.sendNotification(DidChangeWatchedFilesNotification.method, {
    changes: [{ uri: `${home}/${name}`, type }],
  });

test("tells the files that may hold bitmaps, and what is in each, opened or not", async () => {
  const { uris } = await becomes("dotwright/galleryFiles", {}, ({ complete }) => complete);
  expect(uris).toEqual([`${home}/art.h`, `${home}/board.h`]);
  const art = await ask("dotwright/galleryFile", { uri: `${home}/art.h` });
  expect(art).toEqual({
    uri: `${home}/art.h`,
    title: "art.h",
    bitmaps: [
      {
        identity: expect.objectContaining({ name: "drop", ordinal: 0 }),
        line: 2,
        format: "gray8",
        panel: "lantern",
        facts: "2×1 gray8 · 2 bytes · peak 64 of cap 64",
      },
      {
        identity: expect.objectContaining({ name: "hot" }),
        line: 4,
        format: "gray8",
        facts: "1×1 gray8 · 1 byte · peak 44 of 255",
        findings: { count: 1, worst: "error", first: expect.stringMatching(/^300 is outside 0 to 255/) },
      },
    ],
  });
  expect(await ask("dotwright/galleryFile", { uri: `${home}/plain.h` })).toMatchObject({ bitmaps: [] });
});

test("draws small pictures as they look on their panel", async () => {
  const wanted = [
    { name: "drop", ordinal: 0 },
    { name: "gone", ordinal: 0 },
  ];
  const { pictures } = await ask("dotwright/galleryPictures", { uri: `${home}/art.h`, wanted });
  expect(pictures[1]).toBeNull();
  const { width, height, data } = PNG.sync.read(Buffer.from((pictures[0] ?? "").split(",")[1] ?? "", "base64"));
  expect([width, height, [...data.subarray(0, 3)], [...data.subarray(4, 7)]]).toEqual([2, 1, [255, 0, 0], [0, 0, 0]]);
});

test("follows what is typed, what is stored, and a panel in another file", async () => {
  const uri = `${home}/art.h`;
  client.open(uri, ART.replace("drop", "tear"));
  const names = ({ bitmaps }: LspResult<"dotwright/galleryFile">) => bitmaps.map((b) => b.identity.name).join();
  await becomes("dotwright/galleryFile", { uri }, (file) => names(file) === "tear,hot");
  client.close(uri);
  await becomes("dotwright/galleryFile", { uri }, (file) => names(file) === "drop,hot");
  store("board.h", BOARD.replace("64", "80"));
  await changed("board.h", FileChangeType.Changed);
  await becomes(
    "dotwright/galleryFile",
    { uri },
    (file) => file.bitmaps[0]?.facts.endsWith("peak 64 of cap 80") === true,
  );
  store("new.h", ART);
  await changed("new.h", FileChangeType.Created);
  await becomes("dotwright/galleryFiles", {}, ({ uris }) => uris.includes(`${home}/new.h`));
  rmSync(join(folder, "new.h"));
  await changed("new.h", FileChangeType.Deleted);
  await becomes("dotwright/galleryFiles", {}, ({ uris }) => !uris.includes(`${home}/new.h`));
});

test("takes a letter for a glyph set, and the fullest frame of an animation", async () => {
  store(
    "moving.h",
    `// @bitmap 3x1 mono1 frames=3\nconst unsigned char wink[] = { 0, 0xE0, 0x40 };
// @bitmap 1x1 mono1 frames=66 first=' '\nconst unsigned char dots[66] = { [33] = 0x80 };\n`.replace(
      "[33] = 0x80",
      `${"0, ".repeat(33)}0x80`,
    ),
  );
  await changed("moving.h", FileChangeType.Created);
  const uri = `${home}/moving.h`;
  await becomes("dotwright/galleryFiles", {}, ({ uris }) => uris.includes(uri));
  const wanted = ["wink", "dots"].map((name) => ({ name, ordinal: 0 }));
  const { pictures } = await ask("dotwright/galleryPictures", { uri, wanted });
  const [wink, dots] = pictures.map((p) => PNG.sync.read(Buffer.from((p ?? "").split(",")[1] ?? "", "base64")));
  expect([wink?.width, [0, 4, 8].map((i) => wink?.data[i])]).toEqual([3, [255, 255, 255]]);
  expect([dots?.data[0], dots?.data[8]]).toEqual([255, 0]);
});
