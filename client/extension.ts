/** The extension's start: it starts the language server without waiting for it, and registers what asks it. */
import type { ExtensionContext } from "vscode";
import { asking } from "./ask.ts";
import { registerHeatmap } from "./heatmap.ts";
import { languageServer } from "./languageServer.ts";
import { registerPaintEditor } from "./paintEditor.ts";

const PAINT = "dotwright.paint";

export function activate({ subscriptions, extensionUri, asAbsolutePath }: ExtensionContext): void {
  const client = languageServer(asAbsolutePath("dist/server.js"), [PAINT]);
  const ask = asking(client);
  const log = (error: unknown) => client.warn(error instanceof Error ? error.message : String(error));
  subscriptions.push(
    client,
    registerHeatmap(ask, log),
    registerPaintEditor({ ask, log, dist: extensionUri.with({ path: `${extensionUri.path}/dist` }), command: PAINT }),
  );
  client.start().catch((error: unknown) => client.error("The language server did not start.", error));
}
