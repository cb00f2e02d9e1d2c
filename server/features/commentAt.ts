/** The comment that an offset stands in, found by reading the text's tokens up to there. */
import {
  classOf,
  commentEnd,
  DIGIT,
  IDENT,
  identEnd,
  isComment,
  numberEnd,
  prefixedEnd,
  quotedEnd,
} from "../../shared/source/scan.ts";
import type { Span } from "../../shared/source/text.ts";

/** undefined where the offset is outside all comments. `known` are lists that need not be looked into, in order. */
export function commentAt(
  text: string,
  offset: number,
  known: readonly { base: number; list: { length: number } }[],
): Span | undefined {
  let at = 0;
  let next = 0;
  while (at < offset) {
    const list = known[next];
    if (list && list.base <= at) {
      next++;
      if (list.base === at && at + list.list.length <= offset) at += list.list.length;
      continue;
    }
    const c = text.charCodeAt(at);
    const kind = classOf(c);
    if (kind === IDENT) at = prefixedEnd(text, at, identEnd(text, at));
    else if (kind === DIGIT) at = numberEnd(text, at);
    else if (c === 34 || c === 39) at = quotedEnd(text, at);
    else if (c === 47 && isComment(text, at)) {
      const end = commentEnd(text, at);
      const closed = text.charCodeAt(at + 1) === 42 && end - at >= 4 && text.startsWith("*/", end - 2);
      if (offset >= at + 2 && (closed ? offset <= end - 2 : offset <= end)) return { start: at, end };
      at = end;
    } else at++;
  }
  return undefined;
}
