/** A bitmap as the bytes of a picture file: the one way out for the command and for the editor. */
import type { Bitmap } from "../shared/bitmap/resolve.ts";
import { pixelsOf } from "../shared/bitmap/resolve.ts";
import type { Finding } from "../shared/checks/rules.ts";
import { pbmOf, pgmOf, ppmOf } from "../shared/image/out/netpbm.ts";
import { svgOfLamps, svgOfPixels } from "../shared/image/out/svg.ts";
import { xbmOf } from "../shared/image/out/xbm.ts";
import { eighthsOf, isDiamond, latticeOf } from "../shared/light/lattice.ts";
import { fullLight } from "../shared/light/limit.ts";
import { isColour } from "../shared/pixels/formats.ts";
import { USUAL_FPS } from "./features/hoverPicture.ts";
import { CELL_GROUND, cellRaster, LAMP, LAMP_EDGE, lampRaster, panelSize } from "./looks.ts";
import type { Raster } from "./png.ts";
import { encodeApng, enlarge } from "./png.ts";
import { panelRaster, valueRaster } from "./raster.ts";

export const PICTURE_FORMATS = ["png", "apng", "svg", "xbm", "pbm", "pgm", "ppm"] as const;
export type PictureFormat = (typeof PICTURE_FORMATS)[number];

/** Raw values at full scale; cells in the light that they give; lamps as they hang on the panel. */
export const LOOKS = ["values", "cells", "panel"] as const;
export type Look = (typeof LOOKS)[number];

export interface PictureChoice {
  readonly format: PictureFormat;
  readonly look: Look;
  /** 0-based; of an APNG the only one where it is given. */
  readonly frame?: number | undefined;
  /** Screen pixels to a pixel of the bitmap; `usualScale` where missing. */
  readonly scale?: number | undefined;
  /** Frames a second of an APNG, over the bitmap's own. */
  readonly fps?: number | undefined;
}

/** Most pixels of one frame, and of all frames of an animation. */
const MOST_PIXELS = 1 << 26;
const MOST_LAMPS = 1 << 24;

type Made = { readonly bytes: Uint8Array } | { readonly refused: string };

/** Values are one to one unless asked for; what people look at is large enough to be seen. */
function usualScale({ format, look }: Pick<PictureChoice, "format" | "look">): number {
  return look === "values" && format !== "svg" ? 1 : 16;
}

/** Refused in words where the format can't hold it, it has no such frame, or it would be too large. */
export function pictureFile(bitmap: Bitmap, choice: PictureChoice): Made {
  const { array, frames, why } = bitmap;
  const { format, look, frame } = choice;
  if (why !== undefined) return { refused: `${array.name} has no picture: ${why}` };
  if (frame !== undefined && (!Number.isInteger(frame) || frame < 0 || frame >= frames)) {
    const has = `${array.name} has ${frames} ${frames === 1 ? "frame" : "frames"}, numbered from 0`;
    return { refused: `${has}; there is no frame ${frame}` };
  }
  const refused = misfit(bitmap, format, look);
  if (refused !== undefined) return { refused };
  const scale = choice.scale ?? usualScale(choice);
  const shown = format === "apng" && frame === undefined ? frames : 1;
  const { width, height } =
    look === "panel" ? panelSize(bitmap, scale) : { width: bitmap.width * scale, height: bitmap.height * scale };
  const most = look === "panel" ? MOST_LAMPS : MOST_PIXELS;
  if (format !== "svg" && width * height * shown > most) {
    const all = shown > 1 ? `${shown} frames of ` : "";
    return { refused: `at scale ${scale} it would be ${all}${width}×${height}, more than ${most} pixels` };
  }
  if (format === "svg") return { bytes: bytesOf(svgOf(bitmap, look, frame ?? 0, scale)) };
  if (format === "png" || format === "apng") {
    const rasters: Raster[] = [];
    for (let i = 0; i < shown; i++) {
      const raster = rasterOf(bitmap, look, frame ?? i, scale);
      if (!raster) return { refused: `${array.name} has no picture` };
      rasters.push(raster);
    }
    return { bytes: encodeApng(rasters, choice.fps ?? bitmap.options.fps ?? USUAL_FPS) };
  }
  return { bytes: plainFile(bitmap, format, frame ?? 0, scale) };
}

