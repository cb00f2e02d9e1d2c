/** The function that stands right behind an annotation. */
import { commentEnd, isComment, quotedEnd, skipSpace } from "../source/scan.ts";
import type { Span } from "../source/text.ts";

export interface MotionFunction extends Span {
  readonly name: string;
  readonly nameSpan: Span;
  /** From the first word to the closing brace, both included. */
  readonly text: string;
  /** It says of itself that it is written from the annotation. */
  readonly ours: boolean;
}

/** The words by which a function of ours is known again. */
export const OURS = "Written by Dotwright from the @motion above";

const HEAD = /(?:static\s+|inline\s+)*void\s+([A-Za-z_]\w*)\s*\([^()]*\)\s*\{/y;

/** undefined where something else follows, or a function that is not closed. */
export function functionAfter(text: string, at: number): MotionFunction | undefined {
  const start = skipSpace(text, at);
  HEAD.lastIndex = start;
  const head = HEAD.exec(text);
  const end = head ? closing(text, HEAD.lastIndex) : undefined;
  if (!head || end === undefined) return undefined;
  const name = head[1] as string;
  const nameAt = start + head[0].lastIndexOf(name, head[0].indexOf("("));
  // The comment that tells stands before the function or as the first thing in it.
  const ours =
    text.slice(at, start).includes(OURS) || text.slice(HEAD.lastIndex, end).trimStart().startsWith(`// ${OURS}`);
  return {
    name,
    nameSpan: { start: nameAt, end: nameAt + name.length },
    start,
    end,
    text: text.slice(start, end),
    ours,
  };
}

/** Behind the brace that closes the one before `at`; undefined where none does. */
function closing(text: string, at: number): number | undefined {
  let open = 1;
  for (let i = at; i < text.length; ) {
    const c = text[i];
    if (c === '"' || c === "'") i = quotedEnd(text, i);
    else if (c === "/" && isComment(text, i)) i = commentEnd(text, i);
    else {
      i++;
      if (c === "{") open++;
      else if (c === "}" && --open === 0) return i;
    }
  }
  return undefined;
}
