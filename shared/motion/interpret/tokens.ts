/**
 * The tokens of a file as its compiler sees them: comments gone, conditions decided, macros replaced, included files
 * brought in. A list of numbers that has been read already (`source/read.ts`) is one token.
 */
import type { SourceArray } from "../../source/arrays.ts";
import { expanded, operatorAt, type Token } from "../../source/expressions.ts";
import type { Names } from "../../source/names.ts";
import { newNames } from "../../source/names.ts";
import { type Preprocessor, preprocess } from "../../source/preprocessor.ts";
import type { SourceFile } from "../../source/read.ts";
import { classOf, DIGIT, IDENT, identEnd, lineEnd, numberEnd, quotedEnd, skipSpace } from "../../source/scan.ts";
import type { Span } from "../../source/text.ts";

/** A token and where it stands in the main file: those of a macro at its use, those of other files at the include. */
export interface Lexeme extends Span {
  readonly kind: Token["kind"] | "list" | "unknown" | "end";
  readonly text: string;
  /** The numbers of a `list`. */
  readonly array?: SourceArray;
}

interface Assumed {
  readonly why: string;
  readonly span: Span;
  /** Index of the token that comes next. */
  readonly token: number;
}

export interface Lexemes {
  readonly list: readonly Lexeme[];
  /** Conditions that the file does not decide, taken as false: where they stand, and where macros are used that hang on them. */
  readonly assumed: readonly Assumed[];
}

/** More than any sketch has outside of its arrays. */
const MOST = 400_000;
const MOST_DEPTH = 32;

const known = new WeakMap<SourceFile, Lexemes>();

/** The tokens of one version of a file, read once. */
export function lexemesOf(source: SourceFile): Lexemes {
  const found = known.get(source) ?? readLexemes(source);
  known.set(source, found);
  return found;
}

