/** Frames that are arrays of their own, named by a table of pointers: the table's entries move or go. */
import type { Pixels } from "../../pixels/picture.ts";
import type { Refused } from "../convert/subject.ts";
import { expectedAs } from "../convert/verify.ts";
import { changeWords } from "../convert/words.ts";
import type { Bitmap, BitmapFile } from "../resolve.ts";
import { pixelsOf } from "../resolve.ts";
import type { FramesChange, Restructured } from "./change.ts";
import { characterWords } from "./characters.ts";
import { orderRefused } from "./frames.ts";
import { cutList, gapsFor, joinPieces } from "./pieces.ts";
import { sizeEdits } from "./sizes.ts";
import { inOrder } from "./tokens.ts";
import { changedPart } from "./trimmed.ts";

export function tableBuilt(file: BitmapFile, bitmap: Bitmap, order: FramesChange["order"]): Restructured | Refused {
  const { array, frames, annotation } = bitmap;
  const { text } = file.source;
  const wrong = orderRefused(bitmap, order);
  if (wrong !== undefined) return { refused: wrong };
  if (order.includes("dark") || new Set(order).size < order.length)
    return {
      refused: `each frame of ${array.name} is an array of its own: make a new bitmap, and name it in the table`,
    };
  const table = file.source.arrays.find((a) => a.pointers && a.nameSpan.start === array.nameSpan.start);
  if (!table || !annotation || table.node !== 0 || table.list?.broken || !table.list?.closed)
    return { refused: `the table ${array.name} can't be written` };
  if (bitmap.widths) return { refused: `${array.name} has widths, which would not follow its table` };
  if (!inOrder(table, frames)) return { refused: `the entries of ${array.name} do not stand in order` };
  const conditions = /^[ \t]*#/m.test(text.slice(table.base, table.base + table.list.length));
  if (conditions) return { refused: `preprocessor lines stand in ${array.name}` };
  const cut = cutList(text, table, { node: 0, from: table.first, unit: 1, count: frames });
  if ("refused" in cut) return cut;
  const gaps = gapsFor(cut, order.length);
  const placed = order.flatMap((frame, i) => {
    const piece = cut.pieces[frame as number];
    return piece ? [{ piece, gap: gaps[i] as string }] : [];
  });
  const characters = characterWords(bitmap, { kind: "frames", order });
  if ("refused" in characters) return characters;
  const counted = bitmap.words.has("frames") ? [["frames", `frames=${order.length}`] as const] : [];
  const words = changeWords(text, bitmap, new Map([...counted, ...characters]));
  // Of an array of pointers only the brackets are at hand.
  const [, before = "", inside = ""] = /^(\s*\[)([^\]]*)\]/.exec(text.slice(table.nameSpan.end, table.base)) ?? [];
  const start = table.nameSpan.end + before.length;
  const span = { start, end: start + inside.length };
  const sizes = [{ span, size: inside.trim() === "" ? undefined : frames, wanted: order.length }];
  const quantities = [{ before: frames, after: order.length, named: /frame|count|num|glyph|char/i }];
  const declared = sizeEdits(text, array.name, sizes, quantities);
  if ("refused" in declared) return declared;
  const pictures = order.map((frame) => pixelsOf(bitmap, frame as number) as Pixels);
  return {
    edits: [...words.edits, ...declared, ...changedPart(text, cut, joinPieces(cut, placed))],
    expected: [expectedAs(array, bitmap, array.type?.bits ?? 8, pictures)],
  };
}
