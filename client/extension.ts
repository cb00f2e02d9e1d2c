/** The extension's start: it registers what people use, and loads the language client only after that. */
import type { ExtensionContext } from "vscode";
import { commands, EventEmitter, Uri } from "vscode";
import type { LanguageClient } from "vscode-languageclient/node";
import { asking } from "./ask.ts";
import { compareCommand } from "./compareView.ts";
import { copyAsCommand } from "./copyAs.ts";
import { registerDrops } from "./dropPictures.ts";
import { exportPictureCommand } from "./exportPicture.ts";
import { registerGallery } from "./gallery.ts";
import { registerHeatmap } from "./heatmap.ts";
import { importCommand, importing } from "./importPicture.ts";
import { newBitmapCommand } from "./newBitmap.ts";
import { HEAD, SAVED } from "./olderText.ts";
import { registerPaintEditor } from "./paintEditor.ts";

const PAINT = "dotwright.paint";
const EXPORT_PICTURE = "dotwright.exportPicture";
const COPY_AS = "dotwright.copyAs";

export function activate({ subscriptions, extensionUri, asAbsolutePath, workspaceState }: ExtensionContext): void {
  const reread = new EventEmitter<readonly string[]>();
  const gallery = new EventEmitter<readonly string[] | undefined>();
  const client = new Promise<LanguageClient>((resolve, reject) => {
    // The client's library takes longer to load than all else; other extensions need not wait for it.
    setImmediate(async () => {
      try {
        const { startLanguageServer } = await import("./languageServer.ts");
        const started = startLanguageServer(asAbsolutePath("dist/server.js"), [PAINT, EXPORT_PICTURE, COPY_AS], {
          reread: (uris) => reread.fire(uris),
          gallery: (uris) => gallery.fire(uris),
        });
        subscriptions.push(started);
        resolve(started);
      } catch (error) {
        reject(error);
      }
    });
  });
  const ask = asking(client);
  const log = async (error: unknown) => (await client).warn(error instanceof Error ? error.message : String(error));
  const dist = Uri.joinPath(extensionUri, "dist");
  const start = importing({ ask, log, dist, state: workspaceState });
  const painter = registerPaintEditor({ ask, log, reread: reread.event, dist, command: PAINT, start });
  const { shownIn } = painter;
  const compare = { ask, log, reread: reread.event, dist, shownIn };
  subscriptions.push(
    reread,
    registerHeatmap(ask, log, reread.event),
    painter,
    gallery,
    registerGallery({ ask, log, dist, paint: PAINT, changed: gallery.event }),
    commands.registerCommand(EXPORT_PICTURE, exportPictureCommand(ask, shownIn)),
    commands.registerCommand(COPY_AS, copyAsCommand(ask, shownIn)),
    commands.registerCommand("dotwright.compareSaved", compareCommand(compare, SAVED)),
    commands.registerCommand("dotwright.compareHead", compareCommand(compare, HEAD)),
    commands.registerCommand("dotwright.newBitmap", newBitmapCommand(ask)),
    commands.registerCommand("dotwright.importPicture", importCommand(start)),
    registerDrops(start),
    commands.registerCommand("dotwright.checkWorkspace", async () => {
      const { checkWorkspace } = await import("./languageServer.ts");
      await checkWorkspace(await client);
    }),
    commands.registerCommand("dotwright.dimWorkspace", async () => {
      const { dimWorkspace } = await import("./languageServer.ts");
      await dimWorkspace(await client);
    }),
  );
}
