/** Declarations: what the tokens of a statement say about names, element types and dimensions. */
import { evaluate } from "./expressions.ts";
import type { Names } from "./names.ts";
import { findType } from "./names.ts";
import type { Statement } from "./statement.ts";
import { addToken, INITIALISER, NUMBER, newStatement, STRING, TYPE, WORD } from "./statement.ts";
import type { Span } from "./text.ts";
import type { CType, Target } from "./types.ts";
import { builtinType, isTypeWord, namedType } from "./types.ts";

export interface Dimension {
  /** Between the square brackets. */
  readonly span: Span;
  /** undefined for `[]`. */
  readonly size: number | undefined;
  /** Why the size is not known. */
  readonly why?: string;
}

export interface Declarator {
  readonly name: string;
  readonly nameSpan: Span;
  /** Type of the whole thing: an array of the element type for each dimension. */
  readonly type: CType;
  readonly dimensions: readonly Dimension[];
  readonly constant: boolean;
  readonly isStatic: boolean;
  /** Text after `=` of a scalar, as far as the statement has been read. */
  readonly value: Span | undefined;
}

const [OPEN_ROUND, CLOSE_ROUND, OPEN_SQUARE, CLOSE_SQUARE] = [40, 41, 91, 93];
const [OPEN_CURLY, CLOSE_CURLY, LESS, MORE, COMMA, EQUALS, STAR, AND, COLON] = [123, 125, 60, 62, 44, 61, 42, 38, 58];

const QUALIFIERS = new Set(
  "const volatile static extern inline constexpr constinit register mutable thread_local typedef struct class union enum typename friend virtual explicit final restrict __restrict __flash __memx _Atomic std".split(
    " ",
  ),
);
const NOT_NAMES = new Set(
  "operator return new delete case goto throw if while for switch else do sizeof using".split(" "),
);

/** The declarators of a statement, in order; empty where the statement declares nothing that could be data. */
export function declaratorsOf(text: string, s: Statement, names: Names, target: Target): Declarator[] {
  const segments = split(s);
  const out: Declarator[] = [];
  let specifierEnd = -1;
  for (const { from, to } of segments) {
    const head = headOf(text, s, from, to, names, target);
    if (!head) return out;
    if (specifierEnd < 0) specifierEnd = head.name;
    out.push(declarator(text, s, head, specifierEnd, out.length === 0 ? from : head.first, to, names, target));
  }
  return out;
}

interface Head {
  readonly first: number;
  readonly name: number;
  /** Token indices of the square brackets of each dimension. */
  readonly brackets: readonly { open: number; close: number }[];
  readonly pointer: boolean;
  readonly equals: number;
}

function split(s: Statement): { from: number; to: number }[] {
  const out: { from: number; to: number }[] = [];
  let nesting = 0;
  let angle = 0;
  let from = 0;
  let assigned = false;
  const { kinds, length } = s;
  for (let i = 0; i < length; i++) {
    const kind = kinds[i];
    if (kind === OPEN_ROUND || kind === OPEN_SQUARE || kind === OPEN_CURLY) nesting++;
    else if (kind === CLOSE_ROUND || kind === CLOSE_SQUARE || kind === CLOSE_CURLY) nesting--;
    else if (nesting === 0 && kind === EQUALS) assigned = true;
    else if (nesting === 0 && !assigned && kind === LESS && kinds[i - 1] === WORD) angle++;
    else if (kind === MORE && angle > 0) angle--;
    else if (kind === COMMA && nesting === 0 && angle === 0) {
      out.push({ from, to: i });
      from = i + 1;
      assigned = false;
    }
  }
  out.push({ from, to: length });
  return out;
}

