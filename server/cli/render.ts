import { resolve } from "node:path";
import { Stopped } from "../../shared/motion/interpret/machine.ts";
import { type LiveMotion, liveMotions } from "../../shared/motion/live.ts";
import { playerOf } from "../../shared/motion/play.ts";
import type { Pixels } from "../../shared/pixels/picture.ts";
import type { Target } from "../../shared/source/types.ts";
import type { Look, PictureChoice, PictureFormat } from "../pictureFile.ts";
import { LOOKS, PICTURE_FORMATS, pictureFile } from "../pictureFile.ts";
import { encodePng, enlarge } from "../png.ts";
import { valuesRaster } from "../raster.ts";
import type { Command } from "./command.ts";
import { bitmapNamed, choiceOf, outOf, wholeOf, writeOut } from "./command.ts";
import { openFile, UserError } from "./files.ts";
import { sayFlashing } from "./sayFlashing.ts";

interface RenderOptions extends PictureChoice {
  readonly out: string;
  /** 1-based line of the name, where several bitmaps have it. */
  readonly line: number | undefined;
  readonly target: Target | undefined;
}

export const renderCommand: Command = {
  name: "render",
  usage: "FILE NAME --out X.png [--look cells|panel] [--frame N] [--scale N] [--fps N] [--line N]",
  doc: `one bitmap, or a frame of a function that is played, as a picture; --out ends in .${PICTURE_FORMATS.join(" .")}, or is - with --format
an APNG has all frames, the others frame N (from 0); values are written as they are, --look cells shows the light
that they give, --look panel the lamps as they hang; --line where several bitmaps have the name`,
  options: {
    out: "value",
    format: "value",
    look: "value",
    frame: "value",
    scale: "value",
    fps: "value",
    line: "value",
  },
  run(paths, given, target) {
    const [file, name, ...rest] = paths;
    if (file === undefined || name === undefined || rest.length > 0)
      throw new UserError("render takes a file and the name of a bitmap");
    const out = outOf(given, "render", "picture");
    const format = formatOf(out, choiceOf(given, "format", PICTURE_FORMATS));
    const look: Look = choiceOf(given, "look", LOOKS) ?? "values";
    const scale = wholeOf(given, "scale", 1, undefined);
    const fps = wholeOf(given, "fps", 1, undefined);
    if (fps !== undefined && format !== "apng") throw new UserError("--fps is for an APNG, which alone has all frames");
    const frame = wholeOf(given, "frame", 0, undefined);
    return render(file, name, {
      out,
      format,
      look,
      frame,
      scale,
      fps,
      line: wholeOf(given, "line", 1, undefined),
      target,
    });
  },
};

/** The format that was asked for, else that of the name's ending; standard output has none, so PNG. */
function formatOf(out: string, asked: PictureFormat | undefined): PictureFormat {
  if (asked !== undefined) return asked;
  if (out === "-") return "png";
  const ending = /\.(\w+)$/.exec(out)?.[1]?.toLowerCase();
  const format = PICTURE_FORMATS.find((known) => known === ending);
  if (format) return format;
  throw new UserError(`${out}: the name must end in .${PICTURE_FORMATS.join(", .")}, or give --format`);
}

/** Writes a bitmap as a picture file. */
async function render(file: string, name: string, options: RenderOptions): Promise<number> {
  if (resolve(options.out) === resolve(file)) throw new UserError(`${file} is what is read: give --out another name`);
  const opened = await openFile(file, options.target);
  const live = liveMotions(opened).find((motion) => motion.name === name);
  if (live) return renderLive(live, options);
  const made = pictureFile(bitmapNamed(opened, name, options.line), options);
  if ("refused" in made) throw new UserError(made.refused);
  await writeOut(options.out, made.bytes);
  sayFlashing(opened, name, options);
  return 0;
}

/** Most pixels of a frame of a function, enlarged. */
const MOST_PIXELS = 1 << 26;

/** A frame of a function that is played as code, as PNG in plain values; those before it are played too. */
async function renderLive(motion: LiveMotion, options: RenderOptions): Promise<number> {
  const { out, format, look, frame = 0, scale = 1 } = options;
  if (format !== "png" || look !== "values")
    throw new UserError(`${motion.name} is a function: its frames are written as PNG, in plain values`);
  const player = playerOf(motion);
  if (!player) throw new UserError(`${motion.name} is not played: ${motion.why}`);
  let pixels: Pixels;
  try {
    pixels = player.frame(frame);
  } catch (error) {
    if (error instanceof Stopped) throw new UserError(`${motion.name} has no frame ${frame}: ${error.message}`);
    throw error;
  }
  const raster = valuesRaster(player.bitmap, pixels);
  if (raster.width * raster.height * scale ** 2 > MOST_PIXELS)
    throw new UserError(`at scale ${scale} the picture would have more than ${MOST_PIXELS} pixels`);
  await writeOut(out, encodePng(enlarge(raster, scale)));
  return 0;
}
