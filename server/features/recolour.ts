/** `dotwright/recolour`: another colour in a palette to edits of the newest version. */
import { findBitmap } from "../../shared/bitmap/edit.ts";
import { recolour as editsOf } from "../../shared/bitmap/recolour.ts";
import type { LspParams, LspReply } from "../../shared/protocol/lsp.ts";
import type { Parsed } from "../documents.ts";
import { textEdits } from "./place.ts";

/** Refuses a bitmap that is not surely the one meant, and a change that its palette can't take (see `recolour`). */
export function recolour(parsed: Parsed, params: LspParams<"dotwright/recolour">): LspReply<"dotwright/recolour"> {
  const { version, document, file } = parsed;
  if (params.version > version)
    return { err: `version ${params.version} has not arrived yet; the newest is ${version}` };
  const bitmap = findBitmap(file, params.identity);
  if ("refused" in bitmap) return { err: bitmap.refused };
  const edited = editsOf(file.source.text, bitmap, params);
  if ("refused" in edited) return { err: edited.refused };
  return { ok: { version, edits: textEdits(document, edited.edits) } };
}
