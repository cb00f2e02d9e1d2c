/** What is converted: one array that stands for itself, with all that the conversions look at. */
import type { Layout } from "../../pixels/layout.ts";
import type { Pixels } from "../../pixels/picture.ts";
import { strayBits } from "../../pixels/picture.ts";
import type { SourceArray } from "../../source/arrays.ts";
import type { ListNode } from "../../source/initialiser.ts";
import type { IntType } from "../../source/types.ts";
import type { Declaration } from "../declaration.ts";
import { declarationOf } from "../declaration.ts";
import type { Bitmap, BitmapFile } from "../resolve.ts";
import { bitmapWith, elementsOf, pixelsOf } from "../resolve.ts";

export interface Subject {
  readonly file: BitmapFile;
  readonly text: string;
  readonly bitmap: Bitmap;
  readonly array: SourceArray;
  readonly type: IntType;
  readonly layout: Layout;
  /** Elements as unsigned bit patterns. */
  readonly elements: ArrayLike<number | bigint>;
  /** undefined where its statement declares more than this array. */
  readonly declaration: Declaration | undefined;
  /** Its list, from the brace to after the closing one. */
  readonly open: number;
  readonly end: number;
}

export type Refused = { readonly refused: string };

/** More pixels than that are not converted: 262,144. */
const MOST_PIXELS = 1 << 18;

/**
 * undefined for what can't be converted: arrays that can't be written or lack pixels, rows of arrays, members of
 * structs, and annotations that speak of several arrays.
 */
export function subjectOf(file: BitmapFile, bitmap: Bitmap): Subject | undefined {
  const s = subjectOrWhy(file, bitmap);
  return "refused" in s ? undefined : s;
}

/** The same, with the reason in words. `most` are the pixels that it may have. */
export function subjectOrWhy(file: BitmapFile, bitmap: Bitmap, most = MOST_PIXELS): Subject | Refused {
  const why = whyNot(bitmap, most);
  if (why !== undefined) return { refused: `${bitmap.array.name} ${why}` };
  const { array, layout } = bitmap;
  const elements = elementsOf(bitmap);
  const { list, type } = array;
  if (!elements || !list || !type || !layout) return { refused: `${array.name} has no picture` };
  const { text } = file.source;
  const { open } = list.nodes[0] as ListNode;
  return {
    file,
    text,
    bitmap,
    array,
    type,
    layout,
    elements,
    declaration: declarationOf(text, array),
    open: array.base + open,
    end: array.base + list.length,
  };
}

function whyNot(bitmap: Bitmap, most: number): string | undefined {
  const { array, annotation, layout } = bitmap;
  const { list, type } = array;
  const unknown = array.readOnly ?? array.fixed ?? bitmap.why;
  if (unknown !== undefined) return `can't be written: ${unknown}`;
  if (array.parts || array.pointers) return "is a table of pointers";
  if (!list?.closed || !type || !layout) return "is no closed list of numbers";
  if (type.truth) return "holds truth values";
  if (array.count < layout.elements || array.excess > 0)
    return `has ${array.count + array.excess} elements where its picture needs ${layout.elements}`;
  if (array.node !== 0 || array.elided || array.nameSpan.end > array.base) return "is part of a larger initialiser";
  if (annotation && (annotation.arrays.length !== 1 || bitmap.options.entries || !/^\w+$/.test(array.name)))
    return "is annotated together with others";
  if (bitmap.width * bitmap.height * bitmap.frames > most) return `has more than ${most} pixels`;
  return undefined;
}

/** All frames of it; each is read once. */
export function framesOf({ bitmap }: Subject): Pixels[] {
  return Array.from({ length: bitmap.frames }, (_, frame) => pixelsOf(bitmap, frame) as Pixels);
}

/** What other words would make of the array with elements of another width; undefined where they make nothing. */
export function meant({ file, array, type }: Subject, words: string, bits: IntType["bits"]): Bitmap | undefined {
  // Its values are not looked at: they are those of the old words.
  const asked = { ...array, type: { ...type, bits }, readOnly: "" };
  const bitmap = bitmapWith(words, asked, file);
  return bitmap?.layout ? bitmap : undefined;
}

/** Why its elements can't be computed anew from its pixels; undefined where nothing would be lost. */
export function recodeRefused({ layout, bitmap, elements }: Subject): string | undefined {
  if (layout.frameElements === 0 && layout.lead > 0)
    return "what leads its frames does not stand in elements of its own";
  if (layout.driver && unlit(layout, elements))
    return `addresses of the driver that no pixel of ${bitmap.panel?.name} has are in use`;
  const beside = layout.alone && layout.format.kind === "rgb" && layout.format.depth < layout.elementBits;
  if (beside && strayBits(elements as Uint32Array, layout).length > 0)
    return `the bits beside the colours of ${bitmap.array.name} are in use`;
  return undefined;
}

/** Whether a number in driver order is not 0 though it holds no pixel: another order would lose it. */
function unlit(layout: Layout, elements: ArrayLike<number | bigint>): boolean {
  const held = new Set<number>();
  for (let frame = 0; frame < layout.frames; frame++)
    for (const at of layout.table(frame).element) for (let k = 0; k < layout.span; k++) held.add(at + k);
  for (let at = layout.skip; at < layout.elements; at++) {
    const leads = layout.frameElements > 0 && (at - layout.skip) % layout.frameElements < layout.lead;
    if (!leads && !held.has(at) && BigInt(elements[at] ?? 0) !== 0n) return true;
  }
  return false;
}
