/** The contact sheet: the bitmaps of several files in one picture, each as it looks on its panel, with its name. */

import font from "../sample-workspace/font5x7.h";
import { openText } from "../shared/bitmap/open.ts";
import type { Bitmap } from "../shared/bitmap/resolve.ts";
import { pixelsOf } from "../shared/bitmap/resolve.ts";
import { brightest } from "./brightest.ts";
import type { Raster } from "./png.ts";
import { enlarge } from "./png.ts";
import { panelRaster } from "./raster.ts";

export interface SheetFile {
  readonly title: string;
  readonly bitmaps: readonly Bitmap[];
}

export interface Sheet {
  readonly raster: Raster;
  readonly shown: number;
  readonly leftOut: number;
}

export type Rgb = readonly [number, number, number];

const GAP = 12;
const LINE = 10;
const WIDTH = 960;
const PAPER: Rgb = [24, 26, 27];
const INK: Rgb = [205, 203, 196];
const HEADING: Rgb = [140, 176, 132];
const EDGE: Rgb = [62, 66, 66];
/** Frames of an animation or glyphs of a set that are shown. */
const MOST_FRAMES = 96;
const MOST_PIXELS = 1 << 26;

interface Block {
  readonly caption: string;
  readonly raster: Raster;
}

/** Draws the sheet; undefined where there is nothing to show. */
export function drawSheet(files: readonly SheetFile[]): Sheet | undefined {
  const write = captions();
  const rows: { y: number; x: number; block: Block }[] = [];
  const headings: { y: number; text: string }[] = [];
  let y = GAP;
  let shown = 0;
  let leftOut = 0;
  for (const { title, bitmaps } of files) {
    const blocks: Block[] = [];
    for (const bitmap of bitmaps) {
      const block = blockOf(bitmap);
      if (block) blocks.push(block);
      else leftOut++;
    }
    if (blocks.length === 0) continue;
    headings.push({ y, text: title });
    y += LINE + GAP / 2;
    let x = GAP;
    let tallest = 0;
    for (const block of blocks) {
      const wide = Math.max(block.raster.width + 2, write.width(block.caption));
      if (x > GAP && x + wide + GAP > WIDTH) {
        y += tallest + LINE + GAP;
        x = GAP;
        tallest = 0;
      }
      rows.push({ x, y, block });
      x += wide + GAP;
      tallest = Math.max(tallest, block.raster.height + 2);
    }
    y += tallest + LINE + 2 * GAP;
    shown += blocks.length;
  }
  if (shown === 0 || WIDTH * y > MOST_PIXELS) return undefined;
  const width = Math.max(WIDTH, ...rows.map((r) => r.x + r.block.raster.width + 2 + GAP));
  const canvas = { width, height: y, data: new Uint8Array(width * y * 3) };
  fill(canvas, 0, 0, width, y, PAPER);
  for (const { y: top, text } of headings) write.draw(canvas, GAP, top, text, HEADING);
  for (const { x, y: top, block } of rows) {
    fill(canvas, x, top, block.raster.width + 2, block.raster.height + 2, EDGE);
    copy(canvas, x + 1, top + 1, block.raster);
    write.draw(canvas, x, top + block.raster.height + 5, block.caption, INK);
  }
  return { raster: { ...canvas, channels: 3 }, shown, leftOut };
}

type Canvas = { readonly width: number; readonly height: number; readonly data: Uint8Array };

function blockOf(bitmap: Bitmap): Block | undefined {
  const raster = framesInRows(bitmap, PAPER);
  const count = bitmap.frames > 1 ? `, ${bitmap.frames} frames` : "";
  const caption = `${bitmap.array.name} ${bitmap.width}x${bitmap.height} ${bitmap.format.name}${count}`;
  return raster && { caption, raster };
}

/** How much the frames of a bitmap are enlarged to a comfortable size. */
export function sheetScale({ width, height, frames }: Bitmap): number {
  const aim = frames > 1 ? 36 : 108;
  return Math.max(1, Math.floor(Math.min(aim / height, 512 / width)));
}

/** The frames of a bitmap in rows up to `wide`, enlarged, on a ground of that colour; undefined without a picture. */
export function framesInRows(bitmap: Bitmap, ground: Rgb, wide = WIDTH - 2 * GAP): Raster | undefined {
  const frames = Math.min(bitmap.frames, MOST_FRAMES);
  const top = brightest(bitmap);
  const rasters: Raster[] = [];
  for (let frame = 0; frame < frames; frame++) {
    const raster = panelRaster(bitmap, frame, top);
    if (!raster) return undefined;
    rasters.push(raster);
  }
  const scale = sheetScale(bitmap);
  const [cellWidth, cellHeight] = [bitmap.width * scale, bitmap.height * scale];
  const perRow = Math.max(1, Math.min(frames, Math.floor(wide / (cellWidth + 2))));
  const lines = Math.ceil(frames / perRow);
  const canvas = {
    width: perRow * (cellWidth + 2) - 2,
    height: lines * (cellHeight + 2) - 2,
    data: new Uint8Array((perRow * (cellWidth + 2) - 2) * (lines * (cellHeight + 2) - 2) * 3),
  };
  fill(canvas, 0, 0, canvas.width, canvas.height, ground);
  rasters.forEach((raster, i) => {
    copy(canvas, (i % perRow) * (cellWidth + 2), Math.floor(i / perRow) * (cellHeight + 2), enlarge(raster, scale));
  });
  return { ...canvas, channels: 3 };
}

function fill(canvas: Canvas, x: number, y: number, width: number, height: number, color: Rgb): void {
  for (let v = y; v < Math.min(y + height, canvas.height); v++) {
    for (let u = x; u < Math.min(x + width, canvas.width); u++) canvas.data.set(color, (v * canvas.width + u) * 3);
  }
}

function copy(canvas: Canvas, x: number, y: number, raster: Raster): void {
  for (let v = 0; v < raster.height; v++) {
    const row = raster.data.subarray(v * raster.width * 3, (v + 1) * raster.width * 3);
    canvas.data.set(row, ((y + v) * canvas.width + x) * 3);
  }
}

/** Text in the font of the sample workspace, which is read as any user's font would be. */
function captions() {
  const bitmap = openText(font, "font5x7.h").bitmaps[0];
  const first = bitmap?.options.first ?? 32;
  const glyphs = new Map<string, ArrayLike<number>>();
  for (let i = 0; bitmap && i < bitmap.frames; i++) {
    const pixels = pixelsOf(bitmap, i);
    if (pixels) glyphs.set(String.fromCharCode(first + i), pixels);
  }
  const advance = (bitmap?.width ?? 5) + 1;
  return {
    width: (text: string) => text.length * advance,
    draw: (canvas: Canvas, x: number, y: number, text: string, color: Rgb) => {
      [...text].forEach((character, i) => {
        const pixels = glyphs.get(character) ?? glyphs.get("?");
        if (!pixels || !bitmap) return;
        for (let p = 0; p < pixels.length; p++) {
          const u = x + i * advance + (p % bitmap.width);
          const v = y + Math.floor(p / bitmap.width);
          if (pixels[p] && u < canvas.width && v < canvas.height) canvas.data.set(color, (v * canvas.width + u) * 3);
        }
      });
    },
  };
}
