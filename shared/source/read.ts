/**
 * Reads a source file: its arrays of numbers, its annotations and what they stand on. Start here.
 *
 * One pass over the text keeps the tokens of the present statement; an initialiser is read by `initialiser.ts`, the
 * statement before it says its name and type (`declarations.ts`). Text that is not C, half-typed or binary gives fewer
 * arrays, never an error.
 */
import type { Annotation } from "./annotationSyntax.ts";
import { annotationsIn } from "./annotationSyntax.ts";
import type { SourceArray } from "./arrays.ts";
import { bindAnnotations, collectArrays } from "./arrays.ts";
import type { Declarator } from "./declarations.ts";
import { declaratorsOf, specifiers } from "./declarations.ts";
import { evaluate, evaluateItem } from "./expressions.ts";
import type { Initialiser, ListReader } from "./initialiser.ts";
import { readInitialiser } from "./initialiser.ts";
import type { Names, Scope, Unknown } from "./names.ts";
import { addConstant, declareConstant, declareObject, declareType, newNames, newScope } from "./names.ts";
import type { Preprocessor } from "./preprocessor.ts";
import { doubt, preprocess } from "./preprocessor.ts";
import {
  classOf,
  commentEnd,
  DIGIT,
  IDENT,
  identEnd,
  isComment,
  isPrefix,
  isRawPrefix,
  numberEnd,
  prefixedEnd,
  quotedEnd,
  rawStringEnd,
  SPACE,
  skipSpace,
} from "./scan.ts";
import type { Statement } from "./statement.ts";
import {
  addToken,
  addType,
  clear,
  copyStatement,
  INITIALISER,
  isOverlong,
  NUMBER,
  newStatement,
  STRING,
  WORD,
} from "./statement.ts";
import type { Span } from "./text.ts";
import { commonPrefix, commonSuffix } from "./text.ts";
import type { CType, Target, Typed } from "./types.ts";
import { stored, WIDTHS } from "./types.ts";

/** An initialiser at its place in the text. */
interface Placed {
  readonly base: number;
  readonly list: Initialiser;
}

/** An annotation and the arrays it speaks of (indices into `arrays`; empty where it binds to nothing). */
export interface BoundAnnotation extends Annotation {
  arrays: readonly number[];
}

export interface SourceFile {
  readonly text: string;
  readonly target: Target;
  readonly initialisers: readonly Placed[];
  readonly arrays: readonly SourceArray[];
  readonly annotations: readonly BoundAnnotation[];
  /** Lines of comments, from an `@word` at their start that is no marker: one that is misspelt may be among them. */
  readonly unmarked: readonly Span[];
  /** Macros at the end of the file. */
  readonly macros: Names["macros"];
  /** The files that it includes, also by way of others, by their id; as far as they were given. */
  readonly included: ReadonlyMap<string, SourceFile>;
  /** Last parts of the names that are included, also inside of lists, by way of others, and where no file was found. */
  readonly asks: ReadonlySet<string>;
  /** What another version of its text is read with, so that it is read in the same way. */
  readonly again: Pick<ReadOptions, "target" | "bytes" | "includes">;
}

/** A file that another one includes. */
export interface Included {
  /** The same for every way to name the file. */
  readonly id: string;
  readonly text: string;
}

/** Finds `#include "NAME"` in the file `from` (an id; "" is the file being read). Called often: the caller remembers. */
export type Includes = (name: string, from: string) => Included | undefined;

export interface ReadOptions {
  readonly target: Target;
  /** An earlier version of the same document: initialisers that did not change are taken over from it. */
  readonly previous?: SourceFile | undefined;
  /** Each character is one byte of a file that is not UTF-8. */
  readonly bytes?: boolean | undefined;
  /** Gives the files of the workspace; without it none is followed. */
  readonly includes?: Includes | undefined;
}

/** What the file being read and all that it includes share. */
interface Unit {
  readonly names: Names;
  readonly files: Map<string, SourceFile>;
  readonly asks: ReadonlySet<string>;
  /** Files that said `#pragma once`, and those being read. */
  readonly closed: Set<string>;
  /** Characters that may still be included. */
  left: number;
}

