/**
 * Wires the language server together: which request goes to which feature. The connection and all that touches the
 * world outside (timers) are given in, so that a test or a browser can run the same server.
 */
import type {
  CompletionParams,
  Connection,
  DocumentDiagnosticParams,
  DocumentDiagnosticReport,
  InitializeParams,
  InitializeResult,
} from "vscode-languageserver/node";
import {
  CodeActionKind,
  DidChangeConfigurationNotification,
  DocumentDiagnosticReportKind,
  TextDocumentSyncKind,
} from "vscode-languageserver/node";
import type { Source } from "../shared/image/art.ts";
import type { LspHandlers, LspMethod, LspParams, LspReply } from "../shared/protocol/lsp.ts";
import { GALLERY_CHANGED, REREAD } from "../shared/protocol/lsp.ts";
import { serveDimWorkspace } from "./dimWorkspace.ts";
import type { Parsed } from "./documents.ts";
import { listBitmaps, picture } from "./features/bitmaps.ts";
import { copied, readPasted } from "./features/clipboard.ts";
import { codeActions, FIX_ALL, resolveAction, uriOfAction } from "./features/codeActions.ts";
import { codeLenses, resolveLens, uriOfLens } from "./features/codeLens.ts";
import { compared } from "./features/compare.ts";
import { completion } from "./features/completion.ts";
import { CONVERT } from "./features/convert.ts";
import { diagnostics } from "./features/diagnostics.ts";
import { documentSymbols } from "./features/documentSymbols.ts";
import { copyAs, copyAsChoices, exported } from "./features/export.ts";
import { glyphs } from "./features/glyphs.ts";
import { glyphWidth } from "./features/glyphWidth.ts";
import { hover } from "./features/hover.ts";
import { createPictures, importPicture } from "./features/importPicture.ts";
import { liveFrames } from "./features/live.ts";
import { bakeMotion, changeMotion } from "./features/motionEdits.ts";
import { newBitmap, newBitmapChoices } from "./features/newBitmap.ts";
import { ANNOTATE, ANNOTATE_ALL } from "./features/offers.ts";
import { paint } from "./features/paint.ts";
import type { Timer } from "./features/push.ts";
import { createPusher } from "./features/push.ts";
import { recolour } from "./features/recolour.ts";
import { restructure } from "./features/restructure.ts";
import { answering, guarded, replying } from "./features/run.ts";
import { clientSettings } from "./features/settings.ts";
import { wire } from "./features/wire.ts";
import { WIRING } from "./features/wiring.ts";
import { createGallery } from "./gallery.ts";
import { serveNames } from "./naming.ts";
import { createSurroundings } from "./surroundings.ts";
import { canonical } from "./uris.ts";
import { createWorkspace } from "./workspace.ts";

/** What the server needs of the world. */
export interface Runtime {
  readonly timer: Timer;
  /** The text of a file by its URI; undefined or an error where it can't be read. */
  readonly readFile: (uri: string) => Promise<string | undefined>;
  /** URIs of the source files below a folder, at most so many. */
  readonly listFiles: (folder: string, most: number) => Promise<string[]>;
  /** The pictures or the font in a file; refused in words where there are none. Nothing else waits meanwhile. */
  readonly readPicture: (bytes: Uint8Array) => Promise<Source | { readonly refused: string }>;
}

interface InitializationOptions {
  readonly target?: unknown;
  readonly checkWorkspace?: unknown;
  readonly commands?: unknown;
  /** The client answers `dotwright/readFile` and takes `dotwright/reread`. */
  readonly files?: unknown;
}

/** Longer than the pause between two keystrokes: what else depends on a document is asked for again after it. */
const PAUSE_MS = 300;

/** Serves one client on the connection until it closes. */
export function startServer(connection: Connection, runtime: Runtime): void {
  const log = connection.console;
  connection.onInitialize((params): InitializeResult => {
    serve(connection, runtime, params);
    const folders = params.capabilities.workspace?.workspaceFolders === true;
    const pull = params.capabilities.textDocument?.diagnostic !== undefined;
    const prepares = params.capabilities.textDocument?.rename?.prepareSupport === true;
    return {
      serverInfo: { name: "Dotwright" },
      capabilities: {
        positionEncoding: "utf-16",
        textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
        hoverProvider: true,
        documentSymbolProvider: true,
        definitionProvider: true,
        referencesProvider: true,
        workspaceSymbolProvider: true,
        renameProvider: prepares ? { prepareProvider: true } : true,
        codeLensProvider: { resolveProvider: true },
        completionProvider: { triggerCharacters: ["@", "=", " "] },
        codeActionProvider: {
          codeActionKinds: [
            CodeActionKind.QuickFix,
            CodeActionKind.Refactor,
            FIX_ALL,
            ANNOTATE,
            ANNOTATE_ALL,
            CONVERT,
            WIRING,
          ],
          resolveProvider: true,
        },
        ...(folders ? { workspace: { workspaceFolders: { supported: true, changeNotifications: true } } } : {}),
        ...(pull
          ? {
              diagnosticProvider: {
                identifier: "dotwright",
                interFileDependencies: true,
                workspaceDiagnostics: true,
              },
            }
          : {}),
      },
    };
  });
  connection.onShutdown(() => log.debug("Shutting down."));
  connection.listen();
}

