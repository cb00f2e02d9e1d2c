/** Panels of all files of the workspace, open or stored, in every open document. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, describe, expect, test } from "vitest";
import {
  type CompletionItem,
  CompletionRequest,
  DidChangeWatchedFilesNotification,
  FileChangeType,
  type Hover,
  HoverRequest,
  type ProgressToken,
  WorkDoneProgress,
  type WorkDoneProgressBegin,
  WorkDoneProgressCancelNotification,
  WorkDoneProgressCreateRequest,
} from "vscode-languageserver/node";
import { CHECK_WORKSPACE } from "../../shared/protocol/lsp.ts";
import type { ClientOptions, LspClient } from "../support/lspClient.ts";
import { FULL, positionOf, startClient } from "../support/lspClient.ts";

const ART = "// @bitmap lantern\nconst unsigned char drop[] = { 1, 2 };\n";
const BOARD = "/* The board. */\n// @panel lantern 2x1 gray8 cap=9\n";

const folder = mkdtempSync(join(tmpdir(), "dotwright-workspace-"));
const home = pathToFileURL(folder).href;
const started: LspClient[] = [];
const start = async (name: string, options: ClientOptions = {}) => {
  const client = await startClient({ folder: `${home}/${name}`, ...options });
  started.push(client);
  return client;
};
const store = (files: Readonly<Record<string, string>>) => {
  for (const [name, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), text);
  }
};
afterAll(async () => {
  await Promise.all(started.map((c) => c.stop()));
  rmSync(folder, { recursive: true });
});

const codes = async (client: LspClient, uri: string) =>
  (await client.pull(uri)).map(({ code, severity }) => `${code} ${severity}`);
const watched = (client: LspClient, name: string, type: FileChangeType) =>
  client.connection.sendNotification(DidChangeWatchedFilesNotification.method, {
    changes: [{ uri: `${home}/${name}`, type }],
  });
/** The size of the one bitmap of a document; undefined where it has none. */
async function size(client: LspClient, uri: string): Promise<string | undefined> {
  const reply = await client.own("dotwright/bitmaps", { uri });
  const bitmap = "ok" in reply ? reply.ok.bitmaps[0] : undefined;
  return bitmap && `${bitmap.width}x${bitmap.height} ${bitmap.cap}`;
}
/** Asks until the answer is the one wanted: what the server reads by itself comes when it comes. */
async function becomes<T>(client: LspClient, ask: () => Promise<T>, wanted: T): Promise<void> {
  for (let asked = client.refreshes.count; ; ) {
    const now = await ask();
    if (JSON.stringify(now) === JSON.stringify(wanted)) return;
    await client.until(() => (client.refreshes.count > asked ? true : undefined));
    asked = client.refreshes.count;
  }
}

describe("a panel of a stored file", () => {
  const art = `${home}/stored/art.h`;

  test("is known, never reported as unknown before, and follows the file", async () => {
    store({
      "stored/board.h": BOARD,
      "stored/node_modules/x.h": "// @panel lantern 7x7\n",
      "stored/plain.h": "int a;\n",
    });
    const client = await start("stored");
    client.open(art, ART);
    expect(await codes(client, art)).toEqual([]);
    await becomes(client, () => size(client, art), "2x1 9");
    expect(await codes(client, art)).toEqual([]);
    store({ "stored/board.h": BOARD.replace("2x1", "1x2") });
    await watched(client, "stored/board.h", FileChangeType.Changed);
    await becomes(client, () => size(client, art), "1x2 9");
    rmSync(join(folder, "stored/board.h"));
    // A client tells of a folder's end only by the folder.
    await watched(client, "stored", FileChangeType.Deleted);
    await becomes(client, () => size(client, art), undefined);
    expect(await codes(client, art)).toEqual(["unknown-panel 1"]);
    store({ "stored/board2.h": BOARD });
    await watched(client, "stored/board2.h", FileChangeType.Created);
    await becomes(client, () => size(client, art), "2x1 9");
  });

  test("is told in hovers and offered in completions, with the file that defines it", async () => {
    store({ "told/hw/board.h": BOARD });
    const client = await start("told");
    const uri = `${home}/told/art.h`;
    client.open(uri, ART);
    await becomes(client, () => size(client, uri), "2x1 9");
    const hover = await client.request<object, Hover>(HoverRequest.type, {
      textDocument: { uri },
      position: positionOf(ART, "lantern", 2),
    });
    expect((hover.contents as { value: string }).value).toContain("defined in hw/board.h:2");
    expect((hover.contents as { value: string }).value).toContain("@panel lantern 2x1 gray8 cap=9");
    const items = await client.request<object, CompletionItem[]>(CompletionRequest.type, {
      textDocument: { uri },
      position: positionOf(ART, "lantern"),
    });
    expect(items.find(({ label }) => label === "lantern")).toMatchObject({ detail: "hw/board.h" });
  });

  test("of a client that reads files itself", async () => {
    const files = new Map([
      ["vgarden:/beds/hw/board.h", BOARD],
      ["vgarden:/other/board.h", "// @panel lantern 5x5\n"],
    ]);
    const client = await start("", { folder: "vgarden:/beds", files, initializationOptions: { files: true } });
    const uri = "vgarden:/beds/art.h";
    client.open(uri, ART);
    await becomes(client, () => size(client, uri), "2x1 9");
    expect(await codes(client, uri)).toEqual([]);
  });
});

