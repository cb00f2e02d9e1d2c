/** Small pictures of frames, as large as the strip shows them. */

import { latticeOf, stepsOf } from "../../shared/light/lattice.ts";
import type { BitmapInfo } from "../../shared/protocol/lsp.ts";
import { el } from "./dom.ts";
import type { Lamps } from "./lamps.ts";

interface Face {
  readonly bitmap: BitmapInfo;
  readonly pixels: Uint32Array;
  readonly lamps: Lamps;
  /** Eighths of a circle. */
  readonly turn: number;
  /** Size in CSS pixels, and that of a pixel's step before it is squeezed. */
  readonly wide: number;
  readonly high: number;
  readonly scale: number;
}

interface Thumb extends Face {
  readonly canvas: HTMLCanvasElement;
}

/** Each is drawn again only where it would look otherwise: a text that changes brings all frames anew. */
export function thumbs(): (frame: number, face: Face) => HTMLCanvasElement {
  const known = new Map<number, Thumb>();
  let sheet: HTMLCanvasElement | undefined;
  return (frame, face) => {
    const old = known.get(frame);
    if (old && alike(old, face)) return old.canvas;
    sheet ??= el("canvas");
    const canvas = drawn(face, sheet);
    known.set(frame, { ...face, canvas });
    return canvas;
  };
}

function alike(a: Face, b: Face): boolean {
  if (a.lamps !== b.lamps || a.turn !== b.turn || a.bitmap.width !== b.bitmap.width) return false;
  if (a.wide !== b.wide || a.high !== b.high || a.scale !== b.scale) return false;
  return a.pixels === b.pixels || (a.pixels.length === b.pixels.length && a.pixels.every((v, i) => v === b.pixels[i]));
}

function drawn({ bitmap, pixels, lamps, turn, wide, high, scale }: Face, sheet: HTMLCanvasElement) {
  const { width, height } = bitmap;
  const ratio = window.devicePixelRatio || 1;
  const canvas = el("canvas", { width: String(Math.ceil(wide * ratio)), height: String(Math.ceil(high * ratio)) });
  if (sheet.width !== width || sheet.height !== height) Object.assign(sheet, { width, height });
  const [own, context] = [sheet.getContext("2d"), canvas.getContext("2d")];
  if (!own || !context) return canvas;
  own.putImageData(imageOf(pixels, width, height, lamps), 0, 0);
  context.imageSmoothingEnabled = scale < 1;
  const { across } = stepsOf(width, height, turn);
  const { origin, along, down } = latticeOf(width, height, scale, turn, { x: 0, y: 0 });
  context.scale((ratio * wide) / (across * scale), ratio);
  context.transform(along.x, along.y, down.x, down.y, origin.x, origin.y);
  context.drawImage(sheet, 0, 0);
  return canvas;
}

function imageOf(pixels: Uint32Array, width: number, height: number, lamps: Lamps) {
  const image = new ImageData(width, height);
  const colours = new Uint32Array(image.data.buffer);
  const known = new Map<number, number>();
  pixels.forEach((value, at) => {
    let colour = known.get(value);
    if (colour === undefined) {
      const rgb = lamps.shade(value);
      // Every machine that shows a page is little-endian.
      colour = ((255 << 24) | ((rgb & 255) << 16) | (rgb & 0xff00) | (rgb >> 16)) >>> 0;
      known.set(value, colour);
    }
    colours[at] = colour;
  });
  return image;
}
