/** The paint editor: a custom text editor beside the source, on the same document, so undo and save are the editor's. */
import type { Event, TextDocument } from "vscode";
import { commands, Disposable, l10n, Uri, ViewColumn, window, workspace } from "vscode";
import type { Ask } from "./ask.ts";
import type { Import } from "./importPicture.ts";
import { paintPage } from "./paintPage.ts";
import type { PaintView } from "./paintView.ts";
import { createPaintView } from "./paintView.ts";
import { rangeOf } from "./ranges.ts";
import type { Identity } from "./shown.ts";

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

export function registerPaintEditor({ ask, log, reread, dist, command, start }: Given): Disposable {
  const views = new Set<PaintView>();
  /** Bitmaps to show first, by document, until its editor opens. */
  const first = new Map<string, Identity>();

  const provider = {
    resolveCustomTextEditor(document: TextDocument, panel: PaintView["panel"]): void {
      const uri = document.uri.toString();
      panel.webview.options = { enableScripts: true, localResourceRoots: [dist] };
      const view = createPaintView({ ask, log, reread, start }, panel, document, first.get(uri));
      first.delete(uri);
      views.add(view);
      panel.onDidDispose(() => views.delete(view));
      panel.webview.html = paintPage(panel.webview, dist);
    },
  };

  const paint = async (resource?: unknown, given?: unknown): Promise<void> => {
    const uri = uriFrom(resource) ?? window.activeTextEditor?.document.uri;
    if (!uri) {
      void window.showInformationMessage(l10n.t("Open a source file with a bitmap in it first."));
      return;
    }
    const identity = isIdentity(given) ? given : await bitmapAtCursor(ask, uri);
    const open = [...views].find((v) => v.document.uri.toString() === uri.toString());
    if (open) {
      if (identity) open.choose(identity);
      // Without a column the editor would move it over the text at hand.
      open.panel.reveal(open.panel.viewColumn ?? ViewColumn.Beside);
      return;
    }
    if (identity) first.set(uri.toString(), identity);
    await showSource(uri);
    await commands.executeCommand("vscode.openWith", uri, VIEW_TYPE, ViewColumn.Beside);
  };

  return Disposable.from(
    window.registerCustomEditorProvider(VIEW_TYPE, provider, { supportsMultipleEditorsPerDocument: true }),
    commands.registerCommand(command, paint),
  );
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
  const { bitmaps } = await ask("dotwright/bitmaps", { uri: uri.toString() });
  return bitmaps.find((b) => rangeOf(b.declaration).end.isAfterOrEqual(editor.selection.active))?.identity;
}

function uriFrom(resource: unknown): Uri | undefined {
  if (resource instanceof Uri) return resource;
  return typeof resource === "string" ? Uri.parse(resource, true) : undefined;
}

function isIdentity(given: unknown): given is Identity {
  return typeof given === "object" && given !== null && "name" in given && "structure" in given;
}
