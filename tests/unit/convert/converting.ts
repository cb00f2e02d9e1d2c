/** A conversion of the first bitmap of a text, as an editor would do it. */
import { conversionsOf, convert } from "../../../shared/bitmap/convert/convert.ts";
import { openText } from "../../../shared/bitmap/open.ts";
import type { Bitmap } from "../../../shared/bitmap/resolve.ts";
import { checkFile } from "../../../shared/checks/all.ts";
import { applyEdits } from "../../../shared/source/text.ts";

/** The text after the conversion; the reason where it is refused; undefined where it is not offered. */
export function converted(text: string, id: string, file = "art.cpp"): string | undefined {
  const opened = openText(text, file);
  const bitmap = opened.bitmaps[0] as Bitmap;
  if (!conversionsOf(opened, bitmap).some((c) => c.id === id)) return undefined;
  const made = convert(opened, bitmap, id, { reopen: (t) => openText(t, file), findings: checkFile });
  return "refused" in made ? made.refused : applyEdits(text, made.edits);
}

/** Ids and titles of all that is offered. */
export function offered(text: string, file = "art.cpp"): Map<string, string> {
  const opened = openText(text, file);
  return new Map(conversionsOf(opened, opened.bitmaps[0] as Bitmap).map(({ id, title }) => [id, title]));
}
