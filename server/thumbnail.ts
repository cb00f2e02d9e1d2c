/** A small picture of a bitmap: the frame, or the glyphs, by which it is known again. */
import { characterOf } from "../shared/bitmap/glyphs.ts";
import type { Bitmap } from "../shared/bitmap/resolve.ts";
import { pixelsOf } from "../shared/bitmap/resolve.ts";
import { fullLight } from "../shared/light/limit.ts";
import { dataUri } from "./dataUri.ts";
import type { Raster } from "./png.ts";
import { encodePng } from "./png.ts";
import { panelRaster } from "./raster.ts";

/** Longest side of a picture that is told one pixel to a pixel. */
const MOST = 256;
/** Frames among which the brightest is looked for. */
const MOST_FRAMES = 64;
/** Room for glyphs, in pixels. */
const [WIDE, TALL] = [64, 48];

/** A PNG as a `data:` URI; undefined for a bitmap without a picture. */
export function thumbnail(bitmap: Bitmap): string | undefined {
  if (bitmap.why !== undefined) return undefined;
  const raster = characterOf(bitmap.options, 0) === undefined ? frameOf(bitmap) : glyphsOf(bitmap);
  return raster && dataUri(encodePng(smaller(raster)));
}

function frameOf(bitmap: Bitmap): Raster | undefined {
  return panelRaster(bitmap, bitmap.frames > 1 ? fullest(bitmap) : 0, fullLight(bitmap));
}

/** The frame with most pixels that are not dark: an animation may begin with none. */
function fullest(bitmap: Bitmap): number {
  let [best, most] = [0, -1];
  for (let frame = 0; frame < Math.min(bitmap.frames, MOST_FRAMES); frame++) {
    let lit = 0;
    for (const value of pixelsOf(bitmap, frame) ?? []) if (value > 0) lit++;
    if (lit > most) [best, most] = [frame, lit];
  }
  return best;
}

/** Rows of glyphs from the letter A on, where the set has it: many begin with a space. */
function glyphsOf(bitmap: Bitmap): Raster | undefined {
  const { width, height, frames, options } = bitmap;
  const letter = Array.from({ length: frames }, (_, i) => characterOf(options, i)).indexOf(65);
  const first = Math.max(0, letter);
  const [across, down] = [Math.floor(WIDE / (width + 1)), Math.floor(TALL / (height + 1))].map((n) =>
    Math.max(1, n),
  ) as [number, number];
  const columns = Math.min(across, frames - first);
  const rows = Math.min(down, Math.ceil((frames - first) / columns));
  const [w, h] = [columns * (width + 1) - 1, rows * (height + 1) - 1];
  const data = new Uint8Array(w * h * 3);
  for (let i = 0; i < columns * rows && first + i < frames; i++) {
    const glyph = panelRaster(bitmap, first + i, fullLight(bitmap));
    if (!glyph) return undefined;
    const [left, top] = [(i % columns) * (width + 1), Math.floor(i / columns) * (height + 1)];
    for (let y = 0; y < height; y++)
      data.set(glyph.data.subarray(y * width * 3, (y + 1) * width * 3), ((top + y) * w + left) * 3);
  }
  return { width: w, height: h, channels: 3, data };
}

/** Every so many pixels of one that is too large for a small picture. */
function smaller(raster: Raster): Raster {
  const { width, height, channels, data } = raster;
  const step = Math.ceil(Math.max(width, height) / MOST);
  if (step === 1) return raster;
  const [w, h] = [Math.ceil(width / step), Math.ceil(height / step)];
  const out = new Uint8Array(w * h * channels);
  for (let i = 0; i < w * h; i++) {
    const from = (Math.floor(i / w) * step * width + (i % w) * step) * channels;
    out.set(data.subarray(from, from + channels), i * channels);
  }
  return { width: w, height: h, channels, data: out };
}
