/** The lines of a picture (rows, columns, bands) in their new number and length, each with its own comments. */
import type { Layout } from "../../pixels/layout.ts";
import { isWhole } from "../../pixels/layout.ts";
import { elementSpan, sharesText } from "../../source/arrays.ts";
import type { ListNode } from "../../source/initialiser.ts";
import type { TextEdit } from "../../source/text.ts";
import { wrapOf } from "../convert/lines.ts";
import { lossOf } from "../convert/loss.ts";
import type { Refused, Subject } from "../convert/subject.ts";
import type { SizeChange } from "./change.ts";
import { darkSymbol, inComments, isDrawing } from "./names.ts";
import type { Cut, Piece, Placed } from "./pieces.ts";
import { cutList, joinPieces } from "./pieces.ts";
import { columnOf, indentOfBody, inOrder, tokensOf, withIndent } from "./tokens.ts";
import { changedPart } from "./trimmed.ts";

/** Refused where lines do not stand in elements and text of their own. */
export function linesMoved(s: Subject, change: SizeChange, now: Layout, values: BigUint64Array): TextEdit[] | Refused {
  const { array, layout, bitmap, text } = s;
  const { lineElements, lines, frames, frameElements, skip, lead } = layout;
  if (lineElements === 0 || now.lineElements === 0 || lead > 0)
    return { refused: `the rows of ${array.name} do not stand in elements of their own` };
  if (!inOrder(array, layout.elements)) return { refused: `not every number of ${array.name} is written, in order` };
  if (Array.from({ length: array.given }, (_, i) => i).some((i) => sharesText(array, i)))
    return { refused: `one name in ${array.name} makes several of its numbers` };
  const lists = framesAsLists(s);
  const cuts: Cut[] = [];
  for (let frame = 0; frame < (lists ? frames : 1); frame++) {
    const where = lists
      ? { node: lists[frame] as number, from: skip + frame * frameElements, unit: lineElements, count: lines }
      : { node: 0, from: skip, unit: lineElements, count: lines * frames };
    const cut = cutList(text, array, { ...where, begin: bitmap.annotation?.comment.end });
    if ("refused" in cut) return cut;
    cuts.push(cut);
  }
  // Rows that share lines of the source would make these ever longer.
  const shared = cuts.some(({ gaps, newLine }) => newLine && gaps.some((gap) => gap === ""));
  const { comments, names } = lossOf(s);
  if (shared && now.lineElements > lineElements && comments === 0 && !names)
    return { refused: `the rows of ${array.name} share lines` };
  const spelt = spelling(s, change, now, values);
  const setting = { column: columnOf(s), wrap: wrapOf(s) };
  const oldLine = lineBefore(s, change);
  const width = bitmap.width;
  const edits: TextEdit[] = [];
  for (const [at, cut] of cuts.entries()) {
    const placed: Placed[] = [];
    for (let frame = lists ? at : 0; frame < (lists ? at + 1 : frames); frame++) {
      const base = lists ? 0 : frame * lines;
      const first = cut.pieces[base] as Piece;
      for (let line = 0; line < now.lines; line++) {
        const from = oldLine(line);
        const piece = from === undefined ? undefined : cut.pieces[base + from];
        const start = now.skip + frame * now.frameElements + line * now.lineElements;
        let made = piece ?? bare(cut, base, lines);
        const old = skip + frame * frameElements + (from ?? 0) * lineElements;
        if (!piece || !isSame(s, values, start, now.lineElements, old)) {
          const tokens = Array.from({ length: now.lineElements }, (_, k) => spelt(start + k));
          made = rewritten(made, cut, tokens, setting);
        }
        if (piece) made = redrawn(made, change, width);
        // What stands above the first row of several frames speaks of the frame.
        if (frames > 1 && (line === 0 || from === 0)) made = { ...made, head: line === 0 ? first.head : "" };
        placed.push({ piece: made, gap: gapBefore(cut, base, lines, line, from) });
      }
    }
    edits.push(...changedPart(text, cut, joinPieces(cut, placed)));
  }
  return edits;
}

/** The nodes of the inner lists, where each holds one frame of several lines. */
function framesAsLists({ array, layout }: Subject): number[] | undefined {
  const nodes = array.list?.nodes ?? [];
  const found: number[] = [];
  for (const [i, node] of nodes.entries()) if (node.parent === 0) found.push(i);
  if (found.length !== layout.frames || layout.lines < 2) return undefined;
  const fits = found.every((i) => {
    const { firstElement, endElement } = nodes[i] as ListNode;
    return endElement - firstElement === layout.frameElements;
  });
  return fits ? found : undefined;
}

