/** Source files under the paths that the command was given. */
import { readdir, stat } from "node:fs/promises";
import { dirname, join, resolve } from "node:path";
import { openText } from "../../shared/bitmap/open.ts";
import type { BitmapFile } from "../../shared/bitmap/resolve.ts";
import type { PanelIndex } from "../../shared/light/panelIndex.ts";
import type { Target } from "../../shared/source/types.ts";
import { SKIPPED, SOURCE } from "../sources.ts";
import type { IncludesOf } from "./includes.ts";
import { includesBelow } from "./includes.ts";
import { filesBeside, idOf, survey } from "./panels.ts";
import { startProgress } from "./progress.ts";
import { readText, shownPath } from "./stored.ts";

export { shownPath } from "./stored.ts";

/** A failure that the user can mend; its message is for them. */
export class UserError extends Error {}

/** All source files at or below the paths, sorted. A file named outright counts whatever its ending. */
async function sourceFiles(paths: readonly string[]): Promise<string[]> {
  const found: string[] = [];
  for (const path of paths) {
    const info = await stat(path).catch(() => undefined);
    if (!info) throw new UserError(`${path}: there is no such file or folder`);
    if (info.isDirectory()) await walk(path, found);
    else found.push(path);
  }
  // One file may be named in several ways.
  return [...new Map(found.map((path) => [resolve(path), path])).values()];
}

async function walk(folder: string, found: string[]): Promise<void> {
  const entries = await readdir(folder, { withFileTypes: true });
  entries.sort((a, b) => (a.name < b.name ? -1 : 1));
  for (const entry of entries) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) {
      if (!SKIPPED.has(entry.name)) await walk(path, found);
    } else if (entry.isFile() && SOURCE.test(entry.name)) found.push(path);
  }
}

interface Around {
  readonly target: Target | undefined;
  readonly includes: IncludesOf;
  readonly panels: PanelIndex;
}

interface Opened {
  readonly file: BitmapFile;
  readonly unread: string | undefined;
}

/** Reads one file and its bitmaps. */
function open(path: string, { target, includes, panels }: Around): Opened {
  const read = readText(path);
  if (typeof read === "string") throw new UserError(read);
  const { text, encoding, unread } = read;
  const bytes = encoding === "latin1";
  const file = openText(text, shownPath(path), { target, includes: includes(path), bytes, panels, id: idOf(path) });
  return { file, unread };
}

/** Reads one file that the user named, and its bitmaps. Includes and panels are looked for in the file's own folder. */
export async function openFile(path: string, target: Target | undefined): Promise<BitmapFile> {
  const { panels } = await survey([path], filesBeside(path), target);
  const { file, unread } = open(path, { target, includes: includesBelow([dirname(path)]), panels });
  if (unread !== undefined) throw new UserError(`${path}: ${unread}`);
  return file;
}

interface Visiting {
  /** Leave out files that hold neither an annotation nor an X bitmap. */
  readonly onlyPictures?: boolean;
}

/** Runs over files in turn, each with the panels of all. `unread` says why a file is as if it were empty. */
export async function forEachFile(
  paths: readonly string[],
  target: Target | undefined,
  visit: (file: BitmapFile, unread: string | undefined) => void,
  { onlyPictures = false }: Visiting = {},
): Promise<void> {
  const files = await sourceFiles(paths);
  const folders = await foldersOf(paths);
  // A folder that was named is among the files with all that is in it.
  const beside = paths.filter((path) => !folders.includes(path)).flatMap(filesBeside);
  const { panels, plain } = await survey(files, beside, target);
  const around = { target, panels, includes: includesBelow(folders) };
  const wanted = onlyPictures ? files.filter((path) => !plain.has(path)) : files;
  const progress = startProgress(wanted.length, "reading");
  for (const path of wanted) {
    await progress.step();
    const { file, unread } = open(path, around);
    visit(file, unread);
  }
  progress.end();
}

async function foldersOf(paths: readonly string[]): Promise<string[]> {
  const folders: string[] = [];
  for (const path of paths) folders.push((await stat(path)).isDirectory() ? path : dirname(path));
  return folders;
}
