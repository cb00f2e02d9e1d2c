import { dirname, relative, resolve, sep } from "node:path";
import type { BitmapFile } from "../../shared/bitmap/resolve.ts";
import type { Target } from "../../shared/source/types.ts";
import { encodePng } from "../png.ts";
import { drawSheet } from "../sheet.ts";
import { drawSheetPage } from "../sheetPage.ts";
import type { Command, Print } from "./command.ts";
import { needPaths, outOf, writeOut } from "./command.ts";
import { forEachFile, shownPath, UserError } from "./files.ts";

export const sheetCommand: Command = {
  name: "sheet",
  usage: "--out X.png|X.html PATH…",
  doc: `all bitmaps of these files and folders in one PNG, each under its name; or in one HTML page, with their facts,
findings and links to the source`,
  options: { out: "value" },
  run(paths, given, target, print) {
    needPaths(paths);
    return sheet(paths, outOf(given, "sheet", "PNG or HTML page"), target, print);
  },
};

/** Writes one PNG or HTML page with all bitmaps of the files. */
async function sheet(paths: readonly string[], out: string, target: Target | undefined, print: Print): Promise<number> {
  // Anything else is most likely a slip, and could be a source that would be lost.
  const page = /\.html?$/i.test(out);
  if (!page && out !== "-" && !/\.png$/i.test(out)) throw new UserError(`${out}: the name must end in .png or .html`);
  const files: BitmapFile[] = [];
  await forEachFile(paths, target, (file) => files.push(file), { onlyPictures: true });
  const drawn = page ? pageOf(files, out) : pictureOf(files);
  if (!drawn) throw new UserError("there is no bitmap that can be shown in these files");
  await writeOut(out, drawn.bytes);
  if (out !== "-") print(`${out}: ${drawn.words}\n`);
  return 0;
}

function pictureOf(files: readonly BitmapFile[]) {
  const drawn = drawSheet(files.map((file) => ({ title: shownPath(file.file), bitmaps: file.bitmaps })));
  if (!drawn) return undefined;
  const left = drawn.leftOut > 0 ? `; ${drawn.leftOut} without a picture left out` : "";
  return { bytes: encodePng(drawn.raster), words: `${drawn.shown} bitmaps${left}` };
}

function pageOf(files: readonly BitmapFile[], out: string) {
  const folder = dirname(resolve(out));
  const drawn = drawSheetPage(
    files.map((file) => ({ title: shownPath(file.file), href: hrefOf(folder, resolve(file.file)), file })),
  );
  return drawn && { bytes: drawn.html, words: `${drawn.shown} bitmaps` };
}

/** A path as a link of a page in the folder. */
function hrefOf(folder: string, path: string): string {
  const parts = relative(folder, path).split(sep);
  return parts.map(encodeURIComponent).join("/");
}
