/** The gallery in the side bar: every bitmap of the workspace, as the server tells them file by file. */
import type { Event, Uri, WebviewView } from "vscode";
import { commands, Disposable, Uri as Uris, window, workspace } from "vscode";
import type { GalleryToHost, GalleryToPage } from "../shared/protocol/galleryPage.ts";
import type { GalleryFile } from "../shared/protocol/lsp.ts";
import { createRpc } from "../shared/protocol/rpc.ts";
import type { Ask } from "./ask.ts";
import { revealSource } from "./compareView.ts";
import { webPage } from "./webPage.ts";

const VIEW = "dotwright.gallery";

interface Given {
  readonly ask: Ask;
  readonly log: (error: unknown) => void;
  readonly dist: Uri;
  /** The command that opens the paint editor. */
  readonly paint: string;
  /** Files whose bitmaps may be others than before; any may where there are none. */
  readonly changed: Event<readonly string[] | undefined>;
}

export function registerGallery(given: Given): Disposable {
  return window.registerWebviewViewProvider(VIEW, {
    resolveWebviewView(view) {
      view.webview.options = { enableScripts: true, localResourceRoots: [given.dist] };
      show(given, view);
      view.webview.html = webPage(view.webview, given.dist, "gallery");
    },
  });
}

/** Files that are asked for at the same time, and that are told to the page together. */
const AT_ONCE = 4;
const TOGETHER = 24;

function show({ ask, log, paint, changed }: Given, view: WebviewView): void {
  let ready = false;
  /** Files that hold bitmaps, as the page knows them. */
  let known = new Set<string>();
  /** Files to read, in the order of the list. */
  const due = new Set<string>();
  let reading = false;
  let listing = false;
  let listAgain = false;

  /** Asks which files there are; those that are new to us are read, or all of them. */
  const list = async (all: boolean): Promise<void> => {
    if (listing) {
      listAgain = true;
      return;
    }
    listing = true;
    try {
      const { uris } = await ask("dotwright/galleryFiles", {});
      const now = new Set(uris);
      const gone = [...known].filter((uri) => !now.has(uri));
      for (const uri of [...due]) if (!now.has(uri)) due.delete(uri);
      for (const uri of uris) if (all || !known.has(uri)) due.add(uri);
      known = now;
      await rpc.call("files", { files: [], gone, left: due.size });
      void read();
    } catch (error) {
      if (ready) await nothing(error);
    } finally {
      listing = false;
    }
    if (!listAgain) return;
    listAgain = false;
    await list(true);
  };
  /** Reads what is due, a few files at a time, and tells the page as they come. */
  const read = async (): Promise<void> => {
    if (reading) return;
    reading = true;
    const files: GalleryFile[] = [];
    const tell = async () => {
      await rpc.call("files", { files: files.splice(0), gone: [], left: due.size });
    };
    const one = async () => {
      for (let [uri] = due; uri !== undefined && ready; [uri] = due) {
        due.delete(uri);
        files.push(await ask("dotwright/galleryFile", { uri }));
        if (files.length >= TOGETHER) await tell();
      }
    };
    try {
      await Promise.all(Array.from({ length: AT_ONCE }, one));
      if (files.length > 0) await tell();
    } catch (error) {
      if (ready) log(error);
    } finally {
      reading = false;
    }
    if (due.size > 0 && ready) void read();
  };
  const nothing = (error: unknown) =>
    rpc.call("nothing", { why: error instanceof Error ? error.message : String(error) }).catch(log);

  const rpc = createRpc<GalleryToHost, GalleryToPage>((message) => void view.webview.postMessage(message), {
    ready: () => {
      ready = true;
      known = new Set();
      due.clear();
      void list(true);
      return {};
    },
    pictures: (params) => ask("dotwright/galleryPictures", params),
    open: async ({ uri, ...which }) => {
      const document = await workspace.openTextDocument(Uris.parse(uri, true));
      await revealSource(ask, document, which);
      return {};
    },
    paint: async ({ uri, identity }) => {
      await commands.executeCommand(paint, uri, identity);
      return {};
    },
  });
  const listening = Disposable.from(
    view.webview.onDidReceiveMessage((message: unknown) => rpc.receive(message)),
    view.onDidChangeVisibility(() => {
      // A hidden page is thrown away by the editor; when it is back it says that it is ready.
      if (!view.visible) ready = false;
    }),
    changed((uris) => {
      if (!ready) return;
      for (const uri of uris ?? []) due.add(uri);
      // A file that is new is in no list yet.
      if (uris?.every((uri) => known.has(uri))) void read();
      else void list(uris === undefined);
    }),
  );
  view.onDidDispose(() => {
    ready = false;
    listening.dispose();
    rpc.dispose();
  });
}
