import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, describe, expect, test } from "vitest";
import { DidChangeWatchedFilesNotification, FileChangeType } from "vscode-languageserver/node";
import type { ClientOptions, LspClient } from "../support/lspClient.ts";
import { FULL, startClient } from "../support/lspClient.ts";

const ART = `#include "levels.h"
// @bitmap 3x1 gray8
const unsigned char vent_icon[3] = { DIM, 0, BRIGHT };
`;
const LEVELS = "#define DIM 7\n#define BRIGHT 42\n";

const folder = mkdtempSync(join(tmpdir(), "dotwright-includes-"));
const home = pathToFileURL(folder).href;
const started: LspClient[] = [];
const start = async (options: ClientOptions) => {
  const client = await startClient(options);
  started.push(client);
  return client;
};
afterAll(async () => {
  await Promise.all(started.map((c) => c.stop()));
  rmSync(folder, { recursive: true });
});

/** The pixels of the one bitmap of a document, or why it has none. */
async function pixels(client: LspClient, uri: string) {
  const listed = await client.own("dotwright/bitmaps", { uri });
  const bitmap = "ok" in listed ? listed.ok.bitmaps[0] : undefined;
  if (!bitmap) throw new Error("no bitmap");
  if (bitmap.why !== undefined) return bitmap.why;
  const picture = await client.own("dotwright/picture", { uri, identity: bitmap.identity });
  return "ok" in picture ? picture.ok.frames[0]?.pixels : picture.err;
}

const refreshed = (client: LspClient, count: number) =>
  client.until(() => (client.refreshes.count >= count ? true : undefined));

describe("files that are not open", () => {
  test("are read from the folder, and again when they change", async () => {
    writeFileSync(join(folder, "levels.h"), LEVELS);
    const client = await start({ folder: home });
    const uri = `${home}/art.h`;
    client.open(uri, ART);
    await client.pull(uri);
    await refreshed(client, 1);
    expect(await pixels(client, uri)).toEqual([7, 0, 42]);
    expect(await client.pull(uri)).toEqual([]);
    writeFileSync(join(folder, "levels.h"), LEVELS.replace("42", "64"));
    const changes = [{ uri: `${home}/levels.h`, type: FileChangeType.Changed }];
    await client.connection.sendNotification(DidChangeWatchedFilesNotification.method, { changes });
    await refreshed(client, 2);
    expect(await pixels(client, uri)).toEqual([7, 0, 64]);
  });

  test("outside the folder are not read", async () => {
    writeFileSync(join(folder, "..", "dotwright-outside.h"), LEVELS);
    try {
      const client = await start({ folder: home });
      const uri = `${home}/outside_art.h`;
      client.open(uri, ART.replace("levels.h", "../dotwright-outside.h"));
      // A second file that is there shows that the answer to the first has had its time.
      const other = `${home}/inside_art.h`;
      client.open(other, ART);
      await pixels(client, uri);
      await client.pull(other);
      await refreshed(client, 1);
      expect(await pixels(client, other)).toEqual([7, 0, 64]);
      expect(await pixels(client, uri)).toContain("DIM");
    } finally {
      rmSync(join(folder, "..", "dotwright-outside.h"));
    }
  });

  test("are asked of a client that reads them itself, which is told what to draw anew", async () => {
    const files = new Map([["vgarden:/beds/levels.h", LEVELS]]);
    const client = await start({ folder: "vgarden:/beds", files, initializationOptions: { files: true } });
    const uri = "vgarden:/beds/art.h";
    client.open(uri, ART);
    await client.pull(uri);
    await client.until(() => (client.reread.includes(uri) ? true : undefined));
    expect(await pixels(client, uri)).toEqual([7, 0, 42]);
    // Opened, it is what the editor holds that counts; closed again, what is stored.
    client.open("vgarden:/beds/levels.h", LEVELS.replace("7", "9"));
    expect(await pixels(client, uri)).toEqual([9, 0, 42]);
    const before = client.reread.length;
    client.close("vgarden:/beds/levels.h");
    await client.until(() => (client.reread.length > before ? true : undefined));
    expect(await pixels(client, uri)).toEqual([7, 0, 42]);
  });

  test("lead to fresh findings in a client that is sent them", async () => {
    writeFileSync(join(folder, "cap.h"), "#define TOO_BRIGHT 200\n");
    const { diagnostic: _, ...textDocument } = FULL.textDocument ?? {};
    const client = await start({ folder: home, capabilities: { ...FULL, textDocument } });
    const uri = `${home}/capped.h`;
    client.open(
      uri,
      '#include "cap.h"\n// @bitmap 2x1 gray8 cap=64\nconst unsigned char bud[2] = { 0, TOO_BRIGHT };\n',
    );
    const found = await client.until(() =>
      client.pushed.find((p) => p.uri === uri && p.diagnostics.some((d) => d.code === "over-cap")),
    );
    expect(found.diagnostics).toHaveLength(1);
  });
});
