/** Source files under the paths that the command was given. */
import { readdir, readFile, stat } from "node:fs/promises";
import { dirname, join, relative, resolve } from "node:path";
import { openText } from "../../shared/bitmap/open.ts";
import type { BitmapFile } from "../../shared/bitmap/resolve.ts";
import type { Target } from "../../shared/source/types.ts";
import { SOURCE } from "../sources.ts";
import type { Decoded } from "../text.ts";
import { decodeText } from "../text.ts";
import type { IncludesOf } from "./includes.ts";
import { includesBelow } from "./includes.ts";

/** A failure that the user can mend; its message is for them. */
export class UserError extends Error {}

const SKIPPED = new Set([".git", "node_modules"]);

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

export const UTF16 = "the file is UTF-16, which compilers don't read; save it as UTF-8";

interface Opened {
  readonly file: BitmapFile;
  readonly encoding: Decoded["encoding"];
}

/** Reads one file and its bitmaps. `includes` finds the files beside it. */
async function open(path: string, target: Target | undefined, includes: IncludesOf): Promise<Opened> {
  const bytes = await readFile(path).catch((error: NodeJS.ErrnoException) => {
    throw new UserError(`${path}: can't be read (${error.code ?? error.message})`);
  });
  const { text, encoding } = decodeText(bytes);
  const file = openText(text, path, { target, includes: includes(path), bytes: encoding === "latin1" });
  return { file, encoding };
}

/** Reads one file that the user named, and its bitmaps. Includes are followed in the file's own folder. */
export async function openFile(path: string, target: Target | undefined): Promise<BitmapFile> {
  const { file, encoding } = await open(path, target, includesBelow([dirname(path)]));
  if (encoding === "utf-16") throw new UserError(`${path}: ${UTF16}`);
  return file;
}

/** Runs over files in turn; on a terminal, work that takes long shows how far it is. */
export async function forEachFile(
  paths: readonly string[],
  target: Target | undefined,
  visit: (file: BitmapFile, encoding: Decoded["encoding"]) => void,
): Promise<void> {
  const files = await sourceFiles(paths);
  const includes = includesBelow(await foldersOf(paths));
  const begun = Date.now();
  let shown = begun;
  const terminal = process.stderr.isTTY === true;
  for (const [i, path] of files.entries()) {
    const now = Date.now();
    if (terminal && now - begun > 500 && now - shown > 100) {
      process.stderr.write(`\r${i} of ${files.length} files\u001b[K`);
      shown = now;
    }
    const { file, encoding } = await open(path, target, includes);
    visit(file, encoding);
  }
  if (shown !== begun) process.stderr.write("\r\u001b[K");
}

async function foldersOf(paths: readonly string[]): Promise<string[]> {
  const folders: string[] = [];
  for (const path of paths) folders.push((await stat(path)).isDirectory() ? path : dirname(path));
  return folders;
}

/** A path as it is shown: relative to the working folder where it lies below it. */
export function shownPath(path: string): string {
  const short = relative(process.cwd(), path);
  return short !== "" && !short.startsWith("..") ? short : path;
}
