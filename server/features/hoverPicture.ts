/**
 * The picture in a hover: a PNG of exactly width·k × height·k pixels (animated for several frames), small enough that
 * the editor does not cut the Markdown that holds it.
 */
import type { Bitmap } from "../../shared/bitmap/resolve.ts";
import { pixelsOf } from "../../shared/bitmap/resolve.ts";
import { fullLight } from "../../shared/light/limit.ts";
import { isColour } from "../../shared/pixels/formats.ts";
import type { Pixels } from "../../shared/pixels/picture.ts";
import { dataUri } from "../dataUri.ts";
import type { Raster } from "../png.ts";
import { encodeApng, enlarge } from "../png.ts";
import { lightRaster } from "../raster.ts";

/** VS Code cuts Markdown at 100,000 characters, the data URI included; facts stand beside the picture. */
const MOST_CHARACTERS = 86_000;
/** Pixels of all enlarged frames together: what can be compressed while someone waits for a hover. */
const MOST_PIXELS = 700_000;
/** Each frame costs about a millisecond, however small it is. */
const MOST_FRAMES = 100;
const WIDE = 256;
const WIDEST = 320;
/** A hover is about 250 pixels high: the first facts are to be seen under the picture. */
const TALLEST = 200;
/** Frames a second where the annotation does not tell. */
export const USUAL_FPS = 4;

export interface Picture {
  readonly markdown: string;
  /** What must be said about it: fewer frames, a speed that was assumed. */
  readonly notes: readonly string[];
}

/** What is shown in place of a bitmap's own frames. */
export interface Played {
  readonly frames: number;
  readonly pixels: (frame: number) => Pixels;
  readonly fps: number | undefined;
}

/** undefined for a bitmap without a picture. */
export function hoverPicture(bitmap: Bitmap, played?: Played): Picture | undefined {
  const { width, height, why, options } = bitmap;
  if (why !== undefined) return undefined;
  const tooLarge = { markdown: "", notes: [`At ${width}×${height} the picture is too large for a hover.`] };
  if (width * height > MOST_PIXELS) return tooLarge;
  const frames = played ? played.frames : bitmap.frames;
  const fps = played ? played.fps : options.fps;
  const pixels: Pixels[] = [];
  for (let frame = 0; frame < Math.min(frames, mostFrames(bitmap)); frame++) {
    const one = played ? played.pixels(frame) : pixelsOf(bitmap, frame);
    if (!one) return undefined;
    pixels.push(one);
  }
  const { shown, url } = fitted(bitmap, pixels, fps);
  if (url === undefined) return tooLarge;
  const notes: string[] = [];
  if (shown < frames) notes.push(`Only the first ${shown} of ${frames} frames are shown, for want of room.`);
  if (shown > 1 && fps === undefined) notes.push(`Shown at ${USUAL_FPS} frames a second; \`fps=\` is not given.`);
  return { markdown: `![${bitmap.array.name}](${url})`, notes };
}

/** As many frames as a hover may have to show. */
export function mostFrames({ width, height }: Bitmap): number {
  return Math.min(MOST_FRAMES, Math.max(1, Math.floor(MOST_PIXELS / (width * height))));
}

/** Frames as an address that holds the picture, as many as there is room for; none where even one is too large. */
export function fitted(
  bitmap: Bitmap,
  pixels: readonly Pixels[],
  fps = bitmap.options.fps,
): { readonly shown: number; readonly url?: string } {
  const { width, height } = bitmap;
  const area = width * height;
  if (area > MOST_PIXELS) return { shown: 0 };
  let shown = Math.min(pixels.length, mostFrames(bitmap));
  let scale = Math.min(scaleFor(width, height), Math.floor(Math.sqrt(MOST_PIXELS / (area * shown))));
  for (;;) {
    const url = encode(bitmap, pixels.slice(0, shown), scale, fps);
    if (url.length <= MOST_CHARACTERS) return { shown, url };
    // Compressed size grows about as the scale does, so several steps are taken at once; always at least one.
    const ratio = MOST_CHARACTERS / url.length;
    if (scale > 1) scale = Math.min(scale - 1, Math.max(1, Math.ceil(scale * ratio)));
    else if (shown > 1) shown = Math.min(shown - 1, Math.max(1, Math.floor(shown * ratio)));
    else return { shown: 0 };
  }
}

/** How many screen pixels one pixel takes in each direction: up to 256 wide and 200 high. */
function scaleFor(width: number, height: number): number {
  let scale = Math.max(1, Math.floor(WIDE / width));
  if (scale * width < 200 && (scale + 1) * width <= WIDEST) scale++;
  return Math.max(1, Math.min(scale, Math.floor(TALLEST / height)));
}

function encode(bitmap: Bitmap, frames: readonly Pixels[], scale: number, fps: number | undefined): string {
  const tinted = isColour(bitmap.format) || /^#(..)(?!\1\1)/.test(bitmap.options.tint ?? "#ffffff");
  const rasters = frames.map((pixels) => {
    const raster = lightRaster(bitmap, pixels, fullLight(bitmap));
    return enlarge(tinted ? raster : greyOnly(raster), scale);
  });
  return dataUri(encodeApng(rasters, fps ?? USUAL_FPS));
}

/** A third of the bytes where red, green and blue are the same. */
function greyOnly({ width, height, data }: Raster): Raster {
  return {
    width,
    height,
    channels: 1,
    data: Uint8Array.from({ length: width * height }, (_, i) => data[3 * i] as number),
  };
}
