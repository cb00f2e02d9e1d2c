/** What is made of a wiring, as actions of the editor and by the command. */
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { CodeAction, CreateFile, TextDocumentEdit, TextEdit } from "vscode-languageserver/node";
import { TextDocument } from "vscode-languageserver-textdocument";
import { runCli } from "../support/cli.ts";
import type { LspClient } from "../support/lspClient.ts";
import { FULL, startClient } from "../support/lspClient.ts";

let client: LspClient;
let plain: LspClient;
let folder = "";
beforeAll(async () => {
  const { workspace, textDocument } = FULL;
  const capabilities = {
    workspace: { ...workspace, workspaceEdit: { documentChanges: true, resourceOperations: ["create" as const] } },
    textDocument: { ...textDocument, codeAction: { ...textDocument?.codeAction, disabledSupport: true } },
  };
  [client, plain] = await Promise.all([startClient({ capabilities }), startClient({ capabilities: {} })]);
  folder = await mkdtemp(join(tmpdir(), "dotwright-wiring-"));
});
afterAll(async () => {
  await Promise.all([client.stop(), plain.stop()]);
  await rm(folder, { recursive: true, force: true });
});

const ART = "// @bitmap sill\nconst uint8_t sprout[6] = {\n  1, 2, 3,\n  4, 5, 6,\n};\n";
const PANEL = "// @panel sill 3x2 wire=serpentine;top-right\n";
const SHUFFLED = "// @panel sill 3x2\n// @wiring sill\nconst uint8_t seats[6] = {\n  5, 0, 4,\n  1, 3, 2,\n};\n";

let opened = 0;
async function actions(marked: string, at = client, only: string[] | undefined = ["refactor.wiring"]) {
  const offset = marked.indexOf("|");
  const text = marked.replace("|", "");
  const uri = `file:///garden/wiring${opened++}.h`;
  at.open(uri, text);
  const doc = TextDocument.create(uri, "cpp", 1, text);
  const position = doc.positionAt(offset);
  const context = { diagnostics: [], ...(only ? { only } : {}) };
  const params = { textDocument: { uri }, range: { start: position, end: position }, context };
  const found: CodeAction[] = await at.request({ method: "textDocument/codeAction" }, params);
  return { found, doc };
}

async function chosen(action: CodeAction | undefined, doc: TextDocument): Promise<string> {
  if (!action) throw new Error("no such action");
  const resolved: CodeAction = await client.request({ method: "codeAction/resolve" }, action);
  const [change] = resolved.edit?.documentChanges ?? [];
  if (!change || !("edits" in change)) throw new Error("no edit of the document");
  return TextDocument.applyEdits(doc, change.edits as TextEdit[]);
}

const titled = (found: readonly CodeAction[], title: string) => found.find((a) => a.title.includes(title));

const ADDRESS = `/* Driver address of a pixel of sill (3x2): wire=serpentine;top-right */
static inline uint16_t sill_address(uint16_t column, uint16_t row) {
  const uint16_t line = row;
  return line * 3 + (line & 1 ? column : 2 - column);
}`;
const DRAW = `/* Draws the picture of an array laid out as sprout (gray8): calls \`put\` for every pixel of sill
 * with its driver address and its value, 0 to 255. */
static inline void sill_draw(const void *art, void (*put)(uint16_t index, uint8_t value)) {
  const uint8_t *const elements = (const uint8_t *)art;
  for (uint16_t row = 0; row < 2; row++) {
    for (uint16_t column = 0; column < 3; column++) {
      const uint16_t index = sill_address(column, row);
      const uint16_t at = row * 3 + column;
      const uint8_t raw = elements[at];
      put(index, raw);
    }
  }
}`;
const TABLE = "// @wiring sill\nconst uint8_t sill_wiring[6] = {\n  2, 1, 0,\n  3, 4, 5,\n};";

