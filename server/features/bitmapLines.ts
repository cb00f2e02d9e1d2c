/** What some lines of a document hold of a bitmap: its numbers with their light, its zero-filled ends and its rows. */
import type { Bitmap } from "../../shared/bitmap/resolve.ts";
import { levelOf, rgbOf } from "../../shared/pixels/colour.ts";
import type { BitmapLines, NumbersOfLine } from "../../shared/protocol/lsp.ts";
import type { Initialiser, ListNode } from "../../shared/source/initialiser.ts";
import type { Parsed } from "../documents.ts";
import { visitPixels } from "./elementPixels.ts";
import { rowsEnding } from "./rowsOf.ts";
import { slotsOf, writtenAt } from "./written.ts";

/** Editors do not draw a line beyond about this column, so numbers further right are left out. */
const LAST_COLUMN = 10_000;

/** `first` to `last` count from 0, both inclusive. Costs what the elements on these lines and their frames hold. */
export function bitmapLines(
  { document }: Parsed,
  bitmap: Bitmap,
  [wanted, last]: readonly [number, number],
  rows: boolean,
): BitmapLines {
  const { array } = bitmap;
  if (!array.list) return { numbers: [], zeros: [] };
  const first = Math.max(0, wanted);
  const start = document.offsetAt({ line: first, character: 0 });
  const end = document.offsetAt({ line: last + 1, character: 0 });
  const { firstElement, endElement } = array.list.nodes[array.node] as ListNode;
  const from = firstAt(array.list, firstElement, endElement, start - array.base);
  const to = firstAt(array.list, from, endElement, end - array.base);
  const zeros = new Map<number, number>();
  for (const gap of array.gaps) {
    // A gap between designators ends at no brace.
    const node: ListNode | undefined = array.list.nodes[gap.node];
    if (!node) continue;
    const close = array.base + node.close;
    if (close >= start && close < end) zeros.set(close, (zeros.get(close) ?? 0) + gap.to - gap.from);
  }
  const held = light(bitmap, from - firstElement, to - firstElement);
  return {
    numbers: numbers(),
    zeros: [...zeros].map(([offset, count]) => ({ ...document.positionAt(offset), count })),
    ...(rows ? { rows: rowsEnding(document, bitmap, from - firstElement, to - firstElement) } : {}),
  };

  function numbers(): NumbersOfLine[] {
    const out: NumbersOfLine[] = [];
    const { starts, lengths } = array.list as Initialiser;
    let line = first;
    let lineStart = start;
    let nextLine = document.offsetAt({ line: line + 1, character: 0 });
    let own: number[] = [];
    for (let i = from; i < to; i++) {
      const mean = held.mean[i - from] as number;
      if (Number.isNaN(mean)) continue;
      const offset = array.base + (starts[i] as number);
      // Elements come in order of the text, so their lines need no search.
      while (offset >= nextLine) {
        line++;
        lineStart = nextLine;
        nextLine = document.offsetAt({ line: line + 1, character: 0 });
      }
      const column = offset - lineStart;
      if (column > LAST_COLUMN) continue;
      if (out[out.length - 1]?.line !== line) {
        own = [];
        out.push({ line, numbers: own });
      }
      const length = Math.min(lengths[i] as number, nextLine - offset);
      own.push(column, length, mean, held.most[i - from] as number);
    }
    return out;
  }
}

/**
 * Mean and highest value of the pixels of written elements; of colours the mean of each channel as 0xRRGGBB, and the
 * highest level. The mean of an element without pixels is not a number.
 */
function light(bitmap: Bitmap, from: number, to: number): { mean: Float64Array; most: Uint32Array } {
  const mean = new Float64Array(to - from);
  const most = new Uint32Array(to - from);
  const pixels = new Uint32Array(to - from);
  const { array, format, palette } = bitmap;
  const coloured = format.kind === "rgb" || format.kind === "palette";
  const colours = palette?.colours;
  const sums = new Float64Array(coloured ? 3 * (to - from) : 0);
  const slots = slotsOf(array, from, to);
  const indexOf = writtenAt(array);
  if (slots)
    visitPixels(bitmap, slots[0], slots[1] + 1, (slot, _frame, _pixel, value) => {
      const at = indexOf(slot) - from;
      if (at < 0 || at >= pixels.length) return;
      pixels[at] = (pixels[at] as number) + 1;
      const level = coloured ? levelOf(format, value, colours) : value;
      if (level > (most[at] as number)) most[at] = level;
      if (!coloured) mean[at] = (mean[at] as number) + value;
      else {
        const rgb = rgbOf(format, value, colours);
        for (let c = 0; c < 3; c++) sums[3 * at + c] = (sums[3 * at + c] as number) + ((rgb >> (16 - 8 * c)) & 255);
      }
    });
  for (let at = 0; at < mean.length; at++) {
    const count = pixels[at] as number;
    if (!coloured || count === 0) mean[at] = (mean[at] as number) / count;
    else {
      const channel = (c: number) => Math.round((sums[3 * at + c] as number) / count);
      mean[at] = channel(0) * 65536 + channel(1) * 256 + channel(2);
    }
  }
  return { mean, most };
}

/** The first element from `low` up to `high` that begins at an offset or after it; `high` where none does. */
function firstAt({ starts }: Initialiser, low: number, high: number, offset: number): number {
  let from = low;
  let to = high;
  while (from < to) {
    const middle = (from + to) >> 1;
    if ((starts[middle] as number) < offset) from = middle + 1;
    else to = middle;
  }
  return from;
}
