/** Comments that name a frame by its number or its character, kept true where frames get other places. */
import { commentsIn } from "../convert/loss.ts";
import type { Piece } from "./pieces.ts";

/** How comments number frames: the words before the number, and the number of the first frame. */
interface Numbering {
  readonly words: RegExp;
  readonly first: number;
}

interface Names {
  readonly before: string;
  readonly after: string;
  /** undefined where comments number no frames, or not as they stand. */
  readonly numbering: Numbering | undefined;
  /** The frame that it becomes. */
  readonly at: number;
}

const FRAME = /^(\s*frame\s+#?)(\d+)(?![\w.])/i;

/**
 * The numbering of all pieces, counting on from 0 or 1: any words that each of them has before its number; or the word
 * `frame`, where only some have it.
 */
export function frameNumbers(pieces: readonly Piece[]): Numbering | undefined {
  const comments = pieces.map(commentsOf);
  const counted = (words: RegExp, all: boolean): Numbering | undefined => {
    let first: number | undefined;
    for (const [i, own] of comments.entries()) {
      const numbers = own.flatMap((inside) => words.exec(inside)?.[2] ?? []).map(Number);
      if (numbers.length === 0 && all) return undefined;
      first ??= numbers.length > 0 ? (numbers[0] as number) - i : undefined;
      if (numbers.some((number) => number - i !== first)) return undefined;
    }
    return first === 0 || first === 1 ? { words, first } : undefined;
  };
  if (pieces.length > 1)
    for (const inside of comments[0] ?? []) {
      const words = /^(\D*)\d+(?![\w.])/.exec(inside)?.[1];
      if (words === undefined) continue;
      const found = counted(new RegExp(`^(${words.replace(/[.*+?^${}()|[\]\\]/g, "\\$&")})(\\d+)(?![\\w.])`), true);
      if (found) return found;
    }
  return counted(FRAME, false);
}

/**
 * The piece under its new name. `bare` leaves out comments that say something else: of a copy that is to be another
 * picture, they would be wrong.
 */
export function renamed(piece: Piece, { before, after, numbering, at }: Names, bare: boolean): Piece {
  return inComments(piece, (inside) => {
    if (inside.trim() === before) return inside.replace(before, () => after);
    const m = numbering?.words.exec(inside);
    if (!numbering || !m) return !bare ? inside : isDrawing(inside.trim()) ? darkDrawing(inside) : undefined;
    const number = `${m[1]}${at + numbering.first}`;
    const rest = inside.slice(m[0].length);
    return number + (bare && /\w/.test(rest) ? (/\s*$/.exec(rest)?.[0] ?? "") : rest);
  });
}

/** Symbols that people draw dark pixels with. */
const DARK = ".-_ 0";

/** A row drawn in its comment: two symbols at most, one of them for dark pixels or none of them a word's. */
export function isDrawing(words: string): boolean {
  const symbols = [...new Set(words)];
  if (symbols.length === 0 || symbols.length > 2 || /["']/.test(words)) return false;
  return symbols.some((c) => DARK.includes(c)) || !/[\p{L}\p{N}]/u.test(words);
}

export function darkSymbol(drawing: string): string {
  return [...drawing].find((c) => DARK.includes(c)) ?? ".";
}

function darkDrawing(inside: string): string {
  const drawing = inside.trim();
  return inside.replace(drawing, darkSymbol(drawing).repeat(drawing.length));
}

/** Changes what stands in each comment of a piece; undefined takes it away, with the white space before it. */
export function inComments(piece: Piece, change: (inside: string) => string | undefined): Piece {
  const mapped = (text: string, above: boolean): string => {
    let out = "";
    let at = 0;
    for (const { start, end } of commentsIn(text, 0, text.length)) {
      const block = text[start + 1] === "*";
      const inside = text.slice(start + 2, block ? end - 2 : end);
      const now = change(inside);
      if (now === inside) continue;
      if (now !== undefined) {
        out += text.slice(at, start + 2) + now;
        at = block ? end - 2 : end;
        continue;
      }
      const [spaces = ""] = /\s*$/.exec(text.slice(at, start)) ?? [];
      out += text.slice(at, start - (above ? 0 : spaces.length));
      // A comment on lines of its own goes with the line break behind it.
      at = above ? end + (/^\s*/.exec(text.slice(end))?.[0].length ?? 0) : end;
    }
    return out + text.slice(at);
  };
  return {
    ...piece,
    head: mapped(piece.head, true),
    body: mapped(piece.body, false),
    before: mapped(piece.before, false),
    behind: mapped(piece.behind, false),
  };
}

function commentsOf({ head, body, before, behind }: Piece): string[] {
  return [head, body, before, behind].flatMap((text) =>
    commentsIn(text, 0, text.length).map(({ start, end }) =>
      text.slice(start + 2, text[start + 1] === "*" ? end - 2 : end),
    ),
  );
}
