/** `dotwright/paint`: pixel changes to edits of the newest version, wherever the bitmap stands in it by now. */
import { editPixels, findBitmap } from "../../shared/bitmap/edit.ts";
import type { LspParams, LspReply } from "../../shared/protocol/lsp.ts";
import type { Parsed } from "../documents.ts";
import { textEdits } from "./place.ts";

/** Refuses a bitmap that is not surely the one meant, and changes that it can't take (see `editPixels`). */
export function paint(parsed: Parsed, params: LspParams<"dotwright/paint">): LspReply<"dotwright/paint"> {
  const { version, document, file } = parsed;
  if (params.version > version)
    return { err: `version ${params.version} has not arrived yet; the newest is ${version}` };
  const bitmap = findBitmap(file, params.identity);
  if ("refused" in bitmap) return { err: bitmap.refused };
  const edited = editPixels(file.source.text, bitmap, params.changes);
  if ("refused" in edited) return { err: edited.refused };
  return { ok: { version, edits: textEdits(document, edited.edits) } };
}