function headOf(text: string, s: Statement, from: number, to: number, names: Names, target: Target): Head | undefined {
  let equals = to;
  let name = -1;
  let lastWord = -1;
  let called = -1;
  const words: number[] = [];
  let pointer = false;
  const brackets: { open: number; close: number }[] = [];
  let angle = 0;
  for (let i = from; i < to; i++) {
    const kind = s.kinds[i];
    if (kind === EQUALS || kind === INITIALISER) {
      equals = i;
      break;
    }
    if (kind === OPEN_ROUND) {
      // A macro or attribute with arguments; straight after the only word it is a call or a function.
      called = i;
      i = closing(s, i, to);
      continue;
    }
    if (kind === OPEN_SQUARE) {
      const close = closing(s, i, to);
      const attribute = s.kinds[i + 1] === OPEN_SQUARE && s.starts[i + 1] === (s.ends[i] as number);
      if (!attribute && angle === 0) {
        if (name < 0) {
          // XBM files named after a size have names that begin with a digit.
          const named =
            s.kinds[i - 1] === WORD || (s.kinds[i - 1] === NUMBER && /[A-Za-z_]/.test(wordAt(text, s, i - 1)));
          if (!named || i - 1 < from) return undefined;
          name = i - 1;
        }
        if (brackets.length === 0 || brackets[brackets.length - 1]?.close === i - 1) brackets.push({ open: i, close });
      }
      i = close;
      continue;
    }
    if (kind === WORD && name < 0) {
      lastWord = i;
      if (angle === 0) words.push(i);
    }
    if (kind === LESS && lastWord === i - 1) angle++;
    if (kind === MORE && angle > 0) angle--;
    if ((kind === STAR || kind === AND) && name < 0 && angle === 0) pointer = true;
    // A bit-field's width, or a label: not plain data.
    if (kind === COLON && s.kinds[i + 1] !== COLON && s.kinds[i - 1] !== COLON && name < 0 && lastWord >= 0) {
      return undefined;
    }
  }
  if (name < 0) {
    name =
      scalarName(
        words.map((at) => ({ at, text: wordAt(text, s, at) })),
        s.kinds.subarray(from, to).includes(TYPE),
        names,
        target,
      ) ?? lastWord;
    // `const uint8_t level(5)` gives its value in parentheses.
    if (equals === to && called === name + 1 && closing(s, called, to) === to - 1) equals = called;
  }
  if (name < 0 || NOT_NAMES.has(wordAt(text, s, name))) return undefined;
  return { first: from, name, brackets, pointer, equals };
}

function wordAt(text: string, s: Statement, token: number): string {
  return text.slice(s.starts[token], s.ends[token]);
}

/** The name in a declaration without brackets: the first word after the type that is not likely a macro. */
function scalarName(
  words: readonly { at: number; text: string }[],
  typed: boolean,
  names: Names,
  target: Target,
): number | undefined {
  const isType = (w: string) => isTypeWord(w) || findType(names, w) !== undefined || namedType(w, target) !== undefined;
  const plain = words.filter((w) => !QUALIFIERS.has(w.text));
  let after = 0;
  if (!typed) {
    const first = plain.findIndex((w) => isType(w.text));
    if (first < 0) return undefined;
    after = first + 1;
    while (after < plain.length && isTypeWord(plain[after]?.text ?? "")) after++;
  }
  const candidates = plain.slice(after).filter((w) => w.text !== "PROGMEM" && !names.macros.has(w.text));
  return (candidates.find((w) => !/^[A-Z_][A-Z0-9_]*$/.test(w.text)) ?? candidates[0])?.at;
}

function closing(s: Statement, open: number, to: number): number {
  let nesting = 0;
  for (let i = open; i < to; i++) {
    const kind = s.kinds[i];
    if (kind === OPEN_ROUND || kind === OPEN_SQUARE || kind === OPEN_CURLY) nesting++;
    else if (kind === CLOSE_ROUND || kind === CLOSE_SQUARE || kind === CLOSE_CURLY) {
      if (--nesting === 0) return i;
    }
  }
  return to;
}

function declarator(
  text: string,
  s: Statement,
  head: Head,
  specifierEnd: number,
  from: number,
  to: number,
  names: Names,
  target: Target,
): Declarator {
  const base = specifiers(text, s, specifierEnd, names, target);
  const dimensions = head.brackets.map(({ open, close }) => {
    const span = {
      start: s.ends[open] as number,
      end: (close < s.length ? s.starts[close] : s.ends[close - 1]) as number,
    };
    return dimension(text, span, names, target);
  });
  let type: CType = head.pointer ? { kind: "other", why: "its elements are pointers", pointer: true } : base.type;
  for (let i = dimensions.length - 1; i >= 0; i--) type = { kind: "array", of: type, count: dimensions[i]?.size };
  const last = s.ends[to - 1];
  const mark = head.equals < to ? s.kinds[head.equals] : undefined;
  const begin = mark === EQUALS ? s.ends[head.equals] : mark === undefined ? undefined : s.starts[head.equals];
  const value = begin !== undefined && last !== undefined ? { start: begin, end: Math.max(last, begin) } : undefined;
  return {
    name: text.slice(s.starts[head.name], s.ends[head.name]),
    nameSpan: { start: s.starts[head.name] as number, end: s.ends[head.name] as number },
    type,
    dimensions,
    constant: base.constant,
    isStatic: hasWord(text, s, from, head.name, "static"),
    value,
  };
}

function dimension(text: string, span: Span, names: Names, target: Target): Dimension {
  const source = text.slice(span.start, span.end).trim();
  if (source === "") return { span, size: undefined };
  if (/^[1-9]\d{0,8}$/.test(source)) return { span, size: Number(source) };
  const size = evaluate(source, names, target);
  if ("why" in size) return { span, size: undefined, why: size.why };
  if (size.value < 0n || size.value > 0xffffffffn) return { span, size: undefined, why: "the size is out of range" };
  return { span, size: Number(size.value) };
}

