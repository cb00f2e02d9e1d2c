/** The line above each bitmap: what it is, its bytes and its peak; and the command that paints it. */
import type { CodeLens } from "vscode-languageserver/node";
import type { BitmapIdentity } from "../../shared/bitmap/edit.ts";
import { findBitmap, identityOf } from "../../shared/bitmap/edit.ts";
import type { Parsed } from "../documents.ts";
import { factsOf } from "./facts.ts";
import { liveLenses } from "./live.ts";
import { bodyOf, rangeOf } from "./place.ts";
import type { ClientSettings } from "./settings.ts";

/** The client's command that opens the paint editor: of a document, and of one bitmap in it. */
export const PAINT = "dotwright.paint";
/** Those that write a bitmap as a picture, and copy it as text in another format. */
export const EXPORT_PICTURE = "dotwright.exportPicture";
export const COPY_AS = "dotwright.copyAs";

interface LensData {
  readonly uri: string;
  readonly identity: BitmapIdentity;
}

/** Lenses without their facts, which `resolveLens` adds for those in view. */
export function codeLenses(parsed: Parsed, settings: ClientSettings): CodeLens[] {
  const { uri, document, file } = parsed;
  const declarations = new Map<number, number>();
  for (const { array } of file.bitmaps) {
    declarations.set(array.declaration.start, (declarations.get(array.declaration.start) ?? 0) + 1);
  }
  const live = liveLenses(parsed, settings.commands.has(PAINT) ? PAINT : undefined);
  const lenses = file.bitmaps.flatMap((bitmap): CodeLens[] => {
    const { array } = bitmap;
    const identity = identityOf(bitmap);
    // Each entry of a table has its lens at its own braces.
    const alone = declarations.get(array.declaration.start) === 1;
    const start = alone ? array.declaration.start : (bodyOf(bitmap)?.start ?? array.declaration.start);
    const range = rangeOf(document, { start, end: Math.max(start, alone ? array.nameSpan.end : start + 1) });
    const data: LensData = { uri, identity };
    const facts: CodeLens = { range, data };
    if (!settings.commands.has(PAINT)) return [facts];
    return [{ range, command: { title: "Paint", command: PAINT, arguments: [uri, identity] } }, facts];
  });
  return [...lenses, ...live];
}

export function uriOfLens(lens: CodeLens): string | undefined {
  return (lens.data as LensData | undefined)?.uri;
}

/** Adds the facts to a lens; just the name where the bitmap has gone meanwhile. */
export function resolveLens(parsed: Parsed, lens: CodeLens): CodeLens {
  const { identity } = lens.data as LensData;
  const bitmap = findBitmap(parsed.file, identity);
  return {
    ...lens,
    command: {
      title: "refused" in bitmap ? identity.name : [bitmap.array.name, ...factsOf(bitmap)].join(" · "),
      command: "",
    },
  };
}