/** All that a file may include together; sixteen times the largest display file met. */
const MOST_INCLUDED = 1 << 26;

/** Half-typed lists that are taken for lists; text with more of them is no C, and is not worth reading on. */
const MOST_UNCLOSED = 100;

type BraceKind = "block" | "namespace" | "type";

interface Brace {
  readonly kind: BraceKind;
  readonly scope: Scope;
  /** For a type: the statement before its body, its name, and its members so far. */
  readonly before?: Statement;
  readonly members: { name: string; type: CType }[];
  readonly union: boolean;
  /** For a type: annotations before it. What the statement declares after the body is what they wait for. */
  readonly held: readonly number[];
  /** Its names have a scope of their own; not so where braces nest absurdly deep. */
  readonly scoped: boolean;
}

/** Scopes deeper than this share one, so that looking a name up stays cheap. */
const MOST_SCOPES = 128;

/** Reads all arrays and annotations of a text. Takes any text; never throws. */
export function readSource(text: string, options: ReadOptions): SourceFile {
  const asks = new Set<string>();
  const unit: Unit = { names: newNames(), files: new Map(), asks, closed: new Set(), left: MOST_INCLUDED };
  return readText(text, { ...options, includes: remembering(options.includes, asks) }, unit, "", undefined);
}

/** Gives each file as it was when it was first asked for. */
function remembering(includes: Includes | undefined, asks: Set<string>): Includes | undefined {
  if (!includes) return undefined;
  const found = new Map<string, Included | undefined>();
  return (name, from) => {
    const key = `${from}\n${name}`;
    asks.add(name.replace(/^.*[\\/]/, ""));
    if (!found.has(key)) found.set(key, includes(name, from));
    return found.get(key);
  };
}

