import type { ClientCapabilities } from "vscode-languageserver/node";

/** What the client can do, as far as a feature's answer depends on it. */
export interface ClientSettings {
  /** Commands that the client says it can run. */
  readonly commands: ReadonlySet<string>;
  /** Hovers may be Markdown, and so hold a picture. */
  readonly markdown: boolean;
  /** Edits may carry the version of the document they are meant for. */
  readonly versionedEdits: boolean;
  /** The edit of a code action may be asked for later. */
  readonly lazyActions: boolean;
  /** An action may be shown that can't be taken now, with the reason. */
  readonly disabledActions: boolean;
  /** Edits may make files. */
  readonly createFiles: boolean;
  readonly nestedSymbols: boolean;
  /** Diagnostics may name other places. */
  readonly related: boolean;
  /** Completions may have placeholders. */
  readonly snippets: boolean;
}

/** Reads the capabilities; `commands` are those of the initialisation options. */
export function clientSettings(capabilities: ClientCapabilities, commands: unknown): ClientSettings {
  const { textDocument, workspace } = capabilities;
  const formats = textDocument?.hover?.contentFormat;
  const action = textDocument?.codeAction;
  return {
    commands: new Set(Array.isArray(commands) ? commands.filter((c) => typeof c === "string") : []),
    markdown: formats === undefined || formats.includes("markdown"),
    versionedEdits: workspace?.workspaceEdit?.documentChanges === true,
    lazyActions: action?.dataSupport === true && action.resolveSupport?.properties.includes("edit") === true,
    disabledActions: action?.disabledSupport === true,
    createFiles: workspace?.workspaceEdit?.resourceOperations?.includes("create") === true,
    nestedSymbols: textDocument?.documentSymbol?.hierarchicalDocumentSymbolSupport === true,
    related: textDocument?.publishDiagnostics?.relatedInformation === true,
    snippets: textDocument?.completion?.completionItem?.snippetSupport === true,
  };
}
