/** Other frames, another size or speed of a bitmap, as one edit of the document, which is one step of undo. */
import type { TextDocument } from "vscode";
import { l10n } from "vscode";
import type { ToHost } from "../shared/protocol/webview.ts";
import { applied } from "./applied.ts";
import type { Ask } from "./ask.ts";
import type { Identity } from "./shown.ts";

/** The document's version after the edit, and what the bitmap is found by in it. Otherwise as `applyStroke`. */
export async function applyRestructuring(
  ask: Ask,
  document: TextDocument,
  params: ToHost["restructure"]["params"],
): Promise<{ readonly version: number; readonly identity: Identity }> {
  const uri = document.uri.toString();
  const answer = await applied(document, () => ask("dotwright/restructure", { uri, ...params }));
  if (answer === "declined") throw new Error(l10n.t("Nothing was changed."));
  if (answer === "moved") throw new Error(l10n.t("The file changed meanwhile, so nothing was written."));
  return { version: document.version, identity: answer.identity };
}
