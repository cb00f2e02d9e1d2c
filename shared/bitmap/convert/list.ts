/** The numbers of a converted array: changed in their places where they stay there, else the list written anew. */
import type { Layout } from "../../pixels/layout.ts";
import { isWhole } from "../../pixels/layout.ts";
import type { Options } from "../../pixels/options.ts";
import type { Pixels } from "../../pixels/picture.ts";
import { setPixel } from "../../pixels/picture.ts";
import type { ElementLine } from "../../source/emit.ts";
import type { LiteralStyle } from "../../source/literals.ts";
import { rewriteElements } from "../../source/rewrite.ts";
import { indentAt } from "../../source/scan.ts";
import type { TextEdit } from "../../source/text.ts";
import { eolOf } from "../../source/text.ts";
import type { IntType } from "../../source/types.ts";
import { bodyStyle, defaultLiteral } from "../house.ts";
import type { ListStyle } from "../make.ts";
import { emitValues, linesOf, spellElement } from "../make.ts";
import { innerOf } from "./declared.ts";
import { braced, wrapOf, wrapped } from "./lines.ts";
import { lossOf } from "./loss.ts";
import { indentOf, literalOf } from "./setting.ts";
import type { Refused, Subject } from "./subject.ts";

/** The elements of pixels in a layout; `before` gives those that hold no pixels. */
export function elementsFor(
  layout: Layout,
  invert: boolean,
  frames: readonly Pixels[],
  before: ArrayLike<number | bigint> | undefined,
): BigUint64Array {
  const out = new BigUint64Array(layout.elements);
  const read = (element: number) => out[element] as bigint;
  const write = (element: number, bits: bigint) => {
    out[element] = BigInt.asUintN(layout.elementBits, bits);
  };
  frames.forEach((pixels, frame) => {
    for (let i = 0; i < pixels.length; i++) setPixel(layout, frame, i, pixels[i] as number, invert, read, write);
  });
  const keep = (from: number, to: number) => {
    for (let i = from; i < to; i++) out[i] = BigInt(before?.[i] ?? 0);
  };
  keep(0, layout.skip);
  if (layout.frameElements > 0)
    frames.forEach((_, frame) => {
      const start = layout.skip + frame * layout.frameElements;
      keep(start, start + layout.lead);
    });
  return out;
}

/** Whether every pixel stays in its element, so that the list stays as it is laid out. */
export function keepsPlaces(a: Layout, b: Layout): boolean {
  const same: readonly (keyof Layout)[] = [
    "width",
    "height",
    "frames",
    "elementBits",
    "elements",
    "frameElements",
    "lineElements",
    "lines",
    "alone",
    "span",
    "scan",
    "pad",
    "skip",
    "lead",
  ];
  if (same.some((key) => a[key] !== b[key]) || a.driver?.key !== b.driver?.key) return false;
  return a.alone || (a.format.depth === b.format.depth && a.pack === b.pack);
}

/** Edits of numbers in their places. */
export function inPlace(s: Subject, values: BigUint64Array): TextEdit[] | Refused {
  const { skip, lead, frameElements } = s.layout;
  const changes = Array.from(values, (bits, slot) => ({ slot, bits })).filter(({ slot, bits }) => {
    const held = slot >= skip && (frameElements === 0 || (slot - skip) % frameElements >= lead);
    return held && BigInt(s.elements[slot] as number | bigint) !== bits;
  });
  const rewritten = rewriteElements(s.text, s.array, changes, s.layout.lineElements || 16);
  return "refused" in rewritten ? rewritten : rewritten.edits;
}

/** Why the list can't be written anew; undefined where it can. Cheap. */
export function anewRefused(s: Subject): string | undefined {
  const { array } = s;
  if (array.dimensions.length !== 1 && !innerOf(s)) return `${array.name} has ${array.dimensions.length} dimensions`;
  return listRefused(s);
}

/** Why numbers of the list can't be added, taken away or moved; undefined where they can. Cheap. */
export function listRefused(s: Subject): string | undefined {
  const { array, layout, text, bitmap, file } = s;
  if (array.list?.nodes.some((n) => n.quoted !== undefined)) return `${array.name} is a string`;
  if (array.count > layout.elements) return `${array.name} has more elements than its picture`;
  if (lossOf(s).conditions) return "preprocessor lines stand in its list";
  const own = bitmap.annotation?.comment.start ?? -1;
  const others = file.source.annotations.some(
    ({ comment }) => comment.start !== own && comment.start > s.open && comment.start < s.end,
  );
  if (others) return "another annotation stands in its list";
  if (own > s.open && !/^\s*$/.test(text.slice(s.open + 1, own))) return "its annotation stands among its numbers";
  return undefined;
}

