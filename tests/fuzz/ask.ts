/** Asks every feature about a text, paints in it, and checks what must hold of any text. */
import type { CodeAction, Position, WorkspaceEdit } from "vscode-languageserver/node";
import { TextDocument } from "vscode-languageserver-textdocument";
import type { Parsed } from "../../server/documents.ts";
import { createDocuments } from "../../server/documents.ts";
import { listBitmaps, picture } from "../../server/features/bitmaps.ts";
import { copied, readPasted } from "../../server/features/clipboard.ts";
import { codeActions, resolveAction } from "../../server/features/codeActions.ts";
import { codeLenses, resolveLens } from "../../server/features/codeLens.ts";
import { completion } from "../../server/features/completion.ts";
import { diagnostics } from "../../server/features/diagnostics.ts";
import { documentSymbols } from "../../server/features/documentSymbols.ts";
import { hover } from "../../server/features/hover.ts";
import { newBitmap, newBitmapChoices } from "../../server/features/newBitmap.ts";
import { restructure } from "../../server/features/restructure.ts";
import { clientSettings } from "../../server/features/settings.ts";
import { editPixels, findBitmap } from "../../shared/bitmap/edit.ts";
import type { Palette } from "../../shared/bitmap/palettes.ts";
import { recolour } from "../../shared/bitmap/recolour.ts";
import type { Bitmap } from "../../shared/bitmap/resolve.ts";
import type { Restructuring } from "../../shared/bitmap/restructure/change.ts";
import { fixesOf } from "../../shared/checks/all.ts";
import type { LspResult } from "../../shared/protocol/lsp.ts";
import { elementSpan } from "../../shared/source/arrays.ts";
import type { TextEdit } from "../../shared/source/text.ts";
import { applyEdits } from "../../shared/source/text.ts";
import type { Random } from "../oracle/corpus/random.ts";
import { allPixels, changesFor, wantedPixels } from "../property/pixels.ts";

const SETTINGS = {
  ...clientSettings(
    {
      textDocument: {
        hover: { contentFormat: ["markdown"] },
        codeAction: { dataSupport: true, resolveSupport: { properties: ["edit"] } },
        documentSymbol: { hierarchicalDocumentSymbolSupport: true },
      },
      workspace: { workspaceEdit: { documentChanges: true } },
    },
    ["dotwright.paint"],
  ),
};

export interface Asked {
  /** Milliseconds of the slowest feature, and which it was. */
  readonly slowest: { readonly ms: number; readonly what: string };
  readonly bitmaps: number;
  /** Strokes that were written and read back. */
  readonly painted: number;
  readonly refused: number;
  /** Code actions that were resolved and applied. */
  readonly actions: number;
}

const PLACES = 3;
const FINDINGS = 12;

