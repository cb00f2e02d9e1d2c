/** What can be typed inside an annotation, and the whole array under a fresh one. */
import type { CompletionItem, CompletionList, Position } from "vscode-languageserver/node";
import { CompletionItemKind } from "vscode-languageserver/node";
import type { BitmapFile } from "../../shared/bitmap/resolve.ts";
import { panelsOf } from "../../shared/light/panelIndex.ts";
import { bitmapsAround } from "../../shared/motion/ingredients.ts";
import { FORMATS, isColour } from "../../shared/pixels/formats.ts";
import { FIELDS } from "../../shared/pixels/motionOptions.ts";
import { rowOf, wordsFor } from "../../shared/pixels/options.ts";
import type { Marker } from "../../shared/source/annotationSyntax.ts";
import { MARKERS } from "../../shared/source/annotationSyntax.ts";
import type { Parsed } from "../documents.ts";
import { formatDoc, MARKER_DOCS, optionDoc, panelDoc } from "./annotationDocs.ts";
import { arrayCompletion } from "./arrayCompletion.ts";
import { commentAt } from "./commentAt.ts";
import { rangeOf } from "./place.ts";
import type { ClientSettings } from "./settings.ts";
import { sizesFor } from "./sizes.ts";
import type { Typing } from "./typing.ts";
import { typingAt } from "./typing.ts";

interface Choice {
  readonly label: string;
  readonly kind: CompletionItemKind;
  readonly doc?: string | undefined;
  readonly detail?: string;
}

export function completion(
  parsed: Parsed,
  position: Position,
  settings: ClientSettings,
): CompletionItem[] | CompletionList {
  const { document, file } = parsed;
  const offset = document.offsetAt(position);
  const { text, initialisers } = file.source;
  const comment = commentAt(text, offset, initialisers);
  if (!comment) {
    const array = arrayCompletion(parsed, offset, settings);
    // What is typed on changes the text that it replaces, so it is asked for anew.
    return array ? { isIncomplete: true, items: [array] } : [];
  }
  const typing = typingAt(text, comment, offset);
  if (!typing) return [];
  const range = rangeOf(document, typing.span);
  return choices(file, typing).map(({ label, kind, doc, detail }, i) => ({
    label,
    kind,
    sortText: String(i).padStart(3, "0"),
    textEdit: { range, newText: label },
    ...(doc === undefined ? {} : { documentation: { kind: "markdown" as const, value: doc } }),
    ...(detail === undefined ? {} : { detail }),
  }));
}

function choices(file: BitmapFile, typing: Typing): Choice[] {
  if (typing.kind === "marker")
    return MARKERS.map((m) => ({ label: `@${m}`, kind: CompletionItemKind.Keyword, doc: MARKER_DOCS[m] }));
  if (typing.kind === "value") return values(file, typing.marker, typing.key);
  const { marker, others, first } = typing;
  // The first word of a panel is its own, new name.
  if (marker === "panel" && first) return [];
  const given = new Set(others.map((w) => w.key ?? w.text));
  const hasFormat = others.some((w) => FORMATS.has(w.text));
  const hasSize = others.some((w) => /^\d+x\d+$/.test(w.text));
  const hasPanel = others.some((w) => file.known.names.has(w.text));
  const { keys, flags } = wordsFor(marker);
  const own = marker === "motion" || marker === "wiring";
  return [
    ...(hasPanel || marker === "panel" || marker === "palette" ? [] : panels(file)),
    ...(hasSize || own || marker === "palette" ? [] : sizes(file)),
    ...flags.filter((f) => FORMATS.has(f) && !hasFormat).map((f) => format(f)),
    ...keys.filter((key) => !given.has(key)).map((key) => option(marker, `${key}=`, key)),
    ...flags.filter((f) => !FORMATS.has(f) && !given.has(f)).map((flag) => option(marker, flag, flag)),
  ];
}

function option(marker: Marker, label: string, key: string): Choice {
  return { label, kind: CompletionItemKind.Property, doc: optionDoc(marker, key) };
}

function format(name: string): Choice {
  const row = FORMATS.get(name);
  return { label: name, kind: CompletionItemKind.TypeParameter, doc: row && formatDoc(row) };
}

function panels(file: BitmapFile): Choice[] {
  return panelsOf(file.known).map((panel) => ({
    label: panel.name,
    kind: CompletionItemKind.Reference,
    doc: panelDoc(panel, file),
    ...(panel.id === file.id ? {} : { detail: panel.file }),
  }));
}

function sizes(file: BitmapFile): Choice[] {
  const { used, usual } = sizesFor(file);
  return [
    ...used.map((label) => ({ label, kind: CompletionItemKind.Value, detail: "used in this file" })),
    ...usual.map((label) => ({ label, kind: CompletionItemKind.Value, detail: "columns × rows" })),
  ];
}

function values(file: BitmapFile, marker: Marker, key: string): Choice[] {
  const row = rowOf(marker, key);
  if (!row || row.flag) return [];
  const doc = optionDoc(marker, key);
  const item = (label: string): Choice => ({ label, kind: CompletionItemKind.EnumMember, doc });
  if (row.values) return row.values.map(item);
  if (key === "image") return levelBitmaps(file).map(item);
  if (key === "mask") return [...FIELDS, ...levelBitmaps(file)].map(item);
  if (key === "palette") return ["head", ...arraysMarked(file, "palette")].map(item);
  if (key === "widths")
    return file.source.arrays
      .filter((a) => a.name !== "")
      .slice(0, 50)
      .map((a) => item(a.name));
  // The table's own examples: "a current such as 5mA".
  return [...row.form.matchAll(/such as (\S+?)(?=,? or |,|$)/g)].map((m) => item(m[1] as string));
}

/** Bitmaps that can take part in a motion. */
function levelBitmaps(file: BitmapFile): string[] {
  return [
    ...new Set(bitmapsAround(file).flatMap(({ bitmap }) => (isColour(bitmap.format) ? [] : bitmap.array.name))),
  ].slice(0, 50);
}

function arraysMarked(file: BitmapFile, marker: Marker): string[] {
  const marked = file.source.annotations.filter((a) => a.marker === marker).flatMap((a) => a.arrays);
  return [...new Set(marked.map((i) => file.source.arrays[i]?.name ?? "").filter((n) => n !== ""))];
}
