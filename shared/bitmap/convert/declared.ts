/** What a declaration says of an array's element type and size, changed to another. */
import type { TextEdit } from "../../source/text.ts";
import type { IntType, Target } from "../../source/types.ts";
import type { Refused, Subject } from "./subject.ts";

export type Width = 8 | 16 | 32;

const PLAIN =
  /\b(?:uint(?:8|16|32)_t|byte|word|unsigned\s+char|unsigned\s+short(?:\s+int)?|unsigned\s+long(?:\s+int)?|unsigned\s+int)\b/g;

/** The edit that gives an array elements of another width; undefined where its type is not one plain unsigned word. */
export function typeEdit({ array, declaration, file }: Subject, bits: Width): TextEdit | undefined {
  if (!declaration || array.type?.signed || array.type?.bits === 64) return undefined;
  const { head } = declaration;
  const bare = head.replace(/\/\*[\s\S]*?\*\/|\/\/[^\r\n]*/g, (comment) => " ".repeat(comment.length));
  const [found, ...others] = [...bare.matchAll(PLAIN)];
  if (!found || others.length > 0) return undefined;
  const start = array.declaration.start + found.index;
  const text = typeWord(found[0], bits, file.source.target);
  return { start, end: start + found[0].length, text };
}

/** The word of the same family, since the header of another may not be included. */
function typeWord(word: string, bits: Width, target: Target): string {
  if (!word.startsWith("unsigned")) return word === "byte" && bits === 8 ? "byte" : `uint${bits}_t`;
  if (bits === 8) return "unsigned char";
  if (bits === 16) return "unsigned short";
  return target === "avr" ? "unsigned long" : "unsigned int";
}

/** The edits of a declared size; refused where it is an expression that would no longer be right. */
export function sizeEdits({ array, text }: Subject, count: number): TextEdit[] | Refused {
  const [only, ...others] = array.dimensions;
  if (!only || others.length > 0)
    return count === array.count ? [] : { refused: `${array.name} has ${array.dimensions.length} dimensions` };
  if (only.size === undefined || only.size === count) return [];
  const { start, end } = only.span;
  const written = text.slice(start, end);
  const number = /^\s*(?:0[xX][0-9a-fA-F]+|\d+)\s*$/.test(written);
  if (!number) return { refused: `the size \`${written.trim()}\` of ${array.name} would no longer be right` };
  const lead = written.length - written.trimStart().length;
  const tail = written.length - written.trimEnd().length;
  return [{ start: start + lead, end: end - tail, text: String(count) }];
}

/** The type with elements of another width. */
export function inWidth(type: IntType, bits: IntType["bits"]): IntType {
  return type.bits === bits ? type : { ...type, bits };
}
