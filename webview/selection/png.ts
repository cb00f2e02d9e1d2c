/** Pictures on the clipboard: pixels as a PNG and back, by the browser's own codecs. */
import * as l10n from "@vscode/l10n";
import type { BitmapInfo } from "../../shared/protocol/lsp.ts";
import { decode, encode } from "../levels.ts";
import { fromLight, type Light, linearOf } from "./levels.ts";
import type { Piece } from "./piece.ts";

/** The side of the largest picture that is taken: as large as a bitmap's (see the limits of the core). */
const LARGEST = 65_535;
const MOST_PIXELS = 1 << 24;

/** A pixel of the picture for each pixel; what does not belong to the piece is transparent. */
export async function pngOf(piece: Piece, bitmap: BitmapInfo): Promise<Blob> {
  const { width, height } = piece;
  const canvas = document.createElement("canvas");
  Object.assign(canvas, { width, height });
  const image = new ImageData(width, height);
  image.data.set(rgbaOf(piece, bitmap));
  canvas.getContext("2d")?.putImageData(image, 0, 0);
  return new Promise((resolve, reject) => {
    canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error("no PNG could be made"))), "image/png");
  });
}

/** Red, green, blue and alpha of each pixel, 0–255, as a screen shows its light: the brightest allowed level is white. */
export function rgbaOf({ pixels, mask }: Piece, bitmap: BitmapInfo): Uint8ClampedArray {
  const data = new Uint8ClampedArray(4 * pixels.length);
  const shown = { ...bitmap, most: fullOf(bitmap) };
  pixels.forEach((value, i) => {
    const rgb = linearOf(shown, value).map((light) => Math.round(encode(Math.min(1, light))));
    data.set([...rgb, mask[i] === 1 ? 255 : 0], i * 4);
  });
  return data;
}

/**
 * A picture's pixels as the nearest values of a bitmap: its luminance (ITU-R BT.709) in linear light for levels, white
 * being the brightest allowed; its colours for formats with colours. Where it is transparent the ground is dark.
 */
export async function pieceFromImage(file: Blob, bitmap: BitmapInfo): Promise<Piece> {
  const picture = await createImageBitmap(file, { premultiplyAlpha: "none", colorSpaceConversion: "default" }).catch(
    () => {
      throw new Error(l10n.t("the picture on the clipboard can’t be read"));
    },
  );
  const { width, height } = picture;
  if (width > LARGEST || height > LARGEST || width * height > MOST_PIXELS)
    throw new Error(l10n.t("the picture on the clipboard is {0}×{1} pixels large", width, height));
  const canvas = document.createElement("canvas");
  Object.assign(canvas, { width, height });
  const context = canvas.getContext("2d", { willReadFrequently: true });
  if (!context) throw new Error("this browser gives no canvas");
  context.drawImage(picture, 0, 0);
  picture.close();
  return pieceFromRgba(context.getImageData(0, 0, width, height), bitmap);
}

/** See `pieceFromImage`; `data` is red, green, blue and alpha of each pixel, 0–255. */
export function pieceFromRgba(
  { width, height, data }: { readonly width: number; readonly height: number; readonly data: ArrayLike<number> },
  bitmap: BitmapInfo,
): Piece {
  const pixels = new Uint32Array(width * height);
  const give = fromLight(bitmap, fullOf(bitmap), bitmap.limit);
  const linear = Array.from({ length: 256 }, (_, code) => decode(code));
  for (let i = 0; i < pixels.length; i++) {
    const alpha = (data[i * 4 + 3] as number) / 255;
    const channel = (at: number) => alpha * (linear[data[i * 4 + at] as number] as number);
    const light: Light = [channel(0), channel(1), channel(2)];
    pixels[i] = give(light);
  }
  return { width, height, pixels, mask: new Uint8Array(width * height).fill(1) };
}

/** The raw value of white. */
function fullOf(bitmap: BitmapInfo): number {
  const level = bitmap.kind === "mono" || bitmap.kind === "gray";
  return level ? Math.max(1, bitmap.limit ?? bitmap.most) : bitmap.most;
}
