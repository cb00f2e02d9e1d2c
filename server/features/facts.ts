/** What a bitmap is, in a few words: the same above its declaration, in the gallery and on the contact sheet. */
import type { Bitmap } from "../../shared/bitmap/resolve.ts";
import { sendingOf } from "../../shared/checks/bus.ts";
import { currentsOf } from "../../shared/checks/current.ts";
import { counted } from "../../shared/checks/rules.ts";
import { durationInWords } from "../../shared/light/bus.ts";
import { milliamperes } from "../../shared/light/current.ts";
import { valueRange } from "./range.ts";
import { bytesInWords, bytesOf, sizeAndFormat } from "./words.ts";

/** Size and format, bytes, how much of its light it uses, what it draws and how long it takes to send; or why it has no picture. */
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
  const currents = currentsOf(bitmap);
  if (currents) parts.push(`about ${milliamperes(currents.worst)}`);
  const sent = sendingOf(bitmap);
  if (sent) parts.push(`${durationInWords(sent.seconds)} a frame`);
  return parts;
}
