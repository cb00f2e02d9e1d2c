/** What is over its cap or its budget, brought down in a whole file. */
import type { PixelChange } from "../bitmap/edit.ts";
import { editPixels } from "../bitmap/edit.ts";
import type { Bitmap, BitmapFile } from "../bitmap/resolve.ts";
import { milliamperes } from "../light/current.ts";
import type { Way } from "../light/dim.ts";
import { highest } from "../light/limit.ts";
import type { TextEdit } from "../source/text.ts";
import { budgetChanges, currentsOf } from "./current.ts";
import { whyNotDimmed } from "./dimming.ts";
import { capChanges, peakOf } from "./overCap.ts";
import { counted } from "./rules.ts";

export interface Dimmed {
  readonly bitmap: Bitmap;
  /** What is done to it, or why it is left. */
  readonly words: string;
  /** None where it is left. */
  readonly edits: readonly TextEdit[];
}

/** The bitmaps that are over their cap or budget, with the edits that bring them down; no two edits overlap. */
export function dimmedIn(file: BitmapFile, way: Way): Dimmed[] {
  const taken: TextEdit[] = [];
  return file.bitmaps.filter(isOver).map((bitmap) => {
    const { words, edits } = dimmedEdits(file.source.text, bitmap, way, taken);
    taken.push(...edits);
    return { bitmap, words, edits };
  });
}

function isOver(bitmap: Bitmap): boolean {
  const limit = highest(bitmap);
  return (limit !== undefined && peakOf(bitmap) > limit) || isOverBudget(bitmap);
}

function isOverBudget(bitmap: Bitmap): boolean {
  const { budget } = bitmap.options;
  return budget !== undefined && (currentsOf(bitmap)?.worst ?? 0) > budget * (1 + 1e-9);
}

/** The edits that bring one bitmap down, with words about them; none, with the reason, where that can't be. */
function dimmedEdits(
  text: string,
  bitmap: Bitmap,
  way: Way,
  others: readonly TextEdit[],
): { readonly words: string; readonly edits: readonly TextEdit[] } {
  const none = (why: string) => ({ words: `left as it is: ${why}`, edits: [] });
  const limit = highest(bitmap);
  const peak = peakOf(bitmap);
  const overCap = limit !== undefined && peak > limit;
  const why = whyNotDimmed(bitmap);
  if (why !== undefined) return none(why);
  const changes = changesFor(bitmap, way);
  if (!changes) return none("what its dark pixels draw is over the budget already");
  const edited = editPixels(text, bitmap, changes);
  if ("refused" in edited) return none(edited.refused);
  // Two bitmaps may show one array: it is brought down once, and looked at again the next time.
  if (edited.edits.some((e) => others.some((o) => e.start < o.end && o.start < e.end)))
    return none("another bitmap shows the same numbers; run it again");
  const parts = [
    ...(overCap ? [`from ${peak} to ${limit}`] : []),
    ...(isOverBudget(bitmap) ? [`within ${milliamperes(bitmap.options.budget ?? 0)}`] : []),
  ];
  return { words: `${counted(changes.length, "pixel")} ${parts.join(" and ")} (${way})`, edits: edited.edits };
}

/** The budget may ask for less light than the cap does. */
function changesFor(bitmap: Bitmap, way: Way): readonly PixelChange[] | undefined {
  const limit = highest(bitmap);
  const forCap = limit !== undefined && peakOf(bitmap) > limit ? capChanges(bitmap, way, limit) : [];
  const { budget } = bitmap.options;
  if (budget === undefined || !isOverBudget(bitmap)) return forCap;
  return budgetChanges(bitmap, way, budget, limit);
}
