/** Brings all that is over its cap or its budget down, in all files. */
import type { PixelChange } from "../../shared/bitmap/edit.ts";
import { editPixels } from "../../shared/bitmap/edit.ts";
import type { Bitmap, BitmapFile } from "../../shared/bitmap/resolve.ts";
import { budgetChanges, currentsOf } from "../../shared/checks/current.ts";
import { whyNotDimmed } from "../../shared/checks/dimming.ts";
import { capChanges, peakOf } from "../../shared/checks/overCap.ts";
import { counted } from "../../shared/checks/rules.ts";
import { milliamperes } from "../../shared/light/current.ts";
import type { Way } from "../../shared/light/dim.ts";
import { WAYS } from "../../shared/light/dim.ts";
import { highest } from "../../shared/light/limit.ts";
import type { TextEdit } from "../../shared/source/text.ts";
import { applyEdits, lineAt, lineStarts } from "../../shared/source/text.ts";
import type { Command } from "./command.ts";
import { needPaths } from "./command.ts";
import { forEachFile, shownPath, UserError } from "./files.ts";
import { saveText } from "./save.ts";

export const dimCommand: Command = {
  name: "dim",
  usage: "[--way clamp|linear|even] [--write] PATH…",
  doc: "what would bring bitmaps within cap= and budget=: clamp cuts off, linear scales values, even (usual) scales\nlightness, so that steps stay even to the eye; --write does it",
  options: { way: "value", write: "flag" },
  async run(paths, given, target, print) {
    needPaths(paths);
    const way = wayFrom(given.way);
    const files: BitmapFile[] = [];
    await forEachFile(paths, target, (file) => {
      if (file.bitmaps.some(isOver)) files.push(file);
    });
    for (const file of files) {
      const { text } = file.source;
      const starts = lineStarts(text);
      const edits: TextEdit[] = [];
      for (const bitmap of file.bitmaps) {
        if (!isOver(bitmap)) continue;
        const { name, nameSpan } = bitmap.array;
        const dimmed = dimmedEdits(text, bitmap, way, edits);
        print(`${shownPath(file.file)}:${lineAt(starts, nameSpan.start) + 1}: ${name}: ${dimmed.words}\n`);
        edits.push(...dimmed.edits);
      }
      if (given.write && edits.length > 0) await saveText(file.file, text, applyEdits(text, edits));
    }
    return 0;
  },
};

function wayFrom(given: string | true | undefined): Way {
  const way = WAYS.find((known) => known === (given ?? "even"));
  if (!way) throw new UserError(`--way takes ${WAYS.join(", ")}, not ${given}`);
  return way;
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
