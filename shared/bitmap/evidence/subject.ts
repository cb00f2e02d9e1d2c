/** An array under question, with all that evidence looks at; parts that cost time are worked out when asked for. */
import type { ElementBits } from "../../pixels/picture.ts";
import type { SourceArray } from "../../source/arrays.ts";
import { storedBits } from "../../source/arrays.ts";
import type { ListNode } from "../../source/initialiser.ts";
import type { SourceFile } from "../../source/read.ts";
import { lineEnd } from "../../source/scan.ts";
import { lineAt, lineStarts } from "../../source/text.ts";
import type { BitmapFile } from "../resolve.ts";
import type { Comment } from "./comments.ts";
import { commentsAbove, commentsAround } from "./comments.ts";
import type { Sort } from "./vocabulary.ts";
import { isFontWord, sortOfName, speaksOfPictures, wordsOfName } from "./vocabulary.ts";

export interface Subject {
  readonly file: BitmapFile;
  readonly source: SourceFile;
  readonly text: string;
  readonly array: SourceArray;
  readonly bits: ElementBits;
  /** Bits of one element. */
  readonly size: 8 | 16 | 32 | 64;
  readonly count: number;
  /** Offsets of the braces of its own list. */
  readonly open: number;
  readonly close: number;
  readonly words: readonly string[];
  readonly sort: Sort;
  readonly comments: readonly Comment[];
  /** Words near the array call it a picture. */
  readonly pictured: boolean;
  /** Words near the array call it a font or glyphs. */
  readonly fontish: boolean;
}

/** undefined for an array whose values are not known. */
export function subjectOf(file: BitmapFile, array: SourceArray): Subject | undefined {
  const { source } = file;
  const { list, type } = array;
  if (!list || !type || array.excess > 0 || array.count < 4) return undefined;
  const bits = storedBits(array);
  if (!bits) return undefined;
  const node = list.nodes[array.node] as ListNode;
  const open = array.base + node.open;
  const close = array.base + node.close;
  const comments = commentsAround(source.text, array, open, close);
  const words = wordsOfName(array.name);
  const sort = sortOfName(array.name);
  const said = comments.map((c) => c.text).join("\n");
  const pictured = sort === "picture" || sort === "motif" || words.some(isFontWord) || speaksOfPictures(said);
  const fontish = words.some(isFontWord) || /\b(?:font|glyphs?|ascii|typeface|char(?:acter)?s?)\b/i.test(said);
  return {
    file,
    source,
    text: source.text,
    array,
    bits,
    size: type.bits,
    count: array.count,
    open,
    close,
    words,
    sort,
    comments,
    pictured,
    fontish,
  };
}

/** The comments before the first array of the group that this one stands in, if they speak of several. */
export function groupComments({ file, array, text, words }: Subject): readonly Comment[] {
  const { arrays } = file.source;
  const at = arrays.indexOf(array);
  for (let i = at - 1; i >= Math.max(0, at - 60); i--) {
    const before = arrays[i];
    if (!before || before.type?.bits !== array.type?.bits) return [];
    if (before.base === array.base) continue;
    const plural = commentsAbove(text, before.declaration.start).filter((c) =>
      /\b(?:icons|bitmaps|glyphs|images|sprites|frames|pictures|tiles|digits|numerals|symbols|letters|all|each|every|these)\b/i.test(
        c.text,
      ),
    );
    if (plural.length > 0) return plural.filter((c) => isOf(c.text, words, wordsOfName(before.name)));
  }
  return [];
}

/** Whether a comment above another array holds for this one too: it says so, or the names have a word in common. */
function isOf(text: string, ours: readonly string[], theirs: readonly string[]): boolean {
  if (/\b(?:all|every|each|these|following|below)\b/i.test(text)) return true;
  return ours[0] === theirs[0] || (ours.length > 1 && ours[ours.length - 1] === theirs[theirs.length - 1]);
}

const starts = new WeakMap<SourceFile, Uint32Array>();

/** 1-based line of an offset. */
export function lineOf(source: SourceFile, offset: number): number {
  const known = starts.get(source) ?? lineStarts(source.text);
  starts.set(source, known);
  return lineAt(known, offset) + 1;
}

/** The text of a list element as it is spelt. */
export function spelling({ array, text }: Subject, index: number): string {
  const list = array.list;
  if (!list) return "";
  const at = (list.nodes[array.node] as ListNode).firstElement + index;
  const start = array.base + (list.starts[at] as number);
  return text.slice(start, start + (list.lengths[at] as number));
}

/** A source line inside the braces: its written elements and the comment behind them. */
export interface BodyLine {
  readonly first: number;
  readonly count: number;
  readonly comment: string;
  /** The comment's inside with all its spaces but one at each end; undefined where there is none. */
  readonly drawing: string | undefined;
  /** An empty line, or one with only a comment, stands before it. */
  readonly parted: boolean;
}

const MOST_LINES = 8192;

const linesOf = new WeakMap<Subject, readonly BodyLine[]>();

/** The lines of the body that hold elements; read once. */
export function bodyLines(subject: Subject): readonly BodyLine[] {
  const lines = linesOf.get(subject) ?? readLines(subject);
  linesOf.set(subject, lines);
  return lines;
}

function readLines({ array, text, open, close }: Subject): BodyLine[] {
  const list = array.list;
  if (!list) return [];
  const node = list.nodes[array.node] as ListNode;
  const lines: BodyLine[] = [];
  let element = node.firstElement;
  let parted = false;
  for (let at = open + 1; at < close && lines.length < MOST_LINES; ) {
    const end = Math.min(lineEnd(text, at), close);
    const first = element;
    while (element < node.endElement && array.base + (list.starts[element] as number) < end) element++;
    if (element > first) {
      const last = array.base + (list.starts[element - 1] as number) + (list.lengths[element - 1] as number);
      // The last line may close the list and carry its comment behind the brace.
      const line = text.slice(last, end === close ? lineEnd(text, close) : end);
      const comment = line.includes("/") ? /\/\/ ?(.*)|\/\* ?(.*?) ?\*\//.exec(line) : null;
      const before = text.slice(at, array.base + (list.starts[first] as number));
      const lead = before.includes("/") ? /\/\* ?(.*?) ?\*\//.exec(before) : null;
      const drawing = comment?.[1] ?? comment?.[2] ?? lead?.[1];
      lines.push({
        first: first - node.firstElement,
        count: element - first,
        comment: (drawing ?? "").trimEnd(),
        drawing,
        parted,
      });
      parted = false;
    } else if (at > open + 1) parted = true;
    at = end + 1;
    if (text.charCodeAt(end) === 13 && text.charCodeAt(end + 1) === 10) at++;
  }
  return lines;
}
