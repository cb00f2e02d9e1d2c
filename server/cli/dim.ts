/** Brings all that is over its cap or its budget down, in all files. */
import type { BitmapFile } from "../../shared/bitmap/resolve.ts";
import type { Dimmed } from "../../shared/checks/dimmed.ts";
import { dimmedIn } from "../../shared/checks/dimmed.ts";
import type { Way } from "../../shared/light/dim.ts";
import { WAYS } from "../../shared/light/dim.ts";
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
    const files: { readonly file: BitmapFile; readonly dimmed: readonly Dimmed[] }[] = [];
    await forEachFile(paths, target, (file) => {
      const dimmed = dimmedIn(file, way);
      if (dimmed.length > 0) files.push({ file, dimmed });
    });
    for (const { file, dimmed } of files) {
      const { text } = file.source;
      const starts = lineStarts(text);
      for (const { bitmap, words } of dimmed) {
        const { name, nameSpan } = bitmap.array;
        print(`${shownPath(file.file)}:${lineAt(starts, nameSpan.start) + 1}: ${name}: ${words}\n`);
      }
      const edits = dimmed.flatMap((one) => one.edits);
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
