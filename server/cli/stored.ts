/** Stored files as the command reads them, and their paths as it shows them. */
import { readFileSync, statSync } from "node:fs";
import { relative } from "node:path";
import type { Decoded } from "../text.ts";
import { decodeText } from "../text.ts";

const UTF16 = "the file is UTF-16, which compilers don't read; save it as UTF-8";

/** Bytes of the largest file that is read: 256 MiB. */
const MOST = 1 << 28;
const TOO_LARGE = "the file is larger than 256 MiB, which no source is";

interface Read {
  readonly text: string;
  readonly encoding: Decoded["encoding"];
  /** Why nothing of it is read. */
  readonly unread?: string;
}

/** The text of a file, or in words why it can't be had. */
export function readText(path: string): Read | string {
  try {
    if (statSync(path).size > MOST) return { text: "", encoding: "utf-8", unread: TOO_LARGE };
    const read = decodeText(readFileSync(path));
    return read.encoding === "utf-16" ? { ...read, unread: UTF16 } : read;
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    return `${path}: can't be read (${code ?? message})`;
  }
}

/** A path as it is shown: relative to the working folder where it lies below it. */
export function shownPath(path: string): string {
  const short = relative(process.cwd(), path);
  return short !== "" && !short.startsWith("..") ? short : path;
}
