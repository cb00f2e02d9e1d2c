/** What is found by name over open documents and stored files: definition, references, renaming, workspace symbols. */
import type { CancellationToken, Connection, Location } from "vscode-languageserver/node";
import { ErrorCodes, LSPErrorCodes, ResponseError } from "vscode-languageserver/node";
import { occurrencesIn } from "../shared/source/identifiers.ts";
import type { Parsed } from "./documents.ts";
import type { Meant } from "./features/references.ts";
import { definition, meantAt, references } from "./features/references.ts";
import { editOf, prepareRename, renameIn, renameRefused } from "./features/rename.ts";
import type { ClientSettings } from "./features/settings.ts";
import { symbolsIn, workspaceSymbols } from "./features/workspaceSymbols.ts";
import type { Around } from "./storedReader.ts";
import { readStoredFile } from "./storedReader.ts";
import { canonical } from "./uris.ts";

interface Given extends Around {
  readonly settings: ClientSettings;
}

/** Stands where an editor could not decode a byte. */
const LOST = "\ufffd";

/** Answers these requests. What is asked of stored files is read afresh: an edit must fit what is there now. */
export function serveNames(connection: Connection, given: Given): void {
  const { documents, files, stored, panels, settings } = given;
  const uriOf = (id: string) => documents.parsed(id)?.uri ?? id;

  /** The stored files, but for those that are open, whose text holds a word. */
  async function* holding(word: string, among: Iterable<string>, token: CancellationToken, worth: boolean) {
    for (const id of among) {
      if (token.isCancellationRequested)
        throw new ResponseError(LSPErrorCodes.RequestCancelled, "The request was cancelled.");
      if (documents.isOpen(id)) continue;
      const text = await (worth ? files.worthReading(id) : files.read(id)).catch(() => undefined);
      if (text?.includes(word)) yield { id, text };
    }
  }
  /** The stored files that may name a panel. */
  const naming = async ({ name }: Meant, token: CancellationToken): Promise<Parsed[]> => {
    if (name.kind === "array") return [];
    const found: Parsed[] = [];
    for await (const { id, text } of holding(name.name, stored.worth.keys(), token, true))
      found.push(await readStoredFile(id, text, given));
    return found;
  };
  /** The open documents that can be written: not older versions, which are shown beside the file. */
  const open = (asking: Parsed) =>
    documents.uris().flatMap((uri) => {
      const parsed = documents.parsed(uri);
      const id = parsed?.file.id ?? "";
      return parsed && (files.inside(id) || parsed.uri === asking.uri || /^(?:file|untitled):/.test(id)) ? parsed : [];
    });

  connection.onWorkspaceSymbol(({ query }) => {
    const documented = documents.uris().flatMap((uri) => {
      const { file, id } = { file: documents.parsed(uri)?.file, id: canonical(uri) };
      return file && files.inside(id) ? [{ uri, file: files.shown(id), symbols: symbolsIn(file.source) }] : [];
    });
    const unopened = [...stored.worth].flatMap(([uri, symbols]) =>
      documents.isOpen(uri) ? [] : [{ uri, file: files.shown(uri), symbols }],
    );
    return workspaceSymbols([...documented, ...unopened], query);
  });

  connection.onDefinition(({ textDocument, position }) => {
    const parsed = documents.parsed(textDocument.uri);
    return (parsed && definition(parsed, position, uriOf)) ?? null;
  });

  connection.onReferences(async ({ textDocument, position, context }, token): Promise<Location[]> => {
    const parsed = documents.parsed(textDocument.uri);
    const meant = parsed && meantAt(parsed, position);
    if (!meant) return [];
    const read = await naming(meant, token);
    return [...open(parsed), ...read].flatMap((file) => references(file, meant, context.includeDeclaration));
  });

  connection.onPrepareRename(({ textDocument, position }) => {
    const parsed = documents.parsed(textDocument.uri);
    return parsed ? prepareRename(parsed, position) : null;
  });

  connection.onRenameRequest(async ({ textDocument, position, newName }, token) => {
    const parsed = documents.parsed(textDocument.uri);
    const meant = parsed && meantAt(parsed, position);
    if (!parsed || !meant || !prepareRename(parsed, position)) throw refused("No panel and no array is named here.");
    const wanted = newName.trim();
    const wrong = renameRefused(parsed, meant, wanted);
    if (wrong !== undefined) throw refused(wrong);
    if (!panels.complete) throw refused("The files of the workspace are still being looked through.");
    if (meant.name.kind === "array") await elsewhere(parsed, meant, token);
    const read = await naming(meant, token);
    // Nothing is awaited from here on: documents are edited as they are now.
    const now = [...open(parsed), ...read.filter(({ uri }) => !documents.isOpen(uri))];
    const edited = now.flatMap((file) => {
      const edits = renameIn(file, meant, wanted);
      if (edits.length > 0 && file.file.source.text.includes(LOST))
        throw refused(
          `${files.shown(file.file.id)} holds bytes that its encoding does not know; saving would lose them.`,
        );
      return [{ uri: file.uri, version: documents.isOpen(file.file.id) ? file.version : null, edits }];
    });
    return editOf(edited, settings);
  });

  /** An array may be used in other files, whose scopes only a compiler knows: then it is not renamed. */
  async function elsewhere(parsed: Parsed, { name, home }: Meant, token: CancellationToken): Promise<void> {
    const used = (file: string) =>
      refused(`\`${name.name}\` is used in ${file} too: rename the array with the tools of C++, then its name here.`);
    for (const { document, uri } of open(parsed))
      if (canonical(uri) !== home && occurrencesIn(document.getText(), name.name).length > 0)
        throw used(files.shown(canonical(uri)));
    for await (const { id, text } of holding(name.name, await files.list(), token, false))
      if (occurrencesIn(text, name.name).length > 0) throw used(files.shown(id));
  }
}

function refused(message: string): ResponseError<void> {
  return new ResponseError(ErrorCodes.InvalidParams, message);
}
