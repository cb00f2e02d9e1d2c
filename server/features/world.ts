/** What rewritten documents are read back and judged by. */
import type { World } from "../../shared/bitmap/convert/verify.ts";
import { openText } from "../../shared/bitmap/open.ts";
import { checkFile } from "../../shared/checks/all.ts";
import type { Parsed } from "../documents.ts";
import { resolveUri } from "../uris.ts";

/** Texts are read as the document was: for its target, with the files that it includes and the panels that it knows. */
export function worldOf(parsed: Parsed): World {
  const { file } = parsed;
  const { id, known: panels } = file;
  const includes = includesOf(parsed);
  return {
    reopen: (text) => openText(text, file.file, { target: file.source.target, includes, panels, id }),
    findings: checkFile,
  };
}

/** The files that the document was read with, by the same names. */
function includesOf({ uri, file }: Parsed) {
  return (name: string, from: string) => {
    const id = resolveUri(name, from === "" ? uri : from) ?? "";
    const included = file.source.included.get(id);
    return included && { id, text: included.text };
  };
}
