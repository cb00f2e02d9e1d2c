/** Writes out elements that the compiler fills with zero, laid out like the list that they end. */
import type { Gap } from "./aggregate.ts";
import type { SourceArray } from "./arrays.ts";
import type { Initialiser, ListNode } from "./initialiser.ts";
import { commentEnd, indentAt, isComment, lineEnd, lineStart } from "./scan.ts";
import type { TextEdit } from "./text.ts";
import { eolOf } from "./text.ts";

/** Edits that write all elements of a gap. `spelt` gives the text of the element with a flat index. */
export function fillGap(
  text: string,
  array: SourceArray,
  gap: Gap,
  perLine: number,
  spelt: (slot: number) => string,
): TextEdit[] {
  const list = array.list as Initialiser;
  const node = list.nodes[gap.node] as ListNode;
  const at = array.base + node.lastEnd;
  const layout = lineLayout(text, array, node);
  const empty = node.lastEnd === node.open + 1;
  const group = node.lists > 0 && node.numbers === 0 && !array.elided ? rowSize(array, gap.node) : 0;
  let out = "";
  for (let slot = gap.from; slot < gap.to; slot++) {
    const first = empty && slot === gap.from;
    const inGroup = group > 0 ? (slot - gap.from) % group : 0;
    const breaks = layout.indent !== undefined && (group > 0 ? inGroup === 0 : slot % perLine === 0);
    const comma = first ? "" : ",";
    const space = breaks ? layout.eol + layout.indent : first ? "" : layout.space;
    const brace = group > 0 && inGroup === 0 ? "{" : "";
    const separator = group > 0 && inGroup > 0 ? `,${layout.space}` : comma + space;
    out += separator + brace + spelt(slot);
    if (group > 0 && (inGroup === group - 1 || slot === gap.to - 1)) out += "}";
  }
  return besideComment(text, at, out, layout.eol);
}

/** A comment after the last element belongs to its line: what goes on new lines is written after it. */
function besideComment(text: string, at: number, out: string, eol: string): TextEdit[] {
  const whole = [{ start: at, end: at, text: out }];
  const breaks = out.indexOf(eol);
  const m = /^[ \t]*(,?)[ \t]*(?=\/[/*])/.exec(text.slice(at, at + 80));
  if (breaks < 0 || !m) return whole;
  let end = at + m[0].length;
  for (let i = end; isComment(text, i); i = end + (/^[ \t]*/.exec(text.slice(end, end + 80))?.[0].length ?? 0))
    end = commentEnd(text, i);
  if (end > lineEnd(text, at)) return whole;
  if (!/^[ \t]*(?:[\r\n]|$)/.test(text.slice(end, end + 80))) return whole;
  const trailing = m[1] === ",";
  const head = trailing ? out.slice(0, breaks).replace(/,$/, "") : out.slice(0, breaks);
  const tail = out.slice(breaks) + (trailing ? "," : "");
  return [...(head === "" ? [] : [{ start: at, end: at, text: head }]), { start: end, end, text: tail }];
}

/** Elements of one inner list of a list of lists. */
function rowSize(array: SourceArray, index: number): number {
  const list = array.list as Initialiser;
  let depth = 1;
  for (let i = index; i !== array.node; i = (list.nodes[i] as ListNode).parent) depth++;
  return array.dimensions.slice(depth).reduce((product, d) => product * (d.size ?? 1), 1);
}

interface LineLayout {
  /** White space that new lines begin with; undefined for a list on one line. */
  readonly indent: string | undefined;
  readonly eol: string;
  readonly space: string;
}

/** How a list is laid out in lines, so that what is added looks like what is there. */
export function lineLayout(text: string, array: SourceArray, node: ListNode): LineLayout {
  const open = array.base + node.open;
  const inside = text.slice(open, array.base + node.close);
  const eol = eolOf(inside);
  const space = /,[^\s]/.test(inside) && !/,[ \t]/.test(inside) ? "" : " ";
  if (!/[\r\n]/.test(inside)) return { indent: undefined, eol, space };
  // The indent of the last line that holds an item.
  const last = array.base + node.lastEnd;
  const start = lineStart(text, last, open);
  if (start > open) return { indent: indentAt(text, start), eol, space };
  return { indent: `${indentAt(text, open)}  `, eol, space };
}
