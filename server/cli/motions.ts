/** What the commands about motions share: the motion of a name, and the file written back. */
import { readFile, writeFile } from "node:fs/promises";
import type { BitmapFile } from "../../shared/bitmap/resolve.ts";
import { type Motion, motionsOf } from "../../shared/motion/resolve.ts";
import { nearest } from "../../shared/pixels/words.ts";
import { applyEdits, type TextEdit } from "../../shared/source/text.ts";
import type { Target } from "../../shared/source/types.ts";
import { decodeText, encodeText } from "../text.ts";
import { openFile, UserError } from "./files.ts";

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
export async function writeEdits({ file: path, source }: BitmapFile, edits: readonly TextEdit[]): Promise<void> {
  if (edits.length === 0) return;
  const { text, encoding } = decodeText(await readFile(path));
  if (text !== source.text) throw new UserError(`${path}: the file has changed meanwhile; nothing was written`);
  await writeFile(path, encodeText(applyEdits(text, edits), encoding)).catch((error: NodeJS.ErrnoException) => {
    throw new UserError(`${path}: can't be written (${error.code ?? error.message})`);
  });
}
