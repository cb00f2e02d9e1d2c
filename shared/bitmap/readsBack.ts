/** Whether what is about to be written says what it is meant to. */
import type { Made, MakeRequest } from "./make.ts";
import { reopened } from "./open.ts";
import type { BitmapFile } from "./resolve.ts";
import { pixelsOf } from "./resolve.ts";

/** By itself, or in its place: names such as that of a type may be known there only. */
export function readsBack(file: BitmapFile, request: MakeRequest, made: Made): boolean {
  const { text } = file.source;
  const written = `${made.annotation}\n${made.statement}\n`;
  if (isThere(file, written, request, made)) return true;
  return isThere(file, `${text.slice(0, request.offset)}\n${written}${text.slice(request.offset)}`, request, made);
}

function isThere(file: BitmapFile, text: string, { name, pixels }: MakeRequest, made: Made) {
  const { width, height, frames, options } = made.bitmap;
  const read = reopened(file, text);
  const found = read.bitmaps.find((b) => b.array.name === name);
  if (!found || found.array.given !== made.elements) return false;
  // Indices are the same without their palette, which need not be at hand.
  if (found.why !== undefined) return options.palette !== undefined;
  if (found.width !== width || found.height !== height || found.frames !== frames) return false;
  for (let frame = 0; frame < frames; frame++) {
    const values = pixelsOf(found, frame);
    if (!values?.every((value, i) => value === (pixels?.(frame, i) ?? 0))) return false;
  }
  return true;
}
