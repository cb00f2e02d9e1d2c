/** Writing an annotation above an array that has none. */
import type { SourceArray } from "../source/arrays.ts";
import type { ListNode } from "../source/initialiser.ts";
import type { SourceFile } from "../source/read.ts";
import { lineEnd, lineStart } from "../source/scan.ts";
import type { TextEdit } from "../source/text.ts";

/**
 * The insertion that puts `@bitmap` with these words before an array: a line of its own above the statement, indented
 * as it is and ended as lines are there; a comment within the line where the statement holds more than this array.
 */
export function annotationEdit(source: SourceFile, array: SourceArray, words: string): TextEdit {
  const { text } = source;
  const inline = (at: number): TextEdit => ({ start: at, end: at, text: `/* @bitmap ${words} */ ` });
  if (array.node > 0) return inline(innerStart(text, array));
  const { start } = array.declaration;
  // The comment binds to the first list after it, which must be this one's.
  if (source.arrays.some((a) => a.declaration.start === start && a.base < array.base))
    return inline(array.nameSpan.start);
  const line = lineStart(text, start);
  const indent = text.slice(line, start);
  if (!/^[ \t]*$/.test(indent)) return inline(start);
  return { start, end: start, text: `// @bitmap ${words}${breakAt(text, start)}${indent}` };
}

/** Where the item of an inner list begins: its designator, or its brace. */
function innerStart(text: string, array: SourceArray): number {
  const node = array.list?.nodes[array.node] as ListNode;
  if (!node.lead) return array.base + node.open;
  const from = array.base + node.lead.start;
  return from + (/^\s*/.exec(text.slice(from, array.base + node.open)) as RegExpExecArray)[0].length;
}

/** The line break in use around an offset: that of its line, or of the one before it. */
function breakAt(text: string, at: number): string {
  const breakOf = (end: number) =>
    text.charCodeAt(end) === 13
      ? text.charCodeAt(end + 1) === 10
        ? "\r\n"
        : "\r"
      : text.charCodeAt(end) === 10
        ? "\n"
        : "";
  const here = breakOf(lineEnd(text, at));
  if (here !== "") return here;
  const start = lineStart(text, at);
  if (start === 0) return "\n";
  return text.charCodeAt(start - 1) === 10 && text.charCodeAt(start - 2) === 13 ? "\r\n" : (text[start - 1] as string);
}
