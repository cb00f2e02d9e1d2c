/** One open paint editor: it shows the bitmap under the text cursor, and turns strokes into edits. */
import type { Event, TextDocument, TextDocumentChangeEvent, WebviewPanel } from "vscode";
import {
  Disposable,
  env,
  languages,
  Position,
  Range,
  Selection,
  TextEditorRevealType,
  window,
  workspace,
} from "vscode";
import type { BitmapInfo, LspTextEdit } from "../shared/protocol/lsp.ts";
import { createRpc } from "../shared/protocol/rpc.ts";
import type { ToHost, ToPage } from "../shared/protocol/webview.ts";
import { written } from "./applied.ts";
import type { Ask } from "./ask.ts";
import type { Import } from "./importPicture.ts";
import { rangeOf } from "./ranges.ts";
import { isReadOnly } from "./readOnly.ts";
import { pixelsIn, spansOfPixels } from "./selected.ts";
import type { Identity, Showing } from "./shown.ts";
import { placeAt, rangeOfPlace, readShown } from "./shown.ts";
import { isSame, type Member, paintSet } from "./together.ts";

export interface PaintView {
  readonly panel: WebviewPanel;
  readonly document: TextDocument;
  /** Shows another bitmap of the document; `play`: the frames of a function, which are to be played. */
  choose(identity: Identity, play?: boolean): void;
  /** The bitmap that is shown, and the frame that the page has at hand; undefined before there is a picture. */
  shown(): { readonly identity: Identity; readonly frame: number } | undefined;
}

interface Given {
  readonly ask: Ask;
  readonly log: (error: unknown) => void;
  readonly reread: Event<readonly string[]>;
  readonly start: Import;
}

