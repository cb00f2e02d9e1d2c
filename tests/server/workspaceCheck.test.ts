/** Findings of files that are not open: pulled with partial results, sent to clients that do not pull, and by command. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, describe, expect, test } from "vitest";
import type { WorkDoneProgressBegin, WorkDoneProgressEnd, WorkDoneProgressReport } from "vscode-languageserver/node";
import {
  CancellationTokenSource,
  DidChangeWatchedFilesNotification,
  FileChangeType,
  ProgressType,
  WorkDoneProgress,
  type WorkspaceDiagnosticReport,
  WorkspaceDiagnosticRequest,
  type WorkspaceDocumentDiagnosticReport,
} from "vscode-languageserver/node";
import type { CheckedWorkspace } from "../../shared/protocol/lsp.ts";
import { CHECK_WORKSPACE } from "../../shared/protocol/lsp.ts";
import type { ClientOptions, LspClient } from "../support/lspClient.ts";
import { FULL, startClient } from "../support/lspClient.ts";

const BOARD = "// @panel lantern 2x1 gray8 cap=9\n";
const ART = "// @bitmap lantern\nconst unsigned char drop[] = { 1, 2 };\n";
const GLARE = '#include "levels.h"\n// @bitmap lantern\nconst unsigned char glare[] = { 0, BRIGHT };\n';
const FILES: Record<string, string> = {
  "board.h": BOARD,
  "art.h": ART,
  "glare.h": GLARE,
  "levels.h": "#define BRIGHT 10\n",
  "misspelt.h": ART.replace("lantern", "lantren"),
  "plain.h": "int plain;\n",
};

const base = mkdtempSync(join(tmpdir(), "dotwright-check-"));
const started: LspClient[] = [];
afterAll(async () => {
  await Promise.all(started.map((c) => c.stop()));
  rmSync(base, { recursive: true });
});

/** A client on a folder of its own with these files. */
async function start(name: string, options: ClientOptions = {}) {
  const folder = join(base, name);
  const store = (files: Readonly<Record<string, string>>) => {
    for (const [file, text] of Object.entries(files)) {
      mkdirSync(dirname(join(folder, file)), { recursive: true });
      writeFileSync(join(folder, file), text);
    }
  };
  store(FILES);
  const home = pathToFileURL(folder).href;
  const client = await startClient({ folder: home, ...options });
  started.push(client);
  const changed = async (file: string, text: string) => {
    store({ [file]: text });
    const changes = [{ uri: `${home}/${file}`, type: FileChangeType.Changed }];
    await client.connection.sendNotification(DidChangeWatchedFilesNotification.method, { changes });
  };
  return { client, home, changed };
}

const PARTIAL = new ProgressType<WorkspaceDiagnosticReport>();
let tokens = 0;

/** Pulls as an editor does, telling what it has: answers what was new, by file. */
async function pull(client: LspClient, home: string, known: Map<string, string>, cancelling?: CancellationTokenSource) {
  const partialResultToken = `pull ${++tokens}`;
  const items: WorkspaceDocumentDiagnosticReport[] = [];
  const listening = client.connection.onProgress(PARTIAL, partialResultToken, (part) => {
    items.push(...part.items);
  });
  const params = {
    previousResultIds: [...known].map(([uri, value]) => ({ uri, value })),
    partialResultToken,
  };
  const last = await client.connection.sendRequest(WorkspaceDiagnosticRequest.type, params, cancelling?.token);
  listening.dispose();
  // All has come in parts.
  expect(last.items).toEqual([]);
  const found: Record<string, string[]> = {};
  for (const item of items) {
    if (item.kind !== "full") throw new Error("a report without findings");
    if (item.resultId === undefined) known.delete(item.uri);
    else known.set(item.uri, item.resultId);
    found[item.uri.slice(home.length + 1)] = item.items.map(({ code }) => String(code));
  }
  return found;
}

const ALL = { "board.h": [], "art.h": [], "glare.h": ["over-cap"], "misspelt.h": ["unknown-panel"] };

