/** What is being typed at an offset of a comment: a marker, a bare word or the value of an option. */
import type { Marker, Word } from "../../shared/source/annotationSyntax.ts";
import { annotationsIn } from "../../shared/source/annotationSyntax.ts";
import type { Span } from "../../shared/source/text.ts";

export type Typing =
  | { readonly kind: "marker"; readonly span: Span }
  | {
      readonly kind: "word" | "value";
      readonly marker: Marker;
      /** The word at the offset, and of a value only the value; a new entry replaces it. */
      readonly span: Span;
      /** The option whose value it is. */
      readonly key: string;
      /** The annotation's other words. */
      readonly others: readonly Word[];
      /** The word is the first after the marker. */
      readonly first: boolean;
    };

/** A character that no source holds: it makes a word of its own at the offset, so that what surrounds it shows. */
const CURSOR = "\uf8ff";

/** undefined where nothing of an annotation can stand: free text, or a comment without a marker. */
export function typingAt(text: string, comment: Span, offset: number): Typing | undefined {
  const marker = markerBefore(text, comment, offset);
  if (marker) return marker;
  const inside = text.slice(comment.start, offset) + CURSOR + text.slice(offset, comment.end);
  for (const annotation of annotationsIn(inside, { start: 0, end: inside.length })) {
    const at = annotation.words.findIndex((w) => w.text.includes(CURSOR));
    if (at < 0) continue;
    const word = annotation.words[at] as Word;
    const cursor = offset - comment.start;
    const inValue = word.key !== undefined && cursor >= word.valueStart;
    const start = comment.start + (inValue ? word.valueStart : word.start);
    const end = comment.start + word.end - CURSOR.length;
    return {
      kind: inValue ? "value" : "word",
      marker: annotation.marker,
      span: { start, end: Math.max(start, end) },
      key: inValue ? (word.key as string) : "",
      others: annotation.words.filter((_, i) => i !== at),
      first: at === 0,
    };
  }
  return undefined;
}

/** An `@` that begins a line of the comment or follows a word, with the letters after it. */
function markerBefore(text: string, comment: Span, offset: number): Typing | undefined {
  let start = offset;
  while (start > comment.start + 2 && /\w/.test(text[start - 1] as string)) start--;
  if (text[start - 1] !== "@" || start - 1 < comment.start + 2) return undefined;
  start--;
  const before = text[start - 1] as string;
  if (!/[\s/*!<]/.test(before)) return undefined;
  let end = offset;
  while (end < comment.end && /\w/.test(text[end] as string)) end++;
  return { kind: "marker", span: { start, end } };
}
