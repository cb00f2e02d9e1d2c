/**
 * Element values to text edits, in the spelling each element has. Only number tokens are replaced; elements that the
 * compiler fills with zero are written out first when one of them gets a value.
 */
import type { Gap } from "./aggregate.ts";
import type { SourceArray } from "./arrays.ts";
import { elementOfSlot, elementSpan, elementValue } from "./arrays.ts";
import type { Initialiser, ListNode } from "./initialiser.ts";
import type { LiteralStyle } from "./literals.ts";
import { characterValue, literalStyle, spellCharacter, spellLike } from "./literals.ts";
import { indentAt, lineStart } from "./scan.ts";
import type { TextEdit } from "./text.ts";
import { eolOf } from "./text.ts";
import type { IntType } from "./types.ts";
import { stored } from "./types.ts";

export interface ElementChange {
  /** Flat index of the element, as the compiler counts. */
  readonly slot: number;
  /** New value as an unsigned bit pattern of the element's width. */
  readonly bits: bigint;
}

export type Rewrite = { readonly edits: TextEdit[] } | { readonly refused: string };

const PLAIN: LiteralStyle = { sign: "", prefix: "", base: 10, digits: "0", suffix: "" };

/**
 * Edits that give elements new values. Elements whose value stays get no edit. Refused for arrays that are read-only
 * and for indices that the array does not have.
 */
export function rewriteElements(
  text: string,
  array: SourceArray,
  changes: readonly ElementChange[],
  perLine = 16,
): Rewrite {
  if (array.readOnly !== undefined) return { refused: `${array.name} can't be edited: ${array.readOnly}` };
  const { type, list } = array;
  if (!type || !list) return { refused: `${array.name} can't be edited` };
  const edits: TextEdit[] = [];
  const inGaps = new Map<Gap, Map<number, bigint>>();
  const names = lazy(() => namesUsed(text, array, type));
  const model = lazy(() => commonStyle(text, array));
  for (const { slot, bits } of changes) {
    if (slot < 0 || slot >= array.count) return { refused: `${array.name} has no element ${slot}` };
    const value = type.signed ? BigInt.asIntN(type.bits, bits) : BigInt.asUintN(type.bits, bits);
    const element = elementOfSlot(array, slot);
    if (element < 0) {
      const gap = array.gaps.find((g) => g.from <= slot && slot < g.to);
      if (!gap) return { refused: `${array.name} has no place for element ${slot}` };
      const filled = inGaps.get(gap) ?? new Map<number, bigint>();
      inGaps.set(gap, filled.set(slot, value));
      continue;
    }
    if (stored(elementValue(array, element), type) === value) continue;
    const span = elementSpan(array, element);
    edits.push({ ...span, text: spell(text.slice(span.start, span.end), value, type, names, model) });
  }
  for (const [gap, filled] of inGaps) {
    if ([...filled.values()].some((v) => v !== 0n))
      edits.push(fillGap(text, array, gap, filled, type, model(), perLine));
  }
  return { edits: edits.sort((a, b) => a.start - b.start) };
}

/** Writes out every element that the compiler fills with zero. Empty where there is none, or the array is read-only. */
export function writeOut(text: string, array: SourceArray, perLine: number): TextEdit[] {
  const { type } = array;
  if (array.readOnly !== undefined || !type) return [];
  const style = commonStyle(text, array);
  return array.gaps.map((gap) => fillGap(text, array, gap, new Map(), type, style, perLine));
}

/** Spells a value in place of an element's text: a literal alike, a name the array uses, or a literal as elsewhere. */
function spell(
  before: string,
  value: bigint,
  type: IntType,
  names: () => ReadonlyMap<bigint, string>,
  model: () => LiteralStyle,
): string {
  const style = literalStyle(before);
  if (style) return spellIn(withCase(style, model), value, type);
  if (characterValue(before, "avr")) {
    const character = spellCharacter(value);
    if (character) return character;
  }
  if (type.truth && (before === "true" || before === "false")) return value === 0n ? "false" : "true";
  return names().get(value) ?? spellIn(model(), value, type);
}

