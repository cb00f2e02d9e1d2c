/** Small pictures of pixels as SVG: a few shades of one tint, or colours, on black as a dark panel is. */
import type { BitmapInfo } from "../shared/protocol/lsp.ts";
import { channelsOf, glow, hexOf, isColour, rgbOf } from "./colours.ts";

/** Enough for their size, and they keep the pictures short. */
const SHADES = 16;

/** Raw values, width·height of them, row by row. */
export interface Grid {
  readonly width: number;
  readonly height: number;
  readonly pixels: ArrayLike<number>;
}

/** What a value is drawn as. */
type Shown = Pick<BitmapInfo, "format" | "kind" | "most" | "tint" | "colours">;

/**
 * A grid averaged down to no more than these cells: the colour of each, "" for dark. `full` is the raw value of full
 * light of greys; colours are shown as they are, in 16 steps a channel.
 */
export function shadesOf(bitmap: Shown, grid: Grid, full: number, mostColumns: number, mostRows: number) {
  const { width, height, pixels } = grid;
  const columns = Math.min(width, mostColumns);
  const rows = Math.min(height, mostRows);
  const coloured = isColour(bitmap);
  const tint = rgbOf(bitmap.tint);
  const shades: string[] = [];
  for (let row = 0; row < rows; row++) {
    const [top, bottom] = bounds(row, height / rows);
    for (let column = 0; column < columns; column++) {
      const [left, right] = bounds(column, width / columns);
      const count = (right - left) * (bottom - top);
      let [sum, red, green, blue] = [0, 0, 0, 0];
      for (let y = top; y < bottom; y++)
        for (let x = left; x < right; x++) {
          const value = pixels[y * width + x] ?? 0;
          sum += value;
          if (!coloured) continue;
          const [r, g, b] = channelsOf(bitmap, value);
          red += r;
          green += g;
          blue += b;
        }
      if (coloured) shades.push(stepped([red, green, blue].map((c) => c / count / 255)));
      else {
        const share = Math.min(1, sum / count / full);
        const shade = share > 0 ? Math.max(1, Math.round(share * SHADES)) : 0;
        shades.push(shade > 0 ? hexOf(glow(tint, shade / SHADES)) : "");
      }
    }
  }
  return { columns, rows, shades };
}

/** Elements that draw the lit cells, each one unit wide and high. Runs of one colour are one stroke. */
export function cells({ columns, rows, shades }: ReturnType<typeof shadesOf>): string {
  const strokes = new Map<string, string>();
  for (let row = 0; row < rows; row++) {
    for (let from = 0, to = 0; from < columns; from = to) {
      const shade = shades[row * columns + from] as string;
      while (to < columns && shades[row * columns + to] === shade) to++;
      if (shade) strokes.set(shade, `${strokes.get(shade) ?? ""}M${from} ${row}.5h${to - from}`);
    }
  }
  return [...strokes].map(([shade, d]) => `<path stroke="${shade}" d="${d}"/>`).join("");
}

/** `#rrggbb` of channels (0–1) in a few steps; "" where all are dark. */
function stepped(channels: readonly number[]): string {
  const [r = 0, g = 0, b = 0] = channels.map((c) => Math.round(c * 15) / 15);
  return r + g + b > 0 ? hexOf([r, g, b]) : "";
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