describe("looking through the files", () => {
  test("shows progress where it takes long, and may be called off: no name is called unknown then", async () => {
    let arrive = (_text: string) => {};
    const far = new Promise<string>((resolve) => {
      arrive = resolve;
    });
    const files = new Map<string, string | Promise<string>>([["vgarden:/far/board.h", far]]);
    const client = await start("", {
      folder: "vgarden:/far",
      files,
      capabilities: { ...FULL, window: { workDoneProgress: true } },
      initializationOptions: { files: true },
    });
    const { connection } = client;
    const shown = new Promise<[ProgressToken, WorkDoneProgressBegin]>((resolve) => {
      connection.onRequest(WorkDoneProgressCreateRequest.type, ({ token }) => {
        connection.onProgress(WorkDoneProgress.type, token, (value) => {
          if (value.kind === "begin") resolve([token, value]);
        });
      });
    });
    const uri = "vgarden:/far/art.h";
    client.open(uri, ART);
    expect(await codes(client, uri)).toEqual([]);
    const [token, begin] = await shown;
    expect(begin).toMatchObject({ title: "Looking for panels", cancellable: true });
    await connection.sendNotification(WorkDoneProgressCancelNotification.type, { token });
    arrive("int far;");
    expect(await codes(client, uri)).toEqual([]);
    // Asked for, the files are looked through after all.
    expect(await connection.sendRequest(CHECK_WORKSPACE, {})).toMatchObject({ files: 1, error: 1 });
    expect(await codes(client, uri)).toEqual(["unknown-panel 1"]);
  });
});

describe("a panel of an open document", () => {
  test("as it is typed, in all documents that name it and in no others; closed again, as it is stored", async () => {
    store({ "open/board.h": BOARD });
    const client = await start("open", { initializationOptions: { files: false } });
    const [art, board, other] = [`${home}/open/art.h`, `${home}/open/board.h`, `${home}/open/other.h`];
    client.open(art, ART);
    client.open(other, "// @bitmap 2x1\nconst unsigned char pot[] = { 3, 4 };\n");
    await becomes(client, () => size(client, art), "2x1 9");
    client.open(board, BOARD);
    expect(await codes(client, board)).toEqual([]);
    const { resultId } = await client.request<object, { resultId: string }>(
      { method: "textDocument/diagnostic" },
      { textDocument: { uri: other } },
    );
    const before = client.refreshes.count;
    client.change(board, 2, [{ text: BOARD.replace("cap=9", "cap=1") }]);
    expect(await codes(client, art)).toEqual(["over-cap 2"]);
    expect(await size(client, art)).toBe("2x1 1");
    // The client is asked to look again, since it does not know that the lenses depend on another file.
    await client.until(() => (client.refreshes.count > before ? true : undefined));
    const again = await client.request<object, { kind: string }>(
      { method: "textDocument/diagnostic" },
      { textDocument: { uri: other }, previousResultId: resultId },
    );
    expect(again.kind).toBe("unchanged");
    client.close(board);
    await becomes(client, () => size(client, art), "2x1 9");
  });

  test("tells the paint editor which documents mean something else", async () => {
    const files = new Map([["vgarden:/pots/board.h", BOARD]]);
    const client = await start("", { folder: "vgarden:/pots", files, initializationOptions: { files: true } });
    const [art, board] = ["vgarden:/pots/art.h", "vgarden:/pots/board.h"];
    client.open(art, ART);
    await becomes(client, () => size(client, art), "2x1 9");
    client.open(board, BOARD);
    const before = client.reread.length;
    client.change(board, 2, [{ text: `\n${BOARD}` }]);
    client.change(board, 3, [{ text: BOARD.replace("gray8", "gray4") }]);
    expect(await size(client, art)).toBe("2x1 9");
    // A new line before it changes nothing; another format does.
    expect(client.reread.slice(before)).toEqual([art]);
  });

  test("in two files: each is told of the other, which related information names", async () => {
    store({ "twice/board.h": BOARD, "twice/x/board.h": BOARD.replace("2x1", "1x2") });
    const capabilities = {
      ...FULL,
      textDocument: { ...FULL.textDocument, publishDiagnostics: { relatedInformation: true } },
    };
    const client = await start("twice", { capabilities });
    const uri = `${home}/twice/board%2Eh`;
    client.open(uri, BOARD);
    await becomes(client, () => codes(client, uri), ["annotation 2"]);
    const [found] = await client.pull(uri);
    expect(found?.message).toContain("defined otherwise in x/board.h:2.");
    expect(found?.relatedInformation).toEqual([
      {
        location: {
          uri: `${home}/twice/x/board.h`,
          range: { start: { line: 1, character: 10 }, end: { line: 1, character: 17 } },
        },
        message: "@panel lantern 1x2 gray8 cap=9",
      },
    ]);
  });

  test("outside the workspace is its own: an older version that is compared with defines nothing twice", async () => {
    store({ "older/board.h": BOARD });
    const client = await start("older");
    const old = `git:${new URL(`${home}/older/board.h`).pathname}?HEAD`;
    client.open(old, BOARD.replace("2x1", "3x1"));
    const [art, board] = [`${home}/older/art.h`, `${home}/older/board.h`];
    client.open(board, BOARD);
    client.open(art, ART);
    await becomes(client, () => size(client, art), "2x1 9");
    expect([await codes(client, old), await codes(client, board), await codes(client, art)]).toEqual([[], [], []]);
  });
});
