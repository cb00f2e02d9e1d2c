/** Bitmaps to pictures for people: raw values at full scale, or the light that a panel would give. */
import type { Bitmap } from "../shared/bitmap/resolve.ts";
import { pixelsOf } from "../shared/bitmap/resolve.ts";
import { linearToSrgb, srgbToLinear } from "../shared/light/lightness.ts";
import { greyOf } from "../shared/pixels/formats.ts";
import type { Raster } from "./png.ts";

/** A frame with its raw values at full scale: 8-bit grey. undefined for a bitmap without a picture. */
export function valueRaster(bitmap: Bitmap, frame: number): Raster | undefined {
  const pixels = pixelsOf(bitmap, frame);
  if (!pixels) return undefined;
  const grey = Uint8Array.from({ length: bitmap.format.most + 1 }, (_, v) => greyOf(bitmap.format, v));
  const data = new Uint8Array(pixels.length);
  for (let i = 0; i < data.length; i++) data[i] = grey[pixels[i] as number] as number;
  return { width: bitmap.width, height: bitmap.height, channels: 1, data };
}

/**
 * A frame as it looks on the panel: raw values relative to the cap (or the highest value used), in the panel's tint.
 * A duty is linear light, so it is encoded as sRGB (IEC 61966-2-1) for the screen.
 */
export function panelRaster(bitmap: Bitmap, frame: number, top: number): Raster | undefined {
  const pixels = pixelsOf(bitmap, frame);
  if (!pixels) return undefined;
  const linear = bitmap.options.light !== "srgb";
  const tint = tintOf(bitmap.options.tint ?? "#ffffff");
  const table = new Uint8Array((bitmap.format.most + 1) * 3);
  for (let v = 0; v <= bitmap.format.most; v++) {
    const share = Math.min(1, v / top);
    for (let c = 0; c < 3; c++) {
      const light = linear
        ? linearToSrgb(share * srgbToLinear((tint[c] as number) / 255))
        : share * ((tint[c] as number) / 255);
      table[v * 3 + c] = Math.round(255 * light);
    }
  }
  const data = new Uint8Array(pixels.length * 3);
  for (let i = 0; i < pixels.length; i++) {
    const v = pixels[i] as number;
    data.set(table.subarray(v * 3, v * 3 + 3), i * 3);
  }
  return { width: bitmap.width, height: bitmap.height, channels: 3, data };
}

function tintOf(hex: string): number[] {
  return [1, 3, 5].map((i) => Number.parseInt(hex.slice(i, i + 2), 16));
}
