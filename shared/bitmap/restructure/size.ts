/** Columns and rows added or cut off at the sides of a picture, in all its frames. */
import type { Layout } from "../../pixels/layout.ts";
import type { Pixels } from "../../pixels/picture.ts";
import type { TextEdit } from "../../source/text.ts";
import { anew, elementsFor, listRefused } from "../convert/list.ts";
import { lossOf } from "../convert/loss.ts";
import { bracesOf } from "../convert/plan.ts";
import type { Refused, Subject } from "../convert/subject.ts";
import { framesOf, meant, recodeRefused } from "../convert/subject.ts";
import { expectedAs } from "../convert/verify.ts";
import { changeWords } from "../convert/words.ts";
import type { Restructured, SizeChange } from "./change.ts";
import { MOST_PIXELS } from "./change.ts";
import { linesMoved } from "./lines.ts";
import { declaredEdits, sizeEdits } from "./sizes.ts";
import { stays } from "./trimmed.ts";

const MOST_SIDE = 65_535;

export function sizeBuilt(s: Subject, change: SizeChange): Restructured | Refused {
  const { bitmap, array, text } = s;
  const { left, top, right, bottom } = change;
  const width = bitmap.width + left + right;
  const height = bitmap.height + top + bottom;
  const wrong = sizeRefused(s, change, width, height) ?? listRefused(s) ?? recodeRefused(s);
  if (wrong !== undefined) return { refused: wrong };
  const xbm = bitmap.annotation === undefined;
  const words = changeWords(text, bitmap, new Map([["size", `${width}x${height}`]]));
  const now = meant(s, xbm ? `${width}x${height} mono1 bits=lsb` : words.words, s.type.bits);
  if (!now?.layout) return { refused: `${array.name} can't be ${width}x${height}` };
  const frames = framesOf(s).map((pixels) => moved(pixels, bitmap.width, bitmap.height, change));
  const values = valuesOf(s, now.layout, now.invert, frames);
  const list = listEdits(s, change, now.layout, values, bracesOf(s, now.layout));
  if ("refused" in list) return list;
  const sizes = declaredEdits(s, now.layout);
  if ("refused" in sizes) return sizes;
  const defines = xbm ? definedSizes(s, width, height) : [];
  if ("refused" in defines) return defines;
  const edits = [...words.edits, ...defines, ...sizes, ...list];
  return {
    edits: edits.sort((a, b) => a.start - b.start || a.end - b.end),
    expected: [expectedAs(array, now, s.type.bits, frames)],
    ...(bitmap.widths ? { widths: bitmap.widths } : {}),
  };
}

function sizeRefused({ bitmap }: Subject, change: SizeChange, width: number, height: number): string | undefined {
  const { array, panel, widths, frames } = bitmap;
  const { left, top, right, bottom } = change;
  if (![left, top, right, bottom].every(Number.isInteger)) return "sides are moved by whole numbers";
  if (width < 1 || height < 1) return `nothing would be left of ${array.name}`;
  const one = (side: number, size: number) => -side >= size;
  if (one(left, bitmap.width) || one(right, bitmap.width) || one(top, bitmap.height) || one(bottom, bitmap.height))
    return `nothing would be left of ${array.name}`;
  if (width > MOST_SIDE || height > MOST_SIDE || width * height * frames > MOST_PIXELS)
    return `${width}x${height} with ${frames} frame${frames === 1 ? "" : "s"} is more than ${MOST_PIXELS} pixels`;
  const { width: across = width, height: down = height } = panel?.options ?? {};
  if ((width > across && width > bitmap.width) || (height > down && height > bitmap.height))
    return `${width}x${height} is larger than the panel ${panel?.name}, which is ${across}x${down}`;
  if (widths && left !== 0) return `the widths of ${array.name} count from the left side of its glyphs`;
  const wide = widths?.find((w) => w > width);
  return wide === undefined ? undefined : `a glyph of ${array.name} is ${wide} wide`;
}

/** A frame in its new size; what is added is dark. */
function moved(pixels: Pixels, width: number, height: number, { left, top, right, bottom }: SizeChange): Pixels {
  const [w, h] = [width + left + right, height + top + bottom];
  const Values = pixels.constructor as new (count: number) => Pixels;
  const out = new Values(w * h);
  const [from, to] = [Math.max(0, -left), Math.min(width, width + right)];
  for (let y = Math.max(0, -top); y < Math.min(height, height + bottom); y++)
    out.set(pixels.subarray(y * width + from, y * width + to), (y + top) * w + from + left);
  return out;
}

/** The elements of the new frames; what leads the array and each frame stays. */
function valuesOf(s: Subject, layout: Layout, invert: boolean, frames: readonly Pixels[]): BigUint64Array {
  const { skip, lead, frameElements } = s.layout;
  const before: (number | bigint)[] = [];
  for (let i = 0; i < skip; i++) before[i] = s.elements[i] ?? 0;
  for (let frame = 0; frame < frames.length; frame++)
    for (let k = 0; k < lead; k++)
      before[skip + frame * layout.frameElements + k] = s.elements[skip + frame * frameElements + k] ?? 0;
  return elementsFor(layout, invert, frames, before);
}

function listEdits(
  s: Subject,
  change: SizeChange,
  layout: Layout,
  values: BigUint64Array,
  inner: number | undefined,
): TextEdit[] | Refused {
  if (stays(s, values)) return [];
  const lines = linesMoved(s, change, layout, values);
  if (!("refused" in lines)) return lines;
  const { comments, names, conditions } = lossOf(s);
  if (comments > 0 || names || conditions) return lines;
  const list = anew(s, { layout, options: s.bitmap.options, type: s.type, values, inner });
  return "refused" in list ? { refused: `${lines.refused}, and ${list.refused}` } : list;
}

/** The two defines of an X bitmap. */
function definedSizes({ text, array }: Subject, width: number, height: number): TextEdit[] | Refused {
  const prefix = array.name.slice(0, -"bits".length);
  const edits: TextEdit[] = [];
  for (const [word, wanted] of [
    ["width", width],
    ["height", height],
  ] as const) {
    const define = new RegExp(`^[ \\t]*#[ \\t]*define[ \\t]+${prefix}${word}[ \\t]+([^\\r\\n]*)`, "gm");
    const [found, ...more] = [...text.matchAll(define)];
    if (!found || more.length > 0) return { refused: `${prefix}${word} is not defined once in this file` };
    const [whole, body = ""] = found;
    const start = found.index + whole.length - body.length;
    const size = /^\w+/.exec(body)?.[0] ?? "";
    const span = { start, end: start + size.length };
    const edit = sizeEdits(text, array.name, [{ span, size: Number(size), wanted }], []);
    if ("refused" in edit) return edit;
    edits.push(...edit);
  }
  return edits;
}