/** The old line that a new one is, if it is one. */
function lineBefore(
  { layout }: Subject,
  { left, top, right, bottom }: SizeChange,
): (line: number) => number | undefined {
  const { pack, scan, from, lines } = layout;
  const whole = isWhole(layout.format, pack);
  const columns = whole ? scan.endsWith("columns") : pack === "columns";
  const flipped = columns ? from.endsWith("right") : from.startsWith("bottom");
  const added = columns ? (flipped ? right : left) : flipped ? bottom : top;
  const within = (line: number) => (line >= 0 && line < lines ? line : undefined);
  if (!whole && pack === "pages") return (line) => within(Math.floor((line * 8 - added) / 8));
  return (line) => within(line - added);
}

function isSame(
  { elements, layout }: Subject,
  values: BigUint64Array,
  start: number,
  count: number,
  from: number,
): boolean {
  if (count !== layout.lineElements) return false;
  for (let k = 0; k < count; k++) if (values[start + k] !== BigInt(elements[from + k] as number | bigint)) return false;
  return true;
}

/** A line without comments, set as its neighbours are. */
function bare(cut: Cut, base: number, lines: number): Piece {
  const model = cut.pieces[base + Math.min(1, lines - 1)] as Piece;
  return { ...model, head: "", before: "", behind: "" };
}

/** The line breaks before a line: those of the line that it is, else those between lines of the frame. */
function gapBefore(cut: Cut, base: number, lines: number, line: number, from: number | undefined): string {
  const at = (i: number) => (i <= 0 ? (cut.newLine ? cut.eol : "") : (cut.gaps[i - 1] ?? ""));
  if (line === 0) return at(base);
  if (from !== undefined && from > 0) return at(base + from);
  return at(base + Math.min(1, lines - 1)) || (lines === 1 && cut.newLine ? cut.eol : "");
}

type Spelt = (element: number) => string;

/** The text of each new number: that of the same pixel before, where a pixel has its elements to itself. */
function spelling(s: Subject, { left, top }: SizeChange, now: Layout, values: BigUint64Array): Spelt {
  const { array, text, layout } = s;
  const token = tokensOf(s);
  const before = new Map<number, number>();
  if (layout.alone && layout.span === now.span) {
    for (let frame = 0; frame < layout.frames; frame++) {
      const [old, fresh] = [layout.table(frame).element, now.table(frame).element];
      for (let y = 0; y < now.height; y++) {
        for (let x = 0; x < now.width; x++) {
          const [u, v] = [x - left, y - top];
          if (u < 0 || v < 0 || u >= layout.width || v >= layout.height) continue;
          for (let k = 0; k < layout.span; k++)
            before.set((fresh[y * now.width + x] as number) + k, (old[v * layout.width + u] as number) + k);
        }
      }
    }
  }
  return (element) => {
    const from = before.get(element);
    if (from === undefined) return token(values[element] as bigint);
    const { start, end } = elementSpan(array, from);
    return text.slice(start, end);
  };
}

/** A line with other numbers, in braces where lines have such. */
function rewritten(piece: Piece, cut: Cut, tokens: readonly string[], setting: Setting): Piece {
  const { body } = piece;
  const { column, wrap } = setting;
  const [, open = "", close = ""] = /^(\{\s*)[\s\S]*?(\s*\})$/.exec(body) ?? [];
  const indent = indentOfBody(piece);
  // Before the first number of a column, the indentation holds spaces that are the number's.
  const first = /^\w*/.exec(body.slice(open.length))?.[0].length ?? 0;
  const base = indent?.slice(0, Math.max(0, indent.length - (open === "" ? Math.max(0, column - first) : 0)));
  const breaks = /[\r\n]/.test(body) ? wrap : Number.POSITIVE_INFINITY;
  let out = "";
  tokens.forEach((token, k) => {
    const inColumn = token.padStart(k === 0 && base === undefined ? 0 : column);
    if (k > 0) out += k % breaks === 0 ? `,${cut.eol}${base ?? cut.indent}` : `,${cut.space}`;
    out += inColumn;
  });
  const now = { ...piece, body: open + out + close };
  return base === undefined ? now : withIndent(now, base);
}

interface Setting {
  /** Characters of a number in its column, 0 without columns. */
  readonly column: number;
  /** Numbers to a line of the source at most, where a row goes over several. */
  readonly wrap: number;
}

/** A row that is drawn in its comment gets or loses the same columns there. */
function redrawn(piece: Piece, { left, right }: SizeChange, width: number): Piece {
  if (left === 0 && right === 0) return piece;
  return inComments(piece, (inside) => {
    const drawing = inside.trim();
    if (drawing.length !== width || !isDrawing(drawing)) return inside;
    const dark = darkSymbol(drawing);
    const wide = dark.repeat(Math.max(0, left)) + drawing + dark.repeat(Math.max(0, right));
    const kept = wide.slice(Math.max(0, -left), wide.length - Math.max(0, -right));
    return inside.replace(drawing, () => kept);
  });
}
