/** `dotwright/recolour`: another colour in a palette to edits of the newest version. */
import { recolour as editsOf } from "../../shared/bitmap/recolour.ts";
import type { LspParams, LspReply } from "../../shared/protocol/lsp.ts";
import type { Parsed } from "../documents.ts";
import { edited } from "./edited.ts";

/** Refuses what `edited` refuses, and a change that the bitmap's palette can't take (see `recolour` in the core). */
export function recolour(parsed: Parsed, params: LspParams<"dotwright/recolour">): LspReply<"dotwright/recolour"> {
  return edited(parsed, params, (file, bitmap) => editsOf(file.source.text, bitmap, params));
}
