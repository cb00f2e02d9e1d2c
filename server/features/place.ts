/** Offsets of the core to the positions of LSP, and what stands at an offset. */

import type { Range, TextEdit, WorkspaceEdit } from "vscode-languageserver/node";
import type { TextDocument } from "vscode-languageserver-textdocument";
import type { Palette } from "../../shared/bitmap/palettes.ts";
import type { Bitmap, BitmapFile } from "../../shared/bitmap/resolve.ts";
import { elementSpan } from "../../shared/source/arrays.ts";
import type { Span, TextEdit as SpanEdit } from "../../shared/source/text.ts";
import type { Parsed } from "../documents.ts";
import type { ClientSettings } from "./settings.ts";

export function rangeOf(document: TextDocument, span: Span): Range {
  return { start: document.positionAt(span.start), end: document.positionAt(span.end) };
}

export function textEdits(document: TextDocument, edits: readonly SpanEdit[]): TextEdit[] {
  return edits.map((edit) => ({ range: rangeOf(document, edit), newText: edit.text }));
}

/** Edits of one document, tied to its version where the client can take that. */
export function workspaceEdit(parsed: Parsed, edits: readonly SpanEdit[], settings: ClientSettings): WorkspaceEdit {
  const { uri, version, document } = parsed;
  const changes = textEdits(document, edits);
  return settings.versionedEdits
    ? { documentChanges: [{ textDocument: { uri, version }, edits: changes }] }
    : { changes: { [uri]: changes } };
}

/** The braces of a bitmap's (or palette's) own list; undefined for a string. */
export function bodyOf({ array }: Pick<Bitmap, "array">): Span | undefined {
  if (array.elided && array.given > 0)
    return { start: elementSpan(array, 0).start - 1, end: elementSpan(array, array.given - 1).end + 1 };
  const node = array.list?.nodes[array.node];
  return node && { start: array.base + node.open, end: array.base + node.close + 1 };
}

/** The bitmap whose numbers stand around an offset. */
export function bitmapAround(file: BitmapFile, offset: number): Bitmap | undefined {
  return (
    file.bitmaps.find((bitmap) => holdsNumber(bitmap, offset)) ??
    file.bitmaps.find(({ array }) => array.parts?.some((part) => holdsNumber({ array: part }, offset)))
  );
}

/** The palette whose numbers stand around an offset. */
export function paletteAround(file: BitmapFile, offset: number): Palette | undefined {
  return file.palettes.find((palette) => holdsNumber(palette, offset));
}

function holdsNumber(what: Pick<Bitmap, "array">, offset: number): boolean {
  const body = bodyOf(what);
  return body !== undefined && body.start < offset && offset < body.end;
}

/** Longest head of a declaration that is looked through. */
const MOST_HEAD = 4000;

/** The bitmaps in whose declaration, before the initialiser, an offset stands: several for a table of them. */
export function bitmapsDeclaredAt(file: BitmapFile, offset: number): Bitmap[] {
  const { text } = file.source;
  const holds = ({ nameSpan }: { nameSpan: Span }) => nameSpan.start <= offset && offset <= nameSpan.end;
  const named = file.bitmaps.filter((b) => holds(b.array));
  if (named.length > 0) return named;
  return file.bitmaps.filter(({ array }) => {
    if (offset < array.declaration.start || offset >= array.base || array.base - offset > MOST_HEAD) return false;
    // A statement may declare several arrays: the head of this one begins after the list of the one before.
    return !text.slice(Math.min(offset, array.nameSpan.start), array.base).includes("{");
  });
}
