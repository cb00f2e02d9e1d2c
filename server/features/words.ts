/** How numbers and bitmaps are spelt for people, the same in every feature. */
import type { Bitmap } from "../../shared/bitmap/resolve.ts";

/** `9×9 gray8`, with frames `9×9 gray8, 12 frames`. */
export function sizeAndFormat(bitmap: Bitmap): string {
  const { width, height, format, frames } = bitmap;
  return `${width}×${height} ${format.name}${frames > 1 ? `, ${frames} frames` : ""}`;
}

/** Bytes of the array in the target's memory; 0 where the element type is not known. */
export function bytesOf({ array }: Bitmap): number {
  return array.type ? (array.count * array.type.bits) / 8 : 0;
}

/** `81 bytes`, `1 byte`, with thin groups from five digits on. */
export function bytesInWords(bytes: number): string {
  return `${grouped(bytes)} byte${bytes === 1 ? "" : "s"}`;
}

function grouped(value: number): string {
  return value < 10_000 ? String(value) : String(value).replace(/\B(?=(\d{3})+$)/g, "\u202f");
}

/** A share as a percentage with at most one decimal. */
export function percent(share: number): string {
  return `${Math.round(share * 1000) / 10} %`;
}
