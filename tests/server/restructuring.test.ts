/** `dotwright/restructure` through the server: edits of the newest version, what the bitmap is then, and refusals. */
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { TextDocument } from "vscode-languageserver-textdocument";
import type { LspParams, LspReply } from "../../shared/protocol/lsp.ts";
import type { LspClient } from "../support/lspClient.ts";
import { startClient } from "../support/lspClient.ts";

let client: LspClient;
beforeAll(async () => {
  client = await startClient();
});
afterAll(() => client.stop());

const TEXT = "// @bitmap 2x1 frames=2\nconst uint8_t drop[4] PROGMEM = {\n  1, 2,\n  3, 4, // second\n};\n";

let opened = 0;
async function open(text: string) {
  const uri = `untitled:restructuring${opened++}`;
  client.open(uri, text);
  return { uri, identity: await identityIn(uri) };
}

async function identitiesIn(uri: string) {
  const { ok }: { ok: { bitmaps: { identity: LspParams<"dotwright/restructure">["identity"] }[] } } =
    await client.request({ method: "dotwright/bitmaps" }, { uri });
  return ok.bitmaps.map((b) => b.identity);
}

async function identityIn(uri: string) {
  const [first] = await identitiesIn(uri);
  if (!first) throw new Error("no bitmap");
  return first;
}

const ask = (params: LspParams<"dotwright/restructure">): Promise<LspReply<"dotwright/restructure">> =>
  client.request({ method: "dotwright/restructure" }, params);

const frames = (...order: (number | "dark")[]) => ({ kind: "frames" as const, order });

function applied(text: string, reply: LspReply<"dotwright/restructure">): string {
  if ("err" in reply) throw new Error(reply.err);
  const edits = reply.ok.edits.map(({ range, newText }) => ({ range, newText }));
  return TextDocument.applyEdits(TextDocument.create("", "cpp", 1, text), edits);
}

describe("dotwright/restructure", () => {
  test("gives edits, and the identity that the bitmap has after them", async () => {
    const { uri, identity } = await open(TEXT);
    const reply = await ask({ uri, version: 1, identity, change: frames(1, "dark", 0) });
    const now = applied(TEXT, reply);
    expect(now).toBe(
      "// @bitmap 2x1 frames=3\nconst uint8_t drop[6] PROGMEM = {\n  3, 4, // second\n  0, 0,\n  1, 2,\n};\n",
    );
    client.change(uri, 2, [{ text: now }]);
    expect("ok" in reply && reply.ok).toMatchObject({ version: 1, identity: await identityIn(uri) });
  });

  test("finds the array again where the text has moved on", async () => {
    const { uri, identity } = await open(TEXT);
    const moved = `int n;\n${TEXT}`;
    client.change(uri, 2, [{ text: moved }]);
    const reply = await ask({
      uri,
      version: 1,
      identity,
      change: { kind: "size", left: 0, top: 0, right: 1, bottom: 0 },
    });
    expect("ok" in reply && reply.ok.version).toBe(2);
    expect(applied(moved, reply)).toBe(
      "int n;\n// @bitmap 3x1 frames=2\nconst uint8_t drop[6] PROGMEM = {\n  1, 2, 0,\n  3, 4, 0, // second\n};\n",
    );
  });

  test("is read back with the files that the document includes", async () => {
    const header = `file:///greenhouse/steps${opened}.h`;
    client.open(header, "#define GLOW 64\n");
    const uri = `file:///greenhouse/moving${opened++}.cpp`;
    const text = `#include "${header.split("/").pop()}"\n// @bitmap 2x1\nconst uint8_t drop[] = {1, GLOW};\n`;
    client.open(uri, text, "cpp");
    const reply = await ask({ uri, version: 1, identity: await identityIn(uri), change: frames(0, 0) });
    expect(applied(text, reply)).toContain("frames=2\nconst uint8_t drop[] = {1, GLOW, 1, GLOW};");
  });

  test("answers for 320x240 pixels", async () => {
    const rows = Array.from(
      { length: 240 },
      (_, y) => `  ${Array.from({ length: 320 }, (_, x) => (x * y) % 256).join(", ")},`,
    );
    const text = `// @bitmap 320x240\nconst uint8_t view[76800] = {\n${rows.join("\n")}\n};\n`;
    const { uri, identity } = await open(text);
    const now = applied(text, await ask({ uri, version: 1, identity, change: frames(0, "dark") }));
    expect(now).toContain("// @bitmap 320x240 frames=2\nconst uint8_t view[153600] = {");
    expect(now.split("\n")).toHaveLength(text.split("\n").length + 240);
  });

  test.each([
    ["a version that has not arrived", { version: 9 }, "version 9 has not arrived yet; the newest is 1"],
    ["another shape", { identity: { structure: "9x9" } }, "drop has changed its shape"],
    ["a bitmap that is gone", { identity: { name: "leaf" } }, "leaf is no longer there"],
    ["a frame that is not there", { change: frames(2) }, "drop has no frame 2"],
  ])("refuses %s", async (_, other, reason) => {
    const { uri, identity } = await open(TEXT);
    const given = {
      uri,
      version: 1,
      change: frames(0),
      ...other,
      identity: { ...identity, ...("identity" in other ? other.identity : {}) },
    };
    expect(await ask(given)).toEqual({ err: reason });
  });

  test("changes all arrays of a set by one answer, and tells what all of them are after it", async () => {
    const text = `${TEXT}// @bitmap 2x1\nconst uint8_t leaf[2] = { 5, 6 };\n`;
    const { uri, identity } = await open(text);
    const together = await identitiesIn(uri);
    const change = { kind: "size" as const, left: 0, top: 0, right: 1, bottom: 0 };
    const reply = await ask({ uri, version: 1, identity, together, change });
    const now = applied(text, reply);
    expect(now).toContain("drop[6] PROGMEM = {\n  1, 2, 0,\n  3, 4, 0, // second\n};");
    expect(now).toContain("// @bitmap 3x1\nconst uint8_t leaf[3] = { 5, 6, 0 };");
    client.change(uri, 2, [{ text: now }]);
    expect("ok" in reply && reply.ok).toMatchObject({
      version: 1,
      identity: await identityIn(uri),
      together: await identitiesIn(uri),
    });
    const gone = await ask({ uri, version: 2, identity: await identityIn(uri), together, change });
    expect(gone).toEqual({ err: "drop has changed its shape" });
  });

  test("a frame more than an array of the set has is a new array, which belongs to the set", async () => {
    const text = `${TEXT}// @bitmap 2x1\nconst uint8_t leaf[2] = { 5, 6 };\n`;
    const { uri, identity } = await open(text);
    const together = await identitiesIn(uri);
    const reply = await ask({ uri, version: 1, identity, together, change: frames(0, 1, 2, 2) });
    const now = applied(text, reply);
    expect(now).toContain("const uint8_t leaf_2[2] = { 5, 6 };");
    client.change(uri, 2, [{ text: now }]);
    const after = await identitiesIn(uri);
    expect(after.map((one) => one.name)).toEqual(["drop", "leaf", "leaf_2"]);
    expect("ok" in reply && reply.ok.together).toEqual(after);
  });
});
