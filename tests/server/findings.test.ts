import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type {
  CodeAction,
  Diagnostic,
  PublishDiagnosticsParams,
  TextEdit,
  WorkspaceEdit,
} from "vscode-languageserver/node";
import { TextDocument } from "vscode-languageserver-textdocument";
import type { LspClient } from "../support/lspClient.ts";
import { FULL, positionOf, startClient } from "../support/lspClient.ts";

const MISTAKES = readFileSync(new URL("../../sample-workspace/mistakes.h", import.meta.url), "utf8");

let client: LspClient;
const others: LspClient[] = [];
beforeAll(async () => {
  client = await startClient();
});
afterAll(() => Promise.all([client, ...others].map((c) => c.stop())));

let opened = 0;
/** Opens a text as a new document. */
function document(text: string): string {
  const uri = `file:///garden/findings${opened++}.h`;
  client.open(uri, text);
  return uri;
}

function editsOf(edit: WorkspaceEdit, uri: string): TextEdit[] {
  const [change, ...more] = edit.documentChanges ?? [];
  if (!change || more.length > 0 || !("textDocument" in change)) throw new Error("not the edit of one document");
  expect(change.textDocument).toEqual({ uri, version: 1 });
  return change.edits as TextEdit[];
}

const applied = (text: string, edits: TextEdit[]) =>
  TextDocument.applyEdits(TextDocument.create("", "cpp", 1, text), edits);

async function actionsAt(uri: string, diagnostic: Diagnostic): Promise<CodeAction[]> {
  const params = {
    textDocument: { uri },
    range: diagnostic.range,
    context: { diagnostics: [diagnostic], only: ["quickfix"] },
  };
  return client.request({ method: "textDocument/codeAction" }, params);
}

const resolved = (action: CodeAction): Promise<CodeAction> =>
  action.edit ? Promise.resolve(action) : client.request({ method: "codeAction/resolve" }, action);

describe("pulled diagnostics", () => {
  test("of the sample's mistakes have every code, on the words at fault", async () => {
    const uri = document(MISTAKES);
    const found = await client.pull(uri);
    const doc = TextDocument.create(uri, "cpp", 1, MISTAKES);
    const shown = found.map((d) => `${d.code} ${d.severity} ${doc.getText(d.range).replace(/\s+/g, " ").slice(0, 24)}`);
    // LSP 3.17 DiagnosticSeverity: error 1, warning 2, information 3.
    expect(shown).toEqual([
      "annotation 1 tnit",
      "annotation 1 shiny",
      "annotation 1 cap=40",
      "annotation 1 left",
      "annotation 1 @bitmap",
      "length 2 }",
      "length 2 26, 0, 0, 0, 26",
      "length 2 32",
      "length 1 }",
      "row-shape 2 0, 26, 42, 42, 26, 0",
      "out-of-range 1 300",
      "over-cap 2 96",
      "padding-bits 2 0x90",
      "uniform 3 not_drawn_yet",
      "unreadable 2 GLOW",
      "flashing 2 26",
      "current 2 42",
      "bus 2 fps=50",
      "memory 3 left_in_ram",
      "motion 2 @motion",
      "motion 2 to=-20",
      "night 3 night_flower",
      "wiring 1 4x2@0,1>4,0",
    ]);
    for (const d of found) expect(d.source).toBe("dotwright");
    expect(found.find((d) => d.code === "over-cap")?.data).toEqual({
      frame: 0,
      first: 12,
      last: 12,
      name: "glaring_centre",
      ordinal: 0,
    });
  });

  test("name a panel that is not known, which the sample never does", async () => {
    const [only, ...more] = await client.pull(document("// @bitmap porch gray8\nconst uint8_t a[1] = {1};\n"));
    expect(more).toEqual([]);
    expect(only).toMatchObject({
      code: "unknown-panel",
      range: { start: { line: 0, character: 11 }, end: { line: 0, character: 16 } },
    });
  });

  test("are unchanged while the text is", async () => {
    const uri = document(MISTAKES);
    const ask = (previousResultId?: string) =>
      client.request<object, { kind: string; resultId: string }>(
        { method: "textDocument/diagnostic" },
        { textDocument: { uri }, ...(previousResultId ? { previousResultId } : {}) },
      );
    const first = await ask();
    expect(await ask(first.resultId)).toEqual({ kind: "unchanged", resultId: first.resultId });
    const start = { line: 0, character: 0 };
    client.change(uri, 2, [{ range: { start, end: start }, text: "\n" }]);
    expect((await ask(first.resultId)).kind).toBe("full");
    client.close(uri);
    client.open(uri, "");
    expect(await ask(first.resultId)).toMatchObject({ kind: "full", items: [] });
  });

  test("a file that is no source has none", async () => {
    client.open("file:///garden/notes.txt", MISTAKES, "plaintext");
    expect(await client.pull("file:///garden/notes.txt")).toEqual([]);
  });
});

