import type { WordProblem } from "../pixels/options.ts";
import type { Span } from "../source/text.ts";

/** Something wrong with an annotation; `suggestion` replaces the span. */
export function problem(span: Span, message: string, suggestion?: string): WordProblem {
  return { start: span.start, end: span.end, code: "annotation", message, suggestion };
}
