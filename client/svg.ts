/** Small pictures of pixels as SVG: a few shades of one tint, on black as a dark panel is. */
import { glow, hexOf, rgbOf } from "./colours.ts";

/** Enough for their size, and they keep the pictures short. */
const SHADES = 16;

/** Raw values, width·height of them, row by row. */
export interface Grid {
  readonly width: number;
  readonly height: number;
  readonly pixels: ArrayLike<number>;
}

/** A grid averaged down to no more than these cells: the shade of each, 0 for dark. */
export function shadesOf({ width, height, pixels }: Grid, full: number, mostColumns: number, mostRows: number) {
  const columns = Math.min(width, mostColumns);
  const rows = Math.min(height, mostRows);
  const shades = new Uint8Array(columns * rows);
  for (let row = 0; row < rows; row++) {
    const [top, bottom] = bounds(row, height / rows);
    for (let column = 0; column < columns; column++) {
      const [left, right] = bounds(column, width / columns);
      let sum = 0;
      for (let y = top; y < bottom; y++) for (let x = left; x < right; x++) sum += pixels[y * width + x] ?? 0;
      const share = Math.min(1, sum / ((right - left) * (bottom - top)) / full);
      shades[row * columns + column] = share > 0 ? Math.max(1, Math.round(share * SHADES)) : 0;
    }
  }
  return { columns, rows, shades };
}

/** Elements that draw the lit cells, each one unit wide and high. Runs of one shade are one stroke. */
export function cells({ columns, rows, shades }: ReturnType<typeof shadesOf>, tint: string | undefined): string {
  const strokes = Array.from({ length: SHADES + 1 }, () => "");
  for (let row = 0; row < rows; row++) {
    for (let from = 0, to = 0; from < columns; from = to) {
      const shade = shades[row * columns + from] as number;
      while (to < columns && shades[row * columns + to] === shade) to++;
      strokes[shade] += `M${from} ${row}.5h${to - from}`;
    }
  }
  const colour = rgbOf(tint);
  const lit = strokes.map((d, shade) =>
    d && shade > 0 ? `<path stroke="${hexOf(glow(colour, shade / SHADES))}" d="${d}"/>` : "",
  );
  return lit.join("");
}

/** An SVG as a data URI, and its size in CSS pixels. */
export interface Picture {
  readonly uri: string;
  readonly width: number;
  readonly height: number;
}

/** A whole picture; `box` is the measure of its content. */
export function picture(width: number, height: number, box: readonly [number, number], content: string): Picture {
  const svg =
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${box.join(" ")}" ` +
    `preserveAspectRatio="none" shape-rendering="crispEdges">${content}</svg>`;
  return { uri: `data:image/svg+xml;base64,${Buffer.from(svg).toString("base64")}`, width, height };
}

function bounds(cell: number, size: number): [number, number] {
  const from = Math.floor(cell * size);
  return [from, Math.max(from + 1, Math.floor((cell + 1) * size))];
}
