/**
 * A list of numbers cut into pieces of so many elements (frames, rows, entries of a table), each with the comments that
 * go with it, so that pieces can be left out, doubled and put into another order while their text stays as it is.
 */
import type { SourceArray } from "../../source/arrays.ts";
import { elementSpan } from "../../source/arrays.ts";
import type { Initialiser, ListNode } from "../../source/initialiser.ts";
import { commentEnd, indentAt, isComment } from "../../source/scan.ts";
import { eolOf } from "../../source/text.ts";
import type { Refused } from "../convert/subject.ts";

export interface Piece {
  /** White space before it where it begins a line, and where it stands behind another one. */
  readonly indent: string | undefined;
  readonly space: string | undefined;
  /** Comments above it or before it, with the white space behind them. */
  readonly head: string;
  /** From its first number or brace to the end of its last. */
  readonly body: string;
  /** Offset of the body in the text; -1 for one that is not in it. */
  readonly at: number;
  /** What follows it before and after the comma, up to the end of the line. */
  readonly before: string;
  readonly behind: string;
}

export interface Cut {
  /** The text that the pieces make up, without the white space around it. */
  readonly start: number;
  readonly end: number;
  readonly pieces: readonly Piece[];
  /** Line breaks between two pieces, one fewer than these; empty where both are on one line. */
  readonly gaps: readonly string[];
  /** The first piece begins a line. */
  readonly newLine: boolean;
  /** A comma follows the last piece. */
  readonly trailing: boolean;
  /** Where no comma follows the last piece, a space does, so that comments stay in their column. */
  readonly wider: boolean;
  /** The closing brace is on the line of the last piece. */
  readonly closed: boolean;
  readonly indent: string;
  readonly space: string;
  readonly eol: string;
}

/** Which elements: `count` pieces of `unit` elements from element `from` of the list `node` on, up to its end. */
export interface Pieces {
  readonly node: number;
  readonly from: number;
  readonly unit: number;
  readonly count: number;
  /** Nothing before this offset belongs to a piece, such as the annotation of the list. */
  readonly begin?: number | undefined;
}

/** Refused where the list does not fall into such pieces. Elements are those written, and must stand in order. */
export function cutList(
  text: string,
  array: SourceArray,
  { node, from, unit, count, begin = 0 }: Pieces,
): Cut | Refused {
  const list = array.list as Initialiser;
  const { open, close } = list.nodes[node] as ListNode;
  const starts = new Map<number, number>();
  const ends = new Map<number, number>();
  const apart = { refused: `the inner lists of ${array.name} are neither frames nor rows` };
  for (const child of list.nodes) {
    if (child.parent !== node || child.firstElement === child.endElement) continue;
    starts.set(child.firstElement, array.base + (child.lead?.start ?? child.open));
    ends.set(child.endElement, array.base + child.close + 1);
  }
  const bodies: { start: number; end: number }[] = [];
  for (let i = 0; i < count; i++) {
    const [first, last] = [from + i * unit, from + (i + 1) * unit];
    const [start, end] = [starts.get(first), ends.get(last)];
    if (starts.size > 0 && (start === undefined || end === undefined)) return apart;
    bodies.push({
      start: start ?? elementSpan(array, first - array.first).start,
      end: end ?? elementSpan(array, last - array.first - 1).end,
    });
  }
  const inside = array.base + open + 1;
  const before = from > (list.nodes[node] as ListNode).firstElement;
  const edge = before ? elementSpan(array, from - array.first - 1).end : Math.max(inside, begin);
  const commas = { refused: `commas do not end the numbers of ${array.name}` };
  const pieces: Piece[] = [];
  const gaps: string[] = [];
  const body0 = bodies[0] as { start: number };
  const first = between(text, edge, body0.start, before);
  if (!first) return commas;
  let next = first;
  let end = 0;
  let trailing = false;
  let closed = false;
  let wider = false;
  for (const [i, { start, end: to }] of bodies.entries()) {
    const now = next;
    const follower = bodies[i + 1];
    const last = follower ? undefined : ending(text, to, array.base + close);
    const after = last ?? between(text, to, follower?.start ?? to, true);
    if (!after) return commas;
    pieces.push({
      indent: now.indent,
      space: i === 0 ? undefined : now.space,
      head: now.head,
      body: text.slice(start, to),
      at: start,
      before: after.before,
      behind: after.behind,
    });
    if (!last) gaps.push(after.gap);
    else {
      end = last.end;
      trailing = last.comma;
      closed = last.gap === "";
      // A space more where the others have a comma.
      const [lastPiece] = pieces.splice(-1);
      wider = !trailing && lastPiece !== undefined && lastPiece.behind.startsWith("  ");
      if (lastPiece) pieces.push(wider ? { ...lastPiece, behind: lastPiece.behind.slice(1) } : lastPiece);
    }
    next = after;
  }
  const all = text.slice(inside, array.base + close);
  return {
    start: body0.start - first.head.length - (first.indent?.length ?? 0),
    end,
    pieces,
    gaps,
    newLine: first.gap !== "",
    trailing,
    wider,
    closed,
    indent: pieces.find((p) => p.indent !== undefined)?.indent ?? `${indentAt(text, inside - 1)}  `,
    space: /,[^\s]/.test(all) && !/,[ \t]/.test(all) ? "" : " ",
    eol: /[\r\n]/.test(all) ? eolOf(all) : eolOf(text),
  };
}

