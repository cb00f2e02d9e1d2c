/** Text to bitmaps in one step. */
import type { PanelIndex } from "../light/panelIndex.ts";
import type { Includes } from "../source/read.ts";
import { readSource } from "../source/read.ts";
import type { Target } from "../source/types.ts";
import type { BitmapFile } from "./resolve.ts";
import { resolveFile } from "./resolve.ts";

/** The target that a file is read for when none is set: sketches are built for AVR, all else for the host. */
export function targetOf(file: string): Target {
  return /\.(?:ino|pde)$/i.test(file) ? "avr" : "host";
}

/** Reads a text and resolves its bitmaps. `previous` is an earlier version of the same file. */
export function openText(
  text: string,
  file: string,
  options: {
    readonly target?: Target | undefined;
    readonly previous?: BitmapFile | undefined;
    /** Panels of other files. */
    readonly panels?: PanelIndex | undefined;
    /** The name of the file that no other has; without it, `file`. */
    readonly id?: string;
    /** Finds the files that it includes, where they may be read. */
    readonly includes?: Includes | undefined;
    /** Each character is one byte of a file that is not UTF-8. */
    readonly bytes?: boolean;
  } = {},
): BitmapFile {
  const target = options.target ?? targetOf(file);
  const { includes, bytes } = options;
  const source = readSource(text, { target, previous: options.previous?.source, includes, bytes });
  return resolveFile(source, file, options.panels, options.id);
}

/** Reads another text as the file was read: for its target, with the panels around and the files that it includes. */
export function reopened({ file, id, known, source }: BitmapFile, text: string): BitmapFile {
  return resolveFile(readSource(text, source.again), file, known, id);
}
