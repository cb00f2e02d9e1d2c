/** `dotwright/restructure`: other frames or another size of a bitmap, to edits of the newest version. */
import { identityOf } from "../../shared/bitmap/edit.ts";
import { restructure as restructured } from "../../shared/bitmap/restructure/restructure.ts";
import type { LspParams, LspReply } from "../../shared/protocol/lsp.ts";
import type { Parsed } from "../documents.ts";
import { edited } from "./edited.ts";
import { worldOf } from "./world.ts";

/** Refuses what `edited` refuses, and changes that the array can't follow (see `restructure` in the core). */
export function restructure(
  parsed: Parsed,
  params: LspParams<"dotwright/restructure">,
): LspReply<"dotwright/restructure"> {
  return edited(
    parsed,
    params,
    (file, bitmap) => restructured(file, bitmap, params.change, worldOf(parsed)),
    (done) => ({ identity: identityOf(done.bitmap) }),
  );
}
