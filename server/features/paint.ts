/** `dotwright/paint`: pixel changes to edits of the newest version, wherever the bitmap stands in it by now. */
import { editPixels } from "../../shared/bitmap/edit.ts";
import type { LspParams, LspReply } from "../../shared/protocol/lsp.ts";
import type { Parsed } from "../documents.ts";
import { edited } from "./edited.ts";

/** Refuses what `edited` refuses, and changes that the bitmap can't take (see `editPixels`). */
export function paint(parsed: Parsed, params: LspParams<"dotwright/paint">): LspReply<"dotwright/paint"> {
  return edited(parsed, params, (file, bitmap) => editPixels(file.source.text, bitmap, params.changes));
}
