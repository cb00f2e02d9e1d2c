/** The paint editor: a custom text editor beside the source, on the same document, so undo and save are the editor's. */
import type { Event, TextDocument } from "vscode";
import { commands, Disposable, l10n, type Uri, ViewColumn, window, workspace } from "vscode";
import type { Ask } from "./ask.ts";
import type { Import } from "./importPicture.ts";
import type { PaintView } from "./paintView.ts";
import { createPaintView } from "./paintView.ts";
import { rangeOf } from "./ranges.ts";
import type { Identity } from "./shown.ts";
import { allOf } from "./shown.ts";
import { paintPage } from "./webPage.ts";
import type { ShownIn } from "./which.ts";
import { isIdentity, uriFrom } from "./which.ts";

const VIEW_TYPE = "dotwright.paint";

interface Given {
  readonly ask: Ask;
  readonly log: (error: unknown) => void;
  /** Documents that mean something else although their text is the same. */
  readonly reread: Event<readonly string[]>;
  /** The folder of the bundles. */
  readonly dist: Uri;
  /** The command that opens the editor. */
  readonly command: string;
  /** Begins an import with pictures that are dropped on the page. */
  readonly start: Import;
}

/** The editor, and what it shows of a document. */
export interface PaintEditor extends Disposable {
  readonly shownIn: ShownIn;
}

export function registerPaintEditor({ ask, log, reread, dist, command, start }: Given): PaintEditor {
  const views = new Set<PaintView>();
  /** Bitmaps to show first, by document, until its editor opens. */
  const first = new Map<string, { readonly identity: Identity; readonly play: boolean }>();

  const provider = {
    resolveCustomTextEditor(document: TextDocument, panel: PaintView["panel"]): void {
      const uri = document.uri.toString();
      panel.webview.options = { enableScripts: true, localResourceRoots: [dist] };
      const wanted = first.get(uri);
      const view = createPaintView({ ask, log, reread, start }, panel, document, wanted?.identity, wanted?.play);
      first.delete(uri);
      views.add(view);
      panel.onDidDispose(() => views.delete(view));
      panel.webview.html = paintPage(panel.webview, dist);
    },
  };

  const paint = async (resource?: unknown, given?: unknown, how?: unknown): Promise<void> => {
    const uri = uriFrom(resource) ?? window.activeTextEditor?.document.uri;
    if (!uri) {
      void window.showInformationMessage(l10n.t("Open a source file with a bitmap in it first."));
      return;
    }
    const identity = isIdentity(given) ? given : await bitmapAtCursor(ask, uri);
    const open = [...views].find((v) => v.document.uri.toString() === uri.toString());
    if (open) {
      if (identity) open.choose(identity, how === "play");
      // Without a column the editor would move it over the text at hand.
      open.panel.reveal(open.panel.viewColumn ?? ViewColumn.Beside);
      return;
    }
    if (identity) first.set(uri.toString(), { identity, play: how === "play" });
    await showSource(uri);
    // The column of a paint editor is locked, so that files open elsewhere (`configurationDefaults`): without its number
    // the next one would get a column of its own.
    const [beside] = [...views].filter((v) => v.panel.visible).map((v) => v.panel.viewColumn);
    await commands.executeCommand("vscode.openWith", uri, VIEW_TYPE, beside ?? ViewColumn.Beside);
  };

  const registered = Disposable.from(
    window.registerCustomEditorProvider(VIEW_TYPE, provider, { supportsMultipleEditorsPerDocument: true }),
    commands.registerCommand(command, paint),
  );
  return {
    dispose: () => registered.dispose(),
    shownIn: (uri) => [...views].find((v) => v.document.uri.toString() === uri.toString())?.shown(),
  };
}

/** The source that the paint editor is to stand beside, where it is not in view: as when it is opened from the explorer. */
async function showSource(uri: Uri): Promise<void> {
  const shown = window.visibleTextEditors;
  if (shown.some((e) => e.document.uri.toString() === uri.toString())) return;
  await window.showTextDocument(uri, { viewColumn: shown[0]?.viewColumn ?? ViewColumn.One });
}

/** The bitmap whose declaration holds the text cursor, else the next one below it. */
async function bitmapAtCursor(ask: Ask, uri: Uri): Promise<Identity | undefined> {
  const editor = window.visibleTextEditors.find((e) => e.document.uri.toString() === uri.toString());
  if (!editor) return undefined;
  await workspace.openTextDocument(uri);
  const bitmaps = allOf(await ask("dotwright/bitmaps", { uri: uri.toString() }));
  return bitmaps.find((b) => rangeOf(b.declaration).end.isAfterOrEqual(editor.selection.active))?.identity;
}
