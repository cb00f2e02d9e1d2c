/** The page of an import beside the source: it asks for previews, and writes once. */
import type { Memento, Position, TextDocument, Uri } from "vscode";
import {
  Disposable,
  l10n,
  ProgressLocation,
  Selection,
  TextEditorRevealType,
  ViewColumn,
  window,
  workspace,
} from "vscode";
import type {
  ImportHome,
  ImportPlace,
  ImportToHost,
  ImportToPage,
  PagePlace,
  PictureChoices,
  PictureFile,
} from "../shared/protocol/importing.ts";
import type { BitmapInfo } from "../shared/protocol/lsp.ts";
import { createRpc } from "../shared/protocol/rpc.ts";
import { written } from "./applied.ts";
import type { Ask } from "./ask.ts";
import { rangeOf } from "./ranges.ts";
import { importPage } from "./webPage.ts";

/** Where the pictures go at first: to a new array at a place, or into a bitmap. */
export interface Into {
  readonly position: Position;
  readonly bitmap?: { readonly identity: BitmapInfo["identity"]; readonly frame: number };
}

interface Given {
  readonly ask: Ask;
  readonly log: (error: unknown) => void;
  /** The folder of the bundles. */
  readonly dist: Uri;
  /** Where the last choices are kept, for the workspace. */
  readonly state: Memento;
}

/** What the choices of each panel are kept by, and of how many panels at most. */
const KEPT = "import";
const MOST_KEPT = 32;

/** Rejects with the server's words where a file is no picture; then no page is opened. */
export async function openImportView(
  { ask, log, dist, state }: Given,
  document: TextDocument,
  into: Into,
  files: readonly PictureFile[],
): Promise<void> {
  const uri = document.uri.toString();
  const names = files.map(({ name }) => name);
  const open = () => ask("dotwright/openPictures", { files });
  const first = await patiently(l10n.t("Reading {0}", names.join(", ")), open());
  // Whoever cancels wants no page.
  if (first === undefined) return;
  let opened = first;
  const panel = window.createWebviewPanel(
    "dotwright.import",
    l10n.t("Import {0}", names[0] ?? ""),
    { viewColumn: ViewColumn.Beside },
    { enableScripts: true, localResourceRoots: [dist] },
  );
  /** Where a new array is to stand; it moves with the text. */
  let offset = document.offsetAt(into.position);
  const remembered = () => state.get<Record<string, PictureChoices>>(KEPT, {});

  const homes = async (): Promise<ImportHome[]> => {
    const { bitmaps } = await ask("dotwright/bitmaps", { uri });
    return bitmaps
      .filter(({ why }) => why === undefined)
      .map(({ name, identity, width, height, frames, format, panel: of }) => ({
        name,
        identity,
        width,
        height,
        frames,
        format,
        ...(of === undefined ? {} : { panel: of }),
      }));
  };
  const line = () => document.positionAt(offset).line + 1;
  const whole = (place: PagePlace): ImportPlace =>
    place.kind === "new" ? { ...place, position: document.positionAt(offset) } : place;
  const asked = async (place: PagePlace, choices: PictureChoices, frame = 0) => {
    const params = () => ({ uri, id: opened.id, place: whole(place), choices, frame });
    try {
      return await ask("dotwright/importPicture", params());
    } catch (error) {
      // The server keeps the last few, and forgets all where it was started anew.
      if (!(error instanceof Error) || error.message !== "The pictures are no longer open.") throw error;
      opened = await open();
      return ask("dotwright/importPicture", params());
    }
  };

  const rpc = createRpc<ImportToHost, ImportToPage>((message) => void panel.webview.postMessage(message), {
    ready: async () => {
      const start = await ask("dotwright/newBitmapChoices", { uri });
      const { bitmap } = into;
      const place: PagePlace = bitmap
        ? { kind: "into", ...bitmap }
        : { kind: "new", words: start.panels[0]?.name ?? "gray8" };
      const file = document.uri.path.replace(/^.*\//, "");
      return { names, opened, file, line: line(), start, homes: await homes(), place, remembered: remembered() };
    },
    preview: async ({ place, choices, frame }) => {
      const { version: _, edits: __, ...preview } = await asked(place, choices, frame);
      return preview;
    },
    write: async ({ place, choices, key }) => {
      const { bitmap } = await written(document, () => asked(place, choices));
      await keep(key, choices);
      panel.dispose();
      await reveal(document, bitmap);
      return {};
    },
    leave: () => {
      panel.dispose();
      return {};
    },
  });

  /** The parts that belong to one picture alone are not kept. */
  const keep = async (key: string, { crop: _, cells: __, chars: ___, ...choices }: PictureChoices) => {
    const { [key]: ____, ...others } = remembered();
    const kept = Object.entries(others).slice(-(MOST_KEPT - 1));
    await state.update(KEPT, { ...Object.fromEntries(kept), [key]: choices });
  };

  const listening = Disposable.from(
    panel.webview.onDidReceiveMessage((message: unknown) => rpc.receive(message)),
    workspace.onDidChangeTextDocument(({ document: changed, contentChanges }) => {
      if (changed !== document || contentChanges.length === 0) return;
      for (const { rangeOffset, rangeLength, text } of contentChanges)
        if (rangeOffset < offset) offset = Math.max(rangeOffset, offset - rangeLength) + text.length;
      homes()
        .then((known) => rpc.call("changed", { line: line(), homes: known }))
        // A page that is hidden meanwhile asks anew when it is back.
        .catch((error: unknown) => panel.visible && log(error));
    }),
    workspace.onDidCloseTextDocument((closed) => {
      if (closed === document) panel.dispose();
    }),
  );
  panel.onDidDispose(() => {
    listening.dispose();
    rpc.dispose();
  });
  panel.webview.html = importPage(panel.webview, dist);
}

/** Milliseconds that a picture may take before that is shown. */
const PATIENCE = 400;

/** What is waited for, with its progress shown where it takes long; undefined where the user cancels. */
async function patiently<T>(title: string, work: Promise<T>): Promise<T | undefined> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<"late">((resolve) => {
    timer = setTimeout(() => resolve("late"), PATIENCE);
  });
  const soon = await Promise.race([work, late]).finally(() => clearTimeout(timer));
  if (soon !== "late") return soon;
  return window.withProgress(
    { location: ProgressLocation.Notification, title, cancellable: true },
    (_progress, token) => {
      const cancelled = new Promise<undefined>((resolve) => token.onCancellationRequested(() => resolve(undefined)));
      return Promise.race([work, cancelled]);
    },
  );
}

/** Shows what was written, with its name selected. */
async function reveal(document: TextDocument, { nameRange }: BitmapInfo): Promise<void> {
  const known = window.visibleTextEditors.find((e) => e.document === document);
  const editor = await window.showTextDocument(document, known?.viewColumn ? { viewColumn: known.viewColumn } : {});
  const { start, end } = rangeOf(nameRange);
  editor.selection = new Selection(start, end);
  editor.revealRange(editor.selection, TextEditorRevealType.InCenterIfOutsideViewport);
}
