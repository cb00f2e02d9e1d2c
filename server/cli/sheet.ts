import { writeFile } from "node:fs/promises";
import type { BitmapFile } from "../../shared/bitmap/resolve.ts";
import type { Target } from "../../shared/source/types.ts";
import { encodePng } from "../png.ts";
import { drawSheet } from "../sheet.ts";
import type { Command, Print } from "./command.ts";
import { needPaths, outOf } from "./command.ts";
import { forEachFile, shownPath, UserError } from "./files.ts";

interface SheetOptions {
  readonly out: string;
  readonly target: Target | undefined;
}

export const sheetCommand: Command = {
  name: "sheet",
  usage: "--out X.png PATH…",
  doc: "all bitmaps of these files and folders in one PNG, each under its name",
  options: { out: "value" },
  run(paths, given, target, print) {
    needPaths(paths);
    return sheet(paths, { out: outOf(given, "sheet", "PNG"), target }, print);
  },
};

/** Writes one PNG with all bitmaps of the files, each under its name. */
async function sheet(paths: readonly string[], options: SheetOptions, print: Print): Promise<number> {
  const files: BitmapFile[] = [];
  await forEachFile(paths, options.target, (file) => files.push(file), { onlyPictures: true });
  const drawn = drawSheet(files.map((file) => ({ title: shownPath(file.file), bitmaps: file.bitmaps })));
  if (!drawn) throw new UserError("there is no bitmap that can be shown in these files");
  await writeFile(options.out, encodePng(drawn.raster)).catch((error: NodeJS.ErrnoException) => {
    throw new UserError(`${options.out}: can't be written (${error.code ?? error.message})`);
  });
  const left = drawn.leftOut > 0 ? `; ${drawn.leftOut} without a picture left out` : "";
  print(`${options.out}: ${drawn.shown} bitmaps${left}\n`);
  return 0;
}
