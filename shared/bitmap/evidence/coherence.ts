/** How much a reading looks like a picture: like neighbours, no bits outside it, letters the right way round. */
import type { Arrangement, Layout } from "../../pixels/layout.ts";
import { layOut } from "../../pixels/layout.ts";
import type { ElementBits, Pixels } from "../../pixels/picture.ts";
import { unpack } from "../../pixels/picture.ts";

/** Pixels that are looked at; a picture that makes sense does so in a part. */
const MOST_PIXELS = 2048;
const MOST_FRAMES = 6;
/** Weight of strokes and margin beside neighbours, by trial on Debian's xbitmaps in three packings. */
const STROKES = 0.35;

/**
 * How much a reading looks like a picture: the share of neighbours alike (mono) or 1 less their mean difference
 * (levels, colours). For packed mono more is looked at, because the order of bits inside elements shows only at their
 * seams and at the border: strokes go on across seams, and pictures mostly have a dark margin. What is rarer, lit or
 * dark, counts as stroke. Only to be compared among readings of one size and format.
 */
export function coherence(bits: ElementBits, reading: Arrangement): number {
  const layout = layOut(part(reading));
  if ("why" in layout) return 0;
  const { width, height, format } = layout;
  const mono = format.depth === 1 && layout.pack !== "each";
  const { element } = layout.table(0);
  const along = layout.pack === "rows" ? 1 : width;
  let alike = 0;
  let pairs = 0;
  let across = 0;
  let touching = 0;
  let margin = 0;
  let border = 0;
  for (let frame = 0, seen = 0; frame < Math.min(layout.frames, MOST_FRAMES) && seen < MOST_PIXELS; frame++) {
    const pixels = unpack(bits, layout, frame, false);
    seen += width * height;
    const stroke = mono && litIn(pixels) * 2 > pixels.length ? 0 : 1;
    for (let y = 0, i = 0; y < height; y++) {
      for (let x = 0; x < width; x++, i++) {
        if (x > 0) alike += likeness(pixels, i, i - 1, format.depth);
        if (y > 0) alike += likeness(pixels, i, i - width, format.depth);
        pairs += (x > 0 ? 1 : 0) + (y > 0 ? 1 : 0);
        if (!mono) continue;
        const here = pixels[i] === stroke;
        if (x === 0 || y === 0 || x === width - 1 || y === height - 1) {
          border++;
          if (here) margin++;
        }
        if ((along === 1 ? x : y) === 0 || element[i] === element[i - along]) continue;
        const there = pixels[i - along] === stroke;
        if (here || there) touching++;
        if (here && there) across++;
      }
    }
  }
  if (pairs === 0) return 0.5;
  return mono ? alike / pairs + STROKES * ((across + 1) / (touching + 2) - margin / border) : alike / pairs;
}

function litIn(pixels: Pixels): number {
  let lit = 0;
  for (let i = 0; i < pixels.length; i++) lit += pixels[i] as number;
  return lit;
}

/** A large picture cut below, or on the right where it is stored by columns: the rest stays where it is. */
function part(reading: Arrangement): Arrangement {
  const { width, height } = reading;
  if (width * height <= MOST_PIXELS) return reading;
  if (reading.pack === "columns")
    return { ...reading, frames: 1, width: Math.max(1, Math.floor(MOST_PIXELS / height)) };
  const rows = Math.max(2, Math.floor(MOST_PIXELS / width));
  return { ...reading, frames: 1, height: Math.min(height, reading.pack === "pages" ? Math.max(8, rows & ~7) : rows) };
}

function likeness(pixels: Pixels, i: number, j: number, depth: number): number {
  const a = pixels[i] as number;
  const b = pixels[j] as number;
  if (depth === 1) return a === b ? 1 : 0;
  if (depth === 16) {
    const r = Math.abs((a >> 11) - (b >> 11)) / 31;
    const g = Math.abs(((a >> 5) & 63) - ((b >> 5) & 63)) / 63;
    return 1 - (r + g + Math.abs((a & 31) - (b & 31)) / 31) / 3;
  }
  if (depth === 24) {
    const part = (shift: number) => Math.abs(((a >> shift) & 255) - ((b >> shift) & 255)) / 255;
    return 1 - (part(16) + part(8) + part(0)) / 3;
  }
  return 1 - Math.abs(a - b) / (2 ** depth - 1);
}