/** What the list is to hold. */
export interface Content {
  readonly layout: Layout;
  readonly options: Options;
  readonly type: IntType;
  readonly values: BigUint64Array;
  /** Elements of each inner list, where the list holds such. */
  readonly inner?: number | undefined;
  /** All numbers that stand in the same columns, where there are more. */
  readonly columns?: BigUint64Array;
}

/** The edit that writes the whole list anew, a line of pixels to a line of the source. */
export function anew(s: Subject, content: Content, named = lossOf(s).named): TextEdit[] | Refused {
  const why = anewRefused(s);
  if (why !== undefined) return { refused: why };
  const { text, bitmap, open, end } = s;
  const own = bitmap.annotation?.comment;
  const inside = own && own.start > open && own.end < end;
  const start = inside ? own.end : open + 1;
  const body = listText(s, content, named);
  const single = !inside && body.single !== undefined && isOneLine(s);
  if (single) {
    const [lead = ""] = /^[ \t]*/.exec(text.slice(open + 1, end)) ?? [];
    const [tail = ""] = /[ \t]*$/.exec(text.slice(open + 1, end - 1)) ?? [];
    return [{ start, end: end - 1, text: lead + body.single + tail }];
  }
  const eol = listEol(s);
  return [{ start, end: end - 1, text: `${eol}${body.lines}${eol}${indentAt(text, open)}` }];
}

/** Whether the list stands on one line. */
export function isOneLine({ text, open, end }: Subject): boolean {
  return !/[\r\n]/.test(text.slice(open, end));
}

/** The line break of the list, else of the file. */
export function listEol({ text, open, end }: Pick<Subject, "text" | "open" | "end">): string {
  const inside = text.slice(open, end);
  return /[\r\n]/.test(inside) ? eolOf(inside) : eolOf(text);
}

/** The numbers as lines, and as one line where they are one line of pixels. */
export function listText(
  s: Subject,
  { layout, options, type, values, inner, columns = values }: Content,
  named: boolean,
): { readonly lines: string; readonly single: string | undefined } {
  const style = styleFor(s, layout, type, columns);
  const rows = braced(wrapped(linesOf(layout, options, named), wrapOf(s)), inner);
  const bits = (element: number) => values[element] as bigint;
  const lines = emitValues(rows, style, indentAt(s.text, s.open), listEol(s), bits);
  const [only, ...more] = rows;
  const bare: readonly ElementLine[] = only && more.length === 0 ? [only] : [];
  const single = bare.length === 1 ? emitValues(bare, { ...style, indent: "" }, "", "", bits) : undefined;
  return { lines, single };
}

/** The array's own style, for elements of another width or meaning. */
function styleFor(s: Subject, layout: Layout, type: IntType, values: BigUint64Array): ListStyle {
  const own = bodyStyle(s.text, s.bitmap);
  const before = literalOf(s);
  const literal = literalFor(s, before, layout, type);
  const columns = literal.base === 10 && isWhole(layout.format, layout.pack);
  const wasDecimal = before?.base === 10 && isWhole(s.layout.format, s.layout.pack);
  let width = 0;
  if (columns && (wasDecimal ? own?.padded : true))
    for (const bits of values) width = Math.max(width, spellElement(literal, bits, type).length);
  const indent = indentOf(s, indentAt(s.text, s.open));
  return { type, literal, width, indent, trailing: own?.trailing ?? false };
}

/** Packed bits and colours are not written in decimal where levels were, nor levels in binary. */
function literalFor(s: Subject, own: LiteralStyle | undefined, layout: Layout, type: IntType): LiteralStyle {
  const isLevels = (l: Layout) => isWhole(l.format, l.pack) && l.format.kind !== "rgb";
  const same = isLevels(s.layout) === isLevels(layout) && (own?.base !== 2 || layout.format.kind !== "rgb");
  if (own && own.base !== 8 && (own.base === 16 || same)) return scaled(own, s.type.bits, type.bits);
  return defaultLiteral(layout, type.bits, own);
}

/** Literals of full width stay so in elements of another width. */
function scaled(literal: LiteralStyle, from: number, to: number): LiteralStyle {
  if (literal.base === 10) return { ...literal, digits: "0" };
  const full = (bits: number) => (literal.base === 16 ? bits / 4 : bits);
  const prefix = literal.prefix === "B" && to > 8 ? "0b" : literal.prefix;
  const digits = literal.digits.replaceAll("'", "").length === full(from) ? "0".repeat(full(to)) : literal.digits;
  return { ...literal, prefix, digits: /[a-f]/i.test(digits) ? "0".repeat(digits.length) : digits };
}