/** Throws where something does not hold. */
export function askAll(random: Random, file: string, text: string): Asked {
  let slowest = { ms: 0, what: "" };
  const timed = <T>(what: string, run: () => T): T => {
    const from = performance.now();
    const before = process.cpuUsage();
    const result = run();
    const { user, system } = process.cpuUsage(before);
    // Of a busy machine's time only what was spent on this counts.
    const ms = Math.min(performance.now() - from, (user + system) / 1000);
    if (ms > slowest.ms) slowest = { ms, what };
    return result;
  };
  const uri = `file:///fuzz/${encodeURIComponent(file)}`;
  const parsed = timed("read", () => opened(uri, text));
  if (!parsed) return { slowest, bitmaps: 0, painted: 0, refused: 0, actions: 0 };
  timed("check", () => diagnostics(parsed));
  for (const finding of parsed.findings.slice(0, FINDINGS)) {
    const { start, end } = finding.span;
    hold(0 <= start && start <= end && end <= text.length, `the span of ${finding.code}`);
    for (const fix of timed(`fixes of ${finding.code}`, () => fixesOf(parsed.file, finding)))
      applyEdits(text, fix.edits);
  }
  timed("symbols", () => documentSymbols(parsed, SETTINGS));
  const lenses = timed("lenses", () => codeLenses(parsed, SETTINGS));
  for (const lens of lenses.filter((l) => !l.command).slice(0, PLACES)) timed("lens", () => resolveLens(parsed, lens));
  timed("choices", () => newBitmapChoices(parsed));
  let actions = 0;
  for (const position of places(random, parsed)) {
    timed("hover", () => hover(parsed, position, SETTINGS));
    timed("completion", () => completion(parsed, position, SETTINGS));
    const words = random.pick(["9x9", "8x8 mono1 pack=pages", "4x4 rgb565 frames=2"]);
    timed("new bitmap", () => newBitmap(parsed, { uri, position, words, name: "fresh_one" }));
    const range = { start: position, end: position };
    const offered = timed("actions", () => codeActions(parsed, range, { diagnostics: [] }, SETTINGS));
    const some = random.shuffle(offered).slice(0, PLACES);
    for (const action of some) {
      const whole = action.edit
        ? action
        : timed(`action ${kindOf(action)}`, () => resolveAction(parsed, action, SETTINGS));
      if (!whole.edit) continue;
      actions++;
      const changed = applied(parsed.document, whole.edit, uri);
      timed("read after an action", () => opened(uri, changed));
    }
  }
  const listed = timed("bitmaps", () => listBitmaps(parsed));
  for (const { identity, why } of "ok" in listed ? listed.ok.bitmaps.slice(0, PLACES) : []) {
    const lines: [number, number] = [0, 63];
    const answer = timed("picture", () => picture(parsed, { uri, identity, elements: true, lines, rows: true }));
    hold("ok" in answer || why !== undefined, "a picture is given where nothing speaks against it");
    if ("ok" in answer) copyAndPaste(parsed, answer.ok, timed);
    const change = changeFor(random);
    const other = timed(`restructure ${change.kind}`, () => restructure(parsed, { uri, version: 1, identity, change }));
    if (!("ok" in other)) continue;
    const written = TextDocument.applyEdits(parsed.document, [...other.ok.edits]);
    const now = opened(uri, written)?.file;
    hold(
      now !== undefined && !("refused" in findBitmap(now, other.ok.identity)),
      "a restructured bitmap is found again",
    );
  }
  timed("paste", () => readPasted(parsed, { uri, text, width: random.int(1, 20) }));
  const strokes = { painted: 0, refused: 0 };
  const { bitmaps } = parsed.file;
  for (let i = 0; i < Math.min(2, bitmaps.length); i++) {
    const at = random.int(0, bitmaps.length - 1);
    if (paint(random, parsed, at, timed)) strokes.painted++;
    else strokes.refused++;
  }
  for (const bitmap of bitmaps) if (bitmap.palette) timed("recolour", () => recoloured(random, parsed, bitmap));
  return { slowest, bitmaps: bitmaps.length, ...strokes, actions };
}

/** Frames that most bitmaps have, or sides moved by a little. */
function changeFor(random: Random): Restructuring {
  if (random.int(0, 1) === 0) {
    const order = Array.from({ length: random.int(1, 4) }, () => random.pick([0, 0, 0, 1, "dark"] as const));
    return { kind: "frames", order };
  }
  const side = () => random.int(-2, 3);
  return { kind: "size", left: side(), top: side(), right: side(), bottom: side() };
}

