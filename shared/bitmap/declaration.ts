/** A declaration taken apart, so that another array can be declared alike. */
import type { SourceArray } from "../source/arrays.ts";
import { skipSpace } from "../source/scan.ts";

export interface Declaration {
  /** Before the name: storage, type, and macros such as PROGMEM. */
  readonly head: string;
  /** The square brackets. */
  readonly dimensions: string;
  /** From the brackets to the opening brace: macros and `=`. */
  readonly tail: string;
  /** After the semicolon. */
  readonly end: number;
}

/** undefined where the array is not all that its statement declares: rows, members of structs, several declarators. */
export function declarationOf(text: string, array: SourceArray): Declaration | undefined {
  const { list, node, nameSpan, declaration, base } = array;
  if (node !== 0 || !list?.closed || nameSpan.end > base || !/^[A-Za-z_]\w*$/.test(array.name)) return undefined;
  const head = text.slice(declaration.start, nameSpan.start);
  const bare = withoutRounds(head.replace(/\/\*[\s\S]*?\*\/|\/\/[^\r\n]*/g, " "));
  // A qualified name belongs to a class; after a brace, comma or star stands something other than one plain array.
  if (!/[\w)\]]\s+$/.test(bare) || /[{},;<*&=]|::\s*$/.test(bare)) return undefined;
  const m = /^(\s*(?:\[[^[\]]*\]\s*)+)([\s\S]*)$/.exec(text.slice(nameSpan.end, base));
  if (!m) return undefined;
  const [, brackets = "", rest = ""] = m;
  const dimensions = brackets.trimEnd();
  const tail = brackets.slice(dimensions.length) + rest;
  if (/[{},;]/.test(withoutRounds(tail))) return undefined;
  const close = skipSpace(text, base + list.length);
  return text[close] === ";" ? { head, dimensions, tail, end: close + 1 } : undefined;
}

/** Without what stands in round brackets, such as the arguments of an attribute. */
function withoutRounds(text: string): string {
  let out = "";
  let nesting = 0;
  for (const c of text) {
    if (c === "(") nesting++;
    if (nesting === 0) out += c;
    if (c === ")" && nesting > 0 && --nesting === 0) out += ")";
  }
  return out;
}
