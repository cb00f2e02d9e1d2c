/** Text to bitmaps in one step. */
import type { PanelIndex } from "../light/panel.ts";
import { readSource } from "../source/read.ts";
import type { Target } from "../source/types.ts";
import type { BitmapFile } from "./resolve.ts";
import { resolveFile } from "./resolve.ts";

/** The target that a file is read for when none is set: sketches are built for AVR, all else for the host. */
function targetOf(file: string): Target {
  return /\.(?:ino|pde)$/i.test(file) ? "avr" : "host";
}

/** Reads a text and resolves its bitmaps. `previous` is an earlier version of the same file. */
export function openText(
  text: string,
  file: string,
  options: {
    readonly target?: Target | undefined;
    readonly previous?: BitmapFile | undefined;
    readonly panels?: PanelIndex;
  } = {},
): BitmapFile {
  const target = options.target ?? targetOf(file);
  const source = readSource(text, { target, previous: options.previous?.source });
  return resolveFile(source, file, options.panels);
}
