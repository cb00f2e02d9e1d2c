import { fileURLToPath } from "node:url";
import { PNG } from "pngjs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { CodeAction, CodeActionParams, Hover, TextEdit, WorkspaceEdit } from "vscode-languageserver/node";
import { TextDocument } from "vscode-languageserver-textdocument";
import { runCli } from "../support/cli.ts";
import type { LspClient } from "../support/lspClient.ts";
import { positionOf, startClient } from "../support/lspClient.ts";

let client: LspClient;
beforeAll(async () => {
  client = await startClient();
});
afterAll(() => client.stop());

let opened = 0;
function document(text: string): string {
  const uri = `file:///garden/offers${opened++}.h`;
  client.open(uri, text);
  return uri;
}

const SPROUT = `#include "board.h"
static const uint8_t sprout_icon_16x4[] = {
  0x01, 0x80, 0x03, 0xC0, 0x01, 0x80, 0x0F, 0xF0
};
  const uint8_t lamp_9x2[18] = { 0, 9, 20, 40, 64, 40, 20, 9, 0, 0, 5, 12, 30, 50, 30, 12, 5, 0 };
const uint8_t tune[] = { 12, 4, 14, 4, 16, 8 };
const uint8_t icon_rows[8][8] = { { 1, 2, 3, 4, 5, 6, 7, 8 } };
`;

async function actionsOn(uri: string, text: string, piece: string, only?: string[]): Promise<CodeAction[]> {
  const at = positionOf(text, piece, 1);
  const params: CodeActionParams = {
    textDocument: { uri },
    range: { start: at, end: at },
    context: { diagnostics: [], ...(only ? { only } : {}) },
  };
  return client.request({ method: "textDocument/codeAction" }, params);
}

async function applied(text: string, action: CodeAction | undefined): Promise<string> {
  if (!action) throw new Error("no action");
  const resolved: CodeAction = action.edit ? action : await client.request({ method: "codeAction/resolve" }, action);
  const [change] = (resolved.edit as WorkspaceEdit).documentChanges ?? [];
  if (!change || !("edits" in change)) throw new Error("no edit");
  return TextDocument.applyEdits(TextDocument.create("", "cpp", 1, text), change.edits as TextEdit[]);
}

const hoverOn = (uri: string, text: string, piece: string): Promise<Hover | null> =>
  client.request({ method: "textDocument/hover" }, { textDocument: { uri }, position: positionOf(text, piece, 1) });

