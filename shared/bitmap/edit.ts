/** Pixel changes to text edits, and bitmaps found again in a text that has changed. */
import { pixelOf, setPixel } from "../pixels/picture.ts";
import type { SourceArray } from "../source/arrays.ts";
import type { ElementChange, Rewrite, Spacing } from "../source/rewrite.ts";
import { rewriteElements } from "../source/rewrite.ts";
import type { TextEdit } from "../source/text.ts";
import type { ChangedRow } from "./drawings.ts";
import { drawingEdits } from "./drawings.ts";
import type { Bitmap, BitmapFile } from "./resolve.ts";
import { elementsOf } from "./resolve.ts";

/** A new raw value for one pixel; `before` is the value that the painter saw. */
export interface PixelChange {
  readonly frame: number;
  readonly x: number;
  readonly y: number;
  readonly value: number;
  readonly before?: number;
}

/** What a bitmap is found by when the text has moved on: its name, which of that name, and its structure. */
export interface BitmapIdentity {
  readonly name: string;
  readonly ordinal: number;
  readonly siblings: number;
  readonly structure: string;
}

export function identityOf(bitmap: Bitmap): BitmapIdentity {
  const { array, width, height, frames, format, layout } = bitmap;
  const packing = layout
    ? [
        layout.pack,
        layout.bits,
        layout.pad,
        layout.spare,
        layout.bytes,
        layout.scan,
        layout.from,
        layout.skip,
        layout.lead,
        ...(layout.driver ? [layout.driver.key] : []),
      ]
    : [];
  const structure = [width, height, frames, format.name, bitmap.invert, array.type?.bits, array.count, ...packing];
  return { name: array.name, ordinal: array.ordinal, siblings: array.siblings, structure: structure.join(" ") };
}

/** The bitmap of that identity in a (newer) text, or why it is not surely the same. */
export function findBitmap(file: BitmapFile, identity: BitmapIdentity): Bitmap | { readonly refused: string } {
  const { name } = identity;
  const named = file.bitmaps.filter((b) => b.array.name === name);
  if (named.length === 0) return { refused: `${name} is no longer there` };
  const found = sameIn(file, identity);
  if (!found || found.array.siblings !== identity.siblings) {
    return {
      refused: `there are now ${found?.array.siblings ?? named.length} arrays named ${name}, and it is not clear which was meant`,
    };
  }
  if (identityOf(found).structure !== identity.structure) return { refused: `${name} has changed its shape` };
  return found;
}

/** The bitmap of that name, and of those the same one, in another reading of its file. */
export function sameIn(
  { bitmaps }: Pick<BitmapFile, "bitmaps">,
  { name, ordinal }: Pick<BitmapIdentity, "name" | "ordinal">,
): Bitmap | undefined {
  return bitmaps.find((b) => b.array.name === name && b.array.ordinal === ordinal);
}

/** The edits of an array, or of all arrays that a table of pointers leads to. */
function rewriteParts(
  text: string,
  array: SourceArray,
  changes: readonly ElementChange[],
  perLine: number,
  spacing: Spacing,
): Rewrite {
  const { parts } = array;
  if (!parts) return rewriteElements(text, array, changes, perLine, spacing);
  const each = array.count / parts.length;
  // A part that the table names twice has one set of values: the last change counts.
  const byPart = new Map<SourceArray, Map<number, bigint>>();
  for (const { slot, bits } of changes) {
    const part = parts[Math.floor(slot / each)] as SourceArray;
    byPart.set(part, (byPart.get(part) ?? new Map<number, bigint>()).set(slot % each, bits));
  }
  const edits: TextEdit[] = [];
  for (const [part, slots] of byPart) {
    const wanted = [...slots].map(([slot, bits]): ElementChange => ({ slot, bits }));
    const rewritten = rewriteElements(text, part, wanted, perLine, spacing);
    if ("refused" in rewritten) return rewritten;
    edits.push(...rewritten.edits);
  }
  return { edits };
}

/**
 * Text edits that give pixels new values: only the literals whose value changes, and drawings of their rows in
 * comments. Refused as a whole where the bitmap can't be edited, a pixel lies outside it or its array, a value is not
 * one of the format, or a pixel no longer has the value that the painter saw.
 */
export function editPixels(
  text: string,
  bitmap: Bitmap,
  changes: readonly PixelChange[],
  spacing: Spacing = "columns",
): Rewrite {
  const { layout, array, width, height, format } = bitmap;
  const bits = elementsOf(bitmap);
  if (bitmap.why !== undefined || !layout || !bits)
    return { refused: `${array.name} can't be edited: ${bitmap.why ?? "it has no picture"}` };
  const elements = new Map<number, bigint>();
  const rows = new Map<string, { frame: number; y: number; after: Map<number, number> }>();
  const read = (element: number) => elements.get(element) ?? BigInt(bits[element] ?? 0);
  let missing = -1;
  const write = (element: number, value: bigint) => {
    if (element >= array.count) missing = element;
    elements.set(element, value);
  };
  for (const { frame, x, y, value, before } of changes) {
    const whole = [frame, x, y, value].every(Number.isInteger);
    if (!whole || x < 0 || y < 0 || x >= width || y >= height || frame < 0 || frame >= bitmap.frames) {
      return { refused: `${array.name} has no pixel ${x},${y} in frame ${frame}` };
    }
    if (value < 0 || value > format.most) return { refused: `${value} is not a value of ${format.name}` };
    if (before !== undefined && pixelOf(bits, layout, frame, y * width + x, bitmap.invert) !== before) {
      return { refused: `pixel ${x},${y} of ${array.name} was changed meanwhile` };
    }
    setPixel(layout, frame, y * width + x, value, bitmap.invert, read, write);
    if (missing >= 0)
      return { refused: `pixel ${x},${y} lies after the end of ${array.name}, which has ${array.count} elements` };
    const key = `${frame} ${y}`;
    const row = rows.get(key) ?? { frame, y, after: new Map<number, number>() };
    row.after.set(x, value);
    rows.set(key, row);
  }
  const wanted: ElementChange[] = [...elements].map(([slot, value]) => ({ slot, bits: value }));
  const rewritten = rewriteParts(text, array, wanted, layout.lineElements || 16, spacing);
  if ("refused" in rewritten) return rewritten;
  const changed: ChangedRow[] = [...rows.values()];
  const edits = [...rewritten.edits, ...drawingEdits(text, bitmap, changed)].sort((a, b) => a.start - b.start);
  return { edits };
}
