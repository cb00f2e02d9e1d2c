/** Painting and what must hold of the text edits that it makes. */
import fc from "fast-check";
import { expect } from "vitest";
import type { PixelChange } from "../../shared/bitmap/edit.ts";
import type { Bitmap, BitmapFile } from "../../shared/bitmap/resolve.ts";
import { elementsOf } from "../../shared/bitmap/resolve.ts";
import { elementOfSlot, elementSpan } from "../../shared/source/arrays.ts";
import type { TextEdit } from "../../shared/source/text.ts";

/** Random numbers that become pixel changes of whatever bitmap is at hand. */
export const strokes = fc.array(fc.record({ frame: fc.nat(), x: fc.nat(), y: fc.nat(), value: fc.nat() }), {
  minLength: 1,
  maxLength: 20,
});

export function elementList(bitmap: Bitmap | undefined): bigint[] {
  return Array.from<number | bigint, bigint>((bitmap && elementsOf(bitmap)) ?? [], (v) => BigInt(v));
}

/** Values and spellings of every array but one must be the same in two versions of a file. */
export function expectOthersSame(before: BitmapFile, after: BitmapFile, but: number): void {
  const facts = (file: BitmapFile) =>
    file.source.arrays.flatMap((array, i) =>
      i === but
        ? []
        : [{ name: array.name, text: file.source.text.slice(array.declaration.start, array.declaration.end) }],
    );
  expect(facts(after)).toEqual(facts(before));
}

/** Where an offset of the old text stands in the new one. */
export function moved(edits: readonly TextEdit[], offset: number): number {
  let at = offset;
  for (const edit of edits) if (edit.end <= offset) at += edit.text.length - (edit.end - edit.start);
  return at;
}

/** The written element whose token is exactly this span; -1 for none. */
export function elementAt(bitmap: Bitmap, edit: TextEdit): number {
  for (let i = 0; i < bitmap.array.given; i++) {
    const span = elementSpan(bitmap.array, i);
    if (span.start === edit.start && span.end === edit.end) return i;
  }
  return -1;
}

/**
 * The edits without the spaces that a number in an aligned column takes from before it or gives back; edits of such
 * spaces alone are left out.
 */
export function withoutColumns(text: string, edits: readonly TextEdit[]): TextEdit[] {
  return edits.flatMap((edit) => {
    const before = text.slice(edit.start, edit.end);
    if (/^ *$/.test(before) && /^ *$/.test(edit.text)) return [];
    if (before === "") return [edit];
    const spaces = before.length - before.trimStart().length;
    return [{ start: edit.start + spaces, end: edit.end, text: edit.text.replace(/^ +/, "") }];
  });
}

/** Bits of each element that belong to the changed pixels. */
export function touchedBits(bitmap: Bitmap, changes: readonly PixelChange[]): Map<number, bigint> {
  const touched = new Map<number, bigint>();
  const { layout } = bitmap;
  if (!layout) return touched;
  const all = (1n << BigInt(layout.elementBits)) - 1n;
  for (const { frame, x, y } of changes) {
    const { element, shift } = layout.table(frame);
    const at = element[y * bitmap.width + x] as number;
    const mask =
      layout.alone && layout.format.kind !== "rgb"
        ? all
        : BigInt(layout.format.most) << BigInt(shift[y * bitmap.width + x] as number);
    const own = layout.span > 1 ? all : mask;
    for (let k = 0; k < layout.span; k++) touched.set(at + k, (touched.get(at + k) ?? 0n) | own);
  }
  return touched;
}

/** The token of each element by its flat index; undefined where nothing is written. */
export function tokensOf(text: string, bitmap: Bitmap): (string | undefined)[] {
  return Array.from({ length: bitmap.array.count }, (_, slot) => {
    const element = elementOfSlot(bitmap.array, slot);
    if (element < 0) return undefined;
    const span = elementSpan(bitmap.array, element);
    return text.slice(span.start, span.end);
  });
}
