/** `dotwright/glyphWidth`: the edits that make a glyph of a set narrower or wider. */
import { editWidth } from "../../shared/bitmap/glyphWidth.ts";
import type { LspParams, LspReply } from "../../shared/protocol/lsp.ts";
import type { Parsed } from "../documents.ts";
import { edited } from "./edited.ts";

/** Refuses what `edited` refuses, and a width that can't be written (see `editWidth`). */
export function glyphWidth(
  parsed: Parsed,
  params: LspParams<"dotwright/glyphWidth">,
): LspReply<"dotwright/glyphWidth"> {
  const { identity, frame, width } = params;
  return edited(parsed, { identity }, (file, bitmap) => editWidth(file, bitmap, frame, width));
}