describe("actions on a panel", () => {
  test("are offered on its annotation", async () => {
    const { found } = await actions(`${PANEL.replace("sill", "si|ll")}${ART}`);
    expect(found.map((a) => a.title)).toEqual([
      "Write the index table of sill",
      "Write a function from column and row of sill to the driver's address",
      "Write a function that draws pictures like sprout on sill",
      "Write a sketch that probes the wiring of sill",
    ]);
    const elsewhere = await actions(`${PANEL}${ART.replace("1,", "1|,")}`);
    expect(elsewhere.found).toEqual([]);
    const other = await actions(`${PANEL.replace("sill", "si|ll")}${ART}`, client, ["refactor.rewrite"]);
    expect(other.found.filter((a) => a.kind === "refactor.wiring")).toEqual([]);
  });

  test("write the table, where the panel is", async () => {
    const { found, doc } = await actions(`${PANEL.replace("sill", "si|ll")}\n${ART}`);
    expect(await chosen(titled(found, "index table"), doc)).toBe(`${PANEL}\n${TABLE}\n\n${ART}`);
  });

  test("write the function from column and row", async () => {
    const { found, doc } = await actions(`${PANEL.replace("sill", "si|ll")}\n${ART}`);
    expect(await chosen(titled(found, "from column and row"), doc)).toBe(`${PANEL}\n${ADDRESS}\n\n${ART}`);
  });

  test("write a draw function after the bitmap, with the function that it calls unless that is there", async () => {
    const { found, doc } = await actions(`${PANEL}\n${ART.replace("sprout", "spr|out")}`);
    expect(found.map((a) => a.title)).toEqual(["Write a function that draws pictures like sprout on sill"]);
    expect(await chosen(found[0], doc)).toBe(`${PANEL}\n${ART}\n${ADDRESS}\n\n${DRAW}\n`);
    const again = await actions(`${PANEL}\n${ADDRESS}\n\n${ART.replace("sprout", "spr|out")}`);
    expect(await chosen(again.found[0], again.doc)).toBe(`${PANEL}\n${ADDRESS}\n\n${ART}\n${DRAW}\n`);
  });

  test("say why no formula gives a table without a rule; what draws looks its addresses up", async () => {
    const { found, doc } = await actions(`${SHUFFLED.replace("@wiring", "@wir|ing")}${ART}`);
    expect(titled(found, "index table")).toBeUndefined();
    expect(titled(found, "from column and row")?.disabled?.reason).toBe(
      "No formula gives the addresses of sill: seats follows none of the usual wirings. Its table is the way to look them up.",
    );
    expect(await chosen(titled(found, "that draws"), doc)).toContain("  return seats[row * 3 + column];\n");
  });

  test("make the probe's sketch in a folder of its name", async () => {
    const { found } = await actions(`${PANEL.replace("sill", "si|ll")}${ART}`);
    const action = titled(found, "sketch") as CodeAction;
    const resolved: CodeAction = await client.request({ method: "codeAction/resolve" }, action);
    const [create, fill] = (resolved.edit?.documentChanges ?? []) as [CreateFile, TextDocumentEdit];
    expect(create).toMatchObject({ kind: "create", uri: "file:///garden/sill_probe/sill_probe.ino" });
    expect(fill.textDocument).toEqual({ uri: create.uri, version: null });
    expect((fill.edits[0] as TextEdit).newText).toContain("static void sill_probe(uint8_t pattern");
  });

  test("come with their edits for a client that can't ask later", async () => {
    const { found } = await actions(`${PANEL.replace("sill", "si|ll")}${ART}`, plain);
    expect(found.map((a) => Object.keys(a.edit?.changes ?? {}).length)).toEqual([1, 1, 1]);
  });

  test("are not made of a wiring that is wrong", async () => {
    const { found } = await actions(`// @panel si|ll 3x2 wire=2x2@0,0>0,0\n${ART}`);
    expect(found.filter((a) => !a.disabled).map((a) => a.title)).toEqual([
      "Write a sketch that probes the wiring of sill",
    ]);
  });
});

describe("the command", () => {
  const run = async (text: string, ...args: string[]) => {
    await writeFile(join(folder, "art.h"), text);
    return runCli(["wiring", ...args], { cwd: folder });
  };

  test("prints the addresses as rows of the panel", async () => {
    const { code, stdout } = await run(PANEL + ART, "art.h", "sill");
    expect({ code, stdout }).toEqual({
      code: 0,
      stdout: "sill: 3×2 on a driver's canvas of 3×2, wire=serpentine;top-right\n  2 1 0\n  3 4 5\n",
    });
    expect((await run(SHUFFLED, "art.h", "sill")).stdout).toContain("the table seats\n  5 0 4\n");
    expect((await run("// @panel sill 2x1\n", "art.h", "sill")).stdout).toContain("row by row\n  0 1\n");
  });

  test("prints what is made in C, each piece once", async () => {
    const { stdout, code } = await run(PANEL + ART, "art.h", "sill", "--table", "--address", "--draw", "sprout");
    expect(code).toBe(0);
    expect(stdout).toBe(`${TABLE}\n\n${ADDRESS}\n\n${DRAW}\n`);
    const probe = await run(PANEL, "art.h", "sill", "--probe");
    expect(probe.stdout).toContain("which of the 6 driver addresses?");
    expect(await readFile(join(folder, "art.h"), "utf8")).toBe(PANEL);
  });

  test.each([
    [[], "wiring takes a file and the name of a panel"],
    [["art.h", "sil"], "sil is not a panel that this file knows; did you mean sill?"],
    [["art.h", "sill", "--draw", "sprot"], "did you mean sprout?"],
    [["art.h", "sill", "--line", "3"], "--line goes with --draw"],
  ])("%j is refused with exit code 2", async (args, says) => {
    const { code, stdout, stderr } = await run(PANEL + ART, ...args);
    expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
    expect(stderr).toContain(says);
  });

  test("says why there is no formula, and prints nothing then", async () => {
    const { code, stdout, stderr } = await run(SHUFFLED, "art.h", "sill", "--table", "--address");
    expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
    expect(stderr).toContain("No formula gives the addresses of sill");
    expect((await run("// @panel sill 3x2 wire=2x2@0,0>0,0\n", "art.h", "sill")).stderr).toContain(
      "The wiring of sill is not known",
    );
  });
});