/** What must be said of a picture that moves: light that flashes on the panel flashes on a screen too. */
export function cautionOf(
  { format, frame }: PictureChoice,
  findings: () => readonly Finding[],
  bitmap: number,
): string | undefined {
  if (format !== "apng" || frame !== undefined) return undefined;
  return findings().find((f) => f.bitmap === bitmap && f.code === "flashing")?.message;
}

/** Why a bitmap does not go into a format as it is. */
function misfit({ array, format: of }: Bitmap, format: PictureFormat, look: Look): string | undefined {
  if (format === "png" || format === "apng" || format === "svg") return undefined;
  if (look !== "values")
    return `a ${format.toUpperCase()} file holds plain values; cells and panels go to PNG, APNG or SVG`;
  const holds = `${array.name} is ${of.name}, which a ${format.toUpperCase()} file can't hold`;
  if ((format === "xbm" || format === "pbm") && of.kind !== "mono")
    return `${holds}: it has one bit a pixel; PGM holds greys, PPM colours`;
  if (format === "pgm" && isColour(of)) return `${holds}: it has greys; PPM holds colours`;
  return undefined;
}

function rasterOf(bitmap: Bitmap, look: Look, frame: number, scale: number): Raster | undefined {
  if (look === "cells") return cellRaster(bitmap, frame, scale);
  if (look === "panel") return lampRaster(bitmap, frame, scale);
  const raster = valueRaster(bitmap, frame);
  return raster && enlarge(raster, scale);
}

function plainFile(bitmap: Bitmap, format: "xbm" | "pbm" | "pgm" | "ppm", frame: number, scale: number): Uint8Array {
  const { format: of } = bitmap;
  const pixels = format === "ppm" ? coloursOf(valueRaster(bitmap, frame)) : (pixelsOf(bitmap, frame) ?? []);
  const picture = repeated({ width: bitmap.width, height: bitmap.height, pixels }, scale);
  if (format === "xbm") return bytesOf(xbmOf(plainName(bitmap), picture.width, picture.height, picture.pixels));
  if (format === "pbm") return pbmOf(picture);
  return format === "pgm" ? pgmOf(picture, of.most) : ppmOf(picture);
}

function repeated(
  { width, height, pixels }: { width: number; height: number; pixels: ArrayLike<number> },
  scale: number,
) {
  if (scale === 1) return { width, height, pixels };
  const out = new Uint32Array(width * height * scale * scale);
  for (let i = 0; i < out.length; i++) {
    const x = i % (width * scale);
    const y = Math.floor(i / (width * scale));
    out[i] = pixels[Math.floor(y / scale) * width + Math.floor(x / scale)] ?? 0;
  }
  return { width: width * scale, height: height * scale, pixels: out };
}

function svgOf(bitmap: Bitmap, look: Look, frame: number, scale: number): string {
  const { width, height, array, options, frames, format } = bitmap;
  const raster = look === "values" ? valueRaster(bitmap, frame) : panelRaster(bitmap, frame, fullLight(bitmap));
  const picture = { width, height, colours: coloursOf(raster) };
  const which = frames > 1 ? `, frame ${frame} of ${frames}` : "";
  const text = { title: `${array.name}, ${width}×${height} ${format.name}${which}`, scale };
  if (look === "values") return svgOfPixels(picture, text);
  if (look === "cells") return svgOfPixels(picture, text, 1 / 12, CELL_GROUND);
  const turn = eighthsOf(options);
  const dots = options.dot === "square" ? "square" : "round";
  // The side of a lamp's square is 1 in every lattice.
  const lattice = latticeOf(width, height, isDiamond(turn) ? Math.SQRT1_2 : 1, turn, { x: 0, y: 0 });
  return svgOfLamps(picture, lattice, { dots, radius: LAMP, edge: LAMP_EDGE, ground: 0 }, text);
}

function coloursOf(raster: Raster | undefined): Uint32Array {
  const { data, channels } = raster ?? { data: new Uint8Array(0), channels: 1 };
  return Uint32Array.from({ length: data.length / channels }, (_, i) => {
    const at = i * channels;
    if (channels === 1) return (data[at] as number) * 0x010101;
    return ((data[at] as number) << 16) | ((data[at + 1] as number) << 8) | (data[at + 2] as number);
  });
}

/** Lists inside of others are named by the way to them, which is no name in C; an X bitmap's name ends before `_bits`. */
function plainName({ array }: Bitmap): string {
  return (/^[A-Za-z_]\w*/.exec(array.name)?.[0] ?? "picture").replace(/_bits$/, "");
}

function bytesOf(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}
