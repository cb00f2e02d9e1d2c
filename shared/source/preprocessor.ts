/**
 * Preprocessor lines: definitions, and conditions as far as the file itself (and the target) decides them.
 * Branches known not to be compiled are skipped; where a condition is not known every branch is read, each starting
 * from the same state.
 */
import { evaluateCondition } from "./expressions.ts";
import type { Names } from "./names.ts";
import { define, undefine } from "./names.ts";
import {
  afterBreak,
  classOf,
  commentEnd,
  IDENT,
  identEnd,
  isComment,
  logicalLineEnd,
  quotedEnd,
  SPACE,
} from "./scan.ts";
import type { Target } from "./types.ts";

interface Condition {
  /** Whether the present branch is compiled; undefined when not known. */
  state: boolean | undefined;
  /** A branch of this condition has surely been compiled, so the others are not. */
  taken: boolean;
  readonly saved: unknown;
  readonly why: string;
}

export interface Preprocessor {
  readonly conditions: Condition[];
  /** Why all of this file may not be compiled: the condition around the `#include` that brought it. */
  readonly around?: string | undefined;
  readonly names: Names;
  readonly target: Target;
  /** Takes a condition that is not known for false, and hears of it; without it every branch is read. */
  readonly assume?: (why: string) => void;
  /** Captures and restores the reader's state between branches of an unknown condition. */
  save(): unknown;
  restore(saved: unknown): void;
}

const KNOWN_TRUE = new Set(["__cplusplus", "__GNUC__", "__OPTIMIZE__"]);

/** What a line did: where reading goes on, why what follows is not known, and the name of a file to include (quoted). */
export interface Line {
  readonly next: number;
  readonly why?: string;
  readonly include?: string;
}

/** Handles the line whose `#` stands at `at`; returns where reading goes on. */
export function preprocess(text: string, at: number, p: Preprocessor): Line {
  let i = at + 1;
  while (text[i] === " " || text[i] === "\t") i++;
  const nameEnd = identEnd(text, i);
  const name = text.slice(i, nameEnd);
  const end = directiveEnd(text, nameEnd);
  const rest = () => plain(text.slice(nameEnd, end));
  const top = p.conditions[p.conditions.length - 1];
  switch (name) {
    case "define":
      readDefine(rest(), p);
      return { next: end };
    case "undef":
      undefine(p.names, rest().trim());
      return { next: end };
    case "if":
    case "ifdef":
    case "ifndef": {
      const { state, why } = decide(text, name, rest(), end, p);
      p.conditions.push({ state, taken: state === true, saved: state === undefined ? p.save() : undefined, why });
      if (state === false) return { next: skipBranch(text, end) };
      return state === undefined
        ? { next: end, why: `the condition \`#${name} ${rest().trim()}\` is not known` }
        : { next: end };
    }
    case "elif":
    case "elifdef":
    case "elifndef":
    case "else": {
      if (!top) return { next: end };
      if (top.taken) return { next: skipBranch(text, end) };
      if (top.state === undefined) {
        p.restore(top.saved);
        if (name === "else") return { next: end };
        const { state } = decide(text, name.slice(2), rest(), end, p);
        return { next: state === false ? skipBranch(text, end) : end };
      }
      const { state } = name === "else" ? { state: true } : decide(text, name.slice(2), rest(), end, p);
      if (state === undefined) {
        p.conditions[p.conditions.length - 1] = { ...top, state, saved: p.save() };
        return { next: end, why: `the condition \`#${name} ${rest().trim()}\` is not known` };
      }
      top.state = state;
      top.taken = state;
      return { next: state ? end : skipBranch(text, end) };
    }
    case "endif":
      p.conditions.pop();
      return { next: end };
    case "include":
    case "embed": {
      const why = `\`#${name} ${rest().trim()}\` brings elements from another file`;
      const include = name === "include" ? /^\s*"([^"]+)"/.exec(rest())?.[1] : undefined;
      return include === undefined ? { next: end, why } : { next: end, why, include };
    }
    default:
      return { next: end };
  }
}

/** The reason why the present place may not be compiled, if its conditions are not all known. */
export function doubt(p: Preprocessor): string | undefined {
  return p.around ?? p.conditions.find((c) => c.state === undefined)?.why;
}

function decide(
  text: string,
  kind: string,
  rest: string,
  end: number,
  p: Preprocessor,
): { state: boolean | undefined; why: string } {
  const decided = decideFrom(text, kind, rest, end, p);
  if (decided.state !== undefined || !p.assume) return decided;
  p.assume(decided.why);
  // What was not found defined is taken as not defined.
  return { ...decided, state: kind === "ifndef" };
}

