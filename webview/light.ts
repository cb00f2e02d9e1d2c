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
  // This pass follows every move of the pointer: an array counts faster than a map, where it is not too long.
  const few = most < 2 ** 16 ? new Uint32Array(most + 1) : undefined;
  const counts = new Map<number, number>();
  let [peak, sum, lit, index] = [0, 0, 0, 0];
  for (let y = 0; y < height; y++) {
    let row = 0;
    for (let x = 0; x < width; x++, index++) {
      const value = pixels[index] as number;
      if (few && value <= most) few[value] = (few[value] as number) + 1;
      else counts.set(value, (counts.get(value) ?? 0) + 1);
      if (value === 0) continue;
      lit++;
      row += value;
      columns[x] = (columns[x] as number) + value;
      if (value > peak) peak = value;
    }
    rows[y] = row / (width * most);
    sum += row;
  }
  few?.forEach((count, value) => {
    if (count > 0) counts.set(value, count);
  });
  for (let x = 0; x < width; x++) columns[x] = (columns[x] as number) / (height * most);
  return { peak, lit, mean: sum / (width * height * most), rows, columns, counts };
}
