/** `dotwright/copied` and `dotwright/pasted`: pixels to text in C and back. */
import { copiedText } from "../../shared/bitmap/copied.ts";
import { findBitmap } from "../../shared/bitmap/edit.ts";
import { pasted } from "../../shared/bitmap/pasted.ts";
import type { LspParams, LspReply } from "../../shared/protocol/lsp.ts";
import type { Parsed } from "../documents.ts";

/** Refuses a bitmap that is not surely the one meant, and pixels that its format does not have. */
export function copied({ file }: Parsed, params: LspParams<"dotwright/copied">): LspReply<"dotwright/copied"> {
  const bitmap = findBitmap(file, params.identity);
  if ("refused" in bitmap) return { err: bitmap.refused };
  const { width, height, pixels } = params;
  const wrong = pixels.find((value) => !Number.isInteger(value) || value < 0 || value > bitmap.format.most);
  if (wrong !== undefined) return { err: `${wrong} is not a value of ${bitmap.format.name}` };
  if (width < 1 || height < 1 || pixels.length !== width * height)
    return { err: `${pixels.length} pixels are no ${width}×${height}` };
  const text = copiedText(file, bitmap, { width, height, pixels });
  return typeof text === "string" ? { ok: { text } } : { err: text.refused };
}

/** Refuses text that holds no picture, and says why. */
export function readPasted({ file }: Parsed, params: LspParams<"dotwright/pasted">): LspReply<"dotwright/pasted"> {
  const read = pasted(params.text, file, Math.max(1, params.width));
  if ("refused" in read) return { err: read.refused };
  const { width, height, pixels, bitmap } = read;
  if (!bitmap) return { ok: { width, height, pixels } };
  const { format, light, palette } = bitmap;
  const { name, kind, most } = format;
  const colours = palette ? { colours: Array.from(palette.colours) } : {};
  return { ok: { width, height, pixels, values: { format: name, kind, most, light, ...colours } } };
}
