/** One stroke of the brush to one edit of the document, which is one step of undo. */
import type { TextDocument } from "vscode";
import { l10n, window } from "vscode";
import type { ToHost } from "../shared/protocol/webview.ts";
import { applied } from "./applied.ts";
import type { Ask } from "./ask.ts";

/**
 * The document's version after the edit. Where the document moves on meanwhile the server is asked once more, about
 * the newest text; then it is an error in words, and nothing is written.
 */
export async function applyStroke(
  ask: Ask,
  document: TextDocument,
  { version, identity, changes }: ToHost["paint"]["params"],
): Promise<number> {
  await warnOfLostBytes(document);
  const uri = document.uri.toString();
  if (await applied(document, () => ask("dotwright/paint", { uri, version, identity, changes })))
    return document.version;
  throw new Error(l10n.t("The file changed while the stroke was on its way, so nothing was painted."));
}

const warned = new WeakSet<TextDocument>();

/** Bytes that the editor could not decode would be lost at saving: asks before the first stroke. */
async function warnOfLostBytes(document: TextDocument): Promise<void> {
  if (warned.has(document) || !document.getText().includes("\uFFFD")) return;
  const anyway = l10n.t("Paint anyway");
  const detail = l10n.t(
    "The editor replaced them by U+FFFD, and saving writes those instead. Reopen the file with its right encoding to keep them.",
  );
  const chosen = await window.showWarningMessage(
    l10n.t("This file holds bytes that its encoding does not know."),
    { modal: true, detail },
    anyway,
  );
  if (chosen !== anyway) throw new Error(l10n.t("Nothing was painted."));
  warned.add(document);
}
