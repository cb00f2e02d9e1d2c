/** How the numbers of new pixels are spelt: as the array spells the same value already, else in its style. */
import type { SourceArray } from "../../source/arrays.ts";
import { elementSpan, elementValue, sharesText } from "../../source/arrays.ts";
import { literalStyle } from "../../source/literals.ts";
import type { Span } from "../../source/text.ts";
import { stored } from "../../source/types.ts";
import { literalOf } from "../convert/setting.ts";
import type { Subject } from "../convert/subject.ts";
import { bodyStyle, defaultLiteral } from "../house.ts";
import { spellElement } from "../make.ts";
import type { Piece } from "./pieces.ts";

/** Numbers that are looked at to learn how a value is spelt. */
const MOST_LOOKED_AT = 1 << 14;

/** Gives the text of a value, as an unsigned bit pattern. */
export function tokensOf(s: Subject): (bits: bigint) => string {
  const { array, text, type, layout } = s;
  const known = new Map<bigint, string>();
  for (let i = layout.skip; i < Math.min(array.given, MOST_LOOKED_AT); i++) {
    if (sharesText(array, i)) continue;
    const bits = BigInt.asUintN(type.bits, stored(elementValue(array, i), type));
    if (known.has(bits)) continue;
    const { start, end } = elementSpan(array, i);
    const token = text.slice(start, end);
    // An expression says more than its value.
    if (literalStyle(token) || /^[A-Za-z_]\w*$/.test(token)) known.set(bits, token);
  }
  const literal = literalOf(s) ?? defaultLiteral(layout, type.bits, bodyStyle(text, s.bitmap)?.literal);
  return (bits) => {
    const token = known.get(bits) ?? spellElement(literal, bits, type);
    known.set(bits, token);
    return token;
  };
}

/** Characters that a number takes in its column; 0 where numbers do not stand in columns, right-aligned. */
export function columnOf({ array, text }: Subject): number {
  let column = 0;
  let apart = Number.POSITIVE_INFINITY;
  const lengths = new Set<number>();
  for (let i = 1; i < Math.min(array.given, MOST_LOOKED_AT); i++) {
    const { start, end } = elementSpan(array, i);
    let at = start;
    while (text[at - 1] === " ") at--;
    if (text[at - 1] !== ",") continue;
    column ||= end - at;
    if (column !== end - at) return 0;
    apart = Math.min(apart, start - at);
    lengths.add(end - start);
  }
  return lengths.size > 1 ? column - Math.min(1, apart) : 0;
}

/** The white space that the first number of a piece has before it on its line; undefined where it begins none. */
export function indentOfBody({ head, indent }: Piece): string | undefined {
  const line = /[\r\n]([ \t]*)$/.exec(head)?.[1];
  return line ?? (head === "" ? indent : undefined);
}

/** A piece whose first number has other white space before it. */
export function withIndent(piece: Piece, indent: string): Piece {
  if (piece.head === "") return { ...piece, indent };
  return { ...piece, head: piece.head.replace(/([\r\n])[ \t]*$/, (_, eol: string) => eol + indent) };
}

/** A piece with other numbers in their places; where numbers stand in columns, each keeps its own. */
export function refilled(piece: Piece, tokens: readonly (Span & { readonly text: string })[], column: number): Piece {
  const { body, at } = piece;
  let out = "";
  let from = 0;
  let lead = 0;
  for (const { start, end, text } of tokens) {
    const [begin, close] = [start - at, end - at];
    const more = column > 0 ? close - begin - text.length : 0;
    if (begin === 0) lead = more;
    const before = body.slice(from, begin);
    out +=
      (more < 0 ? before.slice(0, before.length - spare(before, -more)) : before) +
      text.padStart(begin === 0 ? 0 : text.length + Math.max(0, more));
    from = close;
  }
  const now = { ...piece, body: out + body.slice(from) };
  const indent = indentOfBody(piece);
  if (lead === 0 || indent === undefined) return now;
  return withIndent(now, lead > 0 ? indent + " ".repeat(lead) : indent.slice(0, indent.length - spare(indent, -lead)));
}

/** Spaces at the end of white space that can be given up, so many at most. */
function spare(space: string, most: number): number {
  const spaces = / *$/.exec(space)?.[0].length ?? 0;
  return Math.min(most, Math.max(0, spaces - 1));
}

/** Whether the first so many elements are all written, in the order in which they are stored. */
export function inOrder({ given, slots }: SourceArray, elements: number): boolean {
  if (given !== elements) return false;
  return !slots || slots.every((slot, i) => slot === i);
}