export function createPaintView(
  { ask, log, reread, start }: Given,
  panel: WebviewPanel,
  document: TextDocument,
  first: Identity | undefined,
  play = false,
): PaintView {
  let wanted = first;
  /** The frames of a function are to be played once they are shown. */
  let playing = play;
  /** Arrays that are shown with it as one set. */
  let together: readonly Identity[] = [];
  /** The arrays of the sets that were shown, by what the page knows them by: a stroke may still be on its way. */
  const sets = new Map<string, readonly Member[]>();
  let showing: Showing | undefined;
  /** Those of the document when it was last read, also while the one that is wanted has no picture. */
  let bitmaps: readonly BitmapInfo[] = [];
  let ready = false;
  let stale = false;
  let reading = false;
  let readOnly: boolean | undefined;
  let revealed: readonly Selection[] = [];
  /** The frame that the page has at hand, as far as it has told. */
  let frame = 0;
  /** The page has yet to be told where the text cursor was put. */
  let due = true;
  /** It was put into a text that is not read yet. */
  let ahead = false;
  let strokes: Promise<unknown> = Promise.resolve();

  const textEditor = () => window.visibleTextEditors.find((e) => e.document === document);

  /** The bitmap wanted, also where its shape has changed; else the one under the text cursor; else the first. */
  const pick = (read: readonly BitmapInfo[]): BitmapInfo | undefined => {
    bitmaps = read;
    const same = bitmaps.find(({ identity }) => wanted && isSame(identity, wanted));
    const found = same ?? underCursor() ?? bitmaps.find((b) => b.why === undefined) ?? bitmaps[0];
    wanted = found?.identity;
    return found;
  };
  const underCursor = () => {
    const cursor = textEditor()?.selection.active;
    return cursor && bitmaps.find((b) => rangeOf(b.declaration).contains(cursor));
  };

  /** Shows the newest version; changes that come while it is read lead to one more reading. */
  const refresh = async (): Promise<void> => {
    stale = true;
    if (reading || !ready) return;
    reading = true;
    try {
      while (stale && ready) {
        stale = false;
        readOnly ??= await isReadOnly(document);
        const part = ({ shown }: Showing) => {
          if (!stale) tell("show", shown);
        };
        const read = await readShown(ask, document, { choose: pick, together, readOnly, part });
        if (!read) stale = true;
        else if ("why" in read) {
          showing = undefined;
          tell("nothing", read);
        } else if (!stale) {
          showing = read;
          if (read.members.length > 1) sets.set(read.shown.bitmap.identity.structure, read.members);
          tell("show", read.shown);
          if (read.shown.live && playing) tell("play", {});
          playing = false;
          if (ahead) follow();
          else mark();
        }
      }
    } catch (error) {
      showing = undefined;
      tell("nothing", { why: error instanceof Error ? error.message : String(error) });
    } finally {
      reading = false;
    }
    void askReadOnly();
  };

  /** The file system may be far away: the picture does not wait for it, but for the first time. */
  const askReadOnly = async (): Promise<void> => {
    const now = await isReadOnly(document);
    if (now === readOnly || !ready) return;
    readOnly = now;
    void refresh();
  };

  /**
   * Marks the pixel whose number the text cursor was put on. Only once: the user may have gone on to another pixel or
   * frame on the page while a stroke moves the cursor with the text. Pixels whose numbers are selected are told only
   * while somebody works in the text: else it is the page that has selected them, or an edit that has moved them.
   */
  const mark = () => {
    const editor = textEditor();
    if (!due || !editor || !showing || showing.shown.version !== document.version) return;
    due = false;
    const { selections, selection } = editor;
    if (selections.length === revealed.length && selections.every((s, i) => revealed[i]?.isEqual(s))) return;
    const place = placeAt(showing, selection.active);
    if (window.activeTextEditor !== editor) {
      if (place) tell("cursor", place);
      return;
    }
    const found = pixelsIn(showing, selections, frame);
    const at = found && place?.frame !== found.place.frame ? found.place : place;
    if (at) tell("cursor", { ...at, pixels: found?.pixels ?? [] });
  };

  /** Scrolls the text to the first change, where that is out of view; focus and cursor stay. */
  const bringIntoView = ({ contentChanges }: TextDocumentChangeEvent) => {
    const first = contentChanges.reduce((one, other) => (other.range.start.isBefore(one.range.start) ? other : one));
    const { start } = first.range;
    textEditor()?.revealRange(
      new Range(start, document.positionAt(document.offsetAt(start) + first.text.length)),
      TextEditorRevealType.InCenterIfOutsideViewport,
    );
  };

  const follow = () => {
    due = true;
    // Only of who works in the text: a stroke takes the cursor along.
    ahead = showing?.shown.version !== document.version && window.activeTextEditor === textEditor();
    if (ahead) return;
    const identity = underCursor()?.identity;
    const known = [wanted, ...(showing?.members ?? []).map((m) => m.bitmap.identity)];
    if (!identity || known.some((one) => one && isSame(one, identity))) return mark();
    wanted = identity;
    together = [];
    void refresh();
  };

  /**
   * One change of the document, which is one step of undo: what the server answers is applied, and the document's
   * version then is told. One after the other, as each builds on the text that the last one left. Where the document
   * moves on meanwhile the server is asked once more; then nothing is written.
   */
  const change = <A extends { readonly version: number; readonly edits: readonly LspTextEdit[] }>(
    edits: (uri: string) => Promise<A>,
    then?: (answer: A) => void,
  ): Promise<{ version: number }> => {
    const done = strokes.then(async () => {
      // Not inside of the call: where there is none its arguments would not be worked out.
      const answer = await written(document, () => edits(document.uri.toString()));
      then?.(answer);
      return { version: document.version };
    });
    strokes = done.catch(() => undefined);
    return done;
  };
  /** An array of the set that a page means by an identity; the identity itself where it is no set. */
  const firstOf = (identity: Identity): Identity => sets.get(identity.structure)?.[0]?.bitmap.identity ?? identity;

  const rpc = createRpc<ToHost, ToPage>((message) => void panel.webview.postMessage(message), {
    ready: () => {
      ready = true;
      void refresh();
      return {};
    },
    paint: ({ version, identity, changes }) => {
      const members = sets.get(identity.structure);
      return change((uri) =>
        members
          ? paintSet(ask, { uri, version, members, changes })
          : ask("dotwright/paint", { uri, version, identity, changes }),
      );
    },
    // All arrays of a set have one palette.
    recolour: ({ identity, ...colour }) =>
      change((uri) => ask("dotwright/recolour", { uri, identity: firstOf(identity), ...colour })),
    wire: ({ identity, ...found }) =>
      change((uri) => ask("dotwright/wire", { uri, identity: firstOf(identity), ...found })),
    glyphWidth: (width) => change((uri) => ask("dotwright/glyphWidth", { uri, ...width })),
    restructure: ({ identity: asked, ...structure }) => {
      const members = sets.get(asked.structure)?.map((m) => m.bitmap.identity);
      const identity = members?.[0] ?? asked;
      const set = members && { together: members };
      // Unless another one has been gone to meanwhile.
      const still = () => (members ?? [asked]).some((one) => !wanted || isSame(wanted, one));
      return change(
        async (uri) => {
          const answer = await ask("dotwright/restructure", { uri, identity, ...set, ...structure });
          // Before the text has it: an array that is new in the set is shown at once.
          if (answer.together && still()) together = answer.together;
          return answer;
        },
        (answer) => {
          if (still()) wanted = answer.identity;
          // Where the edit has left the text cursor is nobody's wish.
          revealed = textEditor()?.selections ?? revealed;
        },
      );
    },
    changeMotion: (words) => change((uri) => ask("dotwright/changeMotion", { uri, ...words })),
    bake: ({ identity: asked, version }) =>
      change(
        (uri) => ask("dotwright/bake", { uri, identity: asked, version }),
        ({ identity }) => {
          if (!wanted || isSame(wanted, asked)) wanted = identity;
          revealed = textEditor()?.selections ?? revealed;
        },
      ),
    reveal: ({ identity, place, pixels }) => {
      frame = place.frame;
      const editor = textEditor();
      const range = showing && rangeOfPlace(showing, place);
      const shown = showing?.shown;
      // Who works in the text meanwhile keeps the cursor: a number selected under it would be typed over.
      if (window.activeTextEditor === editor) return {};
      // The page may still be on what it was shown before.
      if (!editor || !range || shown?.version !== document.version || shown.bitmap.identity.name !== identity.name)
        return {};
      const spans = pixels && showing ? spansOfPixels(showing, place.frame, pixels) : [];
      const ranges = spans.map(rangeOf);
      revealed = (ranges.length > 0 ? ranges : [range]).map(({ start, end }) => new Selection(start, end));
      editor.selections = revealed;
      editor.revealRange(range, TextEditorRevealType.InCenterIfOutsideViewport);
      return {};
    },
    glyphs: (params) => ask("dotwright/glyphs", { uri: document.uri.toString(), ...params }),
    copied: ({ identity, ...params }) =>
      ask("dotwright/copied", { uri: document.uri.toString(), identity: firstOf(identity), ...params }),
    toClipboard: async ({ text }) => {
      await env.clipboard.writeText(text);
      return {};
    },
    pasted: async ({ text, width }) =>
      ask("dotwright/pasted", { uri: document.uri.toString(), text: text ?? (await env.clipboard.readText()), width }),
    pictures: ({ identity, frame: at, files }) => {
      const { start: declared } = showing?.shown.bitmap.declaration ?? { start: { line: 0, character: 0 } };
      const into = {
        position: new Position(declared.line, declared.character),
        bitmap: { identity: firstOf(identity), frame: at },
      };
      const wanted = files.map(({ name, data }) => ({
        name,
        bytes: () => Promise.resolve(Buffer.from(data, "base64")),
      }));
      // The page need not wait for what is chosen on another one.
      void start(document, into, wanted);
      return {};
    },
    choose: ({ identity, together: others = [] }) => {
      choose(identity, others);
      return {};
    },
  });
  const tell = <K extends keyof ToPage>(method: K, params: ToPage[K]["params"]) => {
    // A page that is closed or hidden meanwhile asks anew when it is back.
    rpc.call(method, params).catch((error: unknown) => ready && log(error));
  };
  const choose = (identity: Identity, others: readonly Identity[] = []) => {
    wanted = identity;
    together = others;
    ahead = false;
    void refresh();
  };

  const listening = Disposable.from(
    panel.webview.onDidReceiveMessage((message: unknown) => rpc.receive(message)),
    // A hidden page is thrown away by the editor; when it is back it says that it is ready.
    panel.onDidChangeViewState(() => {
      if (!panel.visible) ready = false;
    }),
    workspace.onDidChangeTextDocument((event) => {
      if (event.document !== document || event.contentChanges.length === 0) return;
      // Asked for on the page, where the editor scrolls no text to what has changed.
      if (event.reason !== undefined && panel.active) bringIntoView(event);
      void refresh();
    }),
    reread((uris) => {
      if (uris.includes(document.uri.toString())) void refresh();
    }),
    languages.onDidChangeDiagnostics(({ uris }) => {
      if (uris.some((uri) => uri.toString() === document.uri.toString())) void refresh();
    }),
    window.onDidChangeTextEditorSelection(({ textEditor: { document: changed }, kind }) => {
      // Without a kind it is the text that moved, not the cursor.
      if (changed === document && kind !== undefined) follow();
    }),
  );
  panel.onDidDispose(() => {
    ready = false;
    listening.dispose();
    rpc.dispose();
  });
  const shown = () => {
    const identity = showing?.members[0]?.bitmap.identity;
    return identity && { identity, frame };
  };
  return {
    panel,
    document,
    choose: (identity, play = false) => {
      playing = play;
      choose(identity);
    },
    shown,
  };
}
