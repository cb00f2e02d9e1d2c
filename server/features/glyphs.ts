/** `dotwright/glyphs`: the glyph sets that text can be written with, and the pixels of some of their glyphs. */
import { findBitmap, identityOf } from "../../shared/bitmap/edit.ts";
import { type BitmapFile, pixelsOf, resolveFile } from "../../shared/bitmap/resolve.ts";
import { highest } from "../../shared/light/limit.ts";
import type { Glyph, GlyphSetInfo, LspParams, LspReply } from "../../shared/protocol/lsp.ts";
import type { Parsed } from "../documents.ts";
import { charactersOf } from "./bitmaps.ts";

/** Most glyphs at once: a text is short. */
const MOST_AT_ONCE = 1024;

/** Refuses a set that is not surely the one meant, or that this document does not know. */
export function glyphs(
  parsed: Parsed,
  { wanted }: LspParams<"dotwright/glyphs">,
  /** The documents that are open. */
  open: readonly Parsed[] = [],
): LspReply<"dotwright/glyphs"> {
  const files = filesOf(parsed, open);
  const sets = [...files].flatMap(([uri, file]) => setsOf(uri, file));
  if (!wanted) return { ok: { version: parsed.version, sets, glyphs: [] } };
  const file = files.get(wanted.uri);
  if (!file) return { err: `${wanted.uri} is neither open nor included by ${parsed.uri}` };
  const bitmap = findBitmap(file, wanted.identity);
  if ("refused" in bitmap) return { err: bitmap.refused };
  const characters = charactersOf(bitmap) ?? [];
  const found: Glyph[] = [];
  for (const character of new Set(wanted.characters.slice(0, MOST_AT_ONCE))) {
    const frame = characters.indexOf(character);
    const pixels = frame < 0 ? undefined : pixelsOf(bitmap, frame);
    if (pixels) found.push({ character, pixels: Array.from(pixels) });
  }
  return { ok: { version: parsed.version, sets, glyphs: found } };
}

/** The document itself, then what it includes, then what else is open. */
function filesOf({ uri, file }: Parsed, open: readonly Parsed[]): Map<string, BitmapFile> {
  const files = new Map([[uri, file]]);
  for (const [id, source] of file.source.included) if (id !== uri) files.set(id, resolveFile(source, id, file.known));
  for (const other of open) if (!files.has(other.uri)) files.set(other.uri, other.file);
  return files;
}

function setsOf(uri: string, file: BitmapFile): GlyphSetInfo[] {
  const sets: GlyphSetInfo[] = [];
  for (const bitmap of file.bitmaps) {
    const { array, width, height, format, widths, why } = bitmap;
    const characters = charactersOf(bitmap);
    if (!characters || why !== undefined || (format.kind !== "mono" && format.kind !== "gray")) continue;
    const full = highest(bitmap) ?? format.most;
    const own = { uri, identity: identityOf(bitmap), name: array.name, width, height, full, characters };
    sets.push(widths ? { ...own, widths } : own);
  }
  return sets;
}
