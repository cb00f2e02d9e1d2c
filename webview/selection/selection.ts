/** What is selected of a picture: any of its pixels, the same ones in every frame; pure. Start here. */
import * as l10n from "@vscode/l10n";
import type { Point, Size } from "../tools/shapes.ts";
import { pixelCount } from "../words.ts";

export interface Box extends Point, Size {}

/** The box is the least that holds all selected pixels; a selection is never empty. */
export interface Selection extends Box {
  readonly size: Size;
  /** 1 for each selected pixel, counted row by row. */
  readonly mask: Uint8Array;
  readonly count: number;
  /** It came from the text, and goes with the selection there. */
  readonly byText?: true;
}

/** Whether a tool may paint a pixel: any, where nothing is selected. */
export function inSelection({ selection }: { readonly selection?: Selection | undefined }, index: number): boolean {
  return selection === undefined || selection.mask[index] === 1;
}

/** The rectangle between two corners, as far as it is inside the picture. */
export function rectangle(size: Size, from: Point, to: Point): Selection | undefined {
  const [left, right] = [Math.max(0, Math.min(from.x, to.x)), Math.min(size.width - 1, Math.max(from.x, to.x))];
  const [top, bottom] = [Math.max(0, Math.min(from.y, to.y)), Math.min(size.height - 1, Math.max(from.y, to.y))];
  if (right < left || bottom < top) return undefined;
  const mask = new Uint8Array(size.width * size.height);
  for (let y = top; y <= bottom; y++) mask.fill(1, y * size.width + left, y * size.width + right + 1);
  const box = { x: left, y: top, width: right - left + 1, height: bottom - top + 1 };
  return { ...box, size, mask, count: box.width * box.height };
}

export function everything(size: Size): Selection {
  const { width, height } = size;
  const mask = new Uint8Array(width * height).fill(1);
  return { x: 0, y: 0, width, height, size, mask, count: width * height };
}

/** All pixels of one raw value. */
export function ofValue(size: Size, pixels: ArrayLike<number>, value: number): Selection | undefined {
  const mask = new Uint8Array(size.width * size.height);
  for (let i = 0; i < mask.length; i++) if (pixels[i] === value) mask[i] = 1;
  return ofMask(size, mask);
}

export function ofIndexes(size: Size, indexes: Iterable<number>): Selection | undefined {
  const mask = new Uint8Array(size.width * size.height);
  for (const index of indexes) if (index >= 0 && index < mask.length) mask[index] = 1;
  return ofMask(size, mask);
}

/** Undefined where no pixel is selected. */
export function ofMask(size: Size, mask: Uint8Array): Selection | undefined {
  let [left, top, right, bottom, count] = [size.width, size.height, -1, -1, 0];
  for (let y = 0, index = 0; y < size.height; y++) {
    for (let x = 0; x < size.width; x++, index++) {
      if (mask[index] !== 1) continue;
      count++;
      if (x < left) left = x;
      if (x > right) right = x;
      if (y < top) top = y;
      bottom = y;
    }
  }
  if (count === 0) return undefined;
  return { x: left, y: top, width: right - left + 1, height: bottom - top + 1, size, mask, count };
}

export function isRectangle({ width, height, count }: Pick<Selection, "width" | "height" | "count">): boolean {
  return count === width * height;
}

export function indexesOf({ mask }: Selection): number[] {
  const out: number[] = [];
  for (let i = 0; i < mask.length; i++) if (mask[i] === 1) out.push(i);
  return out;
}

/** `4×3 at 2,1`, where there is little room: what `selectionWords` says in full. */
export function selectionPlace({ x, y, width, height, count }: Box & { readonly count: number }): string {
  const what = count === width * height ? `${width}×${height}` : pixelCount(count);
  return l10n.t("{0} at {1},{2}", what, x, y);
}

/** `4×3 pixels at column 2, row 1`; how many they are where they are no rectangle. */
export function selectionWords({ x, y, width, height, count }: Box & { readonly count: number }): string {
  const what = count === width * height ? l10n.t("{0}×{1} pixels", width, height) : pixelCount(count);
  return l10n.t("{0} selected at column {1}, row {2}", what, x, y);
}
