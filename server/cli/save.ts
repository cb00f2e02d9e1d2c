/** Changed source files written back as they were read: same encoding, and only where nobody has changed them since. */
import { readFile, writeFile } from "node:fs/promises";
import { decodeText } from "../text.ts";
import { UserError } from "./files.ts";

/** `before` is the text that the change was made from. */
export async function saveText(path: string, before: string, after: string): Promise<void> {
  const fail = (error: NodeJS.ErrnoException) => {
    throw new UserError(`${path}: can't be written (${error.code ?? error.message})`);
  };
  const { text, encoding } = decodeText(await readFile(path).catch(fail));
  if (text !== before) throw new UserError(`${path}: was changed meanwhile, so nothing is written`);
  // In a file that is no UTF-8 each character is a byte.
  if (encoding === "latin1" && /[^\0-\xff]/.test(after))
    throw new UserError(`${path}: is no UTF-8, and can't hold a character that is to be written`);
  await writeFile(path, Buffer.from(after, encoding === "latin1" ? "latin1" : "utf8")).catch(fail);
}
