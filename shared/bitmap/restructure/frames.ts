/** Frames added, doubled, taken away and moved. */
import type { Layout } from "../../pixels/layout.ts";
import type { Pixels } from "../../pixels/picture.ts";
import { setPixel } from "../../pixels/picture.ts";
import { elementSpan, sharesText } from "../../source/arrays.ts";
import type { TextEdit } from "../../source/text.ts";
import { anew, elementsFor, listRefused } from "../convert/list.ts";
import { lossOf } from "../convert/loss.ts";
import { bracesOf } from "../convert/plan.ts";
import type { Refused, Subject } from "../convert/subject.ts";
import { framesOf, meant, recodeRefused } from "../convert/subject.ts";
import { expectedAs } from "../convert/verify.ts";
import { changeWords } from "../convert/words.ts";
import { frameName } from "../make.ts";
import type { Bitmap } from "../resolve.ts";
import type { FramesChange, Restructured } from "./change.ts";
import { MOST_PIXELS, modelOf } from "./change.ts";
import { characterWords } from "./characters.ts";
import { frameNumbers, renamed } from "./names.ts";
import type { Piece, Placed } from "./pieces.ts";
import { cutList, gapsFor, joinPieces } from "./pieces.ts";
import { declaredEdits } from "./sizes.ts";
import { columnOf, inOrder, refilled, tokensOf } from "./tokens.ts";
import { changedPart, stays } from "./trimmed.ts";
import { widthsEdits } from "./widths.ts";

type Order = FramesChange["order"];

export function framesBuilt(s: Subject, order: Order): Restructured | Refused {
  const { bitmap, array, text } = s;
  const wrong = orderRefused(bitmap, order);
  if (wrong !== undefined) return { refused: wrong };
  if (!bitmap.annotation)
    return { refused: `${array.name} is an X bitmap, which has one frame: annotate it with @bitmap to give it more` };
  const why = listRefused(s);
  if (why !== undefined) return { refused: why };
  const characters = characterWords(bitmap, { kind: "frames", order });
  if ("refused" in characters) return characters;
  const count = order.length;
  const words = changeWords(
    text,
    bitmap,
    new Map([["frames", count > 1 ? `frames=${count}` : undefined], ...characters]),
  );
  // The widths of the new glyphs are not in the text yet.
  const now = meant(s, words.words.replace(/(^|\s)widths=\S+/, ""), s.type.bits);
  if (!now?.layout) return { refused: `${array.name} can't have ${count} frames` };
  const before = framesOf(s);
  const empty = (before[0] as Pixels).slice().fill(0);
  const frames = order.map((frame) => (frame === "dark" ? empty : (before[frame] as Pixels)));
  const list = listEdits(s, order, now, now.layout, frames);
  if ("refused" in list) return list;
  const sizes = declaredEdits(s, now.layout);
  if ("refused" in sizes) return sizes;
  const widths = widthsEdits(s, order, now.options);
  if ("refused" in widths) return widths;
  // A define may be what both sizes are computed from.
  const edits = [...words.edits, ...sizes, ...list, ...widths.edits];
  const known = new Set<string>();
  const own = edits.filter((e) => {
    const key = `${e.start} ${e.end} ${e.text}`;
    return e.start === e.end || (!known.has(key) && known.add(key));
  });
  return {
    edits: own.sort((a, b) => a.start - b.start || a.end - b.end),
    expected: [expectedAs(array, bitmap, s.type.bits, frames)],
    ...(widths.widths ? { widths: widths.widths, others: [bitmap.options.widths as string] } : {}),
  };
}

/** Why these are no frames of the bitmap; undefined where they are. */
export function orderRefused({ array, frames, width, height }: Bitmap, order: Order): string | undefined {
  if (order.length === 0) return `${array.name} keeps one frame at least`;
  const strange = order.find((f) => f !== "dark" && (!Number.isInteger(f) || f < 0 || f >= frames));
  if (strange !== undefined) return `${array.name} has no frame ${strange}`;
  if (width * height * order.length > MOST_PIXELS) return `${order.length} frames are more than ${MOST_PIXELS} pixels`;
  return undefined;
}