function hasWord(text: string, s: Statement, from: number, to: number, wanted: string): boolean {
  for (let i = from; i < to; i++) {
    if (s.kinds[i] === WORD && text.slice(s.starts[i], s.ends[i]) === wanted) return true;
  }
  return false;
}

/** The type that the words before a name give, with unknown words taken for macros where a type is found beside them. */
export function specifiers(
  text: string,
  s: Statement,
  end: number,
  names: Names,
  target: Target,
): { readonly type: CType; readonly constant: boolean } {
  const words: string[] = [];
  const unknown: string[] = [];
  let named: CType | undefined;
  let constant = false;
  const word = (name: string, depth: number): void => {
    if (name === "const" || name === "constexpr" || name === "constinit") constant = true;
    if (QUALIFIERS.has(name)) return;
    if (isTypeWord(name)) {
      words.push(name);
      return;
    }
    const macro = names.macros.get(name);
    if (macro && macro.params === undefined && !macro.uncertain && depth < 8) {
      for (const inner of macro.body.match(/[A-Za-z_]\w*/g) ?? []) word(inner, depth + 1);
      return;
    }
    const known = findType(names, name) ?? namedType(name, target);
    if (known && !named) named = known;
    else if (name === "float" || name === "double") named = { kind: "other", why: `its elements are ${name}` };
    else unknown.push(name);
  };
  for (let i = 0; i < end; i++) {
    const kind = s.kinds[i];
    if (kind === OPEN_ROUND || kind === OPEN_SQUARE) i = closing(s, i, end);
    else if (kind === WORD) {
      // The class in `Icons::drop[]` is no type of the elements.
      if (s.kinds[i + 1] === COLON && s.kinds[i + 2] === COLON) continue;
      word(text.slice(s.starts[i], s.ends[i]), 0);
    } else if (kind === TYPE) named ??= s.types.get(i);
    else if (kind === LESS) {
      const type = standardArray(text, s, i, end, names, target);
      return { type: type ?? { kind: "other", why: "its type is a template" }, constant: constant || hasConst(i) };
    } else if (kind === STRING) continue;
  }
  /** `std::array<T, N> const` says it behind the type. */
  function hasConst(from: number): boolean {
    return hasWord(text, s, from, end, "const") || hasWord(text, s, from, end, "constexpr");
  }
  if (words.length > 0 && named?.kind !== "other") {
    const type = builtinType(words, target);
    return { type: type ?? { kind: "other", why: `\`${words.join(" ")}\` is not an integer type` }, constant };
  }
  if (named) return { type: named, constant };
  const why =
    unknown.length > 0
      ? `its element type is not known from this file (${unknown.map((w) => `\`${w}\``).join(", ")})`
      : "it has no element type";
  return { type: { kind: "other", why }, constant };
}

/** `std::array<T, N>`, whose `<` is token `open`: a struct of one array ([array.overview]). */
function standardArray(
  text: string,
  s: Statement,
  open: number,
  end: number,
  names: Names,
  target: Target,
): CType | undefined {
  if (text.slice(s.starts[open - 1], s.ends[open - 1]) !== "array") return undefined;
  let nesting = 0;
  let comma = -1;
  let close = -1;
  for (let i = open; i < end && close < 0; i++) {
    const kind = s.kinds[i];
    if (kind === LESS || kind === OPEN_ROUND) nesting++;
    else if (kind === CLOSE_ROUND) nesting--;
    else if (kind === MORE && --nesting === 0) close = i;
    else if (kind === COMMA && nesting === 1) comma = i;
  }
  if (comma < 0 || close < 0) return undefined;
  const inner = newStatement();
  for (let i = open + 1; i < comma; i++)
    addToken(inner, s.kinds[i] as number, s.starts[i] as number, s.ends[i] as number);
  const { type } = specifiers(text, inner, inner.length, names, target);
  const span = { start: s.starts[comma + 1] as number, end: s.ends[close - 1] as number };
  const size = dimension(text, span, names, target);
  if (size.size === undefined) return { kind: "other", why: `its size is not known: ${size.why ?? "it is missing"}` };
  const elements = (of: CType): CType => ({ kind: "array", of, count: size.size, span });
  // A struct of one array and an array of one array take the same braces, and the same are left out ([dcl.init.aggr]).
  const shell = (of: CType): CType => ({ kind: "array", of, count: 1, shell: true });
  if (type.kind === "array" && type.shell) return shell(elements(type));
  const array = type.kind === "struct" && type.standard ? type.members[0]?.type : undefined;
  if (array) return shell(elements(shell(array)));
  return { kind: "struct", standard: true, members: [{ name: "", type: elements(type) }] };
}
