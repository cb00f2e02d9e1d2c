/**
 * Pictures as raw PBM, PGM and PPM files (netpbm's pbm(5), pgm(5) and ppm(5): magic numbers P4, P5 and P6). Pixels are
 * raw values, width·height of them, row by row from the top left.
 */

interface Picture {
  readonly width: number;
  readonly height: number;
  readonly pixels: ArrayLike<number>;
}

/**
 * One bit a pixel, rows padded to bytes, the most significant bit left. In PBM 1 is black: a lit pixel is white, as it
 * is in every other picture of the same bitmap.
 */
export function pbmOf({ width, height, pixels }: Picture): Uint8Array {
  const stride = Math.ceil(width / 8);
  const rows = new Uint8Array(stride * height);
  for (let i = 0; i < width * height; i++) {
    const x = i % width;
    const at = Math.floor(i / width) * stride + (x >> 3);
    if (!pixels[i]) rows[at] = (rows[at] as number) | (0x80 >> (x & 7));
  }
  return withHeader(`P4\n${width} ${height}\n`, rows);
}

/** Greys: the samples are the raw values themselves, `most` (up to 255) is the highest, full light. */
export function pgmOf({ width, height, pixels }: Picture, most: number): Uint8Array {
  return withHeader(
    `P5\n${width} ${height}\n${most}\n`,
    Uint8Array.from({ length: width * height }, (_, i) => pixels[i] ?? 0),
  );
}

/** Colours: `pixels` are 0xRRGGBB. */
export function ppmOf({ width, height, pixels }: Picture): Uint8Array {
  const data = new Uint8Array(width * height * 3);
  for (let i = 0; i < width * height; i++) {
    const rgb = pixels[i] ?? 0;
    data[3 * i] = rgb >> 16;
    data[3 * i + 1] = rgb >> 8;
    data[3 * i + 2] = rgb;
  }
  return withHeader(`P6\n${width} ${height}\n255\n`, data);
}

function withHeader(header: string, data: Uint8Array): Uint8Array {
  const out = new Uint8Array(header.length + data.length);
  for (let i = 0; i < header.length; i++) out[i] = header.charCodeAt(i);
  out.set(data, header.length);
  return out;
}