function readLexemes(source: SourceFile): Lexemes {
  const names = newNames();
  const list: Lexeme[] = [];
  const assumed: Assumed[] = [];
  /** Conditions that were taken as false, and the macros that are defined under one. */
  const unknown = new Set<string>();
  const doubtful = new Map<string, string>();
  const once = new Set<string>();
  read(source, undefined, 0);
  const { length } = source.text;
  list.push({ kind: "end", text: "", start: length, end: length });
  return { list, assumed };

  function read(file: SourceFile, at: Span | undefined, depth: number): void {
    const { text } = file;
    const lists = wholeLists(file);
    let run: Lexeme[] = [];
    const place = (start: number, end: number): Span => at ?? { start, end };
    const flush = () => {
      const doubt = (name: string, span: Span, behind: number) => {
        const why = doubtful.get(name);
        if (why !== undefined) assumed.push({ why, span, token: list.length + behind });
      };
      const made = replaced(run, names, doubt);
      for (const lexeme of made) list.push(lexeme);
      run = [];
    };
    let i = 0;
    let last = -1;
    const preprocessor: Preprocessor = {
      conditions: [],
      names,
      target: file.target,
      save: () => undefined,
      restore: () => undefined,
      assume: (why) => {
        unknown.add(why);
        assumed.push({ why, span: place(i, lineEnd(text, i)), token: list.length });
      },
    };
    while (list.length + run.length < MOST) {
      i = skipSpace(text, i);
      if (i >= text.length) break;
      const c = text.charCodeAt(i);
      const start = i;
      if (c === 35 && (last < 0 || /[\r\n]/.test(text.slice(last, i)))) {
        flush();
        const line = preprocess(text, i, preprocessor);
        const defined = /^#[ \t]*define[ \t]+([\w$]+)/.exec(text.slice(start, start + 200))?.[1];
        if (defined !== undefined) {
          const condition = preprocessor.conditions.find(({ why }) => unknown.has(why));
          if (condition) doubtful.set(defined, condition.why);
          else doubtful.delete(defined);
        }
        const end = line.next;
        const found = line.include === undefined ? undefined : included(source, line.include);
        if (found && depth < MOST_DEPTH && !once.has(found.id)) {
          if (/^[ \t]*#[ \t]*pragma[ \t]+once/m.test(found.file.text)) once.add(found.id);
          read(found.file, place(start, text.indexOf("\n", start) < 0 ? end : text.indexOf("\n", start)), depth + 1);
        }
        i = end;
        last = i - 1;
        continue;
      }
      const array = lists.get(i);
      if (array?.list) {
        i += array.list.length;
        const { start: from, end } = at ?? { start, end: start + 1 };
        run.push({ kind: "list", text: "{", array, start: from, end });
      } else {
        const kind = classOf(c);
        if (kind === DIGIT || (c === 46 && classOf(text.charCodeAt(i + 1)) === DIGIT)) i = numberEnd(text, i);
        else if (kind === IDENT) i = identEnd(text, i);
        else if (c === 34 || c === 39) i = quotedEnd(text, i);
        else i += operatorAt(text, i).length;
        const what = c === 34 ? "string" : c === 39 ? "character" : undefined;
        const number = kind === DIGIT || (c === 46 && i > start + 1 && text[start + 1] !== ".");
        run.push({
          kind: what ?? (number ? "number" : kind === IDENT ? "word" : "operator"),
          text: text.slice(start, i),
          start: at ? at.start : start,
          end: at ? at.end : i,
        });
      }
      last = i;
    }
    flush();
  }
}

/** Lists of whole numbers whose values are known, by where they begin. */
function wholeLists({ arrays }: SourceFile): Map<number, SourceArray> {
  const found = new Map<number, SourceArray>();
  for (const array of arrays)
    if (array.node === 0 && array.list && array.readOnly === undefined && !array.pointers && !array.name.includes("."))
      found.set(array.base, array);
  return found;
}

function included(source: SourceFile, name: string): { id: string; file: SourceFile } | undefined {
  const tail = name.replace(/^(?:\.\.?\/)+/, "");
  for (const [id, file] of source.included)
    if (id === tail || id.endsWith(`/${tail}`) || id.endsWith(`/${encodeURI(tail)}`)) return { id, file };
  return undefined;
}

/** The tokens with their macros replaced; what a macro makes stands where it is used. */
function replaced(
  run: readonly Lexeme[],
  names: Names,
  used: (name: string, span: Span, behind: number) => void,
): Lexeme[] {
  const out: Lexeme[] = [];
  for (let i = 0; i < run.length; i++) {
    const lexeme = run[i] as Lexeme;
    const macro = lexeme.kind === "word" ? names.macros.get(lexeme.text) : undefined;
    if (!macro) {
      out.push(lexeme);
      continue;
    }
    const called = run[i + 1]?.text === "(" && run[i + 1]?.kind === "operator";
    if (macro.params !== undefined && !called) {
      out.push(lexeme);
      continue;
    }
    // What an object-like macro makes may be called with what follows.
    const last = called ? closing(run, i + 1) : i;
    const call = run.slice(i, last + 1);
    const span = { start: lexeme.start, end: Math.max(lexeme.end, (run[last] as Lexeme).end) };
    used(lexeme.text, { start: lexeme.start, end: lexeme.end }, out.length);
    const made = expanded(call as readonly Token[], names);
    if ("why" in made) {
      out.push({ kind: "unknown", text: `${lexeme.text}: ${made.why}`, ...span });
    } else for (const token of made) out.push("start" in token ? (token as Lexeme) : { ...token, ...span });
    i = last;
  }
  return out;
}

function closing(run: readonly Lexeme[], open: number): number {
  let nesting = 0;
  for (let i = open; i < run.length; i++) {
    const { text, kind } = run[i] as Lexeme;
    if (kind !== "operator") continue;
    if (text === "(") nesting++;
    if (text === ")" && --nesting === 0) return i;
  }
  return run.length - 1;
}
