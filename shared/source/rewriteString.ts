/**
 * Code units of a string to text edits: an escape stays an escape of its kind, a character a character where it can.
 * A hexadecimal escape takes every digit after it, and a short octal one up to three (C17 6.4.4.4), so what stands
 * beside an edit decides its spelling too.
 */
import type { SourceArray } from "./arrays.ts";
import type { Initialiser, ListNode } from "./initialiser.ts";
import { SIMPLE, spliceAt } from "./strings.ts";
import type { TextEdit } from "./text.ts";

type Edits = { readonly edits: TextEdit[] } | { readonly refused: string };

const NAMES = new Map(
  Object.entries(SIMPLE)
    .filter(([letter]) => /[abtnvfr]/.test(letter))
    .map(([letter, value]) => [value, `\\${letter}`]),
);

/** Edits of one string. `wanted`: new code units by the index of the element in the list. */
export function rewriteString(
  text: string,
  array: SourceArray,
  node: ListNode,
  wanted: ReadonlyMap<number, number>,
): Edits {
  const list = array.list as Initialiser;
  const startOf = (i: number) => array.base + (list.starts[i] as number);
  const endOf = (i: number) => startOf(i) + (list.lengths[i] as number);
  const hexadecimal = usesHex(text, array, node);
  const edits: TextEdit[] = [];
  const done = new Set<number>();
  for (const index of [...wanted.keys()].sort((a, b) => a - b)) {
    if (done.has(index)) continue;
    // A character beyond ASCII makes several units, which then are escapes of their own.
    let first = index;
    let last = index;
    while (first > node.firstElement && list.starts[first - 1] === list.starts[index]) first--;
    while (last + 1 < node.endElement && list.starts[last + 1] === list.starts[index]) last++;
    const units: number[] = [];
    for (let i = first; i <= last; i++) {
      done.add(i);
      units.push(wanted.get(i) ?? (list.values[i] as number));
    }
    const span = { start: startOf(first), end: endOf(last) };
    const before = text.slice(span.start, span.end);
    const previous = edits[edits.length - 1];
    const left =
      first === node.firstElement || !joined(text, endOf(first - 1), span.start)
        ? ""
        : previous?.end === endOf(first - 1)
          ? previous.text
          : text.slice(startOf(first - 1), endOf(first - 1));
    const next = last + 1 < node.endElement && joined(text, span.end, startOf(last + 1)) ? startOf(last + 1) : -1;
    // Before a line joint an escape must be one that ends by itself, as before a digit.
    const right = spliceAt(text, span.end) > 0 ? "0" : next < 0 ? "" : text.slice(next, next + 1);
    if (inRaw(text, array, node, span.start)) {
      const plain = units.length === 1 ? units[0] : undefined;
      if (plain === undefined || plain < 32 || plain > 126 || plain === 34 || plain === 41)
        return { refused: `${array.name} can't be edited there: a raw string has no escapes` };
      edits.push({ ...span, text: String.fromCharCode(plain) });
      continue;
    }
    const escaped = /^\\(?:x|[0-7])/.exec(before);
    const hex = escaped ? before[1] === "x" : hexadecimal;
    const width = escaped && units.length === 1 ? before.length - (hex ? 2 : 1) : undefined;
    let out = "";
    units.forEach((unit, i) => {
      const beside = i === units.length - 1 ? right : "\\";
      const character = escaped || units.length > 1 ? undefined : characterOf(unit, left, /^\\[abtnvfr]/.test(before));
      out += character ?? escapeOf(unit, hex, width ?? (hex ? 2 : 3), beside, /x.*[a-f]/.test(before));
    });
    edits.push({ ...span, text: out });
  }
  return { edits };
}

/** Adds units at the end of a string. */
export function appendToString(text: string, array: SourceArray, node: ListNode, units: readonly number[]): Edits {
  const at = array.base + node.lastEnd;
  if (text[at] !== '"' || inRaw(text, array, node, at - 1))
    return { refused: `${array.name} can't be edited there: a raw string has no escapes` };
  const hex = usesHex(text, array, node);
  const out = units.map((unit) => escapeOf(unit, hex, hex ? 2 : 3, "", false)).join("");
  return { edits: [{ start: at, end: at, text: out }] };
}

/** Nothing but line joints stands between two places, so the compiler sees them side by side. */
function joined(text: string, from: number, to: number): boolean {
  let at = from;
  for (let length = spliceAt(text, at); at < to && length > 0; length = spliceAt(text, at)) at += length;
  return at === to;
}

/** A character as itself or by its simple escape; undefined where that has another meaning beside `left`. */
function characterOf(unit: number, left: string, named: boolean): string | undefined {
  const name = named ? NAMES.get(unit) : undefined;
  if (name) return name;
  if (unit === 34 || unit === 92) return `\\${String.fromCharCode(unit)}`;
  if (unit < 32 || unit > 126) return undefined;
  const c = String.fromCharCode(unit);
  if (/^\\x/.test(left) && /[0-9a-fA-F]/.test(c)) return undefined;
  if (/\\[0-7]{1,2}$/.test(left) && /[0-7]/.test(c)) return undefined;
  // Two question marks may begin a trigraph (C17 5.2.1.1).
  return c === "?" && left.endsWith("?") ? "\\?" : c;
}

function escapeOf(unit: number, hex: boolean, width: number, right: string, lower: boolean): string {
  const digits = unit.toString(16).padStart(width, "0");
  const spelt = `\\x${lower ? digits : digits.toUpperCase()}`;
  if (hex && !/[0-9a-fA-F]/.test(right)) return spelt;
  // Octal escapes end after three digits, and hold nine bits.
  if (unit > 0o777) return `${spelt}${/[0-9a-fA-F]/.test(right) ? '" "' : ""}`;
  const octal = unit.toString(8);
  return `\\${octal.padStart(hex || /[0-7]/.test(right) ? 3 : width, "0")}`;
}

/** Which escapes a string uses, looking at its first ones. */
function usesHex(text: string, array: SourceArray, node: ListNode): boolean {
  const whole = text.slice(array.base + node.open, array.base + Math.min(node.close, node.open + 4096));
  return /\\x[0-9a-fA-F]/.test(whole);
}

/** Whether a place of a string lies in one of its raw literals. */
function inRaw(text: string, array: SourceArray, node: ListNode, at: number): boolean {
  const before = text.slice(array.base + node.open, at);
  if (!before.includes('R"')) return false;
  let raw = false;
  for (let rest = before; rest !== ""; ) {
    const open = /^[^"]*?(R?)"/s.exec(rest);
    if (!open) return false;
    raw = open[1] === "R";
    const fence = raw ? (/^[^(]*\(/.exec(rest.slice(open[0].length))?.[0] ?? "") : "";
    const inside = rest.slice(open[0].length + fence.length);
    const close = raw ? inside.indexOf(`)${fence.slice(0, -1)}"`) : /^(?:[^"\\]|\\.)*"/s.exec(inside)?.[0].length;
    if (close === undefined || close < 0) return raw;
    rest = inside.slice(raw ? close + fence.length + 1 : close);
  }
  return false;
}
