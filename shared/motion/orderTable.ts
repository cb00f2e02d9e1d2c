/** The index table that shares frames there and back: entry i is the frame that is shown as the i-th. */

import type { Refused } from "../bitmap/convert/subject.ts";
import { declarationOf } from "../bitmap/declaration.ts";
import { sameIn } from "../bitmap/edit.ts";
import type { Bitmap, BitmapFile } from "../bitmap/resolve.ts";
import type { SourceArray } from "../source/arrays.ts";
import { indentAt } from "../source/scan.ts";
import { applyEdits, eolOf } from "../source/text.ts";

const nameFor = ({ array }: Pick<Bitmap, "array">) => `${array.name}_order`;

/** The table of an array, by its name; undefined where there is none. */
export function orderArray({ source }: BitmapFile, target: Bitmap): SourceArray | undefined {
  return source.arrays.find((a) => a.name === nameFor(target));
}

/** The text with the table behind the array, or with the one that is there brought up to date. */
export function withOrder(
  file: BitmapFile,
  { array: { name, ordinal } }: Bitmap,
  order: readonly number[],
): { readonly text: string } | Refused {
  const { text } = file.source;
  const target = sameIn(file, { name, ordinal });
  const declared = target && declarationOf(text, target.array);
  if (!target || !declared) return { refused: `${name} is not declared by itself, so no table can stand behind it` };
  const eol = eolOf(text);
  const indent = indentAt(text, target.array.declaration.start);
  const { type } = target.array;
  const bytes = type?.bits === 8 && (!type.signed || order.length <= 128);
  const head = bytes && Math.max(...order) < 256 ? declared.head : "const uint16_t ";
  const rows: string[] = [];
  for (let i = 0; i < order.length; i += 16) rows.push(`${indent}  ${order.slice(i, i + 16).join(", ")},`);
  const table = `${head}${nameFor(target)}[${order.length}]${declared.tail}{${eol}${rows.join(eol)}${eol}${indent}};`;
  const before = orderArray(file, target);
  if (!before) {
    const at = declared.end;
    const note = `// Frame of ${name} by place in the run, there and back.`;
    return { text: applyEdits(text, [{ start: at, end: at, text: `${eol}${indent}${note}${eol}${indent}${table}` }]) };
  }
  const own = declarationOf(text, before);
  if (!own) return { refused: `${before.name} is not declared by itself` };
  return { text: applyEdits(text, [{ start: before.declaration.start, end: own.end, text: table }]) };
}
