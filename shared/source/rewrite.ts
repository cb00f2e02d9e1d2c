/**
 * Element values to text edits, in the spelling each element has. Only number tokens are replaced; elements that the
 * compiler fills with zero are written out first when one of them gets a value.
 */
import type { Gap } from "./aggregate.ts";
import type { SourceArray } from "./arrays.ts";
import { elementOfSlot, elementSpan, elementValue, sharesText } from "./arrays.ts";
import type { Artist } from "./art.ts";
import { artist } from "./art.ts";
import { compact, inColumn } from "./columns.ts";
import type { ListNode } from "./initialiser.ts";
import { meaningOf } from "./initialiser.ts";
import type { LiteralStyle } from "./literals.ts";
import { characterValue, literalStyle, spellCharacter, spellLike } from "./literals.ts";
import { appendToString, rewriteString } from "./rewriteString.ts";
import type { Span, TextEdit } from "./text.ts";
import type { IntType } from "./types.ts";
import { stored } from "./types.ts";
import { fillGap } from "./writeOut.ts";

export interface ElementChange {
  /** Flat index of the element, as the compiler counts. */
  readonly slot: number;
  /** New value as an unsigned bit pattern of the element's width. */
  readonly bits: bigint;
}

export type Rewrite = { readonly edits: TextEdit[] } | { readonly refused: string };

/** More elements than this are not written out: they would be megabytes of zeros for one pixel. */
const MOST_WRITTEN_OUT = 500_000;

const PLAIN: LiteralStyle = { sign: "", prefix: "", base: 10, digits: "0", suffix: "" };

/** "columns" keeps aligned columns, "tokens" touches no white space: for callers that lay it out themselves. */
export type Spacing = "columns" | "tokens";

/**
 * Edits that give elements new values. Elements whose value stays get no edit. Refused for arrays that are read-only,
 * for indices that the array does not have, and for elements without a text of their own.
 */
export function rewriteElements(
  text: string,
  array: SourceArray,
  changes: readonly ElementChange[],
  perLine = 16,
  spacing: Spacing = "columns",
): Rewrite {
  const why = array.readOnly ?? array.fixed;
  if (why !== undefined) return { refused: `${array.name} can't be edited: ${why}` };
  const { type, list } = array;
  if (!type || !list) return { refused: `${array.name} can't be edited` };
  const edits: TextEdit[] = [];
  const numbers: { element: number; span: Span; after: string }[] = [];
  const inGaps = new Map<Gap, Map<number, bigint>>();
  const inStrings = new Map<ListNode, Map<number, number>>();
  const strings = list.nodes.filter((n) => n.quoted !== undefined);
  const spelling: Spelling = {
    type,
    names: lazy(() => namesUsed(text, array, type)),
    model: lazy(() => commonStyle(text, array)),
    art: lazy(() => {
      const meaning = meaningOf(list);
      return meaning ? artist(text, array, type, meaning) : () => undefined;
    }),
  };
  for (const { slot, bits } of changes) {
    if (slot < 0 || slot >= array.count) return { refused: `${array.name} has no element ${slot}` };
    const value = type.signed ? BigInt.asIntN(type.bits, bits) : BigInt.asUintN(type.bits, bits);
    const element = elementOfSlot(array, slot);
    if (element < 0) {
      const gap = array.gaps.find((g) => g.from <= slot && slot < g.to);
      if (!gap || (gap.node < 0 && value !== 0n)) return { refused: `${array.name} has no place for element ${slot}` };
      const filled = inGaps.get(gap) ?? new Map<number, bigint>();
      inGaps.set(gap, filled.set(slot, value));
      continue;
    }
    if (stored(elementValue(array, element), type) === value) continue;
    const span = elementSpan(array, element);
    const at = array.first + element;
    const string = strings.find((n) => n.firstElement <= at && at < n.endElement);
    if (string) {
      const units = inStrings.get(string) ?? new Map<number, number>();
      inStrings.set(string, units.set(at, Number(BigInt.asUintN(type.bits, bits))));
      continue;
    }
    const before = text.slice(span.start, span.end);
    if (sharesText(array, element)) {
      return { refused: `element ${slot} of ${array.name} can't be edited: \`${before.slice(0, 40)}\` makes several` };
    }
    numbers.push({ element, span, after: spell(before, value, spelling) });
  }
  let end = 0;
  for (const { element, span, after } of numbers.sort((a, b) => a.element - b.element)) {
    const plain = [{ ...span, text: after }];
    const aligned = spacing === "columns" ? inColumn(text, array, element, span, after) : plain;
    // The spaces between two numbers that both change are the first one's.
    const free = (aligned[0]?.start ?? end) >= end;
    edits.push(...(free ? aligned : plain));
    end = edits[edits.length - 1]?.end ?? end;
  }
  for (const [node, units] of inStrings) {
    const rewritten = rewriteString(text, array, node, units);
    if ("refused" in rewritten) return rewritten;
    edits.push(...rewritten.edits);
  }
  for (const [gap, filled] of inGaps) {
    if ([...filled.values()].every((v) => v === 0n)) continue;
    const node = list.nodes[gap.node] as ListNode;
    // A string is written out only as far as it must.
    const end = node.quoted ? lastLit(filled) + 1 : gap.to;
    if (end - gap.from > MOST_WRITTEN_OUT) return { refused: tooMany(array, end - gap.from) };
    if (node.quoted) {
      const rewritten = fillString(text, array, gap, node, filled);
      if ("refused" in rewritten) return rewritten;
      edits.push(...rewritten.edits);
    } else {
      const style = spelling.model();
      edits.push(...fillGap(text, array, gap, perLine, (slot) => spellIn(style, filled.get(slot) ?? 0n, type)));
    }
  }
  edits.sort((a, b) => a.start - b.start || a.end - b.end);
  return { edits: spacing === "columns" ? compact(text, edits) : edits };
}