function decideFrom(
  text: string,
  kind: string,
  rest: string,
  end: number,
  p: Preprocessor,
): { state: boolean | undefined; why: string } {
  const why = `\`#${kind} ${rest.trim()}\``;
  if (kind === "if") {
    const result = evaluateCondition(rest, p.names, p.target, (name) => isDefined(name, p));
    return { state: typeof result === "boolean" ? result : undefined, why };
  }
  const name = rest.trim().split(/\s/)[0] ?? "";
  const defined = isDefined(name, p);
  if (defined !== undefined) return { state: defined === (kind === "ifdef"), why };
  // An include guard, or a default for a name: the next line defines what was asked for.
  if (kind === "ifndef" && definesNext(text, end, name)) return { state: true, why };
  return { state: undefined, why };
}

function isDefined(name: string, p: Preprocessor): boolean | undefined {
  const macro = p.names.macros.get(name);
  if (macro) return macro.uncertain ? undefined : true;
  if (name === "__AVR__") return p.target === "avr";
  if (name === "__arm__") return p.target === "arm32";
  return KNOWN_TRUE.has(name) ? true : undefined;
}

function definesNext(text: string, end: number, name: string): boolean {
  let i = end;
  while (classOf(text.charCodeAt(i)) === SPACE || isComment(text, i))
    i = isComment(text, i) ? commentEnd(text, i) : i + 1;
  const m = /^#[ \t]*define[ \t]+(\w+)/.exec(text.slice(i, i + 200));
  return m?.[1] === name;
}

function readDefine(rest: string, p: Preprocessor): void {
  // A name may begin with a digit here: XBM files named after a size define such, and other tools read them.
  const m = /^\s*([\w$]+)(\(([^)]*)\))?/.exec(rest);
  if (!m) return;
  const params =
    m[2] === undefined
      ? undefined
      : (m[3] as string)
          .split(",")
          .map((s) => s.trim())
          .filter((s) => s !== "");
  const body = rest.slice(m[0].length).trim();
  const uncertain = doubt(p);
  define(p.names, m[1] as string, uncertain === undefined ? { params, body } : { params, body, uncertain });
}

/** End of a preprocessor line, with joined lines and with block comments that run over several lines. */
function directiveEnd(text: string, from: number): number {
  let end = logicalLineEnd(text, from);
  for (let i = from; i < end; i++) {
    const c = text.charCodeAt(i);
    if (c === 34 || c === 39) i = quotedEnd(text, i) - 1;
    else if (c === 47 && isComment(text, i)) {
      const close = commentEnd(text, i);
      if (close > end) end = logicalLineEnd(text, close);
      i = close - 1;
    }
  }
  return end;
}

/** A directive's text with comments and line joints replaced by spaces. */
function plain(text: string): string {
  if (!text.includes("/") && !text.includes("\\")) return text;
  let out = "";
  for (let i = 0; i < text.length; ) {
    const c = text.charCodeAt(i);
    if (c === 34 || c === 39) {
      const end = quotedEnd(text, i);
      out += text.slice(i, end);
      i = end;
    } else if (c === 47 && isComment(text, i)) {
      out += " ";
      i = commentEnd(text, i);
    } else if (c === 92 && /[\r\n]/.test(text[i + 1] ?? "")) {
      out += " ";
      i = afterBreak(text, i + 1);
    } else {
      out += text[i];
      i++;
    }
  }
  return out;
}

/** From the end of a directive, the `#` of the `#elif`, `#else` or `#endif` that ends its branch; or the text's end. */
function skipBranch(text: string, from: number): number {
  let nesting = 0;
  let lineBegins = true;
  for (let i = from; i < text.length; ) {
    const c = text.charCodeAt(i);
    if (c === 10 || c === 13) {
      lineBegins = true;
      i++;
    } else if (c === 35 && lineBegins) {
      let n = i + 1;
      while (text[n] === " " || text[n] === "\t") n++;
      const name = text.slice(n, classOf(text.charCodeAt(n)) === IDENT ? identEnd(text, n) : n);
      if (name === "if" || name === "ifdef" || name === "ifndef") nesting++;
      else if (nesting === 0 && (name.startsWith("el") || name === "endif")) return i;
      else if (name === "endif") nesting--;
      i = directiveEnd(text, n);
    } else if (c === 47 && isComment(text, i)) i = commentEnd(text, i);
    else if (c === 34 || c === 39) {
      lineBegins = false;
      i = quotedEnd(text, i);
    } else {
      if (classOf(c) !== SPACE) lineBegins = false;
      i++;
    }
  }
  return text.length;
}
