/** Panels and bitmaps as the outline of a file; the bitmaps of a table stand below it. */
import type { DocumentSymbol, SymbolInformation } from "vscode-languageserver/node";
import { SymbolKind } from "vscode-languageserver/node";
import type { Bitmap } from "../../shared/bitmap/resolve.ts";
import type { Parsed } from "../documents.ts";
import { bodyOf, rangeOf } from "./place.ts";
import type { ClientSettings } from "./settings.ts";
import { sizeAndFormat } from "./words.ts";

export function documentSymbols(parsed: Parsed, settings: ClientSettings): DocumentSymbol[] | SymbolInformation[] {
  const tree = [...panels(parsed), ...arrays(parsed)];
  tree.sort((a, b) => a.range.start.line - b.range.start.line || a.range.start.character - b.range.start.character);
  if (settings.nestedSymbols) return tree;
  const flat = (symbols: readonly DocumentSymbol[], container?: string): SymbolInformation[] =>
    symbols.flatMap((s) => [
      {
        name: s.name,
        kind: s.kind,
        location: { uri: parsed.uri, range: s.range },
        ...(container === undefined ? {} : { containerName: container }),
      },
      ...flat(s.children ?? [], s.name),
    ]);
  return flat(tree);
}

function panels({ file, document }: Parsed): DocumentSymbol[] {
  return file.panels.map((panel) => {
    const definition = file.source.annotations.find(
      (a) => a.start <= panel.nameSpan.start && panel.nameSpan.end <= a.end,
    );
    const { width, height, format } = panel.options;
    return {
      name: panel.name,
      kind: SymbolKind.Object,
      detail: `panel ${width ?? "?"}×${height ?? "?"} ${format?.name ?? "gray8"}`,
      range: rangeOf(document, definition ?? panel.nameSpan),
      selectionRange: rangeOf(document, panel.nameSpan),
    };
  });
}

function arrays(parsed: Parsed): DocumentSymbol[] {
  const tables = new Map<number, Bitmap[]>();
  for (const bitmap of parsed.file.bitmaps) {
    const known = tables.get(bitmap.array.base);
    if (known) known.push(bitmap);
    else tables.set(bitmap.array.base, [bitmap]);
  }
  return [...tables.values()].map((bitmaps) => {
    const [first] = bitmaps as [Bitmap];
    if (bitmaps.length === 1 && !/[.[]/.test(first.array.name)) return whole(parsed, first);
    const children = bitmaps.map((bitmap): DocumentSymbol => {
      const range = rangeOf(parsed.document, bodyOf(bitmap) ?? bitmap.array.nameSpan);
      return {
        name: bitmap.array.name,
        kind: SymbolKind.Array,
        detail: sizeAndFormat(bitmap),
        range,
        selectionRange: range,
      };
    });
    const name = first.array.name.replace(/[.[].*$/s, "");
    const detail = `${bitmaps.length} ${bitmaps.length === 1 ? "bitmap" : "bitmaps"}`;
    return { ...whole(parsed, first), name, detail, kind: SymbolKind.Struct, children };
  });
}

function whole({ document }: Parsed, bitmap: Bitmap): DocumentSymbol {
  const { declaration, nameSpan, name } = bitmap.array;
  return {
    // A half-typed declaration may have no name, which LSP does not allow.
    name: name || "bitmap",
    kind: SymbolKind.Array,
    detail: sizeAndFormat(bitmap),
    range: rangeOf(document, {
      start: Math.min(declaration.start, nameSpan.start),
      end: Math.max(declaration.end, nameSpan.end),
    }),
    selectionRange: rangeOf(document, nameSpan),
  };
}
