/** `dotwright/restructure`: other frames or another size of a bitmap, to edits of the newest version. */
import { findBitmap, identityOf } from "../../shared/bitmap/edit.ts";
import { restructure as restructured } from "../../shared/bitmap/restructure/restructure.ts";
import type { LspParams, LspReply } from "../../shared/protocol/lsp.ts";
import type { Parsed } from "../documents.ts";
import { textEdits } from "./place.ts";
import { worldOf } from "./world.ts";

/** Refuses a bitmap that is not surely the one meant, and changes that its array can't follow (see `restructure`). */
export function restructure(
  parsed: Parsed,
  params: LspParams<"dotwright/restructure">,
): LspReply<"dotwright/restructure"> {
  const { version, document, file } = parsed;
  if (params.version > version)
    return { err: `version ${params.version} has not arrived yet; the newest is ${version}` };
  const bitmap = findBitmap(file, params.identity);
  if ("refused" in bitmap) return { err: bitmap.refused };
  const done = restructured(file, bitmap, params.change, worldOf(parsed));
  if ("refused" in done) return { err: done.refused };
  return { ok: { version, edits: textEdits(document, done.edits), identity: identityOf(done.bitmap) } };
}
