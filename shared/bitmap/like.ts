/** A new bitmap like an existing one: same annotation, same declaration, same rows, all dark, under a fresh name. */
import { setPixel } from "../pixels/picture.ts";
import { nextName } from "../source/identifiers.ts";
import type { BoundAnnotation } from "../source/read.ts";
import type { ElementChange } from "../source/rewrite.ts";
import { rewriteElements } from "../source/rewrite.ts";
import { commentEnd, isComment, lineEnd, lineStart } from "../source/scan.ts";
import type { TextEdit } from "../source/text.ts";
import { applyEdits, eolOf } from "../source/text.ts";
import type { Declaration } from "./declaration.ts";
import { declarationOf } from "./declaration.ts";
import type { PixelChange } from "./edit.ts";
import { editPixels } from "./edit.ts";
import { houseOf, isPadded } from "./house.ts";
import { emitList } from "./make.ts";
import type { Bitmap, BitmapFile } from "./resolve.ts";
import { elementsOf } from "./resolve.ts";

/** More pixels than that are not copied: 1,048,576. */
const MOST_PIXELS = 1 << 20;

/** Whether `makeLike` can be offered; cheap. Not for rows of arrays, tables of structs, and XBM. */
export function canMakeLike(file: BitmapFile, bitmap: Bitmap): boolean {
  const declaration = declarationOf(file.source.text, bitmap.array);
  if (!declaration || !bitmap.annotation || !bitmap.layout) return false;
  if (bitmap.width * bitmap.height * bitmap.frames > MOST_PIXELS) return false;
  // Another marker inside the statement would be copied with it.
  const inside = file.source.annotations.some(
    (a) =>
      a !== bitmap.annotation && bitmap.array.declaration.start < a.comment.start && a.comment.start < declaration.end,
  );
  return !inside && (bitmap.array.readOnly === undefined || canWriteAnew(bitmap));
}

/** Where values are not known, the list is written anew: its size must be surely right. */
function canWriteAnew({ array, layout }: Bitmap): boolean {
  const [only] = array.dimensions;
  return array.dimensions.length === 1 && !only?.why && (only?.size ?? layout?.elements) === layout?.elements;
}

/**
 * The edit that inserts it after the statement, dark or with the same pixels. Elements that hold no pixels (`skip`, `lead`)
 * keep their values.
 */
export function makeLike(
  file: BitmapFile,
  bitmap: Bitmap,
  pixels: "dark" | "same" = "dark",
): TextEdit | { readonly refused: string } {
  const { text } = file.source;
  const { array, annotation } = bitmap;
  const declaration = declarationOf(text, array);
  if (!declaration || !annotation || !canMakeLike(file, bitmap))
    return { refused: `No bitmap like ${array.name} can be declared after it` };
  const name = nextName(text, array.name);
  const indent = indentBefore(text, array.declaration.start);
  const eol = eolOf(text);
  if (pixels === "same" && array.readOnly !== undefined)
    return { refused: `the values of ${array.name} are not known` };
  const statement =
    array.readOnly === undefined ? copied(text, bitmap, name, pixels) : anew(file, bitmap, declaration, name);
  if (typeof statement !== "string") return statement;
  const outside = annotation.comment.end <= array.declaration.start;
  const comment = outside ? `${indent}${commentOf(text, annotation)}${eol}` : "";
  const at = afterStatement(file, declaration.end);
  return { start: at, end: at, text: `${eol}${eol}${comment}${indent}${statement};` };
}

