/** Panels and bitmaps by name, over all files of the workspace. */
import type { SymbolInformation } from "vscode-languageserver/node";
import { SymbolKind } from "vscode-languageserver/node";
import { copied, placesIn } from "../../shared/bitmap/panels.ts";
import { xbmOptions } from "../../shared/bitmap/xbm.ts";
import type { Place } from "../../shared/light/panel.ts";
import type { SourceFile } from "../../shared/source/read.ts";
import type { Span } from "../../shared/source/text.ts";

/** A name that a file gives to a panel or a bitmap, and where it stands. */
export interface NamedPlace extends Place {
  readonly kind: "panel" | "bitmap";
  readonly name: string;
}

/** Most that a client is told at once. */
const MOST = 500;

/** The names of a text; each array once. */
export function symbolsIn(source: SourceFile): NamedPlace[] {
  const spans = new Map<number, { kind: NamedPlace["kind"]; name: string; span: Span }>();
  for (const { marker, words, arrays } of source.annotations) {
    const [first] = words;
    if (marker === "panel" && first && first.key === undefined)
      spans.set(first.start, { kind: "panel", name: first.text, span: first });
    if (marker !== "bitmap") continue;
    for (const index of arrays) add(index);
  }
  source.arrays.forEach((array, index) => {
    if (array.name.endsWith("bits") && xbmOptions(source, array)) add(index);
  });
  const place = placesIn(source.text);
  return [...spans.values()].map(({ kind, name, span }) => ({ kind, name: copied(name), ...place(span) }));

  function add(index: number): void {
    const array = source.arrays[index];
    if (array && array.name !== "")
      spans.set(array.nameSpan.start, { kind: "bitmap", name: array.name, span: array.nameSpan });
  }
}

/** Those whose names hold the letters of the query in this order, as clients expect: they sort and filter again. */
export function workspaceSymbols(
  files: Iterable<{ readonly uri: string; readonly file: string; readonly symbols: readonly NamedPlace[] }>,
  query: string,
): SymbolInformation[] {
  const wanted = query.toLowerCase();
  const found: SymbolInformation[] = [];
  for (const { uri, file, symbols } of files) {
    for (const { kind, name, line, start, end } of symbols) {
      if (!holds(name.toLowerCase(), wanted)) continue;
      found.push({
        name,
        kind: kind === "panel" ? SymbolKind.Object : SymbolKind.Array,
        containerName: file,
        location: { uri, range: { start: { line, character: start }, end: { line, character: end } } },
      });
      if (found.length === MOST) return found;
    }
  }
  return found;
}

function holds(name: string, letters: string): boolean {
  let at = -1;
  for (const letter of letters) {
    at = name.indexOf(letter, at + 1);
    if (at < 0) return false;
  }
  return true;
}
