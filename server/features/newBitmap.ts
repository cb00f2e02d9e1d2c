/** `dotwright/newBitmap`: annotation and array for a new picture, at the place nearest to the cursor. */
import { makeBitmap, nameRefused } from "../../shared/bitmap/make.ts";
import { placed, placeNear } from "../../shared/bitmap/place.ts";
import type { Bitmap } from "../../shared/bitmap/resolve.ts";
import { panelsOf } from "../../shared/light/panelIndex.ts";
import { FORMATS } from "../../shared/pixels/formats.ts";
import type { LspParams, LspReply } from "../../shared/protocol/lsp.ts";
import { freeName } from "../../shared/source/identifiers.ts";
import { eolOf } from "../../shared/source/text.ts";
import type { Parsed } from "../documents.ts";
import { textEdits } from "./place.ts";
import { sizesFor } from "./sizes.ts";

export function newBitmapChoices({ file }: Parsed): LspReply<"dotwright/newBitmapChoices"> {
  const { used, usual } = sizesFor(file);
  const panels = panelsOf(file.known).flatMap(({ name, options: { width, height, format } }) =>
    width && height ? [{ name, width, height, ...(format ? { format: format.name } : {}) }] : [],
  );
  const formats = [...FORMATS.values()].map(({ name, depth }) => ({ name, depth }));
  return { ok: { panels, sizes: [...used, ...usual], formats } };
}

/** Refuses words that give no bitmap, a name that can't be given, and more elements than anyone keeps as text. */
export function newBitmap(
  parsed: Parsed,
  { position, words, name, judge }: LspParams<"dotwright/newBitmap">,
): LspReply<"dotwright/newBitmap"> {
  const { document, file, version } = parsed;
  const { source } = file;
  const wrong = name === undefined ? undefined : nameRefused(file, name);
  if (wrong !== undefined) return { err: wrong };
  const place = placeNear(source, document.offsetAt(position));
  const eol = eolOf(source.text);
  const trial = { words, name: name ?? "", offset: place.span.start, indent: place.indent, eol };
  const first = makeBitmap(file, trial);
  if ("refused" in first) return { err: first.refused };
  const chosen = name ?? freeName(source.text, suggestedName(first.bitmap));
  const made = name === undefined ? makeBitmap(file, { ...trial, name: chosen }) : first;
  if ("refused" in made) return { err: made.refused };
  const body = `${made.annotation}${eol}${place.indent}${made.statement}`;
  const { edit, lead } = placed(place, body, eol);
  const before = edit.text.slice(0, lead + made.annotation.length + eol.length + place.indent.length + made.nameAt);
  const start = document.positionAt(edit.start);
  const lines = before.split(/\r\n|\r|\n/);
  const last = lines[lines.length - 1] ?? "";
  const at = {
    line: start.line + lines.length - 1,
    character: lines.length > 1 ? last.length : start.character + last.length,
  };
  return {
    ok: {
      version,
      edits: judge ? [] : textEdits(document, [edit]),
      name: chosen,
      nameRange: { start: at, end: { line: at.line, character: at.character + chosen.length } },
      elements: made.elements,
      formatGiven: made.bitmap.options.format !== undefined && formatGiven(made.bitmap),
      framesGiven: made.bitmap.words.has("frames"),
    },
  };
}

/** A name to begin with, in words of what is made. */
export function suggestedName({ options, frames }: Bitmap): string {
  if (options.first !== undefined || options.chars) return "glyphs";
  return frames > 1 ? "animation" : "picture";
}

function formatGiven({ words, panel }: Bitmap): boolean {
  return words.has("format") || panel?.options.format !== undefined;
}
