/** Stored files read as documents are, with all that they include: for what is asked of the whole workspace. */
import { TextDocument } from "vscode-languageserver-textdocument";
import { openText } from "../shared/bitmap/open.ts";
import { checkFile } from "../shared/checks/all.ts";
import type { Documents, Parsed } from "./documents.ts";
import type { Files } from "./files.ts";
import type { Panels } from "./panels.ts";
import type { StoredIndex } from "./storedIndex.ts";
import { canonical, fileName } from "./uris.ts";
import type { OpenOptions } from "./workspace.ts";

/** The open documents and the files around them. */
export interface Around {
  readonly documents: Documents;
  readonly files: Files;
  readonly stored: StoredIndex;
  readonly panels: Panels;
  readonly options: () => OpenOptions;
}

/** Included files may include others, which are known only once they have been fetched; this many times at most. */
const MOST_ROUNDS = 20;

/** A text of the file as it was read; `version` 0 as it has none. */
export async function readStoredFile(id: string, text: string, around: Around): Promise<Parsed> {
  const { documents, files, panels, options } = around;
  const name = fileName(id);
  const includes = documents.includesOf(id);
  const open = () => openText(text, name, { ...options(), includes, panels: panels.index(), id });
  let file = open();
  for (let round = 0; round < MOST_ROUNDS && (await files.fetched()); round++) file = open();
  return {
    uri: id,
    version: 0,
    serial: "",
    document: TextDocument.create(id, "cpp", 0, text),
    file,
    get findings() {
      // Until all files have been looked through nobody knows which names are unknown.
      const findings = checkFile(file);
      return panels.complete ? findings : findings.filter(({ code }) => code !== "unknown-panel");
    },
  };
}

/** The files of the workspace that may hold bitmaps, stored and open. */
export function worthReading({ documents, files, stored }: Around): string[] {
  return [...new Set([...stored.worth.keys(), ...documents.uris().map(canonical).filter(files.inside)])];
}
