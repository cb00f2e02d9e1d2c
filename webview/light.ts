/** What a frame gives off, in numbers: sums of raw values as shares of full; pure. */

export interface FrameLight {
  readonly peak: number;
  readonly lit: number;
  /** Share of full, 0–1, of the frame, of each row and of each column. */
  readonly mean: number;
  readonly rows: Float64Array;
  readonly columns: Float64Array;
  /** How many pixels have each raw value. */
  readonly counts: ReadonlyMap<number, number>;
}

export function lightOf(pixels: ArrayLike<number>, width: number, height: number, most: number): FrameLight {
  const rows = new Float64Array(height);
  const columns = new Float64Array(width);
  const counts = new Map<number, number>();
  let peak = 0;
  let sum = 0;
  let lit = 0;
  for (let i = 0; i < width * height; i++) {
    const value = pixels[i] ?? 0;
    if (value === 0) continue;
    counts.set(value, (counts.get(value) ?? 0) + 1);
    lit++;
    const [x, y] = [i % width, Math.floor(i / width)];
    rows[y] = (rows[y] ?? 0) + value / (width * most);
    columns[x] = (columns[x] ?? 0) + value / (height * most);
    peak = Math.max(peak, value);
    sum += value;
  }
  if (lit < width * height) counts.set(0, width * height - lit);
  return { peak, lit, mean: sum / (width * height * most), rows, columns, counts };
}