describe("pushed diagnostics", () => {
  const { diagnostic: _, ...textDocument } = FULL.textDocument ?? {};
  const start = async () => {
    const pushing = await startClient({ capabilities: { ...FULL, textDocument } });
    others.push(pushing);
    return pushing;
  };

  test("come after opening and changing, and are cleared on closing", async () => {
    const pushing = await start();
    expect(pushing.initialized.capabilities.diagnosticProvider).toBeUndefined();
    const uri = "file:///garden/pushed.h";
    const version = (v: number) => () => pushing.pushed.find((p) => p.uri === uri && p.version === v);
    pushing.open(uri, MISTAKES);
    expect((await pushing.until(version(1))).diagnostics).toHaveLength(23);
    pushing.change(uri, 2, [
      { range: { start: positionOf(MISTAKES, "tnit"), end: positionOf(MISTAKES, "tnit", 4) }, text: "tint" },
    ]);
    expect((await pushing.until(version(2))).diagnostics).toHaveLength(22);
    pushing.close(uri);
    const last = await pushing.until(() => pushing.pushed.find((p) => p.diagnostics.length === 0));
    expect(last).toEqual({ uri, diagnostics: [] } satisfies PublishDiagnosticsParams);
  });

  test("come once for changes in quick succession, and never for a clean file", async () => {
    const pushing = await start();
    const clean = "file:///garden/clean.h";
    const uri = "file:///garden/typed.h";
    pushing.open(clean, "int a = 1;\n");
    pushing.open(uri, MISTAKES);
    const end = positionOf(`${MISTAKES}\u0000`, "\u0000");
    for (let v = 2; v <= 40; v++) pushing.change(uri, v, [{ range: { start: end, end }, text: " " }]);
    await pushing.until(() => pushing.pushed.find((p) => p.version === 40));
    expect(pushing.pushed.map((p) => p.uri)).toEqual([uri]);
  });
});

