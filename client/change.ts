/** What the page changes other than by strokes: one edit of the document, which is one step of undo. */
import type { TextDocument } from "vscode";
import { l10n } from "vscode";
import type { LspTextEdit } from "../shared/protocol/lsp.ts";
import { applied } from "./applied.ts";

interface Answer {
  readonly version: number;
  readonly edits: readonly LspTextEdit[];
}

/** The answer whose edits were applied; an error in words where nothing could be written. */
export async function applyChange<A extends Answer>(document: TextDocument, ask: () => Promise<A>): Promise<A> {
  const answer = await applied(document, ask);
  if (answer === "declined") throw new Error(l10n.t("Nothing was changed."));
  if (answer === "moved") throw new Error(l10n.t("The file changed meanwhile, so nothing was changed here."));
  return answer;
}
