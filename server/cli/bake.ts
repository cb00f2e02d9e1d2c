import { reopened } from "../../shared/bitmap/open.ts";
import { bake } from "../../shared/motion/bake.ts";
import type { SourceArray } from "../../shared/source/arrays.ts";
import { skipSpace } from "../../shared/source/scan.ts";
import { applyEdits } from "../../shared/source/text.ts";
import type { Command } from "./command.ts";
import { UserError } from "./files.ts";
import { motionNamed, writeEdits } from "./motions.ts";

export const bakeCommand: Command = {
  name: "bake",
  usage: "FILE NAME [--share] [--write]",
  doc: "the frames of an @motion in the array it stands before, on stdout or in the file (--write);\n--share keeps each frame of a there-and-back once, with a table of their order",
  options: { share: "flag", write: "flag" },
  async run(paths, given, target, print) {
    const { file, motion } = await motionNamed("bake", paths, target);
    const baked = bake(file, motion, given.share === true ? true : undefined);
    if ("refused" in baked) throw new UserError(`${file.file}: ${baked.refused}`);
    const { frames, same, edits } = baked;
    const bytes = frames.reduce((sum, pixels) => sum + pixels.length, 0);
    const twins = same.slice(0, 8).map(([frame, before]) => `${frame} as ${before}`);
    const more = same.length > 8 ? ` and ${same.length - 8} more` : "";
    const note = same.length > 0 ? `; the same frame again: ${twins.join(", ")}${more}` : "";
    process.stderr.write(`dotwright: ${motion.name}: ${frames.length} frames, ${bytes} pixels${note}\n`);
    if (given.write === true) await writeEdits(file, edits);
    else print(statementsIn(applyEdits(file.source.text, edits), file, motion.name));
    return 0;
  },
};

/** The array with its annotations, and the table of the order if there is one. */
function statementsIn(text: string, file: Parameters<typeof reopened>[0], name: string): string {
  const after = reopened(file, text);
  const array = after.source.arrays.find((a) => a.name === name);
  const order = after.source.arrays.find((a) => a.name === `${name}_order`);
  const own = after.source.annotations.filter((a) => a.arrays.some((i) => after.source.arrays[i] === array));
  const comments = own.map(({ comment }) => text.slice(comment.start, comment.end));
  return `${[...new Set(comments), ...[array, order].flatMap((a) => (a ? statement(text, a) : []))].join("\n")}\n`;
}

function statement(text: string, { declaration, base, list }: SourceArray): string {
  const close = skipSpace(text, base + (list?.length ?? 0));
  return text.slice(declaration.start, text[close] === ";" ? close + 1 : declaration.end);
}