describe("quick fixes", () => {
  test("each of them makes its finding go away, and makes no other", async () => {
    const uri = document(MISTAKES);
    const found = await client.pull(uri);
    const key = (d: Diagnostic) => `${d.code} ${d.message}`;
    const before = new Set(found.map(key));
    const fixed = new Map<string, string[]>();
    for (const diagnostic of found) {
      for (const action of await actionsAt(uri, diagnostic)) {
        if (action.title.includes("likewise")) continue;
        expect(action.kind).toBe("quickfix");
        expect(action.diagnostics).toEqual([diagnostic]);
        const after = await client.pull(
          document(applied(MISTAKES, editsOf((action.edit ?? {}) as WorkspaceEdit, uri))),
        );
        expect(after.map(key), action.title).not.toContain(key(diagnostic));
        // Cutting or padding may leave a shorter finding of the same kind; nothing of another kind may come up.
        const fresh = after.filter((d) => !before.has(key(d)) && d.code !== diagnostic.code);
        expect(fresh.map(key), action.title).toEqual([]);
        fixed.set(String(diagnostic.code), [...(fixed.get(String(diagnostic.code)) ?? []), action.title]);
      }
    }
    expect(Object.fromEntries(fixed)).toEqual({
      annotation: ["Change to `tint`"],
      length: expect.arrayContaining(["Write the missing zeros out", "Change the declared size to 25"]),
      "row-shape": expect.arrayContaining(["Change the annotation to 6x4"]),
      "out-of-range": ["Clamp to 255"],
      "over-cap": [
        "Clamp to 64",
        "Clamp all of glaring_centre to 64",
        "Scale glaring_centre from 96 down to 64",
        "Scale glaring_centre from 96 down to 64, evenly to the eye",
      ],
      "padding-bits": ["Clear the unused bits"],
      current: ["Scale all_lamps down to 25 mA", "Clamp all_lamps so that it draws 25 mA at most"],
      night: ["Raise what goes dark by night to 8, the lowest value that stays lit"],
      bus: ["Slow glimmer to 48 fps"],
      flashing: ["Slow frost_alarm to 6 fps", "Soften the quick changes of frost_alarm to 95 %"],
      motion: ["Bake 5 frames into seed_reveal", "Write `to=-60`"],
    });
  });

  const SKETCH = `// @bitmap 9x2 gray8
const uint8_t leaf[18] = { ${"0, ".repeat(17)}255 };
uint8_t read(uint8_t i) { return leaf[i]; }
`;

  test("of memory: the reads of an array are told, and change with it; a smaller format is the refactoring", async () => {
    const uri = `file:///garden/sketch${opened++}.ino`;
    client.open(uri, SKETCH);
    const found = (await client.pull(uri)).filter((d) => d.code === "memory");
    const ram = found.find((d) => String(d.message).includes("RAM")) as Diagnostic;
    const start = positionOf(SKETCH, "leaf[i]");
    expect(ram.relatedInformation).toEqual([
      {
        location: { uri, range: { start, end: { ...start, character: start.character + 7 } } },
        message: "leaf is read here",
      },
    ]);
    const actions = await actionsAt(uri, ram);
    const flash = actions.find((a) => a.title === "Keep leaf in flash, read by `pgm_read_byte` in 1 place");
    expect(applied(SKETCH, editsOf(flash?.edit as WorkspaceEdit, uri))).toBe(
      SKETCH.replace("leaf[18]", "leaf[18] PROGMEM").replace("leaf[i]", "pgm_read_byte(&leaf[i])"),
    );
    const mono = actions.find((a) => a.title.startsWith("Convert to mono1"));
    expect(mono?.edit).toBeUndefined();
    const { edit } = await resolved(mono as CodeAction);
    const after = applied(SKETCH, editsOf(edit as WorkspaceEdit, uri));
    expect(after).toContain("@bitmap 9x2 mono1\nconst uint8_t leaf[4] =");
  });

  test("a lightness table is offered on a panel, up to its cap", async () => {
    const text = "// @panel shelf-2 2x1 gray4 cap=7\n\n// @bitmap shelf-2\nconst uint8_t a[] PROGMEM = { 0x12 };\n";
    const uri = document(text);
    const range = { start: { line: 0, character: 5 }, end: { line: 0, character: 5 } };
    const actions: CodeAction[] = await client.request(
      { method: "textDocument/codeAction" },
      { textDocument: { uri }, range, context: { diagnostics: [] } },
    );
    const table = actions.find((a) => a.title === "Add a table of 16 levels even to the eye, 7 at most");
    expect(table?.kind).toBe("refactor");
    const after = applied(text, editsOf(table?.edit as WorkspaceEdit, uri));
    // round(7 · Y(100 · i / 15)), with the declaration of the file's own arrays.
    const made =
      "// Duty of 16 levels that are even to the eye (CIE 1976 lightness), 7 at most.\n" +
      "const uint8_t shelf_2_duty[] PROGMEM = {\n  0, 0, 0, 0, 0, 1, 1, 1, 1, 2, 3, 3, 4, 5, 6, 7\n};";
    expect(after).toBe(text.replace("cap=7\n", `cap=7\n\n${made}\n`));
    expect(await client.pull(document(after))).toEqual([]);
  });

  const TWO = `// @bitmap 3x1 gray8 cap=64 tnit=#ffffff
const uint8_t one[3] = { 65, 0, 70 };
// @bitmap 3x1 gray8 cap=64 latice=diamond
const uint8_t two[3] = { 0x50, 0, 1 };
// @bitmap 3x1 mono1
const uint8_t three[1] = { 0x81 };
`;

  test("one for all findings of a kind, worked out when asked for", async () => {
    const uri = document(TWO);
    const found = (await client.pull(uri)).filter((d) => d.code === "over-cap");
    expect(found).toHaveLength(3);
    const actions = await actionsAt(uri, found[0] as Diagnostic);
    const all = actions.find((a) => a.title === "Clamp to 64, and likewise for every `over-cap` in this file");
    expect(all?.edit).toBeUndefined();
    const { edit } = await resolved(all as CodeAction);
    const after = applied(TWO, editsOf(edit as WorkspaceEdit, uri));
    expect(after).toBe(TWO.replace("65", "64").replace("70", "64").replace("0x50", "0x40"));
  });

  test("the preferred ones are marked so", async () => {
    const uri = document(TWO);
    const [first] = (await client.pull(uri)).filter((d) => d.code === "over-cap");
    const preferred = (await actionsAt(uri, first as Diagnostic)).filter((a) => a.isPreferred).map((a) => a.title);
    expect(preferred).toEqual(["Clamp to 64"]);
  });

  test("source.fixAll.dotwright corrects spelling and unused bits, and leaves light to the user", async () => {
    const uri = document(TWO);
    const range = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };
    const ask = (only?: string[]): Promise<CodeAction[]> =>
      client.request(
        { method: "textDocument/codeAction" },
        { textDocument: { uri }, range, context: { diagnostics: [], ...(only ? { only } : {}) } },
      );
    const [action, ...more] = await ask(["source.fixAll"]);
    expect(more).toEqual([]);
    expect(action?.kind).toBe("source.fixAll.dotwright");
    const after = applied(TWO, editsOf(action?.edit as WorkspaceEdit, uri));
    expect(after).toBe(TWO.replace("tnit", "tint").replace("latice", "lattice").replace("0x81", "0x80"));
    // The cursor is on an annotation, which is no finding.
    for (const only of [["refactor"], undefined])
      expect((await ask(only)).filter((a) => a.kind === "refactor").map((a) => a.title)).toEqual([
        "New bitmap like one",
      ]);
    expect(await ask(["refactor.extract"])).toEqual([]);
  });

  test("a client that takes no versions and resolves nothing gets whole edits", async () => {
    const plain = await startClient({ capabilities: { textDocument: { diagnostic: {} } } });
    others.push(plain);
    const uri = "file:///garden/plain.h";
    plain.open(uri, TWO);
    const [first] = (await plain.pull(uri)).filter((d) => d.code === "over-cap");
    const { data: _, ...bare } = first as Diagnostic;
    const actions: CodeAction[] = await plain.request(
      { method: "textDocument/codeAction" },
      { textDocument: { uri }, range: bare.range, context: { diagnostics: [bare] } },
    );
    expect(actions.length).toBeGreaterThan(3);
    for (const action of actions) expect(Object.keys(action.edit?.changes ?? {}), action.title).toEqual([uri]);
    expect(actions[0]?.diagnostics).toEqual([bare]);
  });
});
