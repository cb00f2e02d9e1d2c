/** A restructuring of the first bitmap of a text, as an editor would do it. */
import { openText } from "../../../shared/bitmap/open.ts";
import type { Bitmap } from "../../../shared/bitmap/resolve.ts";
import type { Restructuring } from "../../../shared/bitmap/restructure/change.ts";
import { restructure } from "../../../shared/bitmap/restructure/restructure.ts";
import { checkFile } from "../../../shared/checks/all.ts";
import { applyEdits } from "../../../shared/source/text.ts";

/** The text after the change, or the reason why it is refused. */
export function restructured(text: string, change: Restructuring, file = "art.cpp"): string {
  const opened = openText(text, file);
  const world = { reopen: (t: string) => openText(t, file), findings: checkFile };
  const done = restructure(opened, opened.bitmaps[0] as Bitmap, change, world);
  return "refused" in done ? `refused: ${done.refused}` : applyEdits(text, done.edits);
}

type Order = Extract<Restructuring, { kind: "frames" }>["order"];

export const framed = (text: string, order: Order, file?: string): string =>
  restructured(text, { kind: "frames", order }, file);

/** Columns and rows added at the left, top, right and bottom. */
export const sized = (text: string, [left, top, right, bottom]: readonly [number, number, number, number]): string =>
  restructured(text, { kind: "size", left, top, right, bottom });
