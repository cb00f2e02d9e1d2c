import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { TextDocumentContentChangeEvent } from "vscode-languageserver/node";
import { TextDocument } from "vscode-languageserver-textdocument";
import type { LspClient } from "../support/lspClient.ts";
import { positionOf, startClient } from "../support/lspClient.ts";

const sample = (name: string) => readFileSync(new URL(`../../sample-workspace/${name}`, import.meta.url), "utf8");

let client: LspClient;
beforeAll(async () => {
  client = await startClient();
});
afterAll(() => client.stop());

/** ISO C's example rand() (C17 7.22.2.1). */
function randomFrom(seed: number): (below: number) => number {
  let next = seed;
  return (below) => {
    next = (Math.imul(next, 1103515245) + 12345) >>> 0;
    return (next >>> 8) % below;
  };
}

/** Everything that a document answers without a position: what two servers must agree on for equal texts. */
async function answers(uri: string): Promise<string> {
  const textDocument = { uri };
  const [diagnostics, symbols, lenses, bitmaps] = await Promise.all([
    client.pull(uri),
    client.request({ method: "textDocument/documentSymbol" }, { textDocument }),
    client.request<object, { range: object }[]>({ method: "textDocument/codeLens" }, { textDocument }),
    client.own("dotwright/bitmaps", { uri }),
  ]);
  const listed = "ok" in bitmaps ? bitmaps.ok.bitmaps : bitmaps;
  // A diagnostic names places in its document.
  return JSON.stringify([diagnostics, symbols, lenses.map((l) => l.range), listed]).replaceAll(uri, "");
}

describe("incremental edits", () => {
  // About a million characters: the sample's art and mistakes over and over, with other line ends in places.
  const text = `${sample("mistakes.h")}${sample("lantern_art.h")}${sample("status_screen.h").replace(/\n/g, "\r\n")}`
    .repeat(40)
    .slice(0, 1_000_000);

  test("a document of a million characters stays the same as one opened afresh", async () => {
    const uri = "file:///garden/edited.h";
    const random = randomFrom(7);
    client.open(uri, text);
    let mine = TextDocument.create(uri, "cpp", 1, text);
    const pieces = [
      "",
      "",
      "7",
      ", ",
      "\n",
      "\r\n",
      "\r",
      "{",
      "}",
      "/* ",
      "*/",
      '"',
      "// @bitmap 3x3\n",
      "\u{1f33f}",
      "0x40, 0x07",
      "é",
    ];
    for (let round = 0; round < 3; round++) {
      for (let i = 0; i < 25; i++) {
        const start = random(mine.getText().length);
        const end = random(3) === 0 ? start + random(200) : start + random(3);
        const change: TextDocumentContentChangeEvent = {
          range: { start: mine.positionAt(start), end: mine.positionAt(end) },
          text: pieces[random(pieces.length)] as string,
        };
        client.change(uri, mine.version + 1, [change]);
        mine = TextDocument.update(mine, [change], mine.version + 1);
      }
      const fresh = `file:///garden/fresh${round}.h`;
      client.open(fresh, mine.getText());
      expect(await answers(uri)).toBe(await answers(fresh));
      client.close(fresh);
    }
    client.close(uri);
  });

  test("several changes in one message apply one after the other, and a full text replaces all", async () => {
    const uri = "file:///garden/several.h";
    client.open(uri, "// @bitmap 2x1\nconst uint8_t a[2] = {1, 2};\n");
    const at = (line: number, from: number, to: number) => ({
      start: { line, character: from },
      end: { line, character: to },
    });
    client.change(uri, 2, [
      { range: at(1, 22, 23), text: "11" },
      { range: at(1, 26, 27), text: "22" },
    ]);
    const listed = await client.own("dotwright/bitmaps", { uri });
    if ("err" in listed) throw new Error(listed.err);
    const identity = listed.ok.bitmaps[0]?.identity;
    if (!identity) throw new Error("no bitmap");
    expect(await client.own("dotwright/picture", { uri, identity })).toMatchObject({
      ok: { version: 2, frames: [{ pixels: [11, 22] }] },
    });
    client.change(uri, 3, [{ text: "int none;\n" }]);
    expect(await client.own("dotwright/bitmaps", { uri })).toEqual({ ok: { version: 3, bitmaps: [] } });
  });

  test("a position past the end of a line or of the text is clamped, as LSP 3.17 says", async () => {
    const uri = "file:///garden/clamped.h";
    client.open(uri, "// @bitmap 1x1\nconst uint8_t a[1] = {1};");
    const far = { line: 99, character: 99 };
    client.change(uri, 2, [{ range: { start: far, end: far }, text: "\n// @bitmap 1x1\nconst uint8_t b[1] = {2};" }]);
    const hover = (position: object) =>
      client.request({ method: "textDocument/hover" }, { textDocument: { uri }, position });
    expect(await hover({ line: 0, character: 5000 })).not.toBeNull();
    expect(await hover(far)).toBeNull();
    expect(await client.own("dotwright/bitmaps", { uri })).toMatchObject({
      ok: { bitmaps: [{ name: "a" }, { name: "b" }] },
    });
  });
});

