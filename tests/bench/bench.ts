/**
 * Side-by-side figures in one run. Reading is compared with tree-sitter's C++ grammar (WASM) and with a bare loop over
 * the same text; the rest is measured against the time a person notices.
 */
import { writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { cpus, release, type } from "node:os";
import { fullValue, heatOf } from "../../client/levels.ts";
import type { Parsed } from "../../server/documents.ts";
import { createDocuments } from "../../server/documents.ts";
import { listBitmaps, picture } from "../../server/features/bitmaps.ts";
import { hover } from "../../server/features/hover.ts";
import type { ClientSettings } from "../../server/features/settings.ts";
import { clientSettings } from "../../server/features/settings.ts";
import { editPixels } from "../../shared/bitmap/edit.ts";
import { openText } from "../../shared/bitmap/open.ts";
import type { LspReply } from "../../shared/protocol/lsp.ts";
import { readSource } from "../../shared/source/read.ts";
import { editorRows } from "./editor.ts";
import { liveRows } from "./live.ts";
import type { Row } from "./measure.ts";
import { median, row, sideBySide } from "./measure.ts";
import { benchMotions } from "./motion.ts";
import { benchPage } from "./page.ts";
import { firmware, largeFrame } from "./texts.ts";
import { treeRows } from "./tree.ts";

const need = createRequire(`${process.cwd()}/package.json`);

async function treeSitter(): Promise<(text: string) => number> {
  const { Parser, Language } = need("@vscode/tree-sitter-wasm") as typeof import("@vscode/tree-sitter-wasm");
  await Parser.init();
  const language = await Language.load(need.resolve("@vscode/tree-sitter-wasm/wasm/tree-sitter-cpp.wasm"));
  const parser = new Parser();
  parser.setLanguage(language);
  return (text) => {
    const tree = parser.parse(text);
    const size = tree?.rootNode.endIndex ?? 0;
    tree?.delete();
    return size;
  };
}

function bareLoop(text: string): number {
  let sum = 0;
  for (let i = 0; i < text.length; i++) sum = (sum + text.charCodeAt(i)) | 0;
  return sum;
}

const speed = (bytes: number, ms: number) => bytes / 1e3 / ms;
const ms = (value: number) => `${value < 10 ? value.toFixed(2) : value.toFixed(1)} ms`;

async function reading(rows: Row[]): Promise<void> {
  const text = firmware(1_000_000);
  const other = await treeSitter();
  const read = () => readSource(text, { target: "avr" });
  const [bare = 0, own = 0, tree = 0] = sideBySide([() => bareLoop(text), read, () => other(text)]);
  const rate = speed(text.length, own);
  rows.push(
    row("Reading 1 MB of firmware with arrays", `${rate.toFixed(0)} MB/s (${ms(own)})`, "≥ 100 MB/s", rate >= 100),
  );
  rows.push(
    row(
      "… against tree-sitter-cpp (WASM)",
      `${(tree / own).toFixed(0)}× as fast (it takes ${ms(tree)})`,
      "≥ 50×",
      tree / own >= 50,
    ),
  );
  rows.push(
    row(
      "… against a bare charCode loop",
      `${(own / bare).toFixed(1)}× its time (it takes ${ms(bare)})`,
      "≤ 8×",
      own / bare <= 8,
    ),
  );
  for (const size of [10_000, 100_000, 10_000_000]) {
    const sized = firmware(size);
    const time = median(() => readSource(sized, { target: "avr" }));
    rows.push(
      row(
        `Reading ${size / 1000} kB`,
        `${speed(sized.length, time).toFixed(0)} MB/s`,
        "flat from 10 kB to 10 MB",
        speed(sized.length, time) >= rate / 2,
      ),
    );
  }
}

const SETTINGS: ClientSettings = { ...clientSettings({}, undefined), markdown: true };

/** Its panels are known to other documents. */
const OF_THE_WORKSPACE = { shown: (id: string) => id, inside: () => true };

/** One character typed in the middle of a document, to fresh findings: all that the server does for it. */
function keystroke(rows: Row[], size: number, wheres: readonly string[], target: number): void {
  const text = firmware(size);
  const uri = "file:///bench.h";
  const documents = createDocuments(() => ({ target: undefined }), { files: OF_THE_WORKSPACE });
  documents.open({ uri, languageId: "cpp", version: 1, text });
  const parsed = documents.parsed(uri);
  if (!parsed) throw new Error("the bench document was not opened");
  let version = 1;
  for (const where of wheres) {
    const from = text.indexOf(where === "in an array" ? "0x" : "step down", text.length >> 1) + 3;
    const range = { start: parsed.document.positionAt(from), end: parsed.document.positionAt(from + 1) };
    const time = median(() => {
      version++;
      documents.change(uri, version, [{ range, text: version % 2 ? "7" : "3" }]);
      return documents.parsed(uri)?.findings;
    });
    const what = `A keystroke ${where} of a ${size / 1e6} MB file to fresh findings`;
    rows.push(row(what, ms(time), `≤ ${target} ms`, time <= target));
  }
}

function hovering(rows: Row[]): void {
  const uri = "file:///bench.h";
  const documents = createDocuments(() => ({ target: undefined }));
  const text = firmware(20_000);
  documents.open({ uri, languageId: "cpp", version: 1, text });
  const parsed = documents.parsed(uri);
  const at = parsed?.document.positionAt(text.indexOf("screen_0"));
  if (!parsed || !at) throw new Error("the bench document was not opened");
  const time = median(() => hover(parsed, at, SETTINGS));
  rows.push(row("Hover on the name of a 128×64 bitmap", ms(time), "≤ 5 ms", time <= 5));
}

function painting(rows: Row[]): void {
  const text = largeFrame();
  const file = openText(text, "bench.h");
  const bitmap = file.bitmaps[0];
  if (!bitmap) throw new Error("the bench text has no bitmap");
  let value = 0;
  const time = median(() => {
    value = (value + 1) % 256;
    return editPixels(text, bitmap, [{ frame: 0, x: 160, y: 120, value }]);
  });
  rows.push(row("One pixel in 76,800 elements to text edits", ms(time), "≤ 1 ms", time <= 1));
}

/** What a view asks of the server and makes of the answer, which goes as JSON between two processes. */
function heat(parsed: Parsed, lines: readonly [number, number]) {
  const listed = listBitmaps(parsed);
  const bitmap = "ok" in listed ? listed.ok.bitmaps[0] : undefined;
  if (!bitmap) throw new Error("the bench text has no bitmap");
  const uri = parsed.uri;
  const reply = JSON.parse(
    JSON.stringify(picture(parsed, { uri, identity: bitmap.identity, frames: [], lines })),
  ) as LspReply<"dotwright/picture">;
  if ("err" in reply) throw new Error(reply.err);
  const { peak, lines: told } = reply.ok;
  // A stand-in for the editor's Range, which orders the two places that it is given.
  return heatOf(bitmap, fullValue(bitmap, peak), told?.numbers ?? [], (line, from, to) => {
    const [a, b] = [
      { line, character: from },
      { line, character: to },
    ] as const;
    return a.character <= b.character ? { start: a, end: b } : { start: b, end: a };
  });
}

function colouring(rows: Row[]): void {
  const uri = "file:///bench.h";
  const documents = createDocuments(() => ({ target: undefined }));
  documents.open({ uri, languageId: "cpp", version: 1, text: largeFrame() });
  const parsed = documents.parsed(uri);
  if (!parsed) throw new Error("the bench document was not opened");
  const coloured = [...heat(parsed, [0, 300]).byTint.values()].flat(2).length;
  // One in 256 is dark.
  if (coloured < 76_000) throw new Error(`${coloured} numbers were coloured`);
  const all = median(() => heat(parsed, [0, 300]));
  rows.push(row("Heat for 76,800 numbers: request, reply, levels, ranges", ms(all), "≤ 200 ms", all <= 200));
  const view = median(() => heat(parsed, [64, 127]));
  rows.push(row("… for the 64 lines of it that come into view", ms(view), "≤ 50 ms", view <= 50));
}

function memory(rows: Row[]): void {
  const text = largeFrame();
  const { list } = readSource(text, { target: "host" }).initialisers[0] ?? {};
  if (!list) throw new Error("the bench text has no array");
  const bytes = list.starts.byteLength + list.lengths.byteLength + list.values.byteLength;
  const each = bytes / list.starts.length;
  rows.push(row("Memory for each element beyond the text", `${each.toFixed(1)} bytes`, "≤ 12 bytes", each <= 12));
}

async function main(): Promise<void> {
  const rows: Row[] = [];
  await reading(rows);
  keystroke(rows, 1_000_000, ["in an array", "in a comment"], 10);
  keystroke(rows, 4_000_000, ["in an array"], 40);
  hovering(rows);
  painting(rows);
  colouring(rows);
  memory(rows);
  treeRows(rows, 0.1, "art in one of ten");
  treeRows(rows, 1, "art in all");
  rows.push(...(await benchMotions()));
  rows.push(...liveRows());
  rows.push(...(await benchPage()), ...(await editorRows()));
  const table = rows.map((r) => `| ${r.what} | ${r.measured} | ${r.target} | ${r.met ? "yes" : "**no**"} |`).join("\n");
  const machine = `${cpus().length} × ${cpus()[0]?.model.trim()}, ${type()} ${release()}, Node ${process.version}`;
  const page = `# Bench results\n\nWritten by \`npm run bench\` on ${new Date().toISOString().slice(0, 10)}; ${machine}. Medians of many runs, side by side in one run.\n\n| what | measured | target | met |\n| --- | --- | --- | --- |\n${table}\n`;
  writeFileSync("tests/bench/RESULTS.md", page);
  process.stdout.write(page);
}

main();