/** A hexadecimal literal without letters says nothing of their case; the array's other literals may. */
function withCase(style: LiteralStyle, model: () => LiteralStyle): LiteralStyle {
  if (style.base !== 16 || style.prefix === "0X" || /[a-f]/i.test(style.digits)) return style;
  const { upper } = model();
  return upper ? { ...style, upper } : style;
}

/** Hexadecimal, binary and octal literals spell a negative value as its bit pattern, decimal ones with a sign. */
export function spellIn(style: LiteralStyle, value: bigint, type: IntType): string {
  if (style.base !== 10) return spellLike(style, BigInt.asUintN(type.bits, value));
  // The least 64-bit value has no literal: its digits alone are out of range before the minus sign counts.
  if (value === -(1n << 63n)) return "(-9223372036854775807 - 1)";
  // No signed type holds a decimal literal from 2^63 on (C17 6.4.4.1): it needs an unsigned suffix.
  const large = value >= 1n << 63n && !/u/i.test(style.suffix);
  return spellLike(large ? { ...style, suffix: "ULL" } : style, value);
}

/** Names that stand as bare elements in the array, by the value they have there. */
function namesUsed(text: string, array: SourceArray, type: IntType): Map<bigint, string> {
  const names = new Map<bigint, string>();
  for (let i = 0; i < array.given; i++) {
    const span = elementSpan(array, i);
    const token = text.slice(span.start, span.end);
    if (!/^[A-Za-z_]\w*$/.test(token) || literalStyle(token)) continue;
    const value = stored(elementValue(array, i), type);
    if (!names.has(value)) names.set(value, token);
  }
  return names;
}

/**
 * The style of the last plain literal of the array, one with hexadecimal letters before others; decimal without
 * padding where it has none.
 */
function commonStyle(text: string, array: SourceArray): LiteralStyle {
  let found: LiteralStyle | undefined;
  for (let i = array.given - 1; i >= 0 && i > array.given - MOST_LOOKED_AT; i--) {
    const span = elementSpan(array, i);
    const style = literalStyle(text.slice(span.start, span.end));
    // A lone `0` among padded literals says nothing of the style.
    if (!style || (style.digits === "0" && i > 0 && found)) continue;
    if (style.base !== 16) {
      if (!found || found.digits === "0") found = style;
      if (style.digits !== "0") break;
    } else {
      if (found === undefined || found.base !== 16) found = style;
      if (/[a-f]/i.test(style.digits)) {
        found = { ...found, digits: found.digits.length === style.digits.length ? style.digits : found.digits };
        return { ...found, sign: "", upper: style.digits === style.digits.toUpperCase() };
      }
    }
  }
  return { ...(found ?? PLAIN), sign: "" };
}

/** Literals that are looked at to learn the style of an array. */
const MOST_LOOKED_AT = 256;

function fillGap(
  text: string,
  array: SourceArray,
  gap: Gap,
  filled: ReadonlyMap<number, bigint>,
  type: IntType,
  style: LiteralStyle,
  perLine: number,
): TextEdit {
  const list = array.list as Initialiser;
  const node = list.nodes[gap.node] as ListNode;
  const at = array.base + node.lastEnd;
  const layout = lineLayout(text, array, node);
  const empty = node.lastEnd === node.open + 1;
  const group = node.lists > 0 && node.numbers === 0 ? rowSize(array, gap.node) : 0;
  let out = "";
  for (let slot = gap.from; slot < gap.to; slot++) {
    const first = empty && slot === gap.from;
    const inGroup = group > 0 ? (slot - gap.from) % group : 0;
    const breaks = layout.indent !== undefined && (group > 0 ? inGroup === 0 : slot % perLine === 0);
    const comma = first ? "" : ",";
    const space = breaks ? layout.eol + layout.indent : first ? "" : layout.space;
    const brace = group > 0 && inGroup === 0 ? "{" : "";
    const separator = group > 0 && inGroup > 0 ? `,${layout.space}` : comma + space;
    out += separator + brace + spellIn(style, filled.get(slot) ?? 0n, type);
    if (group > 0 && (inGroup === group - 1 || slot === gap.to - 1)) out += "}";
  }
  return { start: at, end: at, text: out };
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

function lazy<T>(make: () => T): () => T {
  let made: { value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}
