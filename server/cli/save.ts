/** Changed source files written back as they were read: same encoding, and only where nobody has changed them since. */
import { readFile, writeFile } from "node:fs/promises";
import type { Decoded } from "../text.ts";
import { decodeText, encodeText } from "../text.ts";
import { UserError } from "./files.ts";

/** `before` is the text that the change was made from. */
export async function saveText(path: string, before: string, after: string): Promise<void> {
  const fail = (error: NodeJS.ErrnoException) => {
    throw new UserError(`${path}: can't be written (${error.code ?? error.message})`);
  };
  const { text, encoding } = decodeText(await readFile(path).catch(fail));
  if (text !== before) throw new UserError(`${path}: was changed meanwhile, so nothing is written`);
  if (after !== before) await writeFile(path, encoded(path, after, encoding)).catch(fail);
}

function encoded(path: string, text: string, encoding: Decoded["encoding"]): Uint8Array {
  try {
    return encodeText(text, encoding);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new UserError(`${path}: ${error.message}`);
  }
}
