/** Stored files as text, for a server that runs where they are. */
import { readFile, stat } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { decodeText } from "./text.ts";

/** Bytes of the largest file that is read; larger ones are no headers. */
const MOST = 1 << 25;

/** The text of a `file:` URI; undefined for other URIs, folders, and files that are too large. Rejects where there is none. */
export async function readStored(uri: string): Promise<string | undefined> {
  if (!uri.startsWith("file:")) return undefined;
  const path = fileURLToPath(uri);
  const { size } = await stat(path);
  return size > MOST ? undefined : decodeText(await readFile(path)).text;
}
