import { writeFile } from "node:fs/promises";
import type { Bitmap, BitmapFile } from "../../shared/bitmap/resolve.ts";
import { nearest } from "../../shared/pixels/words.ts";
import { lineAt, lineStarts } from "../../shared/source/text.ts";
import type { Target } from "../../shared/source/types.ts";
import { encodePng, enlarge } from "../png.ts";
import { valueRaster } from "../raster.ts";
import { openFile, UserError } from "./files.ts";

export interface RenderOptions {
  readonly out: string;
  /** 0-based. */
  readonly frame: number;
  readonly scale: number;
  /** 1-based line of the name, where several bitmaps have it. */
  readonly line: number | undefined;
  readonly target: Target | undefined;
}

/** Most pixels of a picture that is written. */
const MOST_PIXELS = 1 << 26;

/** Writes one frame of a bitmap as PNG: its raw values at full scale, each pixel `scale` times as large. */
export async function render(file: string, name: string, options: RenderOptions): Promise<number> {
  const opened = await openFile(file, options.target);
  const bitmap = bitmapNamed(opened, name, options.line);
  if (options.frame >= bitmap.frames) {
    throw new UserError(
      `${name} has ${bitmap.frames} ${bitmap.frames === 1 ? "frame" : "frames"}, numbered from 0; there is no frame ${options.frame}`,
    );
  }
  if (bitmap.width * bitmap.height * options.scale ** 2 > MOST_PIXELS) {
    throw new UserError(`at scale ${options.scale} the picture would have more than ${MOST_PIXELS} pixels`);
  }
  const raster = valueRaster(bitmap, options.frame);
  if (!raster) throw new UserError(`${name} has no picture: ${bitmap.why ?? "its values are not known"}`);
  await writeFile(options.out, encodePng(enlarge(raster, options.scale))).catch((error: NodeJS.ErrnoException) => {
    throw new UserError(`${options.out}: can't be written (${error.code ?? error.message})`);
  });
  return 0;
}

/** Several bitmaps may have one name (under `#if` and `#else`): the first, with a word about it, or that of the line. */
function bitmapNamed(opened: BitmapFile, name: string, line: number | undefined): Bitmap {
  const { file, bitmaps, source } = opened;
  const named = bitmaps.filter((b) => b.array.name === name);
  const [first] = named;
  if (!first) {
    const names = bitmaps.map((b) => b.array.name);
    const near = nearest(name, names);
    const unmarked = source.arrays.some((a) => a.name === name);
    const why = unmarked ? "is an array without an annotation" : "is not a bitmap of this file";
    const hint = near ? `; did you mean ${near}?` : names.length > 0 ? `; it has ${names.slice(0, 8).join(", ")}` : "";
    throw new UserError(`${file}: ${name} ${why}${hint}`);
  }
  const starts = lineStarts(source.text);
  const lines = named.map(({ array }) => lineAt(starts, array.nameSpan.start) + 1);
  if (line !== undefined) {
    const chosen = named[lines.indexOf(line)];
    if (!chosen) throw new UserError(`${file}: ${name} is not named on line ${line}, but on ${lines.join(", ")}`);
    return chosen;
  }
  if (named.length > 1) {
    const others = `${named.length} bitmaps are named ${name}, on lines ${lines.join(", ")}`;
    process.stderr.write(`dotwright: ${file}: ${others}; this is the first, --line picks another\n`);
  }
  return first;
}