/** Whether bits are set that belong to no pixel. */
export function hasStrayBits(bits: ElementBits, layout: Layout): boolean {
  const { width, height, format, elementBits, frames, frameElements, lead } = layout;
  if (layout.alone || frameElements === 0) return false;
  if (width * height * format.depth === (frameElements - lead) * elementBits) return false;
  const { element, shift } = layout.table(0);
  const first = layout.skip + lead;
  const used = new Array<bigint | number>(frameElements - lead).fill(elementBits === 64 ? 0n : 0);
  for (let i = 0; i < element.length; i++) {
    const at = (element[i] as number) - first;
    const bit = shift[i] as number;
    if (elementBits === 64) used[at] = (used[at] as bigint) | (BigInt(format.most) << BigInt(bit));
    else used[at] = ((used[at] as number) | (format.most << bit)) >>> 0;
  }
  for (let frame = 0; frame < frames; frame++) {
    for (let i = 0; i < used.length; i++) {
      const word = bits[first + frame * frameElements + i] ?? 0;
      const mask = used[i] as number | bigint;
      if (typeof word === "bigint" ? (word & ~BigInt(mask)) !== 0n : (word & ~Number(mask)) !== 0) return true;
    }
  }
  return false;
}

/** Share of the pixels of drawn rows (`1` lit, `0` dark) that a reading shows, frame after frame; 1 is all. */
export function showsDrawing(bits: ElementBits, layout: Layout, drawn: readonly string[]): number {
  const { width, height, frames } = layout;
  let right = 0;
  let all = 0;
  for (let frame = 0; frame < frames; frame++) {
    const pixels = unpack(bits, layout, frame, false);
    for (let y = 0; y < height; y++) {
      const row = drawn[frame * height + y];
      if (row === undefined) continue;
      for (let x = 0; x < width; x++) {
        all++;
        if ((row[x] === "1") === (pixels[y * width + x] as number) > 0) right++;
      }
    }
  }
  return all === 0 ? 0 : right / all;
}

/**
 * How right a set of letters stands, -1 to 1: in every sans-serif face an L has its full column on the left and its
 * full row at the bottom, and a T a full row on top. `first` is the character of frame 0. 0 where it can't be told.
 */
export function uprightness(bits: ElementBits, layout: Layout, first: number): number {
  const l = 76 - first;
  const t = 84 - first;
  if (l < 0 || t >= layout.frames) return 0;
  return (strokes(bits, layout, l, "left", "bottom") + strokes(bits, layout, t, "", "top")) / 2;
}

function strokes(bits: ElementBits, layout: Layout, frame: number, side: string, end: string): number {
  const { width, height } = layout;
  const pixels = unpack(bits, layout, frame, false);
  const columns = new Array<number>(width).fill(0);
  const rows = new Array<number>(height).fill(0);
  for (let i = 0; i < pixels.length; i++) {
    if (pixels[i] === 0) continue;
    columns[i % width] = (columns[i % width] ?? 0) + 1;
    rows[Math.floor(i / width)] = (rows[Math.floor(i / width)] ?? 0) + 1;
  }
  const lit = (list: readonly number[]) => list.flatMap((n, i) => (n > 0 ? [i] : []));
  const fullest = (list: readonly number[]) => list.indexOf(Math.max(...list));
  const inRows = lit(rows);
  const inColumns = lit(columns);
  if (inRows.length < 3 || inColumns.length < 3) return 0;
  const bar = end === "top" ? (inRows[0] as number) : (inRows[inRows.length - 1] as number);
  const barRight = rows[bar] === Math.max(...rows) || fullest(rows) === bar;
  if (side === "") return barRight && (columns[inColumns[0] as number] as number) < Math.max(...columns) ? 1 : -1;
  const stem = fullest(columns) <= (inColumns[0] as number) + 1;
  return barRight && stem ? 1 : -1;
}
