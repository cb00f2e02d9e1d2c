/** Stored files for the language server, through the editor, which reaches those of remote and virtual workspaces too. */
import type { Uri, WorkspaceFolder } from "vscode";
import { CancellationTokenSource, FileType, RelativePattern, Uri as Uris, workspace } from "vscode";
import { isWorthReading } from "../shared/checks/worth.ts";
import type { FoundFiles, StoredFile } from "../shared/protocol/lsp.ts";

/** Bytes of the largest file that is given to the server; larger ones are no headers. */
const MOST_BYTES = 1 << 25;

const SOURCE = "**/*.{c,cc,cpp,cxx,h,hh,hpp,hxx,inc,ino,ipp,pde,xbm}";
const ENDING = /\.(?:c|cc|cpp|cxx|h|hh|hpp|hxx|inc|ino|ipp|pde|xbm)$/i;
const SKIPPED = new Set([".git", "node_modules"]);

/** Entries that are looked at in a virtual folder which can't be searched: each may be a request to a far place. */
const MOST_WALKED = 2000;
/** How long a search of a virtual folder may take. */
const SEARCH_MS = 3000;

/** null where there is none, or none that is worth reading if only such are wanted. */
export async function readStored(uri: Uri, worth: boolean): Promise<StoredFile | null> {
  try {
    const { size } = await workspace.fs.stat(uri);
    if (size > MOST_BYTES) return null;
    const text = new TextDecoder().decode(await workspace.fs.readFile(uri));
    return worth && !isWorthReading(text) ? null : { text };
  } catch {
    // Most names of an `#include` are no files of the workspace.
    return null;
  }
}

/** The source files of all folders, but for what the user has excluded from them. */
export async function findSources(most: number): Promise<FoundFiles> {
  const uris: string[] = [];
  for (const folder of workspace.workspaceFolders ?? []) {
    const left = most - uris.length;
    const listed = (await search(folder, left)) ?? (await walk(folder.uri, left));
    uris.push(...listed.map((uri) => uri.toString()));
    if (uris.length >= most) break;
  }
  return { uris };
}

/**
 * undefined where the folder can't be searched: not every file system that an extension brings can, and the editor then
 * waits for someone who will.
 */
async function search(folder: WorkspaceFolder, most: number): Promise<Uri[] | undefined> {
  const giveUp = new CancellationTokenSource();
  const pattern = new RelativePattern(folder, SOURCE);
  const skipped = `**/{${[...SKIPPED].join(",")}}/**`;
  const found = workspace.findFiles(pattern, skipped, most, giveUp.token);
  if (folder.uri.scheme === "file" || folder.uri.scheme === "vscode-remote") return found;
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<undefined>((resolve) => {
    timer = setTimeout(() => resolve(undefined), SEARCH_MS);
  });
  const first = await Promise.race([found, late]);
  clearTimeout(timer);
  if (!first) giveUp.cancel();
  return first?.length ? first : undefined;
}

async function walk(folder: Uri, most: number): Promise<Uri[]> {
  const found: Uri[] = [];
  const folders = [folder];
  let left = MOST_WALKED;
  for (let next = folders.pop(); next && left > 0 && found.length < most; next = folders.pop()) {
    const here = next;
    const entries = await workspace.fs.readDirectory(here).then(
      (read) => read,
      () => [],
    );
    left -= entries.length + 1;
    for (const [name, type] of entries) {
      if (type === FileType.Directory && !SKIPPED.has(name)) folders.push(Uris.joinPath(here, name));
      else if (type === FileType.File && ENDING.test(name)) found.push(Uris.joinPath(here, name));
    }
  }
  return found;
}
