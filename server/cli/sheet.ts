import { writeFile } from "node:fs/promises";
import type { BitmapFile } from "../../shared/bitmap/resolve.ts";
import type { Target } from "../../shared/source/types.ts";
import { encodePng } from "../png.ts";
import { drawSheet } from "../sheet.ts";
import { forEachFile, shownPath, UserError } from "./files.ts";

export interface SheetOptions {
  readonly out: string;
  readonly target: Target | undefined;
}

/** Writes one PNG with all bitmaps of the files, each under its name. */
export async function sheet(
  paths: readonly string[],
  options: SheetOptions,
  print: (text: string) => void,
): Promise<number> {
  const files: BitmapFile[] = [];
  await forEachFile(paths, options.target, (file) => files.push(file));
  const drawn = drawSheet(files.map((file) => ({ title: shownPath(file.file), bitmaps: file.bitmaps })));
  if (!drawn) throw new UserError("there is no bitmap that can be shown in these files");
  await writeFile(options.out, encodePng(drawn.raster)).catch((error: NodeJS.ErrnoException) => {
    throw new UserError(`${options.out}: can't be written (${error.code ?? error.message})`);
  });
  const left = drawn.leftOut > 0 ? `; ${drawn.leftOut} without a picture left out` : "";
  print(`${options.out}: ${drawn.shown} bitmaps${left}\n`);
  return 0;
}
