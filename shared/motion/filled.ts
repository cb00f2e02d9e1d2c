/** Frames written into an array, as text: in place, in more or fewer frames of the same form, or as a new list. */

import { anewRefused, elementsFor, anew as listAnew } from "../bitmap/convert/list.ts";
import { lossOf } from "../bitmap/convert/loss.ts";
import { bracesOf } from "../bitmap/convert/plan.ts";
import type { Refused, Subject } from "../bitmap/convert/subject.ts";
import { subjectOrWhy } from "../bitmap/convert/subject.ts";
import { changeWords } from "../bitmap/convert/words.ts";
import { declarationOf } from "../bitmap/declaration.ts";
import { editPixels, sameIn } from "../bitmap/edit.ts";
import { houseOf } from "../bitmap/house.ts";
import { emitList } from "../bitmap/make.ts";
import { reopened } from "../bitmap/open.ts";
import type { Bitmap, BitmapFile } from "../bitmap/resolve.ts";
import { bitmapWith, elementsOf, pixelsOf } from "../bitmap/resolve.ts";
import { framesBuilt } from "../bitmap/restructure/frames.ts";
import { declaredEdits } from "../bitmap/restructure/sizes.ts";
import type { Layout } from "../pixels/layout.ts";
import { highestOf } from "../pixels/picture.ts";
import type { ListNode } from "../source/initialiser.ts";
import { indentAt } from "../source/scan.ts";
import type { TextEdit } from "../source/text.ts";
import { applyEdits, eolOf } from "../source/text.ts";

export type Text = { readonly text: string };

/** The text of the file with the frames in the array, and nothing else changed. */
export function filled(file: BitmapFile, target: Bitmap, frames: readonly Uint8Array[]): Text | Refused {
  const whole =
    target.layout !== undefined && target.array.count === target.layout.elements && target.array.excess === 0;
  if (whole && target.frames === frames.length) return painted(file, target, frames);
  // A list that is hardly begun, such as `{0}`, has no style of its own: it takes after its neighbours.
  const begun = target.array.given >= Math.max(1, target.layout?.frameElements ?? 0);
  const anew = begun ? undefined : rewritten(file, target, frames, true);
  if (anew && !("refused" in anew)) return anew;
  const moved = whole ? resized(file, target, frames.length) : undefined;
  if (moved && !("refused" in moved)) {
    const other = reopened(file, moved.text);
    const now = sameIn(other, target.array);
    const done = now && now.frames === frames.length ? painted(other, now, frames) : undefined;
    if (done && !("refused" in done)) return done;
  }
  return anew ?? rewritten(file, target, frames, false);
}

/** New values in their places. */
function painted(file: BitmapFile, bitmap: Bitmap, frames: readonly Uint8Array[]): Text | Refused {
  const { width } = bitmap;
  const changes = frames.flatMap((pixels, frame) => {
    const before = pixelsOf(bitmap, frame);
    return [...pixels].flatMap((value, i) =>
      before?.[i] === value ? [] : [{ frame, x: i % width, y: Math.floor(i / width), value }],
    );
  });
  const { text } = file.source;
  const edited = editPixels(text, bitmap, changes);
  return "refused" in edited ? edited : { text: applyEdits(text, edited.edits) };
}

/** The array with more frames, or fewer, whose text stays. */
function resized(file: BitmapFile, target: Bitmap, count: number): Text | Refused {
  const s = subjectOrWhy(file, target);
  if ("refused" in s) return s;
  const order = Array.from({ length: count }, (_, i) => (i < target.frames ? i : ("dark" as const)));
  const built = framesBuilt(s, order);
  return "refused" in built ? built : { text: applyEdits(s.text, built.edits) };
}

/** The list written anew, in its own style or in that of the bitmaps around it. */
function rewritten(
  file: BitmapFile,
  target: Bitmap,
  frames: readonly Uint8Array[],
  likeOthers: boolean,
): Text | Refused {
  const { array, annotation, layout: before } = target;
  const { list, type, name } = array;
  const { text } = file.source;
  if (!annotation) return { refused: `${name} is an X bitmap, which has one frame: annotate it with @bitmap` };
  if (!list?.closed || !type || !before || array.readOnly !== undefined || array.fixed !== undefined || array.parts)
    return { refused: `${name} can't be written: ${array.readOnly ?? array.fixed ?? "it is no list of its own"}` };
  if (array.node !== 0 || array.elided || array.nameSpan.end > array.base)
    return { refused: `${name} is part of a larger initialiser` };
  const words = changeWords(
    text,
    target,
    new Map([["frames", frames.length > 1 ? `frames=${frames.length}` : undefined]]),
  );
  const now = bitmapWith(words.words, { ...array, readOnly: "" }, file);
  if (!now?.layout)
    return { refused: `${name} can't have ${frames.length} frames: ${now?.why ?? "its words do not fit"}` };
  const s: Subject = {
    file,
    text,
    bitmap: target,
    array,
    type,
    layout: before,
    elements: elementsOf(target) ?? [],
    declaration: declarationOf(text, array),
    open: array.base + (list.nodes[0] as ListNode).open,
    end: array.base + list.length,
  };
  const { comments, names, conditions } = lossOf(s);
  if (comments > 0 || names || conditions)
    return { refused: `${name} would lose ${comments > 0 ? "comments" : "names"} in its list: take them out first` };
  const edits = likeOthers ? likeHouse(s, now, frames) : inOwnStyle(s, now, now.layout, frames);
  if ("refused" in edits) return edits;
  const sizes = declaredEdits(s, now.layout);
  if ("refused" in sizes) return sizes;
  return { text: applyEdits(text, [...words.edits, ...sizes, ...edits]) };
}

function inOwnStyle(s: Subject, now: Bitmap, layout: Layout, frames: readonly Uint8Array[]): TextEdit[] | Refused {
  const values = elementsFor(layout, now.invert, frames, s.elements);
  return listAnew(s, { layout, options: now.options, type: s.type, values, inner: bracesOf(s, layout) });
}

function likeHouse(s: Subject, now: Bitmap, frames: readonly Uint8Array[]): TextEdit[] | Refused {
  const { file, text, array, open, end, type } = s;
  if (array.dimensions.length !== 1 || anewRefused(s) !== undefined)
    return inOwnStyle(s, now, now.layout as Layout, frames);
  const { format, layout } = now;
  const most = frames.reduce((high, pixels) => Math.max(high, highestOf(pixels)), 0);
  const house = houseOf(file, array.base, { format, pack: layout?.pack ?? "rows", most, lit: true });
  const [indent, eol] = [indentAt(text, open), eolOf(text)];
  const list = emitList(now, { ...house, type }, indent, eol, (frame, index) => frames[frame]?.[index] ?? 0);
  return [{ start: open + 1, end: end - 1, text: `${eol}${list}${eol}${indent}` }];
}
