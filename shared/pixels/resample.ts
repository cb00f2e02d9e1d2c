/** Pictures in another size: by area average, or by the nearest pixel. */
import type { RgbaPicture } from "./rgba.ts";
import { moved } from "./rgba.ts";

export type Resampling = "area" | "nearest";

/** The picture in another size; the same picture where the size is the same. */
export function resampled(picture: RgbaPicture, width: number, height: number, how: Resampling): RgbaPicture {
  if (width === picture.width && height === picture.height) return picture;
  return how === "nearest" ? nearestPixels(picture, width, height) : areaAverage(picture, width, height);
}

/** Each pixel is the one in whose area its middle lies. */
function nearestPixels(picture: RgbaPicture, width: number, height: number): RgbaPicture {
  const column = (x: number) => Math.floor(((2 * x + 1) * picture.width) / (2 * width));
  const row = (y: number) => Math.floor(((2 * y + 1) * picture.height) / (2 * height));
  return moved(picture, width, height, (x, y) => row(y) * picture.width + column(x));
}

/**
 * Each pixel is the mean of the samples in its area, those at its edge by their share of it, and each colour by its
 * alpha: what can't be seen has no say in the colour. Where nothing is seen at all, the colours' own mean. Samples are averaged as they are (netpbm's
 * `pamscale -linear` does the same and rounds half up) and are not rounded. Lengths are counted in whole parts of a
 * pixel, so that sums are exact up to 2^53.
 */
function areaAverage(picture: RgbaPicture, width: number, height: number): RgbaPicture {
  const { width: W, height: H, most, data } = picture;
  const out = new Float64Array(4 * width * height);
  // Sums of colours times alpha, of alpha, and of colours by themselves, for each column of the new row.
  const line = new Float64Array(7 * width);
  const sums = new Float64Array(7 * width);
  for (let y = 0; y < height; y++) {
    sums.fill(0);
    // Rows of the picture are `height` parts tall, new ones `H` parts.
    const [top, bottom] = [y * H, (y + 1) * H];
    for (let v = Math.floor(top / height); v * height < bottom; v++) {
      const share = Math.min(bottom, (v + 1) * height) - Math.max(top, v * height);
      addLine(data, 4 * v * W, W, width, line);
      for (let i = 0; i < sums.length; i++) sums[i] = (sums[i] as number) + share * (line[i] as number);
    }
    for (let x = 0; x < width; x++) {
      const [at, to] = [7 * x, 4 * (y * width + x)];
      const alpha = sums[at + 3] as number;
      for (let c = 0; c < 3; c++)
        out[to + c] = alpha > 0 ? (sums[at + c] as number) / alpha : (sums[at + 4 + c] as number) / (W * H);
      out[to + 3] = alpha / (W * H);
    }
  }
  return { width, height, most, data: out };
}

/** Sums of one row for the columns of the new one. Written out, as every sample of a large picture passes here. */
function addLine(data: RgbaPicture["data"], from: number, W: number, width: number, line: Float64Array): void {
  for (let x = 0; x < width; x++) {
    const left = x * W;
    const right = left + W;
    let [red, green, blue, alpha, plainRed, plainGreen, plainBlue] = [0, 0, 0, 0, 0, 0, 0];
    for (let u = Math.floor(left / width), start = u * width; start < right; u++, start += width) {
      const end = start + width;
      const share = Math.min(end, right) - Math.max(start, left);
      const at = from + 4 * u;
      const r = share * (data[at] as number);
      const g = share * (data[at + 1] as number);
      const b = share * (data[at + 2] as number);
      const a = data[at + 3] as number;
      alpha += share * a;
      red += a * r;
      green += a * g;
      blue += a * b;
      plainRed += r;
      plainGreen += g;
      plainBlue += b;
    }
    const to = 7 * x;
    line[to] = red;
    line[to + 1] = green;
    line[to + 2] = blue;
    line[to + 3] = alpha;
    line[to + 4] = plainRed;
    line[to + 5] = plainGreen;
    line[to + 6] = plainBlue;
  }
}
