/** The files that others include, for the command: only those below the paths that it was given. */
import { readFileSync, realpathSync } from "node:fs";
import { dirname, resolve, sep } from "node:path";
import type { Included, Includes } from "../../shared/source/read.ts";
import { decodeText } from "../text.ts";

/** For each file its own way to find what it includes. */
export type IncludesOf = (path: string) => Includes;

/** Files larger than this are no headers. */
const MOST = 1 << 25;

/**
 * Finds `#include "NAME"` beside the file that includes it, as compilers look first. Nothing outside the folders is
 * read, also not through links; each file is read once.
 */
export function includesBelow(folders: readonly string[]): IncludesOf {
  const roots = folders.map((folder) => real(folder)).filter((root) => root !== undefined);
  const known = new Map<string, Included | undefined>();
  return (path) => (name, from) => {
    const wanted = resolve(dirname(from === "" ? resolve(path) : from), name);
    if (!known.has(wanted)) known.set(wanted, readBelow(roots, wanted));
    const file = known.get(wanted);
    // A file that includes itself brings nothing.
    return file?.id === real(path) ? undefined : file;
  };
}

function readBelow(roots: readonly string[], path: string): Included | undefined {
  const id = real(path);
  if (id === undefined || !roots.some((root) => id.startsWith(root.endsWith(sep) ? root : root + sep)))
    return undefined;
  try {
    const bytes = readFileSync(id);
    return bytes.length > MOST ? undefined : { id, text: decodeText(bytes).text };
  } catch {
    // A folder, or a file that may not be read: as if it were not there.
    return undefined;
  }
}

/** The path without links; undefined where there is nothing. */
function real(path: string): string | undefined {
  try {
    return realpathSync(path);
  } catch {
    return undefined;
  }
}
