/** Another name for a panel, in all files, or for an array that an annotation names, in its own. */
import type { Position, PrepareRenameResult, TextEdit, WorkspaceEdit } from "vscode-languageserver/node";
import { nameRefused } from "../../shared/bitmap/make.ts";
import { panelNameProblem } from "../../shared/pixels/options.ts";
import { occurrencesIn } from "../../shared/source/identifiers.ts";
import type { Parsed } from "../documents.ts";
import { arrayNamed, nameAt } from "./names.ts";
import { rangeOf } from "./place.ts";
import type { Meant } from "./references.ts";
import { placesIn } from "./references.ts";
import type { ClientSettings } from "./settings.ts";

/** null where there is no name of ours: the name of an array in the code is for the C++ tools. */
export function prepareRename({ document, file }: Parsed, position: Position): PrepareRenameResult | null {
  const named = nameAt(file, document.offsetAt(position));
  if (!named) return null;
  if (named.kind === "array" ? named.defines || !arrayNamed(file, named.name) : !file.known.names.has(named.name))
    return null;
  return { range: rangeOf(document, named.span), placeholder: named.name };
}

/** Why a thing can't have this name; undefined where it can. */
export function renameRefused({ file }: Parsed, { name }: Meant, wanted: string): string | undefined {
  if (wanted === name.name) return undefined;
  if (name.kind === "array") return nameRefused(file, wanted);
  const problem = panelNameProblem(wanted);
  if (problem !== undefined) return problem;
  const [taken] = file.known.get(wanted);
  return taken && `A panel \`${wanted}\` is already defined in ${taken.file}.`;
}

/** The edits of one file. */
export function renameIn({ document, file }: Parsed, meant: Meant, wanted: string): TextEdit[] {
  const { name, home } = meant;
  const spans = placesIn(file, meant).map(({ span }) => span);
  if (name.kind === "array" && file.id === home) spans.push(...occurrencesIn(file.source.text, name.name));
  return spans.map((span) => ({ range: rangeOf(document, span), newText: wanted }));
}

/** Edits of several files as one; those of open documents are tied to their versions where the client can take that. */
export function editOf(
  files: readonly { readonly uri: string; readonly version: number | null; readonly edits: TextEdit[] }[],
  settings: ClientSettings,
): WorkspaceEdit {
  const changed = files.filter(({ edits }) => edits.length > 0);
  if (!settings.versionedEdits) return { changes: Object.fromEntries(changed.map(({ uri, edits }) => [uri, edits])) };
  return {
    documentChanges: changed.map(({ uri, version, edits }) => ({ textDocument: { uri, version }, edits })),
  };
}
