/** Stored files read as documents are, with all that they include: for what is asked of the whole workspace. */
import { TextDocument } from "vscode-languageserver-textdocument";
import { openText } from "../shared/bitmap/open.ts";
import { checkFile } from "../shared/checks/all.ts";
import type { Documents, Parsed } from "./documents.ts";
import type { Panels } from "./panels.ts";
import type { Unopened } from "./unopened.ts";
import { fileName } from "./uris.ts";
import type { OpenOptions } from "./workspace.ts";

interface Given {
  readonly documents: Documents;
  readonly unopened: Pick<Unopened, "fetched">;
  readonly panels: Panels;
  readonly options: () => OpenOptions;
}

/** Included files may include others, which are known only once they have been fetched; this many times at most. */
const MOST_ROUNDS = 20;

/** A text of the file as it was read; `version` 0 as it has none. */
export async function readStoredFile(id: string, text: string, given: Given): Promise<Parsed> {
  const { documents, unopened, panels, options } = given;
  const name = fileName(id);
  const includes = documents.includesOf(id);
  const open = () => openText(text, name, { ...options(), includes, panels: panels.index(), id });
  let file = open();
  for (let round = 0; round < MOST_ROUNDS && (await unopened.fetched()); round++) file = open();
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
