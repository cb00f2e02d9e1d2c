import { writeFile } from "node:fs/promises";
import { Stopped } from "../../shared/motion/interpret/machine.ts";
import { type LiveMotion, liveMotions } from "../../shared/motion/live.ts";
import { playerOf } from "../../shared/motion/play.ts";
import type { Pixels } from "../../shared/pixels/picture.ts";
import type { Target } from "../../shared/source/types.ts";
import { encodePng, enlarge, type Raster } from "../png.ts";
import { valueRaster, valuesRaster } from "../raster.ts";
import type { Command } from "./command.ts";
import { bitmapNamed, outOf, wholeOf } from "./command.ts";
import { openFile, UserError } from "./files.ts";

interface RenderOptions {
  readonly out: string;
  /** 0-based. */
  readonly frame: number;
  readonly scale: number;
  /** 1-based line of the name, where several bitmaps have it. */
  readonly line: number | undefined;
  readonly target: Target | undefined;
}

export const renderCommand: Command = {
  name: "render",
  usage: "FILE NAME --out X.png [--frame N] [--scale N] [--line N]",
  doc: "one frame (from 0) as PNG, of a bitmap or of a function that is played; --line where several bitmaps have the name",
  options: { out: "value", frame: "value", scale: "value", line: "value" },
  run(paths, given, target) {
    const [file, name, ...rest] = paths;
    if (file === undefined || name === undefined || rest.length > 0)
      throw new UserError("render takes a file and the name of a bitmap");
    const out = outOf(given, "render", "PNG");
    const frame = wholeOf(given, "frame", 0, 0);
    const scale = wholeOf(given, "scale", 1, 1);
    return render(file, name, { out, frame, scale, line: wholeOf(given, "line", 1, undefined), target });
  },
};

/** Most pixels of a picture that is written. */
const MOST_PIXELS = 1 << 26;

/** Writes one frame of a bitmap as PNG: its raw values at full scale, each pixel `scale` times as large. */
async function render(file: string, name: string, options: RenderOptions): Promise<number> {
  const opened = await openFile(file, options.target);
  const live = liveMotions(opened).find((motion) => motion.name === name);
  if (live) return renderLive(live, options);
  const bitmap = bitmapNamed(opened, name, options.line);
  if (options.frame >= bitmap.frames) {
    throw new UserError(
      `${name} has ${bitmap.frames} ${bitmap.frames === 1 ? "frame" : "frames"}, numbered from 0; there is no frame ${options.frame}`,
    );
  }
  const raster = valueRaster(bitmap, options.frame);
  if (!raster) throw new UserError(`${name} has no picture: ${bitmap.why ?? "its values are not known"}`);
  return write(raster, options);
}

/** A frame of a function that is played as code; those before it are played too. */
async function renderLive(motion: LiveMotion, options: RenderOptions): Promise<number> {
  const player = playerOf(motion);
  if (!player) throw new UserError(`${motion.name} is not played: ${motion.why}`);
  let pixels: Pixels;
  try {
    pixels = player.frame(options.frame);
  } catch (error) {
    if (error instanceof Stopped) throw new UserError(`${motion.name} has no frame ${options.frame}: ${error.message}`);
    throw error;
  }
  return write(valuesRaster(player.bitmap, pixels), options);
}

async function write(raster: Raster, options: RenderOptions): Promise<number> {
  if (raster.width * raster.height * options.scale ** 2 > MOST_PIXELS) {
    throw new UserError(`at scale ${options.scale} the picture would have more than ${MOST_PIXELS} pixels`);
  }
  await writeFile(options.out, encodePng(enlarge(raster, options.scale))).catch((error: NodeJS.ErrnoException) => {
    throw new UserError(`${options.out}: can't be written (${error.code ?? error.message})`);
  });
  return 0;
}
