/** Where names of arrays stand in the code of a file, and what is done with them there. */

import {
  classOf,
  commentEnd,
  DIGIT,
  IDENT,
  identEnd,
  isComment,
  lineStart,
  logicalLineEnd,
  numberEnd,
  prefixedEnd,
  quotedEnd,
  skipSpace,
} from "./scan.ts";
import type { Span } from "./text.ts";
import { isTypeWord } from "./types.ts";

/**
 * `element`: one element is read. `flash`: it is read as data in flash is. `size`: only its size or type is asked for.
 * `written`: an element is assigned to. `macro`: a macro names it. `other`: passed on, declared, or not understood.
 */
type UseKind = "element" | "flash" | "size" | "written" | "macro" | "other";

export interface Use {
  readonly kind: UseKind;
  /** The name, with its subscripts. */
  readonly span: Span;
}

/** A text and the initialisers that were read in it, in order. */
interface Read {
  readonly text: string;
  readonly initialisers: readonly { readonly base: number; readonly list: { readonly length: number } }[];
}

/** An array to look for: its name, how many subscripts reach an element, and where it is declared. */
export interface Wanted {
  readonly name: string;
  readonly subscripts: number;
  readonly declared: Span;
}

/** Uses of each array, in order of the text. Takes any text, never throws. */
export function usesOf({ text, initialisers }: Read, wanted: readonly Wanted[]): Map<Wanted, Use[]> {
  const byName = new Map(wanted.map((one) => [one.name, one]));
  const found = new Map(wanted.map((one): [Wanted, Use[]] => [one, []]));
  /** The last tokens: words, or single characters of punctuation; `0` for a literal. */
  let before: [string, string, string] = ["", "", ""];
  /** The word before each round bracket that is open. */
  const calls: string[] = [];
  let names: RegExp | undefined;
  let next = 0;
  let directiveEnd = -1;
  let at = 0;
  const token = (word: string) => {
    before = [before[1], before[2], word];
  };
  while (at < text.length) {
    while (next < initialisers.length && (initialisers[next]?.base ?? 0) < at) next++;
    const list = initialisers[next];
    if (list?.base === at && list.list.length > 0) {
      const end = at + list.list.length;
      inList(at, end);
      at = end;
      token("0");
      continue;
    }
    const c = text.charCodeAt(at);
    const kind = classOf(c);
    if (kind === IDENT) at = word();
    else if (kind === DIGIT) {
      at = numberEnd(text, at);
      token("0");
    } else if (c === 34 || c === 39) {
      at = quotedEnd(text, at);
      token("0");
    } else if (c === 47 && isComment(text, at)) at = commentEnd(text, at);
    else if (kind === 1) at++;
    else {
      const mark = text[at] as string;
      if (mark === "#" && /^[ \t\uFEFF]*$/.test(text.slice(lineStart(text, at), at)))
        directiveEnd = logicalLineEnd(text, at);
      if (mark === "(") calls.push(before[2]);
      else if (mark === ")") calls.pop();
      else if (mark === ";" || mark === "{" || mark === "}") calls.length = 0;
      token(mark);
      at++;
    }
  }
  return found;

  /** A list holds nearly all of the text and seldom a name: it is not taken apart. */
  function inList(from: number, to: number): void {
    names ??= new RegExp(`(?<![\\w$])(?:${[...byName.keys()].join("|")})(?![\\w$])`, "g");
    for (const m of text.slice(from, to).matchAll(names)) {
      const one = byName.get(m[0]);
      if (one)
        found.get(one)?.push({ kind: "other", span: { start: from + m.index, end: from + m.index + m[0].length } });
    }
  }

  function word(): number {
    const end = identEnd(text, at);
    const said = text.slice(at, end);
    const string = prefixedEnd(text, at, end);
    if (string > end) {
      token("0");
      return string;
    }
    const one = byName.get(said);
    const member = before[2] === "." || (before[1] === "-" && before[2] === ">");
    if (one && !member && at !== one.declared.start) found.get(one)?.push(use(one, at, end));
    token(said);
    return end;
  }

  function use({ subscripts }: Wanted, start: number, nameEnd: number): Use {
    const reached = subscriptsFrom(nameEnd);
    const span = { start, end: reached.end };
    const call = calls[calls.length - 1] ?? "";
    if (start < directiveEnd) return { kind: "macro", span };
    if (calls.includes("sizeof") || calls.includes("decltype") || before[2] === "sizeof") return { kind: "size", span };
    if (/^pgm_read_|_P$/.test(call)) return { kind: "flash", span };
    if (reached.count !== subscripts || isDeclared(before)) return { kind: "other", span };
    if (changed(before, reached.end)) return { kind: "written", span };
    return { kind: takesAddress(before) ? "other" : "element", span };
  }

  /** The end of the subscripts behind a name. */
  function subscriptsFrom(from: number): { readonly end: number; readonly count: number } {
    let [end, count] = [from, 0];
    for (;;) {
      const open = skipSpace(text, end);
      if (text[open] !== "[") return { end, count };
      const close = closing(open);
      if (close < 0) return { end, count: -1 };
      [end, count] = [close + 1, count + 1];
    }
  }

  function closing(open: number): number {
    let nesting = 0;
    for (let i = open; i < text.length; ) {
      const c = text.charCodeAt(i);
      if (c === 34 || c === 39) i = quotedEnd(text, i);
      else if (c === 47 && isComment(text, i)) i = commentEnd(text, i);
      else if (c === 59 || c === 123 || c === 125) return -1;
      else {
        if (c === 91) nesting++;
        if (c === 93 && --nesting === 0) return i;
        i++;
      }
    }
    return -1;
  }

  function changed([, one, last]: typeof before, end: number): boolean {
    const after = text.slice(skipSpace(text, end), skipSpace(text, end) + 3);
    return /^(?:=(?!=)|[-+*/%&|^]=|<<=|>>=|\+\+|--)/.test(after) || (one === last && (last === "+" || last === "-"));
  }
}

const EXPRESSION_WORDS = new Set([
  "return",
  "case",
  "else",
  "do",
  "throw",
  "co_return",
  "co_yield",
  "and",
  "or",
  "not",
]);

/** A word, or a type and a star, before a name: it is declared anew there. */
function isDeclared([, one, last]: readonly [string, string, string]): boolean {
  if (/^[A-Za-z_]/.test(last)) return !EXPRESSION_WORDS.has(last);
  return (last === "*" || last === "&") && (isTypeWord(one) || /_t$|^(?:byte|word|auto|const)$/.test(one));
}

/** `&name[0]` takes an address, `x & name[0]` and `x && name[0]` do not. */
function takesAddress([, one, last]: readonly [string, string, string]): boolean {
  if (last !== "&" || one === "&") return false;
  return !(/^[\w$)\]]/.test(one) && !EXPRESSION_WORDS.has(one));
}
