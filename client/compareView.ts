/** `Compare Bitmaps with …`: a page beside the source with the bitmaps that look otherwise than in an older version. */
import type { Event, TextDocument, Uri, WebviewPanel } from "vscode";
import { Disposable, l10n, Selection, TextEditorRevealType, ViewColumn, window, workspace } from "vscode";
import type { Compared, CompareToHost, CompareToPage } from "../shared/protocol/comparePage.ts";
import { createRpc } from "../shared/protocol/rpc.ts";
import type { Ask } from "./ask.ts";
import type { Older } from "./olderText.ts";
import { rangeOf } from "./ranges.ts";
import { webPage } from "./webPage.ts";
import type { ShownIn } from "./which.ts";
import { documentFor, isIdentity } from "./which.ts";

interface Given {
  readonly ask: Ask;
  readonly log: (error: unknown) => void;
  /** Documents that mean something else although their text is the same. */
  readonly reread: Event<readonly string[]>;
  readonly dist: Uri;
  readonly shownIn: ShownIn;
}

type Wanted = { readonly name: string; readonly ordinal: number };

/** The command for one kind of older version. There is one page for each document and kind. */
export function compareCommand(given: Given, older: Older) {
  const open = new Map<string, { panel: WebviewPanel; want(wanted: Wanted | undefined): void }>();
  return async (resource?: unknown, identity?: unknown): Promise<void> => {
    const document = await documentFor(resource);
    if (!document) return;
    const wanted = isIdentity(identity) ? identity : given.shownIn(document.uri)?.identity;
    const key = document.uri.toString();
    const before = open.get(key);
    if (before) {
      before.want(wanted);
      before.panel.reveal();
      return;
    }
    const name = document.uri.path.split("/").pop() ?? "";
    const title = l10n.t("{0}: {1} and now", name, older.name);
    const panel = window.createWebviewPanel("dotwright.compare", title, ViewColumn.Beside, {
      enableScripts: true,
      localResourceRoots: [given.dist],
    });
    open.set(key, { panel, want: show(given, panel, document, older, wanted) });
    panel.onDidDispose(() => open.delete(key));
    panel.webview.html = webPage(panel.webview, given.dist, "compare");
  };
}

/** Keeps a page up to date with its document and the older version; returns what chooses another bitmap. */
function show(
  { ask, log, reread }: Given,
  panel: WebviewPanel,
  document: TextDocument,
  older: Older,
  first: Wanted | undefined,
): (wanted: Wanted | undefined) => void {
  let wanted = first;
  let ready = false;
  let text: Promise<string> | undefined;
  let running = false;
  let again = false;
  const name = document.uri.path.split("/").pop() ?? "";

  const read = async (): Promise<void> => {
    text ??= older.text(document);
    const { differences, shown } = await ask("dotwright/compare", {
      uri: document.uri.toString(),
      before: await text,
      ...(wanted ? { wanted: { name: wanted.name, ordinal: wanted.ordinal } } : {}),
    });
    const compared: Compared = {
      file: name,
      versions: [older.name, l10n.t("now")],
      differences,
      ...(shown ? { shown } : {}),
    };
    await rpc.call("show", compared);
  };
  /** Shows the newest; what changes while it is read leads to one more reading. */
  const refresh = async (): Promise<void> => {
    again = true;
    if (running || !ready) return;
    running = true;
    while (again && ready) {
      again = false;
      try {
        await read();
      } catch (error) {
        text = undefined;
        const why = error instanceof Error ? error.message : String(error);
        await rpc.call("nothing", { why }).catch((failed: unknown) => ready && log(failed));
      }
    }
    running = false;
  };
  const rpc = createRpc<CompareToHost, CompareToPage>((message) => void panel.webview.postMessage(message), {
    ready: () => {
      ready = true;
      void refresh();
      return {};
    },
    choose: (chosen) => {
      wanted = chosen;
      void refresh();
      return {};
    },
    source: async (chosen) => {
      await revealSource(ask, document, chosen);
      return {};
    },
  });
  const listening = Disposable.from(
    panel.webview.onDidReceiveMessage((message: unknown) => rpc.receive(message)),
    panel.onDidChangeViewState(() => {
      // A hidden page is thrown away by the editor; when it is back it says that it is ready.
      if (!panel.visible) ready = false;
    }),
    workspace.onDidChangeTextDocument((event) => {
      if (event.document === document && event.contentChanges.length > 0) void refresh();
    }),
    reread((uris) => {
      if (uris.includes(document.uri.toString())) void refresh();
    }),
    older.onChange(document, () => {
      text = undefined;
      void refresh();
    }) ?? new Disposable(() => undefined),
  );
  panel.onDidDispose(() => {
    ready = false;
    listening.dispose();
    rpc.dispose();
  });
  return (other) => {
    wanted = other ?? wanted;
    void refresh();
  };
}

/** Puts the text cursor on the name of an array, in an editor that shows the document already where there is one. */
export async function revealSource(ask: Ask, document: TextDocument, { name, ordinal }: Wanted): Promise<void> {
  const shown = window.visibleTextEditors.find((e) => e.document === document);
  const editor = await window.showTextDocument(document, { viewColumn: shown?.viewColumn ?? ViewColumn.One });
  const { bitmaps } = await ask("dotwright/bitmaps", { uri: document.uri.toString() });
  const bitmap = bitmaps.find(({ identity }) => identity.name === name && identity.ordinal === ordinal);
  if (!bitmap) return;
  const { start, end } = rangeOf(bitmap.nameRange);
  editor.selection = new Selection(start, end);
  editor.revealRange(editor.selection, TextEditorRevealType.InCenterIfOutsideViewport);
}
