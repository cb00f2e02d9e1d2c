/** The rows of a bitmap that end on a line of text as one small picture for the end of that line. */
import type { BitmapInfo, RowPixels } from "../shared/protocol/lsp.ts";
import type { Grid, Picture } from "./svg.ts";
import { cells, picture, shadesOf } from "./svg.ts";

/** CSS pixels. A line of text has room for this height; all pictures have it, so that they stand evenly. */
const HEIGHT = 16;
const WIDEST = 256;
const GAP = 4;
/** Black at both sides of a block, so that pixels lit at its edge stand out from a light page. */
const MARGIN = 1;
/** Columns that are left free at most to bring a picture in line with others; beyond, it would stand too far off. */
const MOST_PADDING = 16;

/** A picture for the end of a line. */
export interface LinePicture extends Picture {
  readonly line: number;
}

/** One picture for each line, in order of the lines. `full` is the raw value of full light. */
export function rowPictures(bitmap: BitmapInfo, full: number, rows: readonly RowPixels[]): LinePicture[] {
  const byLine = new Map<number, RowPixels[]>();
  for (const row of rows) {
    const known = byLine.get(row.line);
    if (known) known.push(row);
    else byLine.set(row.line, [row]);
  }
  return [...byLine].map(([line, own]) => ({ line, ...draw(bitmap, blocksOf(bitmap, own), full) }));
}

/**
 * What is drawn side by side. Columns of a frame that stand together make one block, and so do the rows of a whole
 * frame that is low enough: a glyph on a line looks like the glyph. Other rows stay apart.
 */
function blocksOf({ height }: BitmapInfo, rows: readonly RowPixels[]): Grid[] {
  const blocks: Grid[] = [];
  for (let from = 0, to = 0; from < rows.length; from = to) {
    const { frame } = rows[from] as RowPixels;
    while (rows[to]?.frame === frame) to++;
    const own = rows.slice(from, to);
    const columns = own.every((r) => r.width === 1 && r.height === height);
    const whole = height <= HEIGHT && own.reduce((sum, r) => sum + r.height, 0) === height;
    if (own.length > 1 && (columns || whole)) blocks.push(joined(own));
    else blocks.push(...own);
  }
  return blocks;
}

function joined(rows: readonly RowPixels[]): Grid {
  const left = Math.min(...rows.map((r) => r.x));
  const top = Math.min(...rows.map((r) => r.y));
  const width = Math.max(...rows.map((r) => r.x + r.width)) - left;
  const height = Math.max(...rows.map((r) => r.y + r.height)) - top;
  const pixels = new Uint32Array(width * height);
  for (const row of rows)
    row.pixels.forEach((value, i) => {
      const x = row.x - left + (i % row.width);
      const y = row.y - top + Math.floor(i / row.width);
      pixels[y * width + x] = value;
    });
  return { width, height, pixels };
}

/** As many blocks as fit; the first always does. Cells are whole screen pixels, so that they are crisp. */
function draw(bitmap: BitmapInfo, blocks: readonly Grid[], full: number): Picture {
  const widest = Math.max(...blocks.map((b) => b.width));
  const tallest = Math.min(HEIGHT, Math.max(...blocks.map((b) => b.height)));
  const cellHeight = Math.max(1, Math.floor(HEIGHT / tallest));
  // Pixels are square where there is room; of rows that are too wide only the width shrinks.
  const cellWidth = Math.max(1, Math.min(cellHeight, Math.floor(WIDEST / Math.min(widest, WIDEST))));
  const drawn: string[] = [];
  let x = 0;
  for (const block of blocks) {
    const shaded = shadesOf(bitmap, block, full, WIDEST, HEIGHT);
    const from = x === 0 ? 0 : x + GAP;
    const to = from + shaded.columns * cellWidth + 2 * MARGIN;
    if (x > 0 && to > WIDEST) break;
    const y = Math.floor((HEIGHT - shaded.rows * cellHeight) / 2);
    drawn.push(
      `<path d="M${from} 0H${to}V${HEIGHT}H${from}z"/>`,
      `<g transform="translate(${from + MARGIN} ${y}) scale(${cellWidth} ${cellHeight})">${cells(shaded)}</g>`,
    );
    x = to;
  }
  return picture(x, HEIGHT, [x, HEIGHT], drawn.join(""));
}

/** Width of a text in columns, as an editor shows it where tabs go on to the next stop. */
export function columnsOf(text: string, tabSize: number): number {
  if (!text.includes("\t")) return text.length;
  let columns = 0;
  for (const c of text) columns += c === "\t" ? tabSize - (columns % tabSize) : 1;
  return columns;
}

/** Columns to leave before the picture of each line, so that those of lines of nearly one length stand in a column. */
export function paddings(columns: readonly number[]): number[] {
  const usual = [...columns].sort((a, b) => a - b)[columns.length >> 1] ?? 0;
  const edge = Math.max(0, ...columns.filter((c) => c <= usual + MOST_PADDING));
  return columns.map((c) => (c <= edge && edge - c <= MOST_PADDING ? edge - c : 0));
}