describe("code actions", () => {
  test("offer the readings of the array at the cursor, best first, and name the evidence", async () => {
    const uri = document(SPROUT);
    const actions = await actionsOn(uri, SPROUT, "sprout_icon_16x4");
    expect(actions[0]?.title).toMatch(/^Annotate as 16x4 mono1 \(its name ends in _16x4/);
    expect(actions.every((a) => a.title.startsWith("Annotate "))).toBe(true);
    expect(actions.slice(0, -1).every((a) => a.kind === "refactor.annotate")).toBe(true);
    expect(await applied(SPROUT, actions[0])).toBe(
      SPROUT.replace("static const uint8_t sprout", "// @bitmap 16x4 mono1\nstatic const uint8_t sprout"),
    );
  });

  test("offer nothing on a table, on its numbers, or where only fixes are wanted", async () => {
    const uri = document(SPROUT);
    expect(await actionsOn(uri, SPROUT, "tune")).toEqual([]);
    expect(await actionsOn(uri, SPROUT, "0xC0")).toEqual([]);
    expect(await actionsOn(uri, SPROUT, "sprout_icon_16x4", ["quickfix"])).toEqual([]);
  });

  test("annotate all of a file that is clear, with one edit", async () => {
    const uri = document(SPROUT);
    const all = (await actionsOn(uri, SPROUT, "include", ["source.annotate.dotwright"]))[0];
    expect(all?.kind).toBe("source.annotate.dotwright");
    const text = await applied(SPROUT, all);
    expect(text.match(/ *\/\/ @bitmap.*/g)).toEqual(["// @bitmap 16x4 mono1", "  // @bitmap 9x2 gray8"]);
    const again = document(text);
    const found = await actionsOn(again, text, "sprout_icon_16x4");
    const titles = found.filter(({ kind }) => !kind?.startsWith("refactor.rewrite.")).map(({ title }) => title);
    expect(titles).toEqual(["New bitmap like sprout_icon_16x4"]);
    expect(await actionsOn(again, text, "include", ["source.annotate"])).toEqual([]);
  });
});

describe("the hover", () => {
  test("shows the best offer's picture and says that it is an offer", async () => {
    const uri = document(SPROUT);
    const hover = await hoverOn(uri, SPROUT, "sprout_icon_16x4");
    const value = JSON.stringify(hover?.contents ?? "nothing");
    expect(value).toContain("not annotated; looks like 16×4 mono1");
    expect(value).toContain("because its name ends in _16x4");
    const png = /data:image\/png;base64,([A-Za-z0-9+/=]+)/.exec(value)?.[1] ?? "";
    const { width, height, data } = PNG.sync.read(Buffer.from(png, "base64"));
    expect([width % 16, height / (width / 16)]).toEqual([0, 4]);
    const k = width / 16;
    const lit = (x: number, y: number) =>
      (data[((y * k + k / 2) * width + x * k + Math.floor(k / 2)) * 4] as number) > 0;
    const rows = [0, 1, 2, 3].map((y) => Array.from({ length: 16 }, (_, x) => (lit(x, y) ? "#" : ".")).join(""));
    expect(rows).toEqual([
      "#".repeat(2).padStart(9, ".").padEnd(16, "."),
      "......####......",
      ".......##.......",
      "....########....",
    ]);
  });

  test("says nothing of a table", async () => {
    const uri = document(SPROUT);
    expect(await hoverOn(uri, SPROUT, "tune")).toBeNull();
  });

  test("stays quick on a large file without annotations", async () => {
    const list = Array.from({ length: 128 }, (_, i) => `0x${((i * 37) & 255).toString(16).padStart(2, "0")}`).join(
      ", ",
    );
    const one = (i: number) =>
      `// 32x32 icon number ${i}\nconst uint8_t leaf_${i}[128] = { ${list} };\nvoid show_${i}() { draw(leaf_${i}, 32, 32); }\n`;
    let text = "";
    for (let i = 0; text.length < 1_000_000; i++) text += one(i);
    const quickest = async (whole: string, names: readonly string[]) => {
      const uri = document(whole);
      // The first request reads the document; what is timed is the hover alone, at its quickest among other work.
      await hoverOn(uri, whole, "leaf_0[");
      const times: number[] = [];
      for (const name of names) {
        const begun = performance.now();
        const hover = await hoverOn(uri, whole, `${name}[`);
        times.push(performance.now() - begun);
        expect(hover).toMatchObject({ contents: { value: expect.stringContaining("32×32 mono1") } });
      }
      return Math.min(...times);
    };
    const numbers = Array.from({ length: 16 }, (_, i) => i + 1);
    const small = await quickest(
      numbers.concat(0).map(one).join(""),
      numbers.map((i) => `leaf_${i}`),
    );
    const large = await quickest(
      text,
      numbers.map((i) => `leaf_${i * 60}`),
    );
    console.log(
      `hover: ${small.toFixed(1)} ms in a small file, ${large.toFixed(1)} ms in ${Math.round(text.length / 1000)} kB`,
    );
    // Looking through the text for mentions may cost some milliseconds, not tens.
    expect(large).toBeLessThan(2 * small + 20);
  });
});

test("`list --all --json` gives words and evidence, and nothing for a table", async () => {
  const file = fileURLToPath(new URL("../support/offersCorpus/weather_icons.h", import.meta.url));
  const { code, stdout } = await runCli(["list", "--all", "--json", file]);
  expect(code).toBe(0);
  const { arrays } = JSON.parse(stdout) as {
    arrays: { name: string; offers?: { words: string; evidence: string }[] }[];
  };
  const of = (name: string) => arrays.find((a) => a.name === name)?.offers;
  expect(of("leaf_16x16")?.[0]).toEqual({
    words: "16x16 mono1",
    evidence: expect.stringMatching(/^its name ends in _16x16/),
  });
  expect(of("sunrise")).toBeUndefined();
});