function listEdits(
  s: Subject,
  order: Order,
  now: Bitmap,
  layout: Layout,
  frames: readonly Pixels[],
): TextEdit[] | Refused {
  const short = s.array.given < s.layout.elements;
  if (short && stays(s, valuesOf(s, order, now, layout, frames))) return [];
  const pieces = inPieces(s, order, now);
  if (!("refused" in pieces)) return pieces;
  const { comments, names, conditions } = lossOf(s);
  if (comments > 0 || names || conditions) return pieces;
  const why = recodeRefused(s);
  if (why !== undefined) return { refused: why };
  const values = valuesOf(s, order, now, layout, frames);
  const list = anew(s, { layout, options: now.options, type: s.type, values, inner: bracesOf(s, layout) });
  return "refused" in list ? { refused: `${pieces.refused}, and ${list.refused}` } : list;
}

/** All elements of the new array. What leads a frame, and bits that hold no pixels, stay with it. */
function valuesOf(
  { elements, layout: { skip, frameElements } }: Subject,
  order: Order,
  { invert }: Bitmap,
  layout: Layout,
  frames: readonly Pixels[],
): BigUint64Array {
  const values = elementsFor(layout, invert, frames, elements);
  order.forEach((frame, i) => {
    const from = frame === "dark" ? modelOf(order, i) : frame;
    const kept = frame === "dark" ? Math.min(layout.lead, frameElements) : frameElements;
    for (let k = 0; k < kept; k++)
      values[skip + i * frameElements + k] = BigInt(elements[skip + from * frameElements + k] as number | bigint);
  });
  return values;
}

/** Each frame keeps its own text; the name that a comment gives it follows its place. */
function inPieces(s: Subject, order: Order, now: Bitmap): TextEdit[] | Refused {
  const { array, text, bitmap, layout } = s;
  const { skip, frameElements: unit } = layout;
  if (unit === 0) return { refused: `the frames of ${array.name} do not stand in elements of their own` };
  if (!inOrder(array, layout.elements)) return { refused: `not every number of ${array.name} is written, in order` };
  const begin = bitmap.annotation?.comment.end;
  const cut = cutList(text, array, { node: 0, from: skip, unit, count: bitmap.frames, begin });
  if ("refused" in cut) return cut;
  const numbering = frameNumbers(cut.pieces);
  const gaps = gapsFor(cut, order.length);
  const placed: Placed[] = [];
  for (const [i, frame] of order.entries()) {
    const from = frame === "dark" ? modelOf(order, i) : frame;
    const names = {
      before: frameName(from, bitmap.options),
      after: frameName(i, now.options),
      numbering,
      at: i,
    };
    const model = cut.pieces[from] as Piece;
    const piece = frame === "dark" ? darkened(s, model, from) : model;
    if ("refused" in piece) return piece;
    const named = i === from && frame !== "dark" ? piece : renamed(piece, names, frame === "dark");
    placed.push({ piece: named, gap: gaps[i] as string });
  }
  return changedPart(text, cut, joinPieces(cut, placed));
}

/** The text of a frame with the numbers of a dark one. */
function darkened(s: Subject, model: Piece, frame: number): Piece | Refused {
  const { array, layout, bitmap } = s;
  const { skip, lead, frameElements } = layout;
  const values = new Map<number, bigint>();
  const read = (element: number) => values.get(element) ?? 0n;
  const write = (element: number, bits: bigint) => void values.set(element, bits);
  for (let i = 0; i < layout.width * layout.height; i++) setPixel(layout, 0, i, 0, bitmap.invert, read, write);
  const token = tokensOf(s);
  const tokens: { start: number; end: number; text: string }[] = [];
  for (let k = lead; k < frameElements; k++) {
    const element = skip + frame * frameElements + k;
    if (sharesText(array, element)) return { refused: `one name in ${array.name} makes several of its numbers` };
    tokens.push({ ...elementSpan(array, element), text: token(read(skip + k)) });
  }
  return refilled(model, tokens, columnOf(s));
}
