/** The server's edits of one document, as one edit of the editor's, which is one step of undo. */
import type { TextDocument } from "vscode";
import { l10n, WorkspaceEdit, workspace } from "vscode";
import type { LspTextEdit } from "../shared/protocol/lsp.ts";
import { mayLoseBytes } from "./lostBytes.ts";
import { rangeOf } from "./ranges.ts";

interface Answer {
  /** The version of the document that the edits are meant for. */
  readonly version: number;
  readonly edits: readonly LspTextEdit[];
}

/** Nothing was written: the user declined, or the document moved on twice. */
type NotApplied = "declined" | "moved";

/**
 * Asks for edits and applies them; where the document moves on meanwhile it asks once more, about the newest text.
 * The answer that was applied, or why nothing was written. Everything that the extension writes itself goes through
 * here, so the user is warned here of bytes that would be lost.
 */
export async function applied<A extends Answer>(
  document: TextDocument,
  ask: () => Promise<A>,
): Promise<A | NotApplied> {
  if (!(await mayLoseBytes(document))) return "declined";
  for (let attempt = 0; attempt < 2; attempt++) {
    const answer = await ask();
    if (answer.version !== document.version) continue;
    if (answer.edits.length === 0) return answer;
    const edit = new WorkspaceEdit();
    for (const { range, newText } of answer.edits) edit.replace(document.uri, rangeOf(range), newText);
    if (await workspace.applyEdit(edit)) return answer;
  }
  return "moved";
}

/** As `applied`, for the page: where nothing is written it is an error in words. The document's version is then that with the edit. */
export async function written<A extends Answer>(document: TextDocument, ask: () => Promise<A>): Promise<A> {
  const answer = await applied(document, ask);
  if (answer === "declined") throw new Error(l10n.t("Nothing was written."));
  if (answer === "moved") throw new Error(l10n.t("The file changed meanwhile, so nothing was written."));
  return answer;
}
