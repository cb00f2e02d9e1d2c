/** What is lost where a list is written anew: comments in it, and names in place of numbers. */
import { classOf, commentEnd, DIGIT, IDENT, identEnd, isComment, numberEnd, quotedEnd } from "../../source/scan.ts";
import type { Span } from "../../source/text.ts";
import { frameName } from "../make.ts";
import type { Subject } from "./subject.ts";

/** The comments in a part of the text, in order. */
export function commentsIn(text: string, start: number, end: number): Span[] {
  const found: Span[] = [];
  for (let i = start; i < end; ) {
    const c = text.charCodeAt(i);
    if (c === 34 || c === 39) i = quotedEnd(text, i);
    // A digit separator is no quote.
    else if (classOf(c) >= IDENT) i = classOf(c) === DIGIT ? numberEnd(text, i) : identEnd(text, i);
    else if (c === 47 && isComment(text, i)) {
      const close = Math.min(commentEnd(text, i), end);
      found.push({ start: i, end: close });
      i = close;
    } else i++;
  }
  return found;
}

export interface Loss {
  /** Comments that would go. */
  readonly comments: number;
  /** Whether the list names its frames, as a new one then does too. */
  readonly named: boolean;
  /** Preprocessor lines stand in it. */
  readonly conditions: boolean;
  /** Some elements are names or expressions. */
  readonly names: boolean;
}

const known = new WeakMap<Subject["bitmap"], Loss>();

/** Computed once for each version of a bitmap. */
export function lossOf(s: Subject): Loss {
  const before = known.get(s.bitmap);
  if (before) return before;
  const { text, bitmap, open, end, array } = s;
  const own = bitmap.annotation?.comment.start;
  const comments = commentsIn(text, open + 1, end - 1).filter((c) => c.start !== own);
  let unnamed = comments.length;
  if (bitmap.frames > 1) {
    const names = new Set(Array.from({ length: bitmap.frames }, (_, i) => frameName(i, bitmap.options)));
    for (const { start, end: close } of comments) {
      const inside = text.slice(start + 2, text[start + 1] === "*" ? close - 2 : close);
      if (names.has(inside.trim())) unnamed--;
    }
  }
  const made = {
    comments: unnamed,
    named: unnamed < comments.length,
    conditions: /^[ \t]*(?:#|\?\?=|%:)/m.test(text.slice(open + 1, end)),
    names: array.list?.pure === false,
  };
  known.set(bitmap, made);
  return made;
}

/** The loss in words, to follow a title; empty where nothing is lost. */
export function lossWords({ comments, names }: Pick<Loss, "comments" | "names">, where = " in the list"): string {
  const parts: string[] = [];
  if (comments > 0) parts.push(`drops ${comments} comment${comments === 1 ? "" : "s"}${where}`);
  if (names) parts.push("writes names and expressions as numbers");
  return parts.join(", ");
}
