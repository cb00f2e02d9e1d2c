/** What stands at namespace level in a file, outside function bodies, types and lists; and the names declared there. */
import {
  afterBreak,
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

export interface Item extends Span {
  /** The head and the end of a namespace are statements of their own. */
  readonly kind: "statement" | "directive" | "comment";
}

export interface Outline {
  /** In order of the text; none overlaps another. */
  readonly items: readonly Item[];
  /** Variables, functions, types and enumerators; macros are not among them. */
  readonly names: ReadonlySet<string>;
}

/** What has been read of the present statement. */
interface Open {
  readonly start: number;
  first: string;
  /** The token before: a word, or a character of punctuation, `"` for any literal. */
  before: string;
  round: number;
  assigned: boolean;
  called: boolean;
  words: Set<string>;
  names: string[];
}

interface State {
  readonly namespaces: number;
  readonly depth: number;
  readonly open: Open | undefined;
}

/** A text and the initialisers that were read in it, in order. */
interface Read {
  readonly text: string;
  readonly initialisers: readonly { readonly base: number; readonly list: { readonly length: number } }[];
}

const known = new WeakMap<Read, Outline>();

/** The outline of a file that was read; made once for each reading. Takes any text, never throws. */
export function outlineOf(source: Read): Outline {
  const made = known.get(source) ?? readOutline(source);
  known.set(source, made);
  return made;
}

function readOutline({ text, initialisers: lists }: Read): Outline {
  const items: Item[] = [];
  const names = new Set<string>();
  const conditions: State[] = [];
  let namespaces = 0;
  /** Braces open below namespace level. */
  let depth = 0;
  let open: Open | undefined;
  let inEnum = false;
  let at = 0;
  let next = 0;

  while (at < text.length) {
    while (next < lists.length && (lists[next]?.base ?? 0) < at) next++;
    const list = lists[next];
    if (list?.base === at && list.list.length > 0) {
      at += list.list.length;
      if (open && depth === 0) {
        open.assigned = true;
        open.before = "}";
      }
      continue;
    }
    const c = text.charCodeAt(at);
    const kind = classOf(c);
    if (kind === IDENT) word();
    else if (kind === DIGIT) literal(numberEnd(text, at));
    else if (c === 34 || c === 39) literal(quotedEnd(text, at));
    else if (c === 47 && isComment(text, at)) comment();
    else if (c === 35 && /^[ \t\uFEFF]*$/.test(text.slice(lineStart(text, at), at))) directive();
    else if (kind === 1) at++;
    else punctuation(text[at] as string);
  }
  if (open) close(text.length);
  return { items, names };

  function begin(start = at): Open {
    open ??= {
      start,
      first: "",
      before: "",
      round: 0,
      assigned: false,
      called: false,
      words: new Set(),
      names: [],
    };
    return open;
  }

  function close(end: number): void {
    if (!open) return;
    items.push({ kind: "statement", start: open.start, end });
    // What is only announced may still be defined.
    if (open.first !== "extern" || open.assigned) for (const name of open.names) names.add(name);
    open = undefined;
  }

  function literal(end: number): void {
    if (depth === 0) begin().before = '"';
    at = end;
  }

  function word(): void {
    const end = identEnd(text, at);
    const found = text.slice(at, end);
    const string = prefixedEnd(text, at, end);
    if (string > end) {
      literal(string);
      return;
    }
    if (depth === 0) {
      const statement = begin();
      if (statement.first === "") statement.first = found;
      if (statement.round === 0) {
        statement.words.add(found);
        if (!statement.assigned && declares(statement.before, skipSpace(text, end))) statement.names.push(found);
      }
      statement.before = "a";
    } else if (depth === 1 && inEnum && open && /[{,]/.test(open.before)) {
      names.add(found);
      open.before = "a";
    }
    at = end;
  }

  /** A name stands after a type or a comma, and before what a declarator goes on with. */
  function declares(before: string, after: number): boolean {
    return (
      /[a*&>,]/.test(before) && before !== "" && (/[[=;({,:]/.test(text[after] ?? ";") || lists[next]?.base === after)
    );
  }

  function comment(): void {
    const end = commentEnd(text, at);
    if (depth === 0 && !open) items.push({ kind: "comment", start: at, end });
    at = end;
  }

  function directive(): void {
    const end = logicalLineEnd(text, at);
    const [, name = ""] = /^#[ \t]*(\w+)/.exec(text.slice(at, Math.min(end, at + 40))) ?? [];
    if (name.startsWith("if")) conditions.push(state());
    else if (name.startsWith("el")) {
      const saved = conditions[conditions.length - 1];
      if (saved) restore(saved);
    } else if (name === "endif") conditions.pop();
    if (depth === 0 && !open) items.push({ kind: "directive", start: at, end });
    at = end < text.length ? afterBreak(text, end) : end;
  }

  function state(): State {
    return { namespaces, depth, open: open && { ...open, words: new Set(open.words), names: [...open.names] } };
  }

  /** Each branch of a condition is read from the same state. */
  function restore(saved: State): void {
    namespaces = saved.namespaces;
    depth = saved.depth;
    open = saved.open && { ...saved.open, words: new Set(saved.open.words), names: [...saved.open.names] };
  }

  function punctuation(mark: string): void {
    at++;
    if (mark === "{") brace();
    else if (mark === "}") unbrace();
    else if (depth > 0) {
      if (open && depth === 1) open.before = mark;
    } else if (mark === ";" && (open?.round ?? 0) === 0) {
      if (open) close(at);
    } else {
      const statement = begin(at - 1);
      if (mark === "(") statement.called = true;
      if (mark === "(" || mark === "[") statement.round++;
      else if ((mark === ")" || mark === "]") && statement.round > 0) statement.round--;
      else if (statement.round === 0 && mark === "=") statement.assigned = true;
      else if (statement.round === 0 && mark === ",") statement.assigned = false;
      statement.before = mark;
    }
  }

  function brace(): void {
    if (depth > 0) {
      depth++;
      return;
    }
    const statement = begin(at - 1);
    if (statement.words.has("namespace") || (statement.first === "extern" && statement.before === '"')) {
      namespaces++;
      close(at);
      return;
    }
    depth = 1;
    inEnum = statement.words.has("enum") && !statement.assigned;
    statement.before = "{";
  }

  function unbrace(): void {
    if (depth === 0) {
      if (namespaces > 0) namespaces--;
      begin(at - 1);
      close(at);
      return;
    }
    depth--;
    if (depth > 0 || !open) return;
    inEnum = false;
    open.before = "}";
    open.round = 0;
    const type = ["struct", "class", "union", "enum"].some((w) => open?.words.has(w));
    // A function ends with its body; types and values end with the semicolon.
    if (!open.assigned && (!type || open.called)) close(at);
  }
}
