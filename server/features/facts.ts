/** What a bitmap is, in a few words: the same above its declaration, in the gallery and on the contact sheet. */
import type { Bitmap } from "../../shared/bitmap/resolve.ts";
import { counted } from "../../shared/checks/rules.ts";
import { valueRange } from "./range.ts";
import { bytesInWords, bytesOf, sizeAndFormat } from "./words.ts";

/** Size and format, bytes, and how much of its light it uses; or why it has no picture. */
export function factsOf(bitmap: Bitmap): string[] {
  const parts = [sizeAndFormat(bitmap)];
  if (bitmap.array.type) parts.push(bytesInWords(bytesOf(bitmap)));
  const use = valueRange(bitmap);
  if (!use) parts.push(`no picture: ${bitmap.why ?? "its values are not known"}`);
  else if (bitmap.format.kind === "mono") parts.push(`${use.lit} of ${use.pixels} lit`);
  else {
    if (use.colours > 0) parts.push(counted(use.colours, "colour"));
    if (use.colours === 0 || bitmap.cap !== undefined)
      parts.push(`peak ${use.peak} of ${bitmap.cap === undefined ? bitmap.format.most : `cap ${bitmap.cap}`}`);
  }
  return parts;
}
