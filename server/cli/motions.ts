/** What the commands about motions share: the motion of a name, and the file written back. */
import type { BitmapFile } from "../../shared/bitmap/resolve.ts";
import { type Motion, motionsOf } from "../../shared/motion/resolve.ts";
import { nearest } from "../../shared/pixels/words.ts";
import { applyEdits, type TextEdit } from "../../shared/source/text.ts";
import type { Target } from "../../shared/source/types.ts";
import { openFile, UserError } from "./files.ts";
import { saveText } from "./save.ts";

/** The file and the motion that the paths of a command name: by its array or function. */
export async function motionNamed(
  command: string,
  paths: readonly string[],
  target: Target | undefined,
): Promise<{ readonly file: BitmapFile; readonly motion: Motion }> {
  const [path, name, ...rest] = paths;
  if (path === undefined || name === undefined || rest.length > 0)
    throw new UserError(`${command} takes a file and the name of the array or function that an @motion stands before`);
  const file = await openFile(path, target);
  const motions = motionsOf(file);
  const motion = motions.find((m) => m.name === name);
  if (!motion) throw new UserError(`${path}: ${unknown(name, motions)}`);
  const [problem] = motion.problems;
  if (problem) throw new UserError(`${path}: ${problem.message}`);
  if (!motion.moving)
    throw new UserError(`${path}: the words of the @motion of ${name} can't all be read; \`check\` names them`);
  return { file, motion };
}

function unknown(name: string, motions: readonly Motion[]): string {
  const names = motions.map((m) => m.name);
  const near = nearest(name, names);
  const hint = near ? `; did you mean ${near}?` : names.length > 0 ? `; it has ${names.slice(0, 8).join(", ")}` : "";
  return `there is no @motion of ${name}${hint}`;
}

/** Writes edits into the file that was read; refuses where it has changed since. */
export async function writeEdits({ file, source: { text } }: BitmapFile, edits: readonly TextEdit[]): Promise<void> {
  if (edits.length > 0) await saveText(file, text, applyEdits(text, edits));
}
