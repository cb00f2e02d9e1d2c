/** Pictures from outside: red, green, blue and alpha of each pixel, in samples of any depth up to 16 bits. */

export interface RgbaPicture {
  readonly width: number;
  readonly height: number;
  /** The value of a full sample, 1 to 65535: 255 for 8 bits, 65535 for 16. */
  readonly most: number;
  /** 4·width·height samples, row by row from the top left; colours are not multiplied by alpha. */
  readonly data: Uint8Array | Uint16Array | Float64Array;
}

export type Turn = 0 | 90 | 180 | 270;
export type Mirror = "left-right" | "top-bottom";

/** Sides and pixels of the largest picture that is read: 16,777,216 pixels. */
const MOST_SIDE = 65_535;
export const MOST_PIXELS = 1 << 24;

/** Why a picture of that size is not read; undefined for one that is. Asked of the header, before any pixel is read. */
export function sizeRefused(width: number, height: number, most = MOST_PIXELS): string | undefined {
  if (width < 1 || height < 1) return "it has no pixels";
  if (width <= MOST_SIDE && height <= MOST_SIDE && width * height <= most) return undefined;
  return `it is ${width}×${height} pixels large; pictures of up to ${most} pixels are read`;
}

/** Empty samples for a picture of this size: 8 bits where they are enough. */
export function samplesFor(width: number, height: number, most: number): Uint8Array | Uint16Array {
  return most <= 255 ? new Uint8Array(4 * width * height) : new Uint16Array(4 * width * height);
}

/** Turned clockwise, then mirrored: `left-right` swaps its columns, `top-bottom` its rows. */
export function oriented(picture: RgbaPicture, turn: Turn, mirror?: Mirror): RgbaPicture {
  if (turn === 0 && mirror === undefined) return picture;
  const { width, height } = picture;
  const [w, h] = turn === 90 || turn === 270 ? [height, width] : [width, height];
  return moved(picture, w, h, (x, y) => {
    const u = mirror === "left-right" ? w - 1 - x : x;
    const v = mirror === "top-bottom" ? h - 1 - y : y;
    if (turn === 90) return (height - 1 - u) * width + v;
    if (turn === 180) return (height - 1 - v) * width + (width - 1 - u);
    if (turn === 270) return u * width + (width - 1 - v);
    return v * width + u;
  });
}

/** The pixels from x,y on; what lies outside the picture is transparent black. */
export function cropped(picture: RgbaPicture, x: number, y: number, width: number, height: number): RgbaPicture {
  if (x === 0 && y === 0 && width === picture.width && height === picture.height) return picture;
  return moved(picture, width, height, (u, v) => {
    const [from, row] = [x + u, y + v];
    const inside = from >= 0 && row >= 0 && from < picture.width && row < picture.height;
    return inside ? row * picture.width + from : -1;
  });
}

/** A picture of another size whose pixels are those of `from`, or transparent black for -1. */
export function moved(
  { most, data }: RgbaPicture,
  width: number,
  height: number,
  from: (x: number, y: number) => number,
): RgbaPicture {
  const out = data instanceof Float64Array ? new Float64Array(4 * width * height) : samplesFor(width, height, most);
  for (let y = 0, to = 0; y < height; y++) {
    for (let x = 0; x < width; x++, to += 4) {
      const at = 4 * from(x, y);
      if (at < 0) continue;
      for (let c = 0; c < 4; c++) out[to + c] = data[at + c] as number;
    }
  }
  return { width, height, most, data: out };
}
