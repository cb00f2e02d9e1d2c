/** The whole array, offered under an annotation that has none yet. */
import type { CompletionItem } from "vscode-languageserver/node";
import { CompletionItemKind, InsertTextFormat, InsertTextMode } from "vscode-languageserver/node";
import { makeBitmap, meaningOf } from "../../shared/bitmap/make.ts";
import { freeName, nameProblem } from "../../shared/source/identifiers.ts";
import type { BoundAnnotation, SourceFile } from "../../shared/source/read.ts";
import { lineEnd, lineStart } from "../../shared/source/scan.ts";
import type { IntType, Target } from "../../shared/source/types.ts";
import { builtinType, isTypeWord, namedType } from "../../shared/source/types.ts";
import type { Parsed } from "../documents.ts";
import { suggestedName } from "./newBitmap.ts";
import { rangeOf } from "./place.ts";
import type { ClientSettings } from "./settings.ts";

/** Longest text between an annotation and the cursor: comments about the picture. */
const MOST_BETWEEN = 2000;

/** More elements than that are made by the command alone: as an item they would travel with every key typed. */
const MOST_ELEMENTS = 1 << 14;

/** undefined anywhere but under such an annotation, on an empty line or behind half a declaration. */
export function arrayCompletion(parsed: Parsed, offset: number, settings: ClientSettings): CompletionItem | undefined {
  const { document, file } = parsed;
  const { source } = file;
  const annotation = annotationAbove(source, offset);
  const typed = annotation && typedBetween(source, annotation.comment.end, offset);
  if (!annotation || !typed) return undefined;
  const { start, head, part } = typed;
  const text = source.text;
  const words = text.slice(annotation.markerSpan.end, annotation.end).trim();
  // Words on several lines are read as one.
  const line = words.replace(/\s*[\r\n]+[\s*]*/g, " ");
  const request = { words: line, offset, limit: MOST_ELEMENTS, indent: typed.indent, ...(head ? { head } : {}) };
  const meaning = meaningOf(file, line, head?.type.bits ?? 32);
  if ("refused" in meaning) return undefined;
  const begun = head && part !== "" && nameProblem(part) === undefined ? part : suggestedName(meaning);
  // What is typed of the name stands in the text already.
  const name = begun === part && head ? part : freeName(text, begun);
  const made = makeBitmap(file, { ...request, name });
  if ("refused" in made) return undefined;
  const { statement, nameAt, bitmap } = made;
  const from = head ? nameAt : 0;
  const size = `${bitmap.width}×${bitmap.height} ${bitmap.format.name}`;
  const plain = statement.slice(from);
  const snippet = `${escaped(statement.slice(from, nameAt))}\${1:${name}}${escaped(statement.slice(nameAt + name.length))}`;
  const already = text.slice(start, offset);
  return {
    label: `Array for ${size}`,
    kind: CompletionItemKind.Snippet,
    detail: inWords(made.elements, made.lines, bitmap.frames, bitmap.layout?.pack),
    documentation: { kind: "markdown", value: `\`\`\`cpp\n${shortened(statement)}\n\`\`\`\n\nEvery pixel is dark.` },
    filterText: already === "" ? name : already,
    sortText: "000",
    preselect: true,
    insertTextFormat: settings.snippets ? InsertTextFormat.Snippet : InsertTextFormat.PlainText,
    insertTextMode: InsertTextMode.asIs,
    textEdit: { range: rangeOf(document, { start, end: offset }), newText: settings.snippets ? snippet : plain },
  };
}

/** The last `@bitmap` above the offset, if it has no array, or took one that a later annotation is meant for. */
function annotationAbove({ annotations, initialisers }: SourceFile, offset: number): BoundAnnotation | undefined {
  let above: BoundAnnotation | undefined;
  for (const annotation of annotations) {
    if (annotation.comment.end > offset) break;
    if (annotation.marker === "bitmap") above = annotation;
  }
  if (!above || offset - above.comment.end > MOST_BETWEEN) return undefined;
  if (initialisers.some(({ base, list }) => base < offset && offset < base + list.length)) return undefined;
  const { arrays } = above;
  const claimed = annotations.some(
    (a) => a !== above && a.marker === "bitmap" && a.arrays.some((i) => arrays.includes(i)),
  );
  return arrays.length === 0 || claimed ? above : undefined;
}

interface Typed {
  readonly start: number;
  readonly indent: string;
  /** Words of the declaration that hold the element type; undefined where the item brings its own. */
  readonly head: { readonly text: string; readonly type: IntType } | undefined;
  /** The word at the cursor. */
  readonly part: string;
}

/** What stands between the annotation and the cursor; undefined for more than comments and half a declaration. */
function typedBetween({ text, target }: SourceFile, from: number, offset: number): Typed | undefined {
  const start = lineStart(text, offset, from);
  // On the annotation's own line there is no room for it.
  if (start <= from || !/^\s*$/.test(text.slice(offset, lineEnd(text, offset)))) return undefined;
  const between = text.slice(from, start).replace(/\/\*[\s\S]*?\*\/|\/\/[^\r\n]*/g, "");
  if (/\S/.test(between)) return undefined;
  const [, indent = "", head = "", part = ""] = /^([ \t]*)((?:[A-Za-z_]\w*[ \t]+)*)(\w*)$/.exec(
    text.slice(start, offset),
  ) ?? [undefined, undefined];
  if (indent.length + head.length + part.length < offset - start) return undefined;
  const words = head.match(/\w+/g) ?? [];
  if (!words.every((w) => DECLARING.has(w) || isTypeWord(w) || namedType(w, target))) return undefined;
  const type = typeOf(words, target);
  return type
    ? { start: offset - part.length, indent, head: { text: head, type }, part }
    : { start: start + indent.length, indent, head: undefined, part };
}

const DECLARING = new Set("const static constexpr inline extern volatile PROGMEM".split(" "));

function typeOf(words: readonly string[], target: Target): IntType | undefined {
  const own = words.filter((w) => !DECLARING.has(w));
  if (own.length === 0) return undefined;
  const type = own.length === 1 && own[0] ? namedType(own[0], target) : undefined;
  return type ?? builtinType(own, target);
}

function inWords(elements: number, lines: number, frames: number, pack: string | undefined): string {
  const unit = pack === "columns" ? "column" : pack === "pages" ? "page" : "row";
  const each = frames > 1 ? `, ${frames} frames` : "";
  return `${elements} element${elements === 1 ? "" : "s"}, ${lines} ${unit}${lines === 1 ? "" : "s"}${each}`;
}

function escaped(text: string): string {
  return text.replace(/[\\$}]/g, "\\$&");
}

/** The first lines, as much as a list of completions shows. */
function shortened(statement: string): string {
  const lines = statement.split(/\r\n|\r|\n/).map((l) => (l.length > 100 ? `${l.slice(0, 99)}…` : l));
  return lines.length > 12 ? [...lines.slice(0, 10), "  …", "};"].join("\n") : lines.join("\n");
}
