/** Starts the language server in a process of its own, and serves what it asks of the editor. */
import type { Uri } from "vscode";
import { workspace } from "vscode";
import { LanguageClient, TransportKind } from "vscode-languageclient/node";
import type { Reread, StoredFile } from "../shared/protocol/lsp.ts";
import { READ_FILE, REREAD } from "../shared/protocol/lsp.ts";
import { SOURCES } from "./sources.ts";

/** Bytes of the largest file that is given to the server; larger ones are no headers. */
const MOST = 1 << 25;

/**
 * `module` is the path of the server's bundle, `commands` are those that its lenses and hovers may name. `reread` is told of
 * documents that mean something else although their text is the same.
 */
export function startLanguageServer(
  module: string,
  commands: readonly string[],
  reread: (uris: readonly string[]) => void,
): LanguageClient {
  const target = workspace.getConfiguration("dotwright").get("target");
  const client = new LanguageClient(
    "dotwright",
    "Dotwright",
    { module, transport: TransportKind.ipc },
    {
      documentSelector: SOURCES,
      initializationOptions: { commands, target, files: true },
      markdown: { isTrusted: { enabledCommands: commands } },
    },
  );
  client.onRequest(READ_FILE, ({ uri }: { uri: string }) => readStored(client.protocol2CodeConverter.asUri(uri)));
  client.onNotification(REREAD, ({ uris }: Reread) => reread(uris));
  client.start().catch((error: unknown) => client.error("The language server did not start.", error));
  return client;
}

/** Through the editor, which reads files of remote and virtual workspaces too. */
async function readStored(uri: Uri): Promise<StoredFile | null> {
  try {
    const { size } = await workspace.fs.stat(uri);
    if (size > MOST) return null;
    return { text: new TextDecoder().decode(await workspace.fs.readFile(uri)) };
  } catch {
    // Most names of an `#include` are no files of the workspace.
    return null;
  }
}
