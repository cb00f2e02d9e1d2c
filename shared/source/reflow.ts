/** Line breaks between elements: a list laid out anew with so many elements to a line. */
import type { SourceArray } from "./arrays.ts";
import { elementSpan } from "./arrays.ts";
import type { ListNode } from "./initialiser.ts";
import { indentAt } from "./scan.ts";
import type { TextEdit } from "./text.ts";
import { lineLayout } from "./writeOut.ts";

/**
 * Edits of the white space between elements so that each line holds `perLine` of them. undefined where comments or
 * inner lists stand between elements, whose place could be lost.
 */
export function reflow(text: string, array: SourceArray, perLine: number): TextEdit[] | undefined {
  const node = array.list?.nodes[array.node] as ListNode | undefined;
  if (!node || node.lists + node.strings > 0 || node.quoted || array.elided || array.given === 0) return undefined;
  const layout = lineLayout(text, array, node);
  const open = array.base + node.open;
  const outer = indentAt(text, open);
  const indent = layout.indent ?? `${outer}  `;
  const edits: TextEdit[] = [];
  const put = (start: number, end: number, wanted: string) => {
    if (text.slice(start, end) !== wanted) edits.push({ start, end, text: wanted });
  };
  let end = open + 1;
  for (let i = 0; i < array.given; i++) {
    const span = elementSpan(array, i);
    const between = text.slice(end, span.start);
    if (!(i === 0 ? /^\s*$/ : /^\s*,\s*$/).test(between)) return undefined;
    const comma = i === 0 ? "" : ",";
    put(end, span.start, comma + (i % perLine === 0 ? layout.eol + indent : layout.space));
    end = span.end;
  }
  const close = array.base + node.close;
  const tail = text.slice(end, close);
  if (!/^\s*,?\s*$/.test(tail)) return undefined;
  put(end, close, (tail.includes(",") ? "," : "") + layout.eol + outer);
  return edits;
}
