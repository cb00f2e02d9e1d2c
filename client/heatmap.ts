/**
 * Colours the numbers of bitmaps in view by their value, and shows a thumbnail beside each declaration. Only for
 * visible editors, a moment after a change, and never from an answer about an older version.
 */
import type { DecorationOptions, Range, TextDocument, TextEditor } from "vscode";
import { CancellationTokenSource, Disposable, languages, Uri, window, workspace } from "vscode";
import type { BitmapInfo } from "../shared/protocol/lsp.ts";
import type { Ask } from "./ask.ts";
import { heatTypes } from "./heatTypes.ts";
import type { Leveled } from "./levels.ts";
import { levelsOf } from "./levels.ts";
import { rangeOf } from "./ranges.ts";
import { SOURCES } from "./sources.ts";
import { thumbnail } from "./thumbnail.ts";

const AFTER_CHANGE_MS = 150;
const AFTER_SCROLL_MS = 40;
/** Lines above and below the view that are coloured too, so that a short scroll shows no bare numbers. */
const MARGIN = 60;
/** Pixels of all frames beyond which a bitmap's numbers stay plain. */
const MOST_PIXELS = 200_000;

interface Coloured {
  readonly leveled: readonly Leveled[];
  readonly icon: Uri;
}

/** What was read of one version of a document. */
interface Reading {
  readonly version: number;
  readonly bitmaps: readonly BitmapInfo[];
  readonly coloured: Map<BitmapInfo, Coloured>;
}

export function registerHeatmap(ask: Ask, log: (error: unknown) => void): Disposable {
  const types = heatTypes();
  const thumbnails = window.createTextEditorDecorationType({});
  const readings = new Map<string, Reading>();
  const pending = new Map<TextEditor, { timer: NodeJS.Timeout; source: CancellationTokenSource }>();

  const cancel = (editor: TextEditor) => {
    const known = pending.get(editor);
    if (!known) return;
    clearTimeout(known.timer);
    known.source.cancel();
    pending.delete(editor);
  };
  const schedule = (editor: TextEditor, ms: number) => {
    cancel(editor);
    if (languages.match(SOURCES, editor.document) === 0) return;
    const source = new CancellationTokenSource();
    const run = () =>
      draw(editor, source.token).catch((error: unknown) => {
        if (!source.token.isCancellationRequested) log(error);
      });
    pending.set(editor, { timer: setTimeout(run, ms), source });
  };
  const scheduleAll = () => {
    for (const editor of [...pending.keys()]) if (!window.visibleTextEditors.includes(editor)) cancel(editor);
    for (const editor of window.visibleTextEditors) schedule(editor, 0);
  };

  async function read(document: TextDocument, token: CancellationTokenSource["token"]): Promise<Reading> {
    const uri = document.uri.toString();
    const known = readings.get(uri);
    if (known?.version === document.version) return known;
    const { version, bitmaps } = await ask("dotwright/bitmaps", { uri }, token);
    const reading = { version, bitmaps, coloured: new Map<BitmapInfo, Coloured>() };
    readings.set(uri, reading);
    return reading;
  }

  async function colour(uri: string, reading: Reading, bitmap: BitmapInfo, token: CancellationTokenSource["token"]) {
    const known = reading.coloured.get(bitmap);
    if (known) return known;
    const { identity, width, height } = bitmap;
    const all = width * height * bitmap.frames <= MOST_PIXELS;
    const frames = all ? Array.from({ length: bitmap.frames }, (_, i) => i) : [0];
    const answer = await ask("dotwright/picture", { uri, identity, frames, elements: all }, token);
    const [first] = answer.frames;
    if (answer.version !== reading.version || !first) return undefined;
    const coloured = { leveled: levelsOf(bitmap, answer.frames), icon: Uri.parse(thumbnail(bitmap, first)) };
    reading.coloured.set(bitmap, coloured);
    return coloured;
  }

  async function draw(editor: TextEditor, token: CancellationTokenSource["token"]): Promise<void> {
    const { document } = editor;
    const settings = workspace.getConfiguration("dotwright", document);
    const heat = settings.get("heatmap", true);
    const icons = settings.get("thumbnails", true);
    const numbers = new Map<string, Leveled[]>();
    const declarations: DecorationOptions[] = [];
    if (heat || icons) {
      const reading = await read(document, token);
      for (const bitmap of reading.bitmaps) {
        if (bitmap.why !== undefined || !inView(editor, bitmap.declaration.start.line, bitmap.declaration.end.line))
          continue;
        const coloured = await colour(document.uri.toString(), reading, bitmap, token);
        if (token.isCancellationRequested || !coloured) return;
        const { tint = "#ffffff", nameRange } = bitmap;
        const seen = coloured.leveled.filter((n) => inView(editor, n.startLine, n.endLine));
        if (heat) numbers.set(tint, [...(numbers.get(tint) ?? []), ...seen]);
        if (icons) declarations.push(iconAt(document.lineAt(rangeOf(nameRange).end.line).range, coloured.icon));
      }
      if (token.isCancellationRequested || reading.version !== document.version) return;
    }
    types.show(editor, numbers);
    editor.setDecorations(thumbnails, declarations);
  }

  const settle = Disposable.from(
    window.onDidChangeVisibleTextEditors(scheduleAll),
    window.onDidChangeTextEditorVisibleRanges(({ textEditor }) => schedule(textEditor, AFTER_SCROLL_MS)),
    workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
      if (contentChanges.length === 0) return;
      for (const editor of window.visibleTextEditors)
        if (editor.document === document) schedule(editor, AFTER_CHANGE_MS);
    }),
    workspace.onDidCloseTextDocument((document) => readings.delete(document.uri.toString())),
    workspace.onDidChangeConfiguration((event) => {
      if (!event.affectsConfiguration("dotwright")) return;
      readings.clear();
      scheduleAll();
    }),
    new Disposable(() => {
      for (const editor of [...pending.keys()]) cancel(editor);
    }),
    types,
    thumbnails,
  );
  scheduleAll();
  return settle;
}

function inView(editor: TextEditor, firstLine: number, lastLine: number): boolean {
  return editor.visibleRanges.some((r) => firstLine <= r.end.line + MARGIN && lastLine >= r.start.line - MARGIN);
}

/** At the end of the line, where it moves no text. */
function iconAt(line: Range, icon: Uri): DecorationOptions {
  const after = { contentIconPath: icon, margin: "0 0 0 1ch" };
  return { range: line.with(line.end), renderOptions: { after } };
}
