import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { afterAll, describe, expect, test } from "vitest";
import type { LspClient } from "../support/lspClient.ts";
import { FULL, positionOf, startClient } from "../support/lspClient.ts";

const sample = (name: string) => readFileSync(new URL(`../../sample-workspace/${name}`, import.meta.url), "utf8");
const ART = sample("lantern_art.h");

const started: LspClient[] = [];
const start = async (...args: Parameters<typeof startClient>) => {
  const client = await startClient(...args);
  started.push(client);
  return client;
};
afterAll(() => Promise.all(started.filter((c) => c.process.exitCode === null).map((c) => c.stop())));

describe("lifecycle", () => {
  test("initialize, shutdown, exit", async () => {
    const client = await start();
    expect(client.initialized.capabilities).toMatchObject({
      positionEncoding: "utf-16",
      textDocumentSync: { openClose: true, change: 2 },
      hoverProvider: true,
      diagnosticProvider: { interFileDependencies: true },
      completionProvider: { triggerCharacters: ["@", "=", " "] },
    });
    // LSP 3.17, exit: code 0 after a shutdown request.
    expect(await client.stop()).toBe(0);
    expect(client.log).toEqual([]);
  });

  test("started by hand, it says what it is", () => {
    const server = fileURLToPath(new URL("../../dist/server.js", import.meta.url));
    const { status, stdout, stderr } = spawnSync(process.execPath, [server], { encoding: "utf8" });
    expect({ status, stdout }).toEqual({ status: 2, stdout: "" });
    expect(stderr).toBe("dotwright: this is a language server, which an editor starts as `server.js --stdio`\n");
  });

  test("exit without shutdown ends with code 1, as LSP 3.17 says", async () => {
    const client = await start();
    const ended = new Promise((resolve) => client.process.on("exit", resolve));
    await client.connection.sendNotification("exit");
    expect(await ended).toBe(1);
  });

  test("an unknown request answers MethodNotFound and the server goes on", async () => {
    const client = await start();
    await expect(client.request({ method: "dotwright/unheardOf" }, {})).rejects.toMatchObject({ code: -32601 });
    client.open("file:///a/lantern_art.h", ART);
    expect(await client.pull("file:///a/lantern_art.h")).toEqual([]);
  });

  test("requests without what they need are answered and logged", async () => {
    const client = await start();
    const uri = "file:///a/lantern_art.h";
    client.open(uri, ART);
    expect(await client.request({ method: "textDocument/hover" }, { textDocument: { uri } })).toBeNull();
    await client.until(() => client.log.find((line) => line.startsWith("hover:")));
    const wrong = { uri, identity: null } as unknown as Parameters<typeof client.own<"dotwright/picture">>[1];
    expect(await client.own("dotwright/picture", wrong)).toMatchObject({ err: expect.any(String) });
    const closed = await client.own("dotwright/bitmaps", { uri: "file:///a/never.h" });
    expect(closed).toEqual({ err: "file:///a/never.h is not open, or not C or C++" });
    expect(await client.pull(uri)).toEqual([]);
  });

  test("a request that is cancelled while it waits answers RequestCancelled", async () => {
    const client = await start();
    const uri = "file:///a/lantern_art.h";
    client.open(uri, ART.repeat(40));
    const position = positionOf(ART, "drop_icon", 2);
    // One write holds all messages, so that the cancelled request surely waits behind the first one.
    const message = (body: object) => {
      const json = JSON.stringify({ jsonrpc: "2.0", ...body });
      return `Content-Length: ${Buffer.byteLength(json)}\r\n\r\n${json}`;
    };
    const params = { textDocument: { uri }, position };
    const answers = new Map<unknown, { error?: { code: number }; result?: unknown }>();
    const done = new Promise<void>((resolve) => {
      let text = "";
      client.process.stdout?.on("data", (part: Buffer) => {
        text += part.toString();
        for (const id of ["one", "two"]) {
          const m = new RegExp(`\\{"jsonrpc":"2.0","id":"${id}"[^\\r]*?(?=Content-Length|$)`).exec(text);
          if (m?.[0].endsWith("}")) answers.set(id, JSON.parse(m[0]));
        }
        if (answers.size === 2) resolve();
      });
    });
    client.process.stdin?.write(
      message({ id: "one", method: "textDocument/diagnostic", params: { textDocument: { uri } } }) +
        message({ id: "two", method: "textDocument/hover", params }) +
        message({ method: "$/cancelRequest", params: { id: "two" } }),
    );
    await done;
    // LSP 3.17: RequestCancelled = -32800.
    expect(answers.get("two")?.error?.code).toBe(-32800);
    expect(answers.get("one")?.result).toMatchObject({ kind: "full" });
  });
});

describe("the target", () => {
  // `int` has 16 bits on avr and 32 on the host (avr-gcc ABI; x86-64 System V ABI).
  const text = "// @bitmap 2x1 gray8 pack=each\nconst unsigned int pair[2] = {70000, 1};\n";

  test("is the host for headers and avr for sketches", async () => {
    const client = await start();
    client.open("file:///a/pair.h", text);
    const bytes = async (uri: string) => {
      const reply = await client.own("dotwright/bitmaps", { uri });
      return "ok" in reply ? reply.ok.bitmaps[0]?.bytes : reply.err;
    };
    expect(await bytes("file:///a/pair.h")).toBe(8);
    client.open("file:///a/pair.ino", text);
    expect(await bytes("file:///a/pair.ino")).toBe(4);
  });

  test("comes from the initialisation options", async () => {
    const client = await start({ initializationOptions: { target: "avr" } });
    client.open("file:///a/pair.h", text);
    const reply = await client.own("dotwright/bitmaps", { uri: "file:///a/pair.h" });
    expect(reply).toMatchObject({ ok: { bitmaps: [{ bytes: 4 }] } });
  });

  test("is read anew when the setting changes", async () => {
    const settings: Record<string, unknown> = { "dotwright.target": "host" };
    const client = await start({ settings });
    const uri = "file:///a/pair.h";
    client.open(uri, text);
    expect(await client.own("dotwright/bitmaps", { uri })).toMatchObject({ ok: { bitmaps: [{ bytes: 8 }] } });
    // The first answer makes `auto` into `host`, which is a change of the setting too.
    const before = await client.until(() => (client.refreshes.count > 0 ? client.refreshes.count : undefined));
    settings["dotwright.target"] = "avr";
    await client.connection.sendNotification("workspace/didChangeConfiguration", { settings: null });
    await client.until(() => (client.refreshes.count > before ? true : undefined));
    expect(await client.own("dotwright/bitmaps", { uri })).toMatchObject({ ok: { bitmaps: [{ bytes: 4 }] } });
  });

  test("of a client without settings comes with the notification", async () => {
    const client = await start({ capabilities: { ...FULL, workspace: {} } });
    const uri = "file:///a/pair.h";
    client.open(uri, text);
    const settings = { dotwright: { target: "avr" } };
    await client.connection.sendNotification("workspace/didChangeConfiguration", { settings });
    expect(await client.own("dotwright/bitmaps", { uri })).toMatchObject({ ok: { bitmaps: [{ bytes: 4 }] } });
  });
});
