/** Drives the built language server as a child process over its standard streams. */
import type { ChildProcess } from "node:child_process";
import { spawn } from "node:child_process";
import { fileURLToPath } from "node:url";
import type {
  ClientCapabilities,
  Diagnostic,
  InitializeResult,
  MessageConnection,
  ProtocolRequestType,
  PublishDiagnosticsParams,
  TextDocumentContentChangeEvent,
} from "vscode-languageserver/node";
import {
  CodeLensRefreshRequest,
  ConfigurationRequest,
  createMessageConnection,
  DiagnosticRefreshRequest,
  DidChangeTextDocumentNotification,
  DidCloseTextDocumentNotification,
  DidOpenTextDocumentNotification,
  DocumentDiagnosticRequest,
  ExitNotification,
  InitializedNotification,
  InitializeRequest,
  LogMessageNotification,
  PublishDiagnosticsNotification,
  RegistrationRequest,
  ShutdownRequest,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver/node";
import type { GalleryChanged, LspMethod, LspParams, LspReply, Reread } from "../../shared/protocol/lsp.ts";
import { FIND_FILES, GALLERY_CHANGED, READ_FILE, REREAD } from "../../shared/protocol/lsp.ts";

const SERVER = fileURLToPath(new URL("../../dist/server.js", import.meta.url));

export interface ClientOptions {
  readonly capabilities?: ClientCapabilities;
  readonly initializationOptions?: unknown;
  /** What the client answers when asked for a setting; a client without this has no settings. */
  readonly settings?: Readonly<Record<string, unknown>>;
  /** URI of the folder that the client has open. */
  readonly folder?: string;
  /** What the client reads for the server, by URI; a promise is a file that is far away. */
  readonly files?: ReadonlyMap<string, string | Promise<string>>;
}

export interface LspClient {
  readonly connection: MessageConnection;
  readonly initialized: InitializeResult;
  /** What the server logged as error or warning. */
  readonly log: readonly string[];
  /** All pushed diagnostics so far, in order. */
  readonly pushed: readonly PublishDiagnosticsParams[];
  /** How often the server asked that diagnostics be pulled anew. */
  readonly refreshes: { count: number };
  /** Documents that the server said mean something else now, in order. */
  readonly reread: readonly string[];
  /** What the server said of changes in the gallery, in order. */
  readonly gallery: readonly GalleryChanged[];
  readonly process: ChildProcess;
  open(uri: string, text: string, languageId?: string): void;
  change(uri: string, version: number, changes: TextDocumentContentChangeEvent[]): void;
  close(uri: string): void;
  request<P, R>(type: ProtocolRequestType<P, R, never, unknown, unknown> | { method: string }, params: P): Promise<R>;
  own<M extends LspMethod>(method: M, params: LspParams<M>): Promise<LspReply<M>>;
  pull(uri: string): Promise<Diagnostic[]>;
  /** Resolves as soon as something that was received makes `found` give a value. */
  until<T>(found: () => T | undefined): Promise<T>;
  /** Shuts the server down as the protocol says; resolves to its exit code. */
  stop(): Promise<number | null>;
}

/** What an editor such as VS Code offers, as far as this server looks at it. */
export const FULL: ClientCapabilities = {
  workspace: {
    workspaceEdit: { documentChanges: true },
    configuration: true,
    diagnostics: { refreshSupport: true },
    codeLens: { refreshSupport: true },
    didChangeConfiguration: { dynamicRegistration: true },
  },
  textDocument: {
    diagnostic: {},
    publishDiagnostics: { relatedInformation: true },
    hover: { contentFormat: ["markdown", "plaintext"] },
    codeAction: { dataSupport: true, resolveSupport: { properties: ["edit"] } },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
  },
};

/** Starts a server and initializes it. */
export async function startClient(options: ClientOptions = {}): Promise<LspClient> {
  const child = spawn(process.execPath, [SERVER, "--stdio"], { stdio: ["pipe", "pipe", "inherit"] });
  const ended = new Promise<number | null>((resolve) => child.on("exit", (code) => resolve(code)));
  const connection = createMessageConnection(
    new StreamMessageReader(child.stdout),
    new StreamMessageWriter(child.stdin),
  );
  const log: string[] = [];
  const pushed: PublishDiagnosticsParams[] = [];
  const refreshes = { count: 0 };
  const reread: string[] = [];
  const gallery: GalleryChanged[] = [];
  const waiting = new Set<() => void>();
  const received = () => {
    for (const look of [...waiting]) look();
  };
  connection.onNotification(LogMessageNotification.type, ({ type, message }) => {
    if (type <= 2) log.push(message);
    received();
  });
  connection.onNotification(PublishDiagnosticsNotification.type, (params) => {
    pushed.push(params);
    received();
  });
  connection.onRequest(DiagnosticRefreshRequest.type, () => {
    refreshes.count++;
    received();
  });
  connection.onNotification(GALLERY_CHANGED, (changes: GalleryChanged) => {
    gallery.push(changes);
    received();
  });
  connection.onNotification(REREAD, ({ uris }: Reread) => {
    reread.push(...uris);
    received();
  });
  connection.onRequest(READ_FILE, async ({ uri }: { uri: string }) => {
    const text = await options.files?.get(uri);
    return text === undefined ? null : { text };
  });
  connection.onRequest(FIND_FILES, () => ({ uris: [...(options.files?.keys() ?? [])] }));
  connection.onRequest(CodeLensRefreshRequest.type, () => undefined);
  connection.onRequest(RegistrationRequest.type, () => undefined);
  connection.onRequest(ConfigurationRequest.type, ({ items }) =>
    items.map(({ section }) => options.settings?.[section ?? ""] ?? null),
  );
  connection.listen();
  const initialized = await connection.sendRequest(InitializeRequest.type, {
    processId: process.pid,
    rootUri: options.folder ?? null,
    capabilities: options.capabilities ?? FULL,
    ...(options.initializationOptions === undefined ? {} : { initializationOptions: options.initializationOptions }),
  });
  await connection.sendNotification(InitializedNotification.type, {});
  const client: LspClient = {
    connection,
    initialized,
    log,
    pushed,
    refreshes,
    reread,
    gallery,
    process: child,
    open(uri, text, languageId = "cpp") {
      const textDocument = { uri, languageId, version: 1, text };
      void connection.sendNotification(DidOpenTextDocumentNotification.type, { textDocument });
    },
    change(uri, version, contentChanges) {
      const textDocument = { uri, version };
      void connection.sendNotification(DidChangeTextDocumentNotification.type, { textDocument, contentChanges });
    },
    close(uri) {
      void connection.sendNotification(DidCloseTextDocumentNotification.type, { textDocument: { uri } });
    },
    request: (type, params) => connection.sendRequest(type.method, params),
    own: (method, params) => connection.sendRequest(method, params),
    async pull(uri) {
      const report = await connection.sendRequest(DocumentDiagnosticRequest.type, { textDocument: { uri } });
      if (report.kind !== "full") throw new Error(`a ${report.kind} report, though none was there before`);
      return report.items;
    },
    until: (found) =>
      new Promise((resolve) => {
        const look = () => {
          const value = found();
          if (value === undefined) return;
          waiting.delete(look);
          resolve(value);
        };
        waiting.add(look);
        look();
      }),
    async stop() {
      await connection.sendRequest(ShutdownRequest.type);
      await connection.sendNotification(ExitNotification.type);
      const code = await ended;
      connection.dispose();
      return code;
    },
  };
  return client;
}

/** Position of the n-th occurrence (from 0) of a piece of text, `into` characters into it. */
export function positionOf(text: string, piece: string, into = 0, n = 0): { line: number; character: number } {
  let at = -1;
  for (let i = 0; i <= n; i++) {
    at = text.indexOf(piece, at + 1);
    if (at < 0) throw new Error(`${piece} is not in the text ${n + 1} times`);
  }
  const lines = text.slice(0, at + into).split(/\r\n|\r|\n/);
  return { line: lines.length - 1, character: (lines[lines.length - 1] as string).length };
}
