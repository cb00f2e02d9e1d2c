/** Source files below a folder, for a server that runs where they are. */
import { readdir } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { SKIPPED, SOURCE } from "./sources.ts";

/** URIs of the source files below a folder, in order of their paths; none for a folder that is no `file:`. Stops after `most`. */
export async function listStored(folder: string, most: number): Promise<string[]> {
  const found: string[] = [];
  if (folder.startsWith("file:")) await walk(fileURLToPath(folder), found, most);
  return found;
}

async function walk(folder: string, found: string[], most: number): Promise<void> {
  // A folder that may not be read is as if it were empty.
  const entries = await readdir(folder, { withFileTypes: true }).catch(() => []);
  entries.sort((a, b) => (a.name < b.name ? -1 : 1));
  for (const entry of entries) {
    if (found.length >= most) return;
    const path = join(folder, entry.name);
    if (entry.isDirectory()) {
      if (!SKIPPED.has(entry.name)) await walk(path, found, most);
    } else if (entry.isFile() && SOURCE.test(entry.name)) found.push(pathToFileURL(path).href);
  }
}
