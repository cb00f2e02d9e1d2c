/** Bitmaps to pictures for people: raw values at full scale, or the light that a panel would give. */
import type { Bitmap } from "../shared/bitmap/resolve.ts";
import { pixelsOf } from "../shared/bitmap/resolve.ts";
import { screenCode } from "../shared/light/screen.ts";
import { rgbOf } from "../shared/pixels/colour.ts";
import { greyOf, isColour } from "../shared/pixels/formats.ts";
import type { Pixels } from "../shared/pixels/picture.ts";
import type { Raster } from "./png.ts";

/**
 * A frame with its raw values at full scale: 8-bit grey for mono and grey formats, RGB for colours. undefined for a
 * bitmap without a picture.
 */
export function valueRaster(bitmap: Bitmap, frame: number): Raster | undefined {
  const pixels = pixelsOf(bitmap, frame);
  if (!pixels) return undefined;
  const { width, height, format } = bitmap;
  if (isColour(format)) return { width, height, channels: 3, data: coloursOf(bitmap, pixels) };
  const grey = Uint8Array.from({ length: format.most + 1 }, (_, v) => greyOf(format, v));
  const data = new Uint8Array(pixels.length);
  for (let i = 0; i < data.length; i++) data[i] = grey[pixels[i] as number] as number;
  return { width, height, channels: 1, data };
}

/**
 * A frame as it looks on the panel: levels relative to `top` (the cap, or the highest one used), in the panel's tint.
 * A duty is linear light, so it is encoded as sRGB (IEC 61966-2-1) for the screen.
 */
export function panelRaster(bitmap: Bitmap, frame: number, top: number): Raster | undefined {
  const pixels = pixelsOf(bitmap, frame);
  return pixels && panelOf(bitmap, pixels, top);
}

/** The same for any pixels of the bitmap's size and format. */
export function panelOf(bitmap: Bitmap, pixels: Pixels, top: number): Raster {
  const { width, height, format } = bitmap;
  const shown = lightTable(bitmap, top);
  const data = isColour(format) ? coloursOf(bitmap, pixels) : new Uint8Array(pixels.length * 3);
  if (isColour(format)) {
    for (let i = 0; i < data.length; i++) data[i] = shown[(data[i] as number) * 3 + (i % 3)] as number;
  } else {
    for (let i = 0; i < pixels.length; i++) {
      const v = pixels[i] as number;
      data.set(shown.subarray(v * 3, v * 3 + 3), i * 3);
    }
  }
  return { width, height, channels: 3, data };
}

/** Red, green and blue on the screen for every level of a channel. */
function lightTable({ options, format, light }: Bitmap, top: number): Uint8Array {
  const tint = tintOf(options.tint ?? "#ffffff");
  const table = new Uint8Array((format.full + 1) * 3);
  for (let v = 0; v <= format.full; v++) {
    for (let c = 0; c < 3; c++) table[v * 3 + c] = screenCode(v, top, light, tint[c]);
  }
  return table;
}

/** Three bytes for each pixel. */
function coloursOf({ format, palette }: Bitmap, pixels: Pixels): Uint8Array {
  const data = new Uint8Array(pixels.length * 3);
  for (let i = 0; i < pixels.length; i++) {
    const rgb = rgbOf(format, pixels[i] as number, palette?.colours);
    data[i * 3] = rgb >> 16;
    data[i * 3 + 1] = (rgb >> 8) & 255;
    data[i * 3 + 2] = rgb & 255;
  }
  return data;
}

function tintOf(hex: string): number[] {
  return [1, 3, 5].map((i) => Number.parseInt(hex.slice(i, i + 2), 16));
}
