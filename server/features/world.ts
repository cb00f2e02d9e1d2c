/** What rewritten documents are read back and judged by. */
import type { World } from "../../shared/bitmap/convert/verify.ts";
import { reopened } from "../../shared/bitmap/open.ts";
import { checkFile } from "../../shared/checks/all.ts";
import type { Parsed } from "../documents.ts";

/** Texts are read as the document was: for its target, with the files that it includes and the panels that it knows. */
export function worldOf({ file }: Pick<Parsed, "file">): World {
  return { reopen: (text) => reopened(file, text), findings: checkFile };
}
