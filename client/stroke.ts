/** What is painted to one edit of the document, which is one step of undo. */
import type { TextDocument } from "vscode";
import { l10n } from "vscode";
import type { LspTextEdit } from "../shared/protocol/lsp.ts";
import type { ToHost } from "../shared/protocol/webview.ts";
import { applied } from "./applied.ts";
import type { Ask } from "./ask.ts";
import { type Member, paintSet } from "./together.ts";

/**
 * One stroke of the brush; the document's version after the edit. Where the document moves on meanwhile the server is
 * asked once more, about the newest text; then it is an error in words, and nothing is written.
 */
export async function applyStroke(
  ask: Ask,
  document: TextDocument,
  { version, identity, changes }: ToHost["paint"]["params"],
  /** The arrays of a set, where it is one that is painted. */
  members?: readonly Member[],
): Promise<number> {
  const uri = document.uri.toString();
  return versionAfter(document, () =>
    members
      ? paintSet(ask, { uri, version, members, changes })
      : ask("dotwright/paint", { uri, version, identity, changes }),
  );
}

/** Another colour in a palette; the same holds as of a stroke. */
export async function applyRecolour(
  ask: Ask,
  document: TextDocument,
  change: ToHost["recolour"]["params"],
): Promise<number> {
  const uri = document.uri.toString();
  return versionAfter(document, () => ask("dotwright/recolour", { ...change, uri }));
}

/** Another width of a glyph; the same holds as of a stroke. */
export async function applyWidth(
  ask: Ask,
  document: TextDocument,
  change: ToHost["glyphWidth"]["params"],
): Promise<number> {
  const uri = document.uri.toString();
  return versionAfter(document, () => ask("dotwright/glyphWidth", { ...change, uri }));
}

async function versionAfter(
  document: TextDocument,
  ask: () => Promise<{ readonly version: number; readonly edits: readonly LspTextEdit[] }>,
): Promise<number> {
  const answer = await applied(document, ask);
  if (answer === "declined") throw new Error(l10n.t("Nothing was painted."));
  if (answer === "moved")
    throw new Error(l10n.t("The file changed while the stroke was on its way, so nothing was painted."));
  return document.version;
}
