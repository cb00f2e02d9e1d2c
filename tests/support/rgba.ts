import type { RgbaPicture } from "../../shared/pixels/rgba.ts";

/** An opaque grey picture of 8 bits, from its rows. */
export function greyPicture(...rows: readonly (readonly number[])[]): RgbaPicture {
  return rgbaPicture(...rows.map((row) => row.map((v) => [v, v, v, 255] as const)));
}

/** A picture of 8 bits, from the red, green, blue and alpha of its pixels. */
export function rgbaPicture(...rows: readonly (readonly (readonly [number, number, number, number])[])[]): RgbaPicture {
  return { width: rows[0]?.length ?? 0, height: rows.length, most: 255, data: Uint8Array.from(rows.flat(2)) };
}
