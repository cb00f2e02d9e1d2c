/** How the numbers of a list are set, so that new ones look the same. */
import { elementSpan } from "../../source/arrays.ts";
import type { LiteralStyle } from "../../source/literals.ts";
import { literalStyle } from "../../source/literals.ts";
import { bodyStyle, indentIn } from "../house.ts";
import type { Subject } from "./subject.ts";

/** Elements that are looked at to learn a style. */
const MOST_LOOKED_AT = 4096;

/** Spaces right before an offset, and whether nothing else stands before it on its line. */
export function spacesBefore(text: string, at: number): { readonly count: number; readonly first: boolean } {
  let count = 0;
  while (text[at - count - 1] === " ") count++;
  return { count, first: /[\r\n]/.test(text[at - count - 1] ?? "\n") };
}

/**
 * Spaces that the lines of numbers are set in by: the least before any of them, less what a short number has before it
 * to stand in its column; undefined where none begins a line.
 */
export function spacesOf(s: Subject): number | undefined {
  const { array, text } = s;
  let least = Number.POSITIVE_INFINITY;
  let end = Number.POSITIVE_INFINITY;
  let longest = 0;
  for (let i = 0; i < Math.min(array.given, MOST_LOOKED_AT); i++) {
    const span = elementSpan(array, i);
    longest = Math.max(longest, span.end - span.start);
    const { count, first } = spacesBefore(text, span.start);
    if (!first) continue;
    least = Math.min(least, count);
    end = Math.min(end, count + span.end - span.start);
  }
  if (!Number.isFinite(least)) return undefined;
  return bodyStyle(text, s.bitmap)?.padded ? Math.min(least, Math.max(0, end - longest)) : least;
}

/** What rows are set in by, beyond the line of the brace. */
export function indentOf(s: Subject, outer: string): string {
  const own = bodyStyle(s.text, s.bitmap)?.indent;
  if (own === undefined) return indentIn(s.text);
  const spaces = spacesOf(s);
  if (spaces === undefined || !/^ *$/.test(outer + own)) return own;
  return " ".repeat(Math.max(0, spaces - outer.length));
}

/** The literal that the pixels' own numbers are modelled on; undefined where they are no literals. */
export function literalOf(s: Subject): LiteralStyle | undefined {
  const { array, text, layout } = s;
  let found: LiteralStyle | undefined;
  let upper: boolean | undefined;
  for (let i = layout.skip + layout.lead; i < Math.min(array.given, MOST_LOOKED_AT); i++) {
    const { start, end } = elementSpan(array, i);
    const style = literalStyle(text.slice(start, end));
    if (!style) continue;
    if (!found || (found.base === 10 && found.digits === "0")) found = style;
    if (style.base === 16 && /[a-f]/i.test(style.digits)) upper ??= style.digits === style.digits.toUpperCase();
    if (found.digits !== "0" && (found.base !== 16 || upper !== undefined)) break;
  }
  return found && { ...found, sign: "", upper: upper ?? upperIn(s) };
}

/** Letters are upper case, but where hexadecimal literals around the list are lower. */
export function upperIn({ text, open }: Subject): boolean {
  const around = text.slice(Math.max(0, open - 4000), open + 4000);
  const literals = around.match(/\b0x[0-9a-fA-F]*[a-fA-F][0-9a-fA-F]*\b/g) ?? [];
  return !literals.some((literal) => /[a-f]/.test(literal.slice(2)));
}