describe("any input", () => {
  const random = randomFrom(3);
  const binary = Buffer.from(Uint8Array.from({ length: 300_000 }, () => random(256))).toString("utf8");
  const huge = (() => {
    const one = `// @bitmap 32x32 gray8\nconst uint8_t art@[1024] = {\n${`  ${"0x1F, ".repeat(32)}\n`.repeat(32)}};\n`;
    let text = "";
    for (let i = 0; text.length < 5_000_000; i++) text += one.replace("art@", `art${i}`);
    return text;
  })();
  const line = `// @bitmap 128x128\nconst uint8_t wide[] = {${"12,345678, ".repeat(9000)}};\n`;
  const open = "// @bitmap 9x9 ".repeat(3000);
  const deep = `// @bitmap 9x9\nint a[] = ${"{".repeat(50_000)}`;
  const noEnd = `/* @bitmap 9x9 ${"word ".repeat(40_000)}`;

  test.each([
    ["binary", binary],
    ["a line of 100,000 characters", line],
    ["5 MB of art", huge],
    ["3,000 markers on a line", open],
    ["50,000 open braces", deep],
    ["a comment without an end", noEnd],
    ["a lone surrogate", "// @bitmap 1x1 \ud800\nconst uint8_t a[1] = {1};\udc00"],
    ["nothing", ""],
  ])("is answered: %s", async (name, text) => {
    const uri = `file:///garden/${encodeURIComponent(name)}.h`;
    const textDocument = { uri };
    client.open(uri, text);
    await client.pull(uri);
    const middle = TextDocument.create(uri, "cpp", 1, text).positionAt(text.length >> 1);
    const position = text === huge ? positionOf(text, "art9[") : middle;
    const range = { start: position, end: position };
    const slow: string[] = [];
    for (const [method, params] of [
      ["textDocument/hover", { textDocument, position }],
      ["textDocument/completion", { textDocument, position: middle }],
      ["textDocument/documentSymbol", { textDocument }],
      ["textDocument/codeLens", { textDocument }],
      ["textDocument/codeAction", { textDocument, range, context: { diagnostics: [] } }],
      ["textDocument/diagnostic", { textDocument }],
      ["dotwright/bitmaps", { uri }],
    ] as const) {
      // The best of three, as other programs run on the machine too.
      let best = Number.POSITIVE_INFINITY;
      for (let i = 0; i < 3; i++) {
        const begun = performance.now();
        const answer = await client.request<object, unknown>({ method }, params);
        best = Math.min(best, performance.now() - begun);
        expect(answer === undefined, method).toBe(false);
      }
      if (best > 200) slow.push(`${method} ${Math.round(best)} ms`);
    }
    expect(slow).toEqual([]);
    client.close(uri);
    expect(client.log).toEqual([]);
  });
});
