/** A bitmap's first frame as a small picture that fits into a line of text. */
import type { BitmapInfo, PictureFrame } from "../shared/protocol/lsp.ts";
import { css, glow, rgbOf } from "./colours.ts";
import { fullValue } from "./levels.ts";

/** Size on the screen, in CSS pixels. */
const HEIGHT = 16;
const WIDEST = 64;
/** Shades that it is drawn in: enough for its size, and they keep it short. */
const SHADES = 16;
/** Cells that it is drawn in at most; larger bitmaps are averaged down to them. */
const MOST_COLUMNS = 128;
const MOST_ROWS = 32;

/** An SVG as a data URI, on black as a dark panel is. */
export function thumbnail(bitmap: BitmapInfo, frame: PictureFrame): string {
  const { width, height } = bitmap;
  const columns = Math.min(width, MOST_COLUMNS);
  const rows = Math.min(height, MOST_ROWS);
  const full = fullValue(bitmap, [frame]);
  const runs = Array.from({ length: SHADES + 1 }, () => "");
  for (let row = 0; row < rows; row++) {
    let from = 0;
    let shade = shadeAt(0, row);
    for (let column = 1; column <= columns; column++) {
      const next = column < columns ? shadeAt(column, row) : -1;
      if (next === shade) continue;
      runs[shade] += `M${from} ${row}h${column - from}v1h${from - column}z`;
      from = column;
      shade = next;
    }
  }
  const tint = rgbOf(bitmap.tint);
  const paths = runs.map((d, shade) =>
    d && shade > 0 ? `<path fill="${css(glow(tint, shade / SHADES))}" d="${d}"/>` : "",
  );
  const shown = Math.min(WIDEST, Math.max(4, Math.round((HEIGHT * width) / height)));
  const svg =
    `<svg xmlns="http://www.w3.org/2000/svg" width="${shown}" height="${HEIGHT}" viewBox="0 0 ${columns} ${rows}" ` +
    `preserveAspectRatio="none" shape-rendering="crispEdges"><path d="M0 0h${columns}v${rows}H0z"/>${paths.join("")}</svg>`;
  return `data:image/svg+xml;base64,${Buffer.from(svg).toString("base64")}`;

  /** Mean light of the pixels in a cell. */
  function shadeAt(column: number, row: number): number {
    const [left, right] = bounds(column, width / columns);
    const [top, bottom] = bounds(row, height / rows);
    let sum = 0;
    for (let y = top; y < bottom; y++) for (let x = left; x < right; x++) sum += frame.pixels[y * width + x] ?? 0;
    const share = Math.min(1, sum / ((right - left) * (bottom - top)) / full);
    return share > 0 ? Math.max(1, Math.round(share * SHADES)) : 0;
  }
}

function bounds(cell: number, size: number): [number, number] {
  const from = Math.floor(cell * size);
  return [from, Math.max(from + 1, Math.floor((cell + 1) * size))];
}
