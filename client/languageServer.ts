/** Starts the language server in a process of its own. */
import { workspace } from "vscode";
import { LanguageClient, TransportKind } from "vscode-languageclient/node";

/** Documents of any scheme, so that virtual and untitled ones are read too. */
export const SOURCES: ({ readonly language: string } | { readonly pattern: string })[] = [
  { language: "c" },
  { language: "cpp" },
  { language: "arduino" },
  { pattern: "**/*.{ino,pde,xbm}" },
];

/** `module` is the path of the server's bundle, `commands` are those that its lenses may name. */
export function languageServer(module: string, commands: readonly string[]): LanguageClient {
  const target = workspace.getConfiguration("dotwright").get("target");
  return new LanguageClient(
    "dotwright",
    "Dotwright",
    { module, transport: TransportKind.ipc },
    { documentSelector: SOURCES, initializationOptions: { commands, target } },
  );
}
