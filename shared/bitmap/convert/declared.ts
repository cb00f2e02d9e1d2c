/** What a declaration says of an array's element type and size, changed to another. */
import type { Layout } from "../../pixels/layout.ts";
import type { TextEdit } from "../../source/text.ts";
import type { IntType, Target } from "../../source/types.ts";
import { perLineOf } from "../make.ts";
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

/** What the inner brackets of an array of arrays count, where that is a frame or a line of pixels. */
export function innerOf({ array, layout }: Subject): "frame" | "line" | undefined {
  const [, inner, ...more] = array.dimensions;
  if (inner?.size === undefined || more.length > 0 || layout.skip > 0) return undefined;
  if (layout.frames > 1 && inner.size === layout.frameElements) return "frame";
  return layout.lead === 0 && inner.size === layout.lineElements ? "line" : undefined;
}

/** Elements of the inner arrays in another layout; undefined for an array of one dimension, 0 where there are none. */
export function innerSize(s: Subject, layout: Layout): number | undefined {
  if (s.array.dimensions.length === 1) return undefined;
  const inner = innerOf(s);
  if (inner === "frame") return layout.frameElements;
  // Columns of one element each make no lists worth reading.
  return inner === "line" && perLineOf(layout) === layout.lineElements ? layout.lineElements : 0;
}

/** The edits of the declared sizes; refused where one is an expression that would no longer be right. */
export function sizeEdits(s: Subject, layout: Layout): TextEdit[] | Refused {
  const { array, text } = s;
  const inner = innerSize(s, layout);
  if (inner === 0) return { refused: `the inner arrays of ${array.name} would be neither rows nor frames` };
  const sizes = inner === undefined ? [layout.elements] : [layout.elements / inner, inner];
  const edits: TextEdit[] = [];
  for (const [i, { size, span }] of array.dimensions.entries()) {
    if (size === undefined || size === sizes[i]) continue;
    const written = text.slice(span.start, span.end);
    const number = /^\s*(?:0[xX][0-9a-fA-F]+|\d+)\s*$/.test(written);
    if (!number) return { refused: `the size \`${written.trim()}\` of ${array.name} would no longer be right` };
    const start = span.start + written.length - written.trimStart().length;
    edits.push({ start, end: start + written.trim().length, text: String(sizes[i]) });
  }
  return edits;
}

/** The type with elements of another width. */
export function inWidth(type: IntType, bits: IntType["bits"]): IntType {
  return type.bits === bits ? type : { ...type, bits };
}