const kindOf = ({ title }: CodeAction) => title.replace(/\d+|`[^`]*`/g, "…").slice(0, 40);

function opened(uri: string, text: string): Parsed | undefined {
  const documents = createDocuments(() => ({ target: undefined }));
  documents.open({ uri, languageId: "cpp", version: 1, text });
  return documents.parsed(uri);
}

/** Anywhere, in an annotation, on a name, on a number. */
function places(random: Random, { document, file }: Parsed): Position[] {
  const offsets = [random.int(0, document.getText().length)];
  const { annotations, arrays } = file.source;
  if (annotations.length > 0) offsets.push(random.pick(annotations).comment.start + 4);
  if (arrays.length > 0) {
    const array = random.pick(arrays);
    offsets.push(array.nameSpan.start);
    if (array.given > 0) offsets.push(elementSpan(array, random.int(0, array.given - 1)).start);
  }
  return offsets.map((offset) => document.positionAt(offset));
}

/** Applies edits as a client does, which refuses those that overlap. */
function applied(document: TextDocument, edit: WorkspaceEdit, uri: string): string {
  const [change] = edit.documentChanges ?? [];
  const edits = change && "edits" in change ? change.edits : (edit.changes?.[uri] ?? []);
  return TextDocument.applyEdits(
    document,
    edits.filter((e) => "newText" in e),
  );
}

/** The first frame, or its first rows, as text and back. */
function copyAndPaste(
  parsed: Parsed,
  { bitmap, frames }: LspResult<"dotwright/picture">,
  timed: <T>(what: string, run: () => T) => T,
): void {
  const { uri } = parsed;
  const { width } = bitmap;
  const height = Math.min(bitmap.height, Math.floor((1 << 14) / width));
  if (height < 1) return;
  const pixels = frames[0]?.pixels.slice(0, width * height) ?? [];
  const text = timed("copy", () => copied(parsed, { uri, identity: bitmap.identity, width, height, pixels }));
  hold("ok" in text, `pixels are copied: ${"err" in text ? text.err : ""}`);
  const read = timed("paste what was copied", () => readPasted(parsed, { uri, text: text.ok.text, width: 1 }));
  hold("ok" in read, `what was copied is pasted: ${"err" in read ? read.err : ""}`);
  const same = read.ok.width === width && read.ok.height === height && read.ok.pixels.join() === pixels.join();
  hold(same, "what is pasted is what was copied");
}

/** False where the stroke is refused. What was painted must be read back, and nothing else may have changed. */
function paint(random: Random, parsed: Parsed, at: number, timed: <T>(what: string, run: () => T) => T): boolean {
  const { file, uri } = parsed;
  const { text } = file.source;
  const bitmap = file.bitmaps[at] as Bitmap;
  const stroke = Array.from({ length: random.int(1, 12) }, () => ({
    frame: random.int(0, 1 << 20),
    x: random.int(0, 1 << 20),
    y: random.int(0, 1 << 20),
    value: random.int(0, 1 << 24),
  }));
  if (bitmap.why !== undefined || bitmap.width * bitmap.height * bitmap.frames > 1 << 16) return false;
  const changes = changesFor(bitmap, stroke).map(({ before: _, ...change }) => change);
  const edited = timed("paint", () => editPixels(text, bitmap, changes));
  if ("refused" in edited) return false;
  const written = applyEdits(text, edited.edits);
  const again = timed("read after a stroke", () => opened(uri, written));
  // Rows that were not written before may be bitmaps of their own, each entry of a table one.
  const { name, ordinal } = bitmap.array;
  const now = again?.file.bitmaps.find((b) => b.array.name === name && b.array.ordinal === ordinal);
  hold(
    now !== undefined && (again?.file.bitmaps.length ?? 0) >= file.bitmaps.length,
    "the bitmaps are still there after a stroke",
  );
  const whole = (pixels: number[]) => pixels.map((v) => (bitmap.format.kind === "mono" ? Number(v > 0) : v)).join(" ");
  hold(now?.why === undefined, `the bitmap can be read after a stroke: ${now?.why}`);
  // Two frames may lie in one array of a table: then a stroke in one shows in the other too.
  if (!bitmap.array.parts)
    hold(whole(allPixels(now as Bitmap)) === whole(wantedPixels(bitmap, changes)), "the pixels are those painted");
  hold(onlyInside(text, edited.edits, bitmap), "a stroke changes nothing outside of its array's list");
  return true;
}

/** Another colour in the bitmap's palette must be read back, and nothing else may have changed. */
function recoloured(random: Random, parsed: Parsed, bitmap: Bitmap): void {
  const { text } = parsed.file.source;
  const { values, format, array } = bitmap.palette as Palette;
  const index = random.int(0, values.length - 1);
  const value = random.int(0, format.most);
  const edited = recolour(text, bitmap, { index, value });
  if ("refused" in edited) return;
  const again = opened(parsed.uri, applyEdits(text, edited.edits));
  const now = again?.file.palettes.find((p) => p.name === array.name && p.array.ordinal === array.ordinal);
  const wanted = Array.from(values, (one, i) => (i === index ? value : one));
  hold(now !== undefined && now.values.length === wanted.length, "the palette is still there after another colour");
  hold(Array.from(now.values).join() === wanted.join(), "the palette has the colour that was asked for");
  hold(onlyInside(text, edited.edits, { ...bitmap, array }), "a colour changes nothing outside of its array's list");
}

function onlyInside(text: string, edits: readonly TextEdit[], { array }: Bitmap): boolean {
  const arrays = array.parts ?? [array];
  const bodies = arrays.map(({ base, list }) => [base, base + (list?.length ?? 0)] as const);
  return edits.every(({ start, end }) => {
    const inside = bodies.some(([from, to]) => from <= start && end <= to);
    // A row's drawing may stand in a comment after the list's last line.
    return inside || /^[^\r\n]*\/[/*]/.test(text.slice(text.lastIndexOf("\n", start) + 1, start));
  });
}

function hold(condition: boolean, what: string): asserts condition {
  if (!condition) throw new Error(`does not hold: ${what}`);
}
