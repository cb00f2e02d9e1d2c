/** Drawings of a row in a comment beside it, such as `..##..`: kept up when pixels change, if they were right before. */
import { pixelOf } from "../pixels/picture.ts";
import { elementOfSlot, elementSpan, slotOf } from "../source/arrays.ts";
import {
  classOf,
  commentEnd,
  DIGIT,
  IDENT,
  identEnd,
  isComment,
  lineEnd,
  lineStart,
  numberEnd,
  quotedEnd,
} from "../source/scan.ts";
import type { TextEdit } from "../source/text.ts";
import type { Bitmap } from "./resolve.ts";
import { elementsOf } from "./resolve.ts";

const DARK = "._- 0";
const LIT = "#X@*O1xo+";

/** A row of a frame and the pixels of it that get a new value, by column. */
export interface ChangedRow {
  readonly frame: number;
  readonly y: number;
  readonly after: ReadonlyMap<number, number>;
}

/** Edits of the drawings of changed rows. A drawing that did not match its row before the change is left alone. */
export function drawingEdits(text: string, bitmap: Bitmap, rows: readonly ChangedRow[]): TextEdit[] {
  const { layout, width } = bitmap;
  const bits = elementsOf(bitmap);
  if (!layout || !bits || layout.driver || layout.lineElements === 0 || layout.lines !== layout.height) return [];
  const edits: TextEdit[] = [];
  for (const { frame, y, after } of rows) {
    const line = lineOfRow(text, bitmap, frame, y);
    const places = line ? drawingsOn(text, line.start, line.end, width) : [];
    if (places.length === 0) continue;
    const before = Array.from({ length: width }, (_, x) => pixelOf(bits, layout, frame, y * width + x, bitmap.invert));
    for (const place of places) {
      const symbols = symbolsOf(text, place, before);
      if (!symbols) continue;
      for (const [x, value] of after) {
        const lit = value > 0;
        if (lit === (before[x] as number) > 0) continue;
        const at = place.start + x * place.step;
        edits.push({ start: at, end: at + 1, text: lit ? symbols.lit : symbols.dark });
      }
    }
  }
  return edits;
}

/** The source line that holds the elements of a row and no others; undefined where there is none. */
function lineOfRow(text: string, bitmap: Bitmap, frame: number, y: number) {
  const { layout, width, array } = bitmap;
  if (!layout) return undefined;
  const { element } = layout.table(frame);
  let first = Number.POSITIVE_INFINITY;
  let last = -1;
  for (let x = 0; x < width; x++) {
    const slot = element[y * width + x] as number;
    first = Math.min(first, slot);
    last = Math.max(last, slot + layout.span - 1);
  }
  const from = elementOfSlot(array, first);
  const to = elementOfSlot(array, last);
  if (from < 0 || to < 0) return undefined;
  const start = lineStart(text, elementSpan(array, from).start);
  const end = lineEnd(text, start);
  if (elementSpan(array, to).end > end) return undefined;
  // Pixels of another row on the same line would make it unclear whose drawing it is.
  const place = (slot: number) => ((slot - layout.skip - layout.lead) % layout.frameElements) % layout.lineElements;
  const other = (at: number): boolean => {
    const slot = slotOf(array, at);
    const inFrame = (slot - layout.skip) % layout.frameElements;
    if ((slot >= first && slot <= last) || slot < layout.skip || slot >= layout.elements || inFrame < layout.lead)
      return false;
    return place(slot) >= place(first) && place(slot) <= place(last);
  };
  for (let i = from - 1; i >= 0 && elementSpan(array, i).end > start; i--) if (other(i)) return undefined;
  for (let i = to + 1; i < array.given && elementSpan(array, i).start < end; i++) if (other(i)) return undefined;
  return { start, end };
}

interface Place {
  readonly start: number;
  /** 1, or 2 where a space stands between the symbols. */
  readonly step: number;
}

function drawingsOn(text: string, start: number, end: number, width: number): Place[] {
  const places: Place[] = [];
  for (let i = start; i < end; ) {
    const c = text.charCodeAt(i);
    if (c === 34 || c === 39) {
      i = quotedEnd(text, i);
      continue;
    }
    // A digit separator is no quote.
    if (classOf(c) >= IDENT) {
      i = classOf(c) === DIGIT ? numberEnd(text, i) : identEnd(text, i);
      continue;
    }
    if (c !== 47 || !isComment(text, i)) {
      i++;
      continue;
    }
    const block = text.charCodeAt(i + 1) === 42;
    const close = Math.min(commentEnd(text, i), end);
    const from = i + 2;
    const to = block ? close - 2 : close;
    i = close;
    const inside = text.slice(from, to);
    const lead = inside.length - inside.trimStart().length;
    const trimmed = inside.trim();
    // Spaces may be dark pixels: then only the whole inside, perhaps with one space at each end, has the right length.
    if (inside.length === width && (block || lead === 0)) places.push({ start: from, step: 1 });
    else if (inside.length === width + 2 && inside.startsWith(" ") && inside.endsWith(" "))
      places.push({ start: from + 1, step: 1 });
    else if (trimmed.length === width) places.push({ start: from + lead, step: 1 });
    else if (trimmed.length === 2 * width - 1 && /^(?:\S )*\S$/.test(trimmed))
      places.push({ start: from + lead, step: 2 });
  }
  return places;
}

/** The symbols for lit and dark, if the drawing shows the row as it is. */
function symbolsOf(text: string, place: Place, row: ArrayLike<number>): { lit: string; dark: string } | undefined {
  let lit: string | undefined;
  let dark: string | undefined;
  for (let x = 0; x < row.length; x++) {
    const symbol = text[place.start + x * place.step] as string;
    if ((row[x] as number) > 0) {
      if (lit !== undefined && lit !== symbol) return undefined;
      lit = symbol;
    } else {
      if (dark !== undefined && dark !== symbol) return undefined;
      dark = symbol;
    }
  }
  // Symbols are ones that people draw with, or any word of two letters would do.
  if (dark === undefined && lit !== undefined) return LIT.includes(lit) ? { lit, dark: "." } : undefined;
  if (dark === undefined || !DARK.includes(dark)) return undefined;
  if (lit === undefined) return dark === " " ? undefined : { lit: "#", dark };
  return lit === dark ? undefined : { lit, dark };
}
