/** Starts the language server in a process of its own. */
import { workspace } from "vscode";
import { LanguageClient, TransportKind } from "vscode-languageclient/node";
import { SOURCES } from "./sources.ts";

/** `module` is the path of the server's bundle, `commands` are those that its lenses may name. */
export function startLanguageServer(module: string, commands: readonly string[]): LanguageClient {
  const target = workspace.getConfiguration("dotwright").get("target");
  const client = new LanguageClient(
    "dotwright",
    "Dotwright",
    { module, transport: TransportKind.ipc },
    { documentSelector: SOURCES, initializationOptions: { commands, target } },
  );
  client.start().catch((error: unknown) => client.error("The language server did not start.", error));
  return client;
}
