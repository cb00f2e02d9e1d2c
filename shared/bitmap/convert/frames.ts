/** One array of several frames, and several arrays of one each. */
import type { Layout } from "../../pixels/layout.ts";
import type { Pixels } from "../../pixels/picture.ts";
import { freeName } from "../../source/identifiers.ts";
import { lineStart } from "../../source/scan.ts";
import type { TextEdit } from "../../source/text.ts";
import type { Declaration } from "../declaration.ts";
import { characterInWords, characterOf } from "../glyphs.ts";
import { commentOf } from "../like.ts";
import type { Bitmap } from "../resolve.ts";
import { anewRefused, elementsFor, isOneLine, listEol, listText } from "./list.ts";
import { lossOf, lossWords } from "./loss.ts";
import type { Plan } from "./plan.ts";
import type { Refused, Subject } from "./subject.ts";
import { framesOf, meant, recodeRefused } from "./subject.ts";
import type { Built } from "./verify.ts";
import { expectedAs } from "./verify.ts";
import { changeWords } from "./words.ts";

/** More arrays than that are no help to anyone. */
const MOST_ARRAYS = 256;

/** The words that speak of frames. */
const OF_FRAMES = ["frames", "fps", "first", "chars"];

export function splitPlans(s: Subject): Plan[] {
  const { bitmap, layout } = s;
  if (bitmap.frames < 2 || bitmap.frames > MOST_ARRAYS || bitmap.widths || layout.skip > 0) return [];
  if (!isPlain(s) || !dimensionsOf(s, 1) || recodeRefused(s) !== undefined) return [];
  const words = changeWords(s.text, bitmap, new Map(OF_FRAMES.map((key) => [key, undefined])));
  const one = meant(s, words.words, s.type.bits);
  if (!one) return [];
  const notes = [lossWords(lossOf(s)), mentions(s)].filter((note) => note !== "");
  const title = `Split into ${bitmap.frames} arrays, one a frame${notes.length > 0 ? `: ${notes.join(", ")}` : ""}`;
  return [{ id: "frames:split", kind: "frames", title, build: () => split(s, one, words) }];
}

/** Whether annotation and statement stand for themselves: nothing but white space between them, and no other marker. */
export function isPlain(s: Subject): boolean {
  const { bitmap, array, declaration, text, file } = s;
  const comment = bitmap.annotation?.comment;
  if (!comment || !declaration || comment.end > array.declaration.start) return false;
  if (!/^\s*$/.test(text.slice(comment.end, array.declaration.start))) return false;
  if (!/^[ \t\uFEFF]*$/.test(text.slice(lineStart(text, comment.start), comment.start))) return false;
  if (file.source.annotations.some((a) => a !== bitmap.annotation && a.comment.start === comment.start)) return false;
  return anewRefused(s) === undefined;
}

/** The brackets of an array of one frame; undefined where the frames are not what the brackets count. */
function dimensionsOf({ array, bitmap, layout, declaration }: Subject, elements: number): string | undefined {
  const [first, second, ...more] = array.dimensions;
  if (!first || !declaration || more.length > 0) return undefined;
  if (!second) return first.size === undefined ? "[]" : `[${elements}]`;
  if (array.count / bitmap.frames !== second.size || layout.frameElements !== second.size) return undefined;
  return declaration.dimensions.slice(declaration.dimensions.indexOf("]") + 1).trim();
}

/** How often the name stands elsewhere in the file, in words. */
function mentions({ text, array }: Subject): string {
  const count = [...text.matchAll(new RegExp(`(?<![\\w$])${array.name}(?![\\w$])`, "g"))].length - 1;
  if (count < 1) return "";
  return `${count} other mention${count === 1 ? "" : "s"} of ${array.name} stay${count === 1 ? "s" : ""} as ${count === 1 ? "it is" : "they are"}`;
}

function split(s: Subject, one: Bitmap, words: { words: string; edits: TextEdit[] }): Built | Refused {
  const { bitmap, array, text, layout, type } = s;
  const annotation = bitmap.annotation;
  const { head, tail, end } = s.declaration as Declaration;
  if (!annotation) return { refused: `${array.name} has no annotation` };
  const { frameElements, lead } = layout;
  const frames = framesOf(s);
  const names = namesFor(text, array.name, frames.length);
  const eol = listEol(s);
  const from = lineStart(text, annotation.comment.start);
  const indent = text.slice(from, annotation.comment.start).replace("\uFEFF", "");
  const single = text.slice(from, array.declaration.start).split(/\r\n|\r|\n/).length === 1;
  const lists = frames.map((pixels, i) => {
    // What leads a frame stays with it.
    const before = Array.from({ length: lead }, (_, k) => s.elements[i * frameElements + k] as number | bigint);
    return elementsFor(one.layout as Layout, one.invert, [pixels], before);
  });
  const columns = BigUint64Array.from(lists.flatMap((values) => [...values]));
  const statements = lists.map((values, i) => {
    const content = { layout: one.layout as Layout, options: one.options, type, values, columns };
    const body = listText(s, content, false);
    const inLine = body.single !== undefined && isOneLine(s);
    const list = inLine ? `{${body.single}}` : `{${eol}${body.lines}${eol}${indent}}`;
    const point = characterOf(bitmap.options, i);
    const note = point === undefined ? "" : ` -- ${characterInWords(point)}`;
    const comment = commentOf(text, annotation, words.words + note);
    const statement = `${head}${names[i]}${dimensionsOf(s, values.length)}${tail}${list};`;
    return i === 0 ? statement : `${indent}${comment}${single ? " " : eol + indent}${statement}`;
  });
  const statement = { start: array.declaration.start, end, text: statements.join(eol + eol) };
  return {
    edits: [...words.edits, statement],
    expected: frames.map((pixels: Pixels, i) =>
      expectedAs({ name: names[i] as string, ordinal: 0 }, one, type.bits, [pixels]),
    ),
  };
}

/** `icon_0`, `icon_1` …, or others that occur nowhere in the text. */
function namesFor(text: string, name: string, count: number): string[] {
  for (let n = 1; ; n++) {
    const stem = n === 1 ? name : n === 2 ? `${name}_frame` : `${name}_frame_${n}`;
    const names = Array.from({ length: count }, (_, i) => `${stem}_${i}`);
    if (names.every((candidate) => freeName(text, candidate) === candidate)) return names;
  }
}