describe("a client that pulls", () => {
  test("gets all files worth it at once, then only what is another, as soon as it is", async () => {
    const { client, home, changed } = await start("pulled");
    const known = new Map<string, string>();
    expect(await pull(client, home, known)).toEqual(ALL);
    // The answer waits for a change; a header without annotations is one for the file that includes it.
    const next = pull(client, home, known);
    await changed("levels.h", "#define BRIGHT 9\n");
    expect(await next).toEqual({ "glare.h": [] });
    const more = pull(client, home, known);
    await changed("board.h", BOARD.replace("cap=9", "cap=1"));
    expect(await more).toEqual({ "art.h": ["over-cap"], "glare.h": ["over-cap"] });
    const gone = pull(client, home, known);
    await changed("misspelt.h", "int now_plain;\n");
    expect(await gone).toEqual({ "misspelt.h": [] });
  });

  test("gets what is typed in an open document for files that are not open, and theirs again when it is closed", async () => {
    const { client, home } = await start("typed");
    const known = new Map<string, string>();
    const state = await pull(client, home, known);
    // What changes while files are looked at may come in two answers.
    const becomes = async (wanted: Record<string, string[]>) => {
      while (JSON.stringify({ ...state, ...wanted }) !== JSON.stringify(state))
        Object.assign(state, await pull(client, home, known));
    };
    client.open(`${home}/board.h`, BOARD.replace("lantern", "lantren"));
    await becomes({ "art.h": ["unknown-panel"], "glare.h": ["unknown-panel"], "misspelt.h": [] });
    client.close(`${home}/board.h`);
    await becomes({ "art.h": [], "glare.h": ["over-cap"], "misspelt.h": ["unknown-panel"] });
    // What an editor asks once more after closing is what is stored.
    expect((await client.pull(`${home}/misspelt.h`)).map(({ code }) => code)).toEqual(["unknown-panel"]);
  });

  test("may call it off", async () => {
    const { client, home } = await start("called-off");
    const known = new Map<string, string>();
    await pull(client, home, known);
    const cancelling = new CancellationTokenSource();
    const waiting = pull(client, home, known, cancelling);
    cancelling.cancel();
    await expect(waiting).rejects.toThrow("cancelled");
    expect((await client.pull(`${home}/glare.h`)).map(({ code }) => code)).toEqual(["over-cap"]);
  });

  test("with the setting off gets nothing until the command asks, which counts with progress", async () => {
    const settings = { "dotwright.checkWorkspace": false };
    const { client, home } = await start("commanded", { settings });
    // A document of the folder is reported, so the server has the setting; of stored files nothing is told.
    client.open(`${home}/glare.h`, GLARE);
    const seen: string[] = [];
    client.connection.onProgress(WorkDoneProgress.type, "mine", (value: Progress) => {
      seen.push(value.kind);
    });
    const counted = await client.connection.sendRequest<CheckedWorkspace>(CHECK_WORKSPACE, { workDoneToken: "mine" });
    expect(counted).toEqual({ files: 4, error: 1, warning: 1, information: 0 });
    expect([seen[0], seen.at(-1)]).toEqual(["begin", "end"]);
    expect(await pull(client, home, new Map())).toEqual(ALL);
  });

  test("with the setting off is told of no file", async () => {
    const { client, home } = await start("off", { initializationOptions: { checkWorkspace: false } });
    expect(await pull(client, home, new Map())).toEqual({});
  });
});

type Progress = WorkDoneProgressBegin | WorkDoneProgressReport | WorkDoneProgressEnd;

test("a client that does not pull is sent them, and those of the document once it is open", async () => {
  const { diagnostic: _, ...textDocument } = FULL.textDocument ?? {};
  const { client, home } = await start("sent", { capabilities: { ...FULL, textDocument } });
  const last = (name: string) => client.pushed.filter(({ uri }) => uri === `${home}/${name}`).at(-1)?.diagnostics;
  await client.until(() => (last("glare.h")?.length === 1 && last("misspelt.h")?.length === 1 ? true : undefined));
  expect(client.pushed.map(({ uri }) => uri.slice(home.length + 1)).sort()).toEqual(["glare.h", "misspelt.h"]);
  client.open(`${home}/misspelt.h`, ART);
  await client.until(() => (last("misspelt.h")?.length === 0 ? true : undefined));
  client.close(`${home}/misspelt.h`);
  await client.until(() => (last("misspelt.h")?.length === 1 ? true : undefined));
});

const FILE_COUNT = 500;

test("typing is answered while many files are looked through", async () => {
  const folder = join(base, "many");
  mkdirSync(folder);
  const text = `${ART.replace("lantern", "9x9")}/* ${"x".repeat(5000)} */\n`;
  for (let i = 0; i < FILE_COUNT; i++) writeFileSync(join(folder, `file${i}.h`), text.replace("drop", `drop${i}`));
  const home = pathToFileURL(folder).href;
  const client = await startClient({ folder: home });
  started.push(client);
  const uri = `${home}/typed.h`;
  client.open(uri, ART);
  let done = false;
  const all = pull(client, home, new Map()).then((found) => {
    done = true;
    return found;
  });
  const waits: number[] = [];
  for (let version = 2; !done; version++) {
    client.change(uri, version, [{ text: `${ART}// ${version}\n` }]);
    const begun = performance.now();
    await client.pull(uri);
    waits.push(performance.now() - begun);
  }
  expect(Object.keys(await all)).toHaveLength(FILE_COUNT + 1);
  waits.sort((a, b) => a - b);
  const [middle, longest] = [waits[waits.length >> 1] ?? 0, waits.at(-1) ?? 0];
  process.stdout.write(
    `while checking: ${waits.length} answers, half within ${middle.toFixed(1)} ms, all within ${longest.toFixed(1)} ms\n`,
  );
  expect(waits.length).toBeGreaterThan(20);
  expect(middle).toBeLessThan(100);
});
