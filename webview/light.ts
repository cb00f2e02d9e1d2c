/** What a frame gives off, in numbers: light as shares of full, and the raw values in use; pure. */
import type { Scale } from "./scale.ts";

export interface FrameLight {
  /** The highest level. */
  readonly peak: number;
  /** Pixels that give any light. */
  readonly lit: number;
  /** Share of full light, 0–1, of the frame, of each row and of each column. */
  readonly mean: number;
  readonly rows: Float64Array;
  readonly columns: Float64Array;
  /** How many pixels have each raw value; counted when first asked for. */
  readonly counts: ReadonlyMap<number, number>;
}

type Meaning = Pick<Scale, "level" | "light">;

/** This follows every move of the pointer, so it is one pass. */
export function lightOf(pixels: ArrayLike<number>, width: number, height: number, scale: Meaning): FrameLight {
  const rows = new Float64Array(height);
  const columns = new Float64Array(width);
  let [peak, sum, lit, index] = [0, 0, 0, 0];
  for (let y = 0; y < height; y++) {
    let row = 0;
    for (let x = 0; x < width; x++, index++) {
      const value = pixels[index] as number;
      const level = scale.level(value);
      if (level === 0) continue;
      const light = scale.light(value);
      lit++;
      row += light;
      columns[x] = (columns[x] as number) + light;
      if (level > peak) peak = level;
    }
    rows[y] = row / width;
    sum += row;
  }
  for (let x = 0; x < width; x++) columns[x] = (columns[x] as number) / height;
  let counts: ReadonlyMap<number, number> | undefined;
  return {
    peak,
    lit,
    mean: sum / (width * height),
    rows,
    columns,
    get counts() {
      counts ??= countsOf(pixels);
      return counts;
    },
  };
}

/** How many of the pixels have each raw value. */
export function countsOf(pixels: ArrayLike<number>): Map<number, number> {
  const counts = new Map<number, number>();
  // An array counts faster than a map, where values are low.
  const few = new Uint32Array(FEW);
  for (let i = 0; i < pixels.length; i++) {
    const value = pixels[i] as number;
    if (value < FEW) few[value] = (few[value] as number) + 1;
    else counts.set(value, (counts.get(value) ?? 0) + 1);
  }
  few.forEach((count, value) => {
    if (count > 0) counts.set(value, count);
  });
  return counts;
}

const FEW = 2 ** 8;

/** The values that most pixels have, no more than so many; one pass, as there may be as many values as pixels. */
export function mostUsed(counts: ReadonlyMap<number, number>, most: number): number[] {
  const found: [value: number, count: number][] = [];
  for (const [value, count] of counts) {
    const last = found[most - 1];
    if (last && last[1] >= count) continue;
    let at = Math.min(found.length, most - 1);
    while (at > 0 && (found[at - 1]?.[1] ?? 0) < count) at--;
    found.splice(at, 0, [value, count]);
    if (found.length > most) found.pop();
  }
  return found.map(([value]) => value);
}
