/** `dotwright/glyphWidth`: the edits that make a glyph of a set narrower or wider. */
import { findBitmap } from "../../shared/bitmap/edit.ts";
import { editWidth } from "../../shared/bitmap/glyphWidth.ts";
import type { LspParams, LspReply } from "../../shared/protocol/lsp.ts";
import type { Parsed } from "../documents.ts";
import { textEdits } from "./place.ts";

/** Refuses a bitmap that is not surely the one meant, and a width that can't be written (see `editWidth`). */
export function glyphWidth(
  { version, document, file }: Parsed,
  { identity, frame, width }: LspParams<"dotwright/glyphWidth">,
): LspReply<"dotwright/glyphWidth"> {
  const bitmap = findBitmap(file, identity);
  if ("refused" in bitmap) return { err: bitmap.refused };
  const edited = editWidth(file, bitmap, frame, width);
  if ("refused" in edited) return { err: edited.refused };
  return { ok: { version, edits: textEdits(document, edited.edits) } };
}
