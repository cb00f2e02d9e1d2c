/** Bytes that the editor could not decode: it shows U+FFFD for them, and would write that at saving. */
import type { TextDocument } from "vscode";
import { l10n, window } from "vscode";

const allowed = new WeakSet<TextDocument>();

/** Asks before the first change of a document that holds such bytes, until it is allowed once; false where it is not. */
export async function mayLoseBytes(document: TextDocument): Promise<boolean> {
  if (allowed.has(document) || !document.getText().includes("\uFFFD")) return true;
  const anyway = l10n.t("Change the file anyway");
  const detail = l10n.t(
    "The editor replaced them by U+FFFD, and saving writes those instead. Reopen the file with its right encoding to keep them.",
  );
  const chosen = await window.showWarningMessage(
    l10n.t("This file holds bytes that its encoding does not know."),
    { modal: true, detail },
    anyway,
  );
  if (chosen !== anyway) return false;
  allowed.add(document);
  return true;
}