/** A piece and the line breaks before it; those of the first one stay as they are. */
export interface Placed {
  readonly piece: Piece;
  readonly gap: string;
}

/** The text of pieces in their new order, in place of `start` to `end`. */
export function joinPieces(cut: Cut, placed: readonly Placed[]): string {
  let out = "";
  let open = false;
  placed.forEach(({ piece, gap }, i) => {
    const last = i === placed.length - 1;
    // Nothing can follow a line comment on its line.
    const breaks = i > 0 && gap === "" && open ? cut.eol : gap;
    if (i === 0) out += cut.newLine ? (piece.indent ?? cut.indent) : "";
    else out += breaks === "" ? (piece.space ?? cut.space) : breaks + (piece.indent ?? cut.indent);
    out +=
      piece.head +
      piece.body +
      piece.before +
      (!last || cut.trailing ? "," : cut.wider && piece.behind !== "" ? " " : "") +
      piece.behind;
    open = endsInLineComment(piece.behind) || endsInLineComment(piece.before);
  });
  return open && cut.closed ? out + cut.eol : out;
}

/** The line breaks before each of so many pieces, going on as those of the list do. */
export function gapsFor({ gaps, newLine, eol }: Cut, count: number): string[] {
  const known = gaps.length > 0 ? gaps : [newLine ? eol : ""];
  let period = 1;
  while (period < known.length && !known.every((gap, i) => i < period || gap === known[i - period])) period++;
  return Array.from({ length: count }, (_, i) => (i === 0 ? "" : (known[(i - 1) % period] as string)));
}

interface Between {
  readonly before: string;
  readonly behind: string;
  readonly gap: string;
  readonly indent: string | undefined;
  readonly space: string | undefined;
  readonly head: string;
}

/** What stands between two pieces, or between a brace and the first; undefined where its comma is not on the first line. */
function between(text: string, from: number, to: number, comma: boolean): Between | undefined {
  const { at, line } = marks(text, from, to);
  if (comma && (at < 0 || (line >= 0 && at > line))) return undefined;
  const start = comma ? at + 1 : from;
  const before = comma ? text.slice(from, at) : "";
  if (line < 0) {
    const rest = text.slice(start, to);
    const head = rest.trimStart();
    const space = rest.slice(0, rest.length - head.length);
    return { before, behind: "", gap: "", indent: undefined, space, head };
  }
  const behind = text.slice(start, line);
  const rest = text.slice(line, to);
  const bare = rest.length - rest.trimStart().length;
  let begin = bare;
  while (begin > 0 && (rest[begin - 1] === " " || rest[begin - 1] === "\t")) begin--;
  return {
    before,
    behind,
    gap: rest.slice(0, begin),
    indent: rest.slice(begin, bare),
    space: undefined,
    head: rest.slice(bare),
  };
}

/** What stands between the last piece and the closing brace. */
function ending(text: string, from: number, close: number): Between & { end: number; comma: boolean } {
  const { at, line } = marks(text, from, close);
  const stop = line >= 0 ? line : close;
  const comma = at >= 0 && at < stop;
  const before = comma ? text.slice(from, at) : "";
  const behind = text.slice(comma ? at + 1 : from, stop).trimEnd();
  const end = (comma ? at + 1 : from) + behind.length;
  const gap = line >= 0 ? (text[line] ?? "") : "";
  return { before, behind, gap, indent: undefined, space: undefined, head: "", end, comma };
}

/** The first comma and the first line break that stand in no comment; -1 where there is none. */
function marks(text: string, from: number, to: number): { readonly at: number; readonly line: number } {
  let at = -1;
  let line = -1;
  for (let i = from; i < to; ) {
    const c = text.charCodeAt(i);
    if (c === 47 && isComment(text, i)) {
      i = Math.min(commentEnd(text, i), to);
      continue;
    }
    if (c === 44 && at < 0) at = i;
    if ((c === 10 || c === 13) && line < 0) line = i;
    i++;
  }
  return { at, line };
}

function endsInLineComment(text: string): boolean {
  for (let i = 0; i < text.length; ) {
    if (text.charCodeAt(i) !== 47 || !isComment(text, i)) i++;
    else if (text.charCodeAt(i + 1) === 47) return true;
    else i = commentEnd(text, i);
  }
  return false;
}
