import { writeFile } from "node:fs/promises";
import { nearest } from "../../shared/pixels/words.ts";
import type { Target } from "../../shared/source/types.ts";
import { encodePng, enlarge } from "../png.ts";
import { valueRaster } from "../raster.ts";
import { openFile, UserError } from "./files.ts";

export interface RenderOptions {
  readonly out: string;
  /** 0-based. */
  readonly frame: number;
  readonly scale: number;
  readonly target: Target | undefined;
}

/** Most pixels of a picture that is written. */
const MOST_PIXELS = 1 << 26;

/** Writes one frame of a bitmap as PNG: its raw values at full scale, each pixel `scale` times as large. */
export async function render(file: string, name: string, options: RenderOptions): Promise<number> {
  const opened = await openFile(file, options.target);
  const bitmap = opened.bitmaps.find((b) => b.array.name === name);
  if (!bitmap) {
    const names = opened.bitmaps.map((b) => b.array.name);
    const near = nearest(name, names);
    const unmarked = opened.source.arrays.some((a) => a.name === name);
    const why = unmarked ? "is an array without an annotation" : "is not a bitmap of this file";
    const hint = near ? `; did you mean ${near}?` : names.length > 0 ? `; it has ${names.slice(0, 8).join(", ")}` : "";
    throw new UserError(`${file}: ${name} ${why}${hint}`);
  }
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