/** Reads one file of a unit. `around`: the unknown condition that it is included under. */
function readText(text: string, options: ReadOptions, unit: Unit, id: string, around: string | undefined): SourceFile {
  const { target } = options;
  const { names } = unit;
  const initialisers: Placed[] = [];
  const arrays: SourceArray[] = [];
  const annotations: BoundAnnotation[] = [];
  const unmarked: Span[] = [];
  const braces: Brace[] = [];
  const reuse = reusable(text, options);
  let statement = newStatement();
  /** Annotations that wait for the first initialiser after them: indices into `annotations`. */
  let waiting: number[] = [];
  let at = 0;
  let nextMark = -1;
  let unclosed = 0;

  const preprocessor: Preprocessor = {
    conditions: [],
    around,
    names,
    target,
    save: () => ({ braces: [...braces], statement: copyStatement(statement), scopes: [...names.scopes] }),
    restore: (saved) => {
      // A condition that began inside a list saved nothing.
      if (saved === undefined) return;
      const state = saved as { braces: Brace[]; statement: Statement; scopes: Scope[] };
      braces.splice(0, braces.length, ...state.braces);
      names.scopes.splice(0, names.scopes.length, ...state.scopes);
      statement = copyStatement(state.statement);
    },
  };
  const lists: ListReader = {
    target,
    bytes: options.bytes === true,
    rereads: { left: 1_000_000 },
    mayAnnotate,
    evaluate: (expression) => evaluate(expression, names, target),
    evaluateItem: (expression) => evaluateItem(expression, names, target),
    meaning: {
      evaluate: (expression) => evaluate(expression, names, target),
      settled: (name) => names.macros.has(name) && !names.moving.has(name),
    },
    directive: (place) => {
      // Inside a list the surrounding statement stays as it is, whichever branch is read.
      const inside: Preprocessor = { ...preprocessor, save: () => undefined, restore: () => undefined };
      const line = preprocess(text, place, inside);
      const file = line.include === undefined ? undefined : options.includes?.(line.include, id);
      return file ? { next: line.next, items: { text: file.text, name: line.include as string } } : line;
    },
  };

  while (at < text.length) {
    const c = text.charCodeAt(at);
    const kind = classOf(c);
    if (kind === SPACE) at++;
    else if (kind === IDENT) readWord();
    else if (kind === DIGIT) {
      const end = numberEnd(text, at);
      addToken(statement, NUMBER, at, end);
      at = end;
    } else if (c === 47 && isComment(text, at)) {
      const end = commentEnd(text, at);
      readComment({ start: at, end });
      at = end;
    } else if (c === 35 && startsLine(text, at)) {
      const line = preprocess(text, at, preprocessor);
      if (line.include !== undefined) include(line.include);
      else if (id !== "" && /^#[ \t]*pragma[ \t]+once/.test(text.slice(at, at + 40))) unit.closed.add(id);
      at = line.next;
    } else if (c === 34) readQuoted(at, quotedEnd(text, at));
    else if (c === 39) {
      const end = quotedEnd(text, at);
      addToken(statement, NUMBER, at, end);
      at = end;
    } else if (c === 123) openBrace();
    else if (c === 125) closeBrace();
    else if (c === 59) endStatement();
    else {
      // A label or access specifier ends here and declares nothing.
      if (c === 58 && endsLabel()) clear(statement);
      else addToken(statement, c, at, at + 1);
      at++;
    }
  }
  number(arrays);
  const again = { target, bytes: options.bytes, includes: options.includes };
  const { files: included, asks } = unit;
  const { macros } = names;
  return { text, target, initialisers, arrays, annotations, unmarked, macros, included, asks, again };

  /** Takes over the names of an included file; its arrays and annotations are its own. */
  function include(name: string): void {
    const file = options.includes?.(name, id);
    if (!file || file.id === id || unit.closed.has(file.id) || file.text.length > unit.left) return;
    unit.left -= file.text.length + 1000;
    const { files, closed } = unit;
    closed.add(file.id);
    const scopes = names.scopes.length;
    const previous = files.get(file.id) ?? options.previous?.included.get(file.id);
    const read = readText(file.text, { ...options, previous }, unit, file.id, doubt(preprocessor));
    names.scopes.length = Math.min(names.scopes.length, scopes);
    if (!/^[ \t]*#[ \t]*pragma[ \t]+once/m.test(file.text)) closed.delete(file.id);
    files.set(file.id, read);
  }

  /** A string that initialises an array is a list; any other is a token of the statement. */
  function readQuoted(start: number, end: number): void {
    const { kinds, length } = statement;
    if (kinds[length - 1] === 61 && kinds.includes(93) && !isOverlong(statement)) {
      const last = stringsEnd(text, end);
      const after = text.charCodeAt(skipSpace(text, last));
      const declarator = after === 59 || after === 44 ? lastDeclarator() : undefined;
      if (declarator && numbers(declarator.type)) {
        const list = readInitialiser(text, start, lists, last);
        initialisers.push({ base: start, list });
        at = last;
        addList(start, list, declarator);
        return;
      }
    }
    addToken(statement, STRING, start, end);
    at = end;
  }

  function lastDeclarator(): Declarator | undefined {
    const declared = isOverlong(statement) ? [] : declaratorsOf(text, statement, names, target);
    return declared[declared.length - 1];
  }

  function readWord(): void {
    const start = at;
    // A word straight after a list begins the next statement: the semicolon has not been typed yet.
    if (statement.kinds[statement.length - 1] === INITIALISER) clear(statement);
    at = identEnd(text, at);
    const string = prefixedEnd(text, start, at);
    if (string > at) {
      readQuoted(start, string);
      return;
    }
    addToken(statement, WORD, start, at);
  }

  /** Reading moves forward, so the next `@` is looked for only once it has been passed. */
  function mayAnnotate(start: number, end: number): boolean {
    if (nextMark < start) {
      const found = text.indexOf("@", start);
      nextMark = found < 0 ? Number.POSITIVE_INFINITY : found;
    }
    return nextMark < end;
  }

  function readComment(span: Span): void {
    if (!mayAnnotate(span.start, span.end)) return;
    for (const annotation of annotationsIn(text, span, unmarked)) {
      if (annotation.marker !== "panel") waiting.push(annotations.length);
      annotations.push(unbound(annotation));
    }
  }

  function word(token: number): string {
    return token >= 0 && statement.kinds[token] === WORD
      ? text.slice(statement.starts[token], statement.ends[token])
      : "";
  }

  function statementStart(otherwise: number): number {
    return statement.length > 0 ? (statement.starts[0] as number) : otherwise;
  }

  function endsLabel(): boolean {
    const count = statement.length;
    if (text[at + 1] === ":" || text[at - 1] === ":") return false;
    const first = word(0);
    return first === "case" || first === "default" || (count === 1 && first !== "");
  }

  function openBrace(): void {
    const last = statement.length - 1;
    const before = statement.kinds[last];
    let role = roleOfBrace(last, before);
    if (role === "initialiser") {
      readList();
      return;
    }
    if (role === "enum") {
      readEnum();
      return;
    }
    if (role === "block") waiting = [];
    const scope = newScope(role === "block" ? "" : nameOfBody());
    const union = hasKeyword("union");
    // Types that nest absurdly deep are no types; their statements are not worth keeping.
    if (role === "type" && braces.length > MOST_SCOPES) role = "block";
    const scoped = names.scopes.length < MOST_SCOPES;
    const members: Brace["members"] = [];
    const held = role === "type" ? [...waiting] : [];
    if (role === "type")
      braces.push({ kind: role, scope, before: copyStatement(statement), members, union, held, scoped });
    else braces.push({ kind: role, scope, members, union, held, scoped });
    if (scoped) names.scopes.push(scope);
    clear(statement);
    at++;
  }

  function hasKeyword(wanted: string): boolean {
    const { kinds, starts, ends, length } = statement;
    for (let i = 0; i < length; i++) {
      // The length rules nearly all words out without making a string.
      if (kinds[i] === WORD && (ends[i] as number) - (starts[i] as number) === wanted.length && word(i) === wanted) {
        return true;
      }
    }
    return false;
  }

  function roleOfBrace(last: number, before: number | undefined): BraceKind | "initialiser" | "enum" {
    if (before === undefined || isOverlong(statement) || unclosed > MOST_UNCLOSED) return "block";
    if (before === 61) return word(last - 1) === "operator" ? "block" : "initialiser";
    let square = false;
    let round = false;
    let assigned = false;
    let nesting = 0;
    let keyword = "";
    let angle = 0;
    for (let i = 0; i <= last; i++) {
      const kind = statement.kinds[i] as number;
      if (kind === 40 || kind === 91) {
        const before = statement.kinds[i - 1];
        const named = before === WORD ? word(i - 1) !== "operator" : before === NUMBER;
        if (nesting === 0 && kind === 91 && named) square = true;
        if (nesting === 0 && angle === 0 && kind === 40 && !/^(__attribute__|alignas|__declspec)$/.test(word(i - 1)))
          round ||= !square;
        nesting++;
      } else if (kind === 41 || kind === 93) nesting--;
      else if (kind === 44 && nesting === 0) {
        // Each declarator of a statement has its own dimensions and its own `=`.
        square = false;
        round = false;
        assigned = false;
      } else if (kind === 60 && word(i - 1) !== "" && word(i - 1) !== "operator") angle++;
      else if (kind === 62 && angle > 0) angle--;
      else if (kind === 61 && nesting === 0) assigned = true;
      else if (kind === WORD && nesting === 0 && keyword === "") {
        const w = word(i);
        if (/^(struct|class|union|enum|namespace|extern)$/.test(w)) keyword = w;
      }
    }
    if (assigned) return before === WORD ? "initialiser" : "block";
    if (keyword === "namespace" || (keyword === "extern" && before === STRING)) return "namespace";
    // C++ direct-list-initialisation: `uint8_t a[2] {1, 2}`, perhaps with a macro before the brace.
    if (square && (before === 93 || before === WORD || before === 41)) return "initialiser";
    if (round) return "block";
    // `const Icon vent {1, 2}`, `std::array<uint8_t, 2> a {1, 2}`.
    const typed = hasKeyword("const") || hasKeyword("constexpr") || (statement.kinds[last - 1] === 62 && angle === 0);
    if (keyword === "" && before === WORD && last > 1 && typed) return "initialiser";
    if (keyword === "enum") return "enum";
    if (keyword === "struct" || keyword === "class" || keyword === "union") return "type";
    return "block";
  }

  /** Name of the namespace or type whose body opens here: the last word before the brace or before its base classes. */
  function nameOfBody(): string {
    let name = "";
    for (let i = 0; i < statement.length; i++) {
      if (statement.kinds[i] === 58 && statement.kinds[i + 1] !== 58 && statement.kinds[i - 1] !== 58) break;
      const w = word(i);
      if (w !== "" && w !== "final" && !/^(struct|class|union|enum|namespace|typedef|inline|static|const)$/.test(w))
        name = w;
    }
    return name;
  }

  function closeBrace(): void {
    const brace = braces.pop();
    waiting = (brace?.held ?? []).filter((i) => annotations[i]?.arrays.length === 0);
    at++;
    if (!brace) {
      clear(statement);
      return;
    }
    if (brace.scoped && names.scopes.length > 1) names.scopes.pop();
    if (brace.scope.name !== "") names.named.set(brace.scope.name, brace.scope);
    if (brace.scope.constants || brace.scope.types) names.memo.clear();
    if (brace.kind === "type" && brace.before) {
      statement = copyStatement(brace.before);
      const type: CType = brace.union
        ? { kind: "other", why: "it is in a union" }
        : { kind: "struct", members: brace.members };
      if (brace.scope.name !== "") declareType(names, brace.scope.name, type);
      addType(statement, type, at - 1, at);
    } else clear(statement);
  }

  function readList(): void {
    const base = at;
    const list = reuse(base) ?? readInitialiser(text, base, lists);
    initialisers.push({ base, list });
    at = base + Math.max(1, list.length);
    addList(base, list, lastDeclarator());
  }

  /** Finds the arrays of an initialiser that ends at `at`, and what the waiting annotations say of them. */
  function addList(base: number, list: Initialiser, declarator: Declarator | undefined): void {
    const start = statementStart(base);
    const here: number[] = waiting;
    for (const comment of list.comments) {
      const placed = { start: base + comment.start, end: base + comment.end };
      for (const annotation of annotationsIn(text, placed, unmarked)) {
        if (annotation.marker !== "panel") here.push(annotations.length);
        annotations.push(unbound(annotation));
      }
    }
    waiting = [];
    const found = collectArrays({ base, list }, declarator, start);
    const first = arrays.length;
    const bound = bindAnnotations(
      text,
      { base, list },
      found,
      here.map((i) => annotations[i] as Annotation),
      declarator,
      start,
    );
    for (const array of bound.arrays) arrays.push(array);
    if (declarator) {
      const whole = found.length === 1 && found[0]?.node === 0 ? found[0] : undefined;
      const object = sized(declarator.type, whole);
      if (object) declareObject(names, declarator.name, object);
    }
    here.forEach((index, k) => {
      (annotations[index] as BoundAnnotation).arrays = (bound.bindings[k] ?? []).map((i) => first + i);
    });
    // What follows a list that is not closed is read as a statement of its own.
    if (list.closed) addToken(statement, INITIALISER, base, at);
    else {
      clear(statement);
      unclosed++;
    }
  }

  function readEnum(): void {
    const name = nameOfBody();
    const scoped = hasKeyword("class") || (hasKeyword("struct") && hasKeyword("enum"));
    const colon = statement.kinds.indexOf(58);
    let underlying: CType = { kind: "int", bits: WIDTHS[target].int, signed: true };
    if (colon >= 0) {
      const after = newStatement();
      for (let i = colon + 1; i < statement.length; i++) {
        addToken(after, statement.kinds[i] as number, statement.starts[i] as number, statement.ends[i] as number);
      }
      underlying = specifiers(text, after, after.length, names, target).type;
    }
    const scope = newScope(name);
    let next: Typed | undefined = { value: 0n, bits: WIDTHS[target].int, signed: true };
    let why = "";
    at++;
    for (;;) {
      at = skipSpace(text, at);
      const c = text.charCodeAt(at);
      if (c === 35 && startsLine(text, at)) {
        const line = preprocess(text, at, { ...preprocessor, save: () => undefined, restore: () => undefined });
        at = line.next;
        if (line.why) {
          next = undefined;
          why = line.why;
        }
        continue;
      }
      if (classOf(c) !== IDENT) break;
      const end = identEnd(text, at);
      const item = text.slice(at, end);
      at = skipSpace(text, end);
      if (text[at] === "=") {
        const from = at + 1;
        at = expressionEnd(text, from);
        const value = evaluate(text.slice(from, at).trim(), names, target);
        if ("why" in value) {
          next = undefined;
          why = value.why;
        } else next = value;
      }
      const value: Typed | Unknown = next ? { ...next, unsized: true } : { why };
      addConstant(scope, item, value);
      if (!scoped) declareConstant(names, item, value);
      if (next) next = { ...next, value: next.value + 1n };
      at = skipSpace(text, at);
      if (text[at] !== ",") break;
      at++;
    }
    if (text[at] === "}") at++;
    else unclosed++;
    if (name !== "") {
      names.named.set(name, scope);
      declareType(names, name, underlying);
    }
    addType(statement, underlying, at - 1, at);
  }

  function endStatement(): void {
    declare();
    clear(statement);
    waiting = [];
    at++;
  }

  /** Keeps what a finished statement says of types, members and constants. */
  function declare(): void {
    const first = word(0);
    if (first === "" || isOverlong(statement)) return;
    const brace = braces[braces.length - 1];
    if (first === "using" && statement.kinds[2] === 61) {
      const after = newStatement();
      for (let i = 3; i < statement.length; i++) {
        addToken(after, statement.kinds[i] as number, statement.starts[i] as number, statement.ends[i] as number);
      }
      declareType(names, word(1), specifiers(text, after, after.length, names, target).type);
      return;
    }
    const typedef = first === "typedef";
    const member = brace?.kind === "type";
    const string = waiting.length > 0 && statement.kinds.includes(STRING);
    if (!typedef && !member && !string && !hasKeyword("const") && !hasKeyword("constexpr")) return;
    const round = statement.kinds.indexOf(40);
    // A member function is no data, unless the parentheses are those of an attribute or of a pointer.
    if (member && round > 0 && statement.kinds[round + 1] !== 42 && !statement.kinds.includes(61)) {
      if (!/^(?:__attribute__|alignas|__declspec)$/.test(word(round - 1))) return;
    }
    const declared = declaratorsOf(text, statement, names, target);
    if (member && declared.length === 0 && !typedef && statement.kinds.includes(58) && first !== "friend") {
      // Bit-fields take initialisers like any member.
      const why = "it is a bit-field";
      const commas = statement.kinds.filter((kind) => kind === 44).length;
      for (let i = 0; i <= commas; i++) brace.members.push({ name: word(1), type: { kind: "other", why } });
    }
    for (const d of declared) {
      if (typedef) declareType(names, d.name, d.type);
      else if (d.constant && d.dimensions.length === 0 && d.value) declareConstant(names, d.name, constantValue(d));
      if (member && !d.isStatic && !typedef) brace.members.push({ name: d.name, type: d.type });
    }
    const last = declared[declared.length - 1];
    if (string && last?.value && statement.kinds[statement.length - 1] === STRING) bindString(last, last.value);
  }

  function bindString(d: Declarator, value: Span): void {
    const index = arrays.length;
    arrays.push({
      name: d.name,
      nameSpan: d.nameSpan,
      ordinal: 0,
      siblings: 1,
      declaration: { start: statementStart(value.start), end: value.end },
      base: value.start,
      node: -1,
      first: 0,
      elided: false,
      list: undefined,
      type: undefined,
      dimensions: d.dimensions,
      count: 0,
      given: 0,
      slots: undefined,
      gaps: [],
      excess: 0,
      readOnly: "it is no array of numbers, but is given a string",
    });
    for (const i of waiting) (annotations[i] as BoundAnnotation).arrays = [index];
  }

  function constantValue(d: Declarator): Typed | { why: string } {
    const written = text.slice(d.value?.start, d.value?.end).trim();
    const source = /^\{.*\}$/s.test(written) ? written.slice(1, -1).trim() : written;
    const value = evaluate(source, names, target);
    const uncertain = doubt(preprocessor);
    if (uncertain) return { why: `it depends on ${uncertain}` };
    if ("why" in value) return value;
    if (d.type.kind !== "int") return { why: "its type is not an integer known from this file" };
    return { value: stored(value.value, d.type), bits: d.type.bits, signed: d.type.signed };
  }
}

/** An array of numbers whose width is known, also under several dimensions. */
function numbers(type: CType): boolean {
  return type.kind === "array" && (type.of.kind === "int" || numbers(type.of));
}

/** The type with the size that its initialiser gives it; undefined where that is not known. */
function sized(type: CType, array: SourceArray | undefined): CType | undefined {
  if (type.kind !== "array" || type.count !== undefined) return type;
  if (!array || array.readOnly !== undefined) return undefined;
  let row = 1;
  for (let inner: CType = type.of; inner.kind === "array"; inner = inner.of) row *= inner.count ?? 0;
  return row > 0 ? { ...type, count: array.count / row } : undefined;
}

/** End of the string literals that follow one another from here on. */
function stringsEnd(text: string, first: number): number {
  for (let end = first; ; ) {
    let at = skipSpace(text, end);
    const word = identEnd(text, at);
    const raw = word > at && isRawPrefix(text.slice(at, word));
    if (word > at && !isPrefix(text.slice(at, word))) return end;
    at = word;
    if (text.charCodeAt(at) !== 34) return end;
    end = raw ? rawStringEnd(text, at) : quotedEnd(text, at);
  }
}

function unbound(a: Annotation): BoundAnnotation {
  return {
    marker: a.marker,
    markerSpan: a.markerSpan,
    words: a.words,
    comment: a.comment,
    start: a.start,
    end: a.end,
    arrays: [],
  };
}

/** Whether only white space stands between the line's start and this place. */
function startsLine(text: string, at: number): boolean {
  for (let i = at - 1; i >= 0; i--) {
    const c = text.charCodeAt(i);
    if (c === 10 || c === 13) return true;
    if (c !== 32 && c !== 9 && c !== 0xfeff) return text[i] === "/" && text[i - 1] === "*";
  }
  return true;
}

function expressionEnd(text: string, from: number): number {
  let nesting = 0;
  let i = from;
  while (i < text.length) {
    i = skipSpace(text, i);
    const c = text[i];
    if (c === undefined || c === ";" || c === "{") return i;
    if (nesting === 0 && (c === "," || c === "}")) return i;
    if (c === "(" || c === "[") nesting++;
    else if (c === ")" || c === "]") nesting--;
    else if (c === "}") return i;
    i = c === "'" || c === '"' ? quotedEnd(text, i) : i + 1;
  }
  return i;
}

/** Numbers arrays of the same name, so that each can be found again in a changed text. */
function number(arrays: readonly SourceArray[]): void {
  const total = new Map<string, number>();
  for (const array of arrays) {
    array.ordinal = total.get(array.name) ?? 0;
    total.set(array.name, array.ordinal + 1);
  }
  for (const array of arrays) array.siblings = total.get(array.name) as number;
}

/** Looks up initialisers of the earlier version that lie wholly before or after what changed. */
function reusable(text: string, { previous, target }: ReadOptions): (base: number) => Initialiser | undefined {
  if (!previous || previous.target !== target) return () => undefined;
  const old = previous.text;
  const prefix = old === text ? text.length : commonPrefix(old, text);
  const suffix = commonSuffix(old, text, Math.min(old.length, text.length) - prefix);
  const shift = text.length - old.length;
  const known = new Map<number, Initialiser>();
  for (const { base, list } of previous.initialisers) {
    if (!list.pure) continue;
    if (base + list.length <= prefix) known.set(base, list);
    else if (base >= old.length - suffix) known.set(base + shift, list);
  }
  return (base) => known.get(base);
}
