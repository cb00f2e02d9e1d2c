import type { Bitmap } from "../bitmap/resolve.ts";
import { pixelsOf } from "../bitmap/resolve.ts";
import type { SourceArray } from "../source/arrays.ts";
import { elementOfSlot, elementSpan, elementValue, slotOf } from "../source/arrays.ts";
import { literalStyle } from "../source/literals.ts";
import { rewriteElements, spellIn } from "../source/rewrite.ts";
import { limits, stored } from "../source/types.ts";
import type { BitmapFinding, Rule } from "./rules.ts";
import { bitmapOf, counted, MOST_FINDINGS, withRest } from "./rules.ts";

/** Values that the element type or the pixel format cannot hold, and indices that the palette has no colour for. */
export const outOfRange: Rule = {
  codes: ["out-of-range"],
  doc: "A value does not fit in its element or in the pixel format: it would wrap around, or name no colour.",
  checkBitmap: (text, bitmap) => {
    const { array } = bitmap;
    if (array.readOnly !== undefined || !array.type || !array.list) return [];
    const range = rangeOf(bitmap);
    const { findings, more: unnamed } = beyondPalette(bitmap);
    if (!range || isSafe(array, range)) return withRest(findings, unnamed);
    let more = unnamed;
    for (let i = 0; i < array.given; i++) {
      const value = elementValue(array, i);
      if ((value >= range.least && value <= range.most) || isPattern(text, array, i, value)) continue;
      if (bitmap.layout && slotOf(array, i) < bitmap.layout.skip) continue;
      if (findings.length >= MOST_FINDINGS) {
        more++;
        continue;
      }
      const message = `${value} is outside ${range.least} to ${range.most}, what ${range.what} holds${range.wraps ? `; the compiler stores ${stored(value, array.type)} or refuses it` : ""}.`;
      findings.push({
        code: "out-of-range",
        severity: "error",
        message,
        span: elementSpan(array, i),
        data: { element: i },
      });
    }
    return withRest(findings, more);
  },
  fixes: (file, finding) => {
    const bitmap = bitmapOf(file, finding);
    const element = finding.data.element;
    const range = bitmap && rangeOf(bitmap);
    const type = bitmap?.array.type;
    if (!bitmap || !type || !range || typeof element !== "number") return [];
    const { array } = bitmap;
    const clamped = clamp(elementValue(array, element), range);
    const slot = slotOf(array, element);
    // The stored value may equal the clamped one after wrapping, so the token is always rewritten.
    const style = literalStyle(file.source.text.slice(finding.span.start, finding.span.end));
    const one = style ? [{ ...finding.span, text: spellIn(style, clamped, type) }] : [];
    const rewritten =
      slot < 0
        ? { edits: one }
        : rewriteElements(file.source.text, array, [{ slot, bits: BigInt.asUintN(64, clamped) }]);
    const edits = "edits" in rewritten && rewritten.edits.length > 0 ? rewritten.edits : one;
    return edits.length === 0 ? [] : [{ kind: "clamp", title: `Clamp to ${clamped}`, edits, preferred: true }];
  },
};

/** Indices without a colour: one finding for each element that holds some. */
function beyondPalette(bitmap: Bitmap): { readonly findings: BitmapFinding[]; readonly more: number } {
  const { array, palette, layout, format, width } = bitmap;
  const findings: BitmapFinding[] = [];
  const colours = palette?.colours.length ?? 0;
  if (!palette || !layout || colours > format.most) return { findings, more: 0 };
  const seen = new Set<number>();
  for (let frame = 0; frame < bitmap.frames; frame++) {
    const pixels = pixelsOf(bitmap, frame);
    if (!pixels) break;
    const { element } = layout.table(frame);
    for (let i = 0; i < pixels.length; i++) {
      const index = pixels[i] as number;
      const slot = element[i] as number;
      if (index < colours || seen.has(slot)) continue;
      seen.add(slot);
      if (findings.length >= MOST_FINDINGS) continue;
      const at = elementOfSlot(array, slot);
      const place = `${i % width},${Math.floor(i / width)}${bitmap.frames > 1 ? ` in frame ${frame}` : ""}`;
      findings.push({
        code: "out-of-range",
        severity: "error",
        message: `Pixel ${place} is index ${index}, but the palette ${palette.name} has ${counted(colours, "colour")}, from 0 to ${colours - 1}.`,
        // An inverted pixel may have a high index where nothing is written.
        span: at < 0 ? array.nameSpan : elementSpan(array, at),
        data: {},
      });
    }
  }
  return { findings, more: seen.size - findings.length };
}

interface Range {
  readonly least: bigint;
  readonly most: bigint;
  readonly what: string;
  readonly wraps: boolean;
}

function rangeOf(bitmap: Bitmap): Range | undefined {
  const { array, format, layout } = bitmap;
  if (!array.type) return undefined;
  const type = limits(array.type);
  const words = `an ${array.type.signed ? "" : "unsigned "}${array.type.bits}-bit element`;
  // Where a pixel has an element to itself the format may hold less than the element; any value but 0 is lit for mono,
  // and what stands beside a colour is the business of `padding-bits`.
  const counts = format.kind === "gray" || format.kind === "palette";
  if (layout?.alone && layout.span === 1 && counts && BigInt(format.most) < type.most) {
    return { least: 0n, most: BigInt(format.most), what: format.name, wraps: false };
  }
  return { ...type, what: array.type.truth ? "a bool" : words, wraps: true };
}

/** Quick test over the typed values, so that correct arrays cost one pass. */
function isSafe(array: SourceArray, range: Range): boolean {
  const list = array.list;
  const node = list?.nodes[array.node];
  if (!list || !node || list.wide.size > 0) return false;
  const [least, most] = [Number(range.least), Number(range.most)];
  for (let i = array.first; i < array.first + array.given; i++) {
    const value = list.values[i] as number;
    if (value < least || value > most) return false;
  }
  return true;
}

/** In signed elements a hexadecimal, binary or octal literal gives the bits, not the number (as XBM files do). */
function isPattern(text: string, array: SourceArray, index: number, value: bigint): boolean {
  if (!array.type?.signed || value < 0n || value >= 1n << BigInt(array.type.bits)) return false;
  const span = elementSpan(array, index);
  const before = text.slice(span.start, span.end);
  // An escape or a character of a string gives a code unit, whose sign is that of the element.
  if (/^[^ -[\]-~]/.test(before)) return true;
  const style = literalStyle(before);
  return style !== undefined && style.base !== 10;
}

function clamp(value: bigint, range: Range): bigint {
  return value < range.least ? range.least : value > range.most ? range.most : value;
}
