/** Starts the language server in a process of its own, and serves what it asks of the editor. */
import { workspace } from "vscode";
import { LanguageClient, TransportKind } from "vscode-languageclient/node";
import type { GalleryChanged, Reread } from "../shared/protocol/lsp.ts";
import { FIND_FILES, GALLERY_CHANGED, READ_FILE, REREAD } from "../shared/protocol/lsp.ts";
import { SOURCES } from "./sources.ts";
import { findSources, readStored } from "./storedFiles.ts";

export { checkWorkspace } from "./checkWorkspace.ts";
export { dimWorkspace } from "./dimWorkspace.ts";

/** What is told of the server's notifications. */
interface Heard {
  /** Documents that mean something else although their text is the same. */
  readonly reread: (uris: readonly string[]) => void;
  /** Files whose bitmaps may be others; any may where there are none. */
  readonly gallery: (uris: readonly string[] | undefined) => void;
}

/**
 * `module` is the path of the server's bundle, `commands` are those that its lenses and hovers may name.
 */
export function startLanguageServer(
  module: string,
  commands: readonly string[],
  { reread, gallery }: Heard,
): LanguageClient {
  const settings = workspace.getConfiguration("dotwright");
  const [target, checkWorkspace] = [settings.get("target"), settings.get("checkWorkspace")];
  const client = new LanguageClient(
    "dotwright",
    "Dotwright",
    { module, transport: TransportKind.ipc },
    {
      documentSelector: SOURCES,
      initializationOptions: { commands, target, checkWorkspace, files: true },
      markdown: { isTrusted: { enabledCommands: commands } },
    },
  );
  client.onRequest(READ_FILE, ({ uri, worth = false }: { uri: string; worth?: boolean }) =>
    readStored(client.protocol2CodeConverter.asUri(uri), worth),
  );
  client.onRequest(FIND_FILES, ({ most }: { most: number }) => findSources(most));
  client.onNotification(REREAD, ({ uris }: Reread) => reread(uris));
  client.onNotification(GALLERY_CHANGED, ({ uris }: GalleryChanged) => gallery(uris));
  client.start().catch((error: unknown) => client.error("The language server did not start.", error));
  return client;
}
