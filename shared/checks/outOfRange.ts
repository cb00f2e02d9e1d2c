import type { Bitmap } from "../bitmap/resolve.ts";
import type { SourceArray } from "../source/arrays.ts";
import { elementSpan, elementValue, slotOf } from "../source/arrays.ts";
import { literalStyle } from "../source/literals.ts";
import { rewriteElements, spellIn } from "../source/rewrite.ts";
import { limits, stored } from "../source/types.ts";
import type { BitmapFinding, Rule } from "./rules.ts";
import { bitmapOf, MOST_FINDINGS, withRest } from "./rules.ts";

/** Values that the element type or the pixel format cannot hold. */
export const outOfRange: Rule = {
  codes: ["out-of-range"],
  doc: "A value does not fit in its element or in the pixel format: it would wrap around.",
  checkBitmap: (text, bitmap) => {
    const { array } = bitmap;
    if (array.readOnly !== undefined || !array.type || !array.list) return [];
    const range = rangeOf(bitmap);
    if (!range || isSafe(array, range)) return [];
    const findings: BitmapFinding[] = [];
    let more = 0;
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
  // Where a pixel has an element to itself the format may hold less than the element; any value but 0 is lit for mono.
  if (layout?.alone && layout.span === 1 && format.kind !== "mono" && BigInt(format.most) < type.most) {
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
