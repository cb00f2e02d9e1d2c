/**
 * Shows in the text what the bitmaps in view hold: numbers coloured by level, thumbnails, row pictures, and words where
 * the compiler fills up. Only for visible editors, a moment after a change, and never from an answer about an older
 * version.
 */
import type { CancellationToken, Event, TextEditor } from "vscode";
import { CancellationTokenSource, ColorThemeKind, Disposable, languages, window, workspace } from "vscode";
import type { Ask } from "./ask.ts";
import { besides } from "./besides.ts";
import { heatTypes } from "./heatTypes.ts";
import type { Reading, Wanted } from "./readings.ts";
import { BLOCK, look, read } from "./readings.ts";
import { SOURCES } from "./sources.ts";

const AFTER_CHANGE_MS = 150;
const AFTER_SCROLL_MS = 40;
/** Lines above and below the view that are shown too, so that a short scroll shows no bare numbers. */
const MARGIN = 30;

/** `reread` tells of documents that mean something else although their text is the same. */
export function registerHeatmap(ask: Ask, log: (error: unknown) => void, reread: Event<readonly string[]>): Disposable {
  let contrast = isContrast();
  const types = heatTypes(contrast);
  const beside = besides();
  const readings = new Map<string, Reading>();
  /** What an editor shows already. */
  const drawn = new WeakMap<TextEditor, { reading: Reading; blocks: string }>();
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
  /** Draws all anew, for other settings or colours. */
  const afresh = () => {
    readings.clear();
    scheduleAll();
  };

  async function draw(editor: TextEditor, token: CancellationToken): Promise<void> {
    const { document } = editor;
    const settings = workspace.getConfiguration("dotwright", document);
    const wanted: Wanted = {
      heat: settings.get("heatmap", true),
      icons: settings.get("thumbnails", true),
      rows: settings.get("rowPictures", false),
    };
    if (!wanted.heat && !wanted.icons && !wanted.rows) {
      types.show(editor, []);
      beside.show(editor, [], contrast);
      return;
    }
    const uri = document.uri.toString();
    let reading = readings.get(uri);
    if (reading?.version !== document.version) {
      reading = await read(ask, document, token);
      if (token.isCancellationRequested) return;
      readings.set(uri, reading);
    }
    const blocks = blocksInView(editor);
    const before = drawn.get(editor);
    if (before?.reading === reading && before.blocks === blocks.join()) return;
    const shown = await look(ask, reading, blocks, wanted, log);
    if (token.isCancellationRequested || reading.version !== document.version) return;
    types.show(
      editor,
      shown.flatMap((s) => s.heat ?? []),
    );
    beside.show(editor, shown, contrast);
    drawn.set(editor, { reading, blocks: blocks.join() });
  }

  const settle = Disposable.from(
    window.onDidChangeVisibleTextEditors(scheduleAll),
    window.onDidChangeTextEditorVisibleRanges(({ textEditor }) => schedule(textEditor, AFTER_SCROLL_MS)),
    window.onDidChangeActiveColorTheme(() => {
      if (contrast === isContrast()) return;
      contrast = isContrast();
      types.restyle(contrast);
      afresh();
    }),
    workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
      if (contentChanges.length === 0) return;
      for (const editor of window.visibleTextEditors)
        if (editor.document === document) schedule(editor, AFTER_CHANGE_MS);
    }),
    reread((uris) => {
      for (const uri of uris) readings.delete(uri);
      for (const editor of window.visibleTextEditors)
        if (uris.includes(editor.document.uri.toString())) schedule(editor, AFTER_CHANGE_MS);
    }),
    workspace.onDidCloseTextDocument((document) => readings.delete(document.uri.toString())),
    workspace.onDidChangeConfiguration((event) => {
      if (event.affectsConfiguration("dotwright")) afresh();
    }),
    new Disposable(() => {
      for (const editor of [...pending.keys()]) cancel(editor);
    }),
    types,
    beside,
  );
  scheduleAll();
  return settle;
}

function isContrast(): boolean {
  const { kind } = window.activeColorTheme;
  return kind === ColorThemeKind.HighContrast || kind === ColorThemeKind.HighContrastLight;
}

/** The blocks of lines in view and near it, each once. */
function blocksInView(editor: TextEditor): number[] {
  const blocks = new Set<number>();
  for (const { start, end } of editor.visibleRanges) {
    const from = Math.max(0, start.line - MARGIN);
    const to = Math.min(editor.document.lineCount - 1, end.line + MARGIN);
    for (let block = Math.floor(from / BLOCK); block <= Math.floor(to / BLOCK); block++) blocks.add(block);
  }
  return [...blocks].sort((a, b) => a - b);
}
