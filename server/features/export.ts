/** `dotwright/export`, `dotwright/copyChoices` and `dotwright/copyAs`: a bitmap as a picture file, and as text in any format. */
import { copiedAs, copyChoices } from "../../shared/bitmap/copiedAs.ts";
import { findBitmap } from "../../shared/bitmap/edit.ts";
import type { LspParams, LspReply } from "../../shared/protocol/lsp.ts";
import { base64 } from "../dataUri.ts";
import type { Parsed } from "../documents.ts";
import { cautionOf, pictureFile } from "../pictureFile.ts";

/** Refuses what the format can't hold, and what would be too large. */
export function exported(parsed: Parsed, params: LspParams<"dotwright/export">): LspReply<"dotwright/export"> {
  const bitmap = findBitmap(parsed.file, params.identity);
  if ("refused" in bitmap) return { err: bitmap.refused };
  const { scale } = params;
  if (scale !== undefined && (!Number.isInteger(scale) || scale < 1)) return { err: `${scale} is no scale` };
  const made = pictureFile(bitmap, params);
  if ("refused" in made) return { err: made.refused };
  const caution = cautionOf(params, () => parsed.findings, parsed.file.bitmaps.indexOf(bitmap));
  return { ok: { base64: base64(made.bytes), ...(caution === undefined ? {} : { caution }) } };
}

export function copyAsChoices(
  { file }: Parsed,
  { identity }: LspParams<"dotwright/copyChoices">,
): LspReply<"dotwright/copyChoices"> {
  const bitmap = findBitmap(file, identity);
  if ("refused" in bitmap) return { err: bitmap.refused };
  if (bitmap.why !== undefined) return { err: `${bitmap.array.name} has no picture: ${bitmap.why}` };
  return { ok: { choices: copyChoices(bitmap) } };
}

export function copyAs(
  { file }: Parsed,
  { identity, words }: LspParams<"dotwright/copyAs">,
): LspReply<"dotwright/copyAs"> {
  const bitmap = findBitmap(file, identity);
  if ("refused" in bitmap) return { err: bitmap.refused };
  const text = copiedAs(file, bitmap, words);
  return typeof text === "string" ? { ok: { text } } : { err: text.refused };
}