/** Writes what follows a string up to the last unit that is not 0; its last NUL stays, as C++ wants it. */
function fillString(
  text: string,
  array: SourceArray,
  gap: Gap,
  node: ListNode,
  filled: ReadonlyMap<number, bigint>,
): Rewrite {
  const last = lastLit(filled);
  if (array.nul || last === gap.to - 1)
    return { refused: `element ${last} of ${array.name} can't be edited: it is the NUL that ends a string` };
  const units: number[] = [];
  const bits = array.type?.bits ?? 8;
  for (let slot = gap.from; slot <= last; slot++) units.push(Number(BigInt.asUintN(bits, filled.get(slot) ?? 0n)));
  return appendToString(text, array, node, units);
}

function lastLit(filled: ReadonlyMap<number, bigint>): number {
  let last = -1;
  for (const [slot, value] of filled) if (value !== 0n) last = Math.max(last, slot);
  return last;
}

function tooMany(array: SourceArray, missing: number): string {
  return `${array.name} can't be edited there: ${missing} elements that are missing would have to be written out`;
}

/**
 * Writes out every element that the compiler fills with zero. Empty where there is none, the array is read-only, or
 * there are more than `MOST_WRITTEN_OUT`.
 */
export function writeOut(text: string, array: SourceArray, perLine: number): TextEdit[] {
  const { type, list } = array;
  if (array.readOnly !== undefined || array.fixed !== undefined || !type || !list) return [];
  const style = commonStyle(text, array);
  const gaps = array.gaps.filter((gap) => gap.node >= 0 && !list.nodes[gap.node]?.quoted);
  if (gaps.reduce((sum, gap) => sum + gap.to - gap.from, 0) > MOST_WRITTEN_OUT) return [];
  return gaps.flatMap((gap) => fillGap(text, array, gap, perLine, () => spellIn(style, 0n, type)));
}

interface Spelling {
  readonly type: IntType;
  readonly names: () => ReadonlyMap<bigint, string>;
  readonly model: () => LiteralStyle;
  readonly art: () => Artist;
}

/** Spells a value in place of an element's text: a literal alike, a name the array uses, or a literal as elsewhere. */
function spell(before: string, value: bigint, { type, names, model, art }: Spelling): string {
  const style = literalStyle(before);
  if (style) return spellIn(withCase(style, model), value, type);
  if (characterValue(before, "avr")) {
    const character = spellCharacter(value);
    if (character) return character;
  }
  if (type.truth && (before === "true" || before === "false")) return value === 0n ? "false" : "true";
  return names().get(value) ?? art()(before, value) ?? spellIn(model(), value, type);
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

function lazy<T>(make: () => T): () => T {
  let made: { value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}
