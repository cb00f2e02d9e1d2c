/** The array of glyph widths, which has one for each frame. */

import type { Options } from "../../pixels/options.ts";
import { elementValue } from "../../source/arrays.ts";
import type { TextEdit } from "../../source/text.ts";
import type { Refused, Subject } from "../convert/subject.ts";
import { frameName } from "../make.ts";
import type { FramesChange } from "./change.ts";
import { modelOf } from "./change.ts";
import { frameNumbers, renamed } from "./names.ts";
import type { Placed } from "./pieces.ts";
import { cutList, gapsFor, joinPieces } from "./pieces.ts";
import { sizeEdits } from "./sizes.ts";
import { inOrder } from "./tokens.ts";
import { changedPart } from "./trimmed.ts";

interface Widths {
  readonly edits: readonly TextEdit[];
  readonly widths?: readonly number[];
}

/**
 * A new glyph is as wide as the cell until its width is set. `options` are those of the set as it will be. Refused where
 * the array can't follow.
 */
export function widthsEdits(
  { file, text, bitmap }: Subject,
  order: FramesChange["order"],
  options: Options,
): Widths | Refused {
  const { widths: name } = bitmap.options;
  if (name === undefined || !bitmap.widths) return { edits: [] };
  const array = file.source.arrays.find((a) => a.name === name);
  const can = array?.type && array.list && array.readOnly === undefined && array.fixed === undefined;
  if (!array || !can || array.node !== 0 || array.elided || array.list.nodes.length > 1)
    return { refused: `the widths in ${name} can't be written` };
  if (!inOrder(array, bitmap.frames) || array.count !== bitmap.frames)
    return { refused: `${name} does not hold one width for each of the ${bitmap.frames} glyphs` };
  const users = file.bitmaps.filter((b) => b.options.widths === name).length;
  if (users > 1) return { refused: `${users} glyph sets share the widths in ${name}` };
  const cut = cutList(text, array, { node: 0, from: array.first, unit: 1, count: bitmap.frames });
  if ("refused" in cut) return cut;
  const gaps = gapsFor(cut, order.length);
  const numbering = frameNumbers(cut.pieces);
  const placed = order.map((frame, i): Placed => {
    const from = frame === "dark" ? modelOf(order, i) : frame;
    const model = cut.pieces[from];
    if (!model) throw new RangeError(`no width ${from}`);
    const dark = frame === "dark";
    const piece = dark ? { ...model, body: String(bitmap.width) } : model;
    const names = {
      before: frameName(from, bitmap.options),
      after: frameName(i, options),
      numbering,
      at: i,
    };
    return { piece: dark || i !== from ? renamed(piece, names, dark) : piece, gap: gaps[i] as string };
  });
  const sizes = array.dimensions.map(({ span, size }) => ({ span, size, wanted: order.length }));
  const quantities = [{ before: bitmap.frames, after: order.length, named: /frame|count|num|glyph|char/i }];
  const declared = sizeEdits(text, name, sizes, quantities);
  if ("refused" in declared) return declared;
  return {
    edits: [...declared, ...changedPart(text, cut, joinPieces(cut, placed))],
    widths: order.map((frame) => (frame === "dark" ? bitmap.width : Number(elementValue(array, frame)))),
  };
}