function serve(connection: Connection, runtime: Runtime, params: InitializeParams): void {
  const { capabilities, initializationOptions } = params;
  const log = connection.console;
  const initial = (initializationOptions ?? {}) as InitializationOptions;
  const settings = clientSettings(capabilities, initial.commands);
  const workspace = createWorkspace(initial);
  const pull = capabilities.textDocument?.diagnostic !== undefined;
  const { timer, readFile, listFiles } = runtime;
  const around = createSurroundings({
    connection,
    params,
    timer,
    stored: { own: initial.files === true, readFile, listFiles },
    workspace,
    settings,
    pull,
    reread: (uris) => reread(uris, true),
    touched: (uri) => gallery.touched(uri),
  });
  const { documents } = around;
  serveDimWorkspace(connection, around);
  const gallery = createGallery({
    ...around,
    timer,
    changed: (changes) => void connection.sendNotification(GALLERY_CHANGED, changes),
  });
  const pusher = pull
    ? undefined
    : createPusher(
        timer,
        (uri) =>
          guarded(log, "diagnostics", undefined, () => {
            const parsed = documents.parsed(uri);
            return parsed && { version: parsed.version, diagnostics: diagnostics(parsed, settings) };
          }),
        (params) => void connection.sendDiagnostics(params),
      );

  /** Documents whose text is the same and which mean something else now, since a file that they include changed. */
  const reread = (uris: readonly string[], unasked = false) => {
    if (uris.length === 0) return;
    for (const uri of uris) pusher?.changed(uri);
    for (const uri of uris) gallery.touched(uri);
    // While a document is typed in, a client that pulls asks again by itself for those that depend on it, but for lenses.
    if (unasked) askAgain();
    else soon();
    if (initial.files === true) void connection.sendNotification(REREAD, { uris });
  };
  /** Lets the client ask again for what it has of every document. */
  const askAgain = () => {
    if (capabilities.workspace?.diagnostics?.refreshSupport) connection.languages.diagnostics.refresh();
    if (capabilities.workspace?.codeLens?.refreshSupport) void connection.sendRequest("workspace/codeLens/refresh");
  };

  /** Once after a pause in typing. */
  let waiting: (() => void) | undefined;
  const soon = () => {
    waiting?.();
    waiting = timer.after(PAUSE_MS, askAgain);
  };

  /** A feature of one document; `otherwise` answers for documents that are not open or not source. */
  const feature = <P extends { textDocument: { uri: string } }, R>(
    name: string,
    otherwise: R,
    run: (parsed: Parsed, params: P) => R,
  ) =>
    answering(log, name, otherwise, (params: P) => {
      const parsed = documents.parsed(params.textDocument.uri);
      return parsed ? run(parsed, params) : otherwise;
    });
  /** Adds to an item what was left out of it; the item as it is where its document has gone. */
  const resolving =
    <T>(name: string, uriOf: (item: T) => string | undefined, run: (parsed: Parsed, item: T) => T) =>
    (item: T) => {
      const parsed = documents.parsed(uriOf(item) ?? "");
      return guarded(log, name, item, () => (parsed ? run(parsed, item) : item));
    };

  connection.onDidOpenTextDocument(({ textDocument }) =>
    guarded(log, "open", undefined, () => {
      reread(documents.open(textDocument));
      around.opened(textDocument.uri);
      pusher?.changed(textDocument.uri);
    }),
  );
  connection.onDidChangeTextDocument(({ textDocument: { uri, version }, contentChanges }) =>
    guarded(log, "change", undefined, () => {
      reread(documents.change(uri, version, contentChanges));
      around.changed(uri);
      pusher?.changed(uri);
    }),
  );
  connection.onDidCloseTextDocument(({ textDocument: { uri } }) =>
    guarded(log, "close", undefined, () => {
      reread(documents.close(uri));
      around.closed(uri);
      pusher?.closed(uri);
    }),
  );

  connection.onHover(feature("hover", null, (parsed, { position }) => hover(parsed, position, settings)));
  connection.onCompletion(
    feature<CompletionParams, ReturnType<typeof completion>>("completion", [], (parsed, { position }) =>
      completion(parsed, position, settings),
    ),
  );
  connection.onDocumentSymbol(feature("symbols", [], (parsed) => documentSymbols(parsed, settings)));
  connection.onCodeLens(feature("lenses", [], (parsed) => codeLenses(parsed, settings)));
  connection.onCodeLensResolve(resolving("lens", uriOfLens, resolveLens));
  connection.onCodeAction(
    feature("actions", [], (parsed, { range, context }) => codeActions(parsed, range, context, settings)),
  );
  connection.onCodeActionResolve(
    resolving("action", uriOfAction, (parsed, action) => resolveAction(parsed, action, settings)),
  );
  serveNames(connection, around);
  if (pull) {
    const none: DocumentDiagnosticReport = { kind: DocumentDiagnosticReportKind.Full, items: [] };
    const ofDocument = feature<DocumentDiagnosticParams, DocumentDiagnosticReport>(
      "diagnostics",
      none,
      (parsed, { previousResultId }) => {
        const resultId = parsed.serial;
        if (previousResultId === resultId) return { kind: DocumentDiagnosticReportKind.Unchanged, resultId };
        return { kind: DocumentDiagnosticReportKind.Full, resultId, items: diagnostics(parsed, settings) };
      },
    );
    connection.languages.diagnostics.on(async (params, token) => {
      // A client asks once more for a document that it has closed: what holds then is what is stored.
      const uri = params.textDocument?.uri ?? "";
      const stored = documents.isOpen(canonical(uri)) ? undefined : await around.foundIn(uri);
      if (!stored) return ofDocument(params, token);
      return { kind: DocumentDiagnosticReportKind.Full, resultId: stored.resultId, items: stored.items };
    });
  }

  const own = <M extends LspMethod>(params: { uri: string }, run: (parsed: Parsed) => LspReply<M>): LspReply<M> => {
    const parsed = documents.parsed(params.uri);
    return parsed ? run(parsed) : { err: `${params.uri} is not open, or not C or C++` };
  };
  const pictures = createPictures(runtime.readPicture);
  const handlers: LspHandlers = {
    "dotwright/bitmaps": (params) => own(params, listBitmaps),
    "dotwright/liveFrames": (params) => own(params, (parsed) => liveFrames(parsed, params)),
    "dotwright/picture": (params) => own(params, (parsed) => picture(parsed, params)),
    "dotwright/paint": (params) => own(params, (parsed) => paint(parsed, params)),
    "dotwright/wire": (params) => own(params, (parsed) => wire(parsed, params)),
    "dotwright/glyphWidth": (params) => own(params, (parsed) => glyphWidth(parsed, params)),
    "dotwright/recolour": (params) => own(params, (parsed) => recolour(parsed, params)),
    "dotwright/glyphs": (params) =>
      own(params, (parsed) =>
        glyphs(
          parsed,
          params,
          documents.uris().flatMap((uri) => documents.parsed(uri) ?? []),
        ),
      ),
    "dotwright/copied": (params) => own(params, (parsed) => copied(parsed, params)),
    "dotwright/export": (params) => own(params, (parsed) => exported(parsed, params)),
    "dotwright/copyChoices": (params) => own(params, (parsed) => copyAsChoices(parsed, params)),
    "dotwright/copyAs": (params) => own(params, (parsed) => copyAs(parsed, params)),
    "dotwright/compare": (params) => own(params, (parsed) => compared(parsed, params)),
    "dotwright/pasted": (params) => own(params, (parsed) => readPasted(parsed, params)),
    "dotwright/restructure": (params) => own(params, (parsed) => restructure(parsed, params)),
    "dotwright/openPictures": (params) => pictures.open(params),
    "dotwright/importPicture": (params) => own(params, (parsed) => importPicture(parsed, params, pictures)),
    "dotwright/galleryFiles": () => gallery.files(),
    "dotwright/galleryFile": (params) => gallery.file(params),
    "dotwright/galleryPictures": (params) => gallery.pictures(params),
    "dotwright/changeMotion": (params) => own(params, (parsed) => changeMotion(parsed, params)),
    "dotwright/bake": (params) => own(params, (parsed) => bakeMotion(parsed, params)),
    "dotwright/newBitmapChoices": (params) => own(params, newBitmapChoices),
    "dotwright/newBitmap": (params) => own(params, (parsed) => newBitmap(parsed, params)),
  };
  const register = <M extends LspMethod>(method: M) => {
    connection.onRequest<LspReply<M>, void>(method, replying<M, LspParams<M>>(log, method, handlers[method]));
  };
  for (const method of Object.keys(handlers) as LspMethod[]) register(method);

  const refresh = () => {
    documents.invalidate();
    around.forget();
    for (const uri of documents.uris()) pusher?.changed(uri);
    askAgain();
  };
  const askSettings = async () => {
    const value: unknown = await connection.workspace.getConfiguration("dotwright.target");
    // A client without the setting answers null: then the initialisation options hold.
    if (value !== null && value !== undefined && workspace.setTarget(value)) refresh();
    const checks: unknown = await connection.workspace.getConfiguration("dotwright.checkWorkspace");
    if (checks !== null && checks !== undefined && workspace.setChecks(checks)) around.forget();
  };
  const asks = capabilities.workspace?.configuration === true;
  connection.onInitialized(async () => {
    if (capabilities.workspace?.didChangeConfiguration?.dynamicRegistration) {
      await connection.client.register(DidChangeConfigurationNotification.type, { section: "dotwright" });
    }
    await around.start();
    if (asks) await askSettings();
  });
  connection.onDidChangeConfiguration(async (params) => {
    if (asks) return askSettings();
    const given = (params.settings as { dotwright?: { target?: unknown; checkWorkspace?: unknown } } | null)?.dotwright;
    if (given?.target !== undefined && workspace.setTarget(given.target)) refresh();
    if (given?.checkWorkspace !== undefined && workspace.setChecks(given.checkWorkspace)) around.forget();
  });
}