/** The declaration as it stands, with the new name and every pixel dark, or as it is. */
function copied(
  text: string,
  bitmap: Bitmap,
  name: string,
  pixels: "dark" | "same",
): string | { readonly refused: string } {
  const { array } = bitmap;
  const { start, end } = array.declaration;
  const none = { edits: [] as readonly TextEdit[] };
  const dark =
    pixels === "same"
      ? none
      : bitmap.why === undefined
        ? editPixels(text, bitmap, allDark(bitmap))
        : darkUnread(text, bitmap);
  if ("refused" in dark) return dark;
  // Shorter numbers stay in their columns.
  const padded = isPadded(text.slice(array.base, end));
  const numbers = dark.edits.map((edit) =>
    padded ? { ...edit, text: edit.text.padStart(edit.end - edit.start) } : edit,
  );
  const edits = [{ ...array.nameSpan, text: name }, ...numbers];
  return applyEdits(
    text.slice(start, end),
    edits.map((edit) => ({ ...edit, start: edit.start - start, end: edit.end - start })),
  );
}

function allDark({ width, height, frames, layout, array }: Bitmap): PixelChange[] {
  const changes: PixelChange[] = [];
  for (let frame = 0; frame < frames; frame++) {
    const table = layout?.table(frame);
    for (let i = 0; i < width * height; i++) {
      // A picture that is longer than its array stays as long as it is.
      if ((table?.element[i] ?? 0) + (layout?.span ?? 1) > array.count) continue;
      changes.push({ frame, x: i % width, y: Math.floor(i / width), value: 0 });
    }
  }
  return changes;
}

/** For formats that have a layout but no picture yet. */
function darkUnread(text: string, bitmap: Bitmap) {
  const { array, layout, invert } = bitmap;
  const bits = elementsOf(bitmap);
  if (!layout || !bits) return { refused: `${array.name} can't be read` };
  const elements = new Map<number, bigint>();
  const read = (element: number) => elements.get(element) ?? BigInt(bits[element] ?? 0);
  const write = (element: number, value: bigint) => void (element < array.count && elements.set(element, value));
  for (const { frame, x, y } of allDark(bitmap)) setPixel(layout, frame, y * layout.width + x, 0, invert, read, write);
  const changes: ElementChange[] = [...elements].map(([slot, value]) => ({ slot, bits: value }));
  return rewriteElements(text, array, changes, layout.lineElements || 16);
}

function anew(file: BitmapFile, bitmap: Bitmap, { head, dimensions, tail }: Declaration, name: string) {
  const { array, format, layout, invert } = bitmap;
  if (!array.type || !layout || array.list?.nodes[0]?.lists) return { refused: `${array.name} can't be read` };
  const wanted = { format, pack: layout.pack, most: bitmap.cap ?? format.most, lit: invert };
  const house = { ...houseOf(file, array.base + 1, wanted), type: array.type };
  const eol = eolOf(file.source.text);
  const indent = indentBefore(file.source.text, array.declaration.start);
  return `${head}${name}${dimensions}${tail}{${eol}${emitList(bitmap, house, indent, eol)}${eol}${indent}}`;
}

/** The annotation's words in a comment of the same kind; free text is about the old one and stays there. */
export function commentOf(
  text: string,
  { comment, markerSpan, words }: BoundAnnotation,
  own = words.map((w) => w.text).join(" "),
): string {
  const opener = /^(?:\/\/[/!]?|\/\*[*!]?)(?=[ \t]*$)/.exec(text.slice(comment.start, markerSpan.start))?.[0] ?? "//";
  return `${opener} @bitmap ${own}${opener.startsWith("/*") ? " */" : ""}`;
}

/** After the comments that end the line; right after the semicolon where more than those follows. */
function afterStatement({ source: { text, annotations } }: BitmapFile, end: number): number {
  let at = end;
  for (;;) {
    while (text[at] === " " || text[at] === "\t") at++;
    if (!isComment(text, at)) break;
    if (annotations.some((a) => a.comment.start === at)) return end;
    at = commentEnd(text, at);
  }
  return at === lineEnd(text, at) ? at : end;
}

function indentBefore(text: string, at: number): string {
  const before = text.slice(lineStart(text, at), at);
  return /^[ \t]*$/.test(before) ? before : "";
}
