/** The names in annotations that stand for something: of panels, in any file, and of arrays of the same file. */
import type { BitmapFile } from "../../shared/bitmap/resolve.ts";
import type { Panel } from "../../shared/light/panel.ts";
import { FORMATS } from "../../shared/pixels/formats.ts";
import { panelNameProblem, readSize, wordsFor } from "../../shared/pixels/options.ts";
import type { Annotation } from "../../shared/source/annotationSyntax.ts";
import type { SourceArray } from "../../shared/source/arrays.ts";
import type { Span } from "../../shared/source/text.ts";

export interface Name {
  readonly kind: "panel" | "array";
  readonly name: string;
  /** The name alone, without the option that it is the value of. */
  readonly span: Span;
  /** It stands where the thing is defined. */
  readonly defines: boolean;
}

/** Options whose value is the name of an array. */
const ARRAYS = new Set(["palette", "widths"]);

/** The name at an offset; undefined where there is none of ours. */
export function nameAt(file: BitmapFile, offset: number): Name | undefined {
  const annotation = file.source.annotations.find((a) => holds(a, offset));
  if (annotation) return namesIn(file, annotation).find(({ span }) => holds(span, offset));
  const array = file.source.arrays.find(({ nameSpan }) => holds(nameSpan, offset));
  return array && { kind: "array", name: array.name, span: array.nameSpan, defines: true };
}

/** All names of a kind that stand in the annotations of a file. */
export function namesOf(file: BitmapFile, kind: Name["kind"], name: string): Name[] {
  return file.source.annotations
    .flatMap((annotation) => namesIn(file, annotation))
    .filter((found) => found.kind === kind && found.name === name);
}

/** The definition of a panel that holds in this file. */
export function panelNamed(file: BitmapFile, name: string): Panel | undefined {
  return file.known.get(name)[0];
}

/** The array of this file that an annotation means by a name. */
export function arrayNamed(file: BitmapFile, name: string): SourceArray | undefined {
  return file.source.arrays.find((array) => array.name === name);
}

function namesIn(file: BitmapFile, { marker, words }: Annotation): Name[] {
  if (marker === "palette") return [];
  return words.flatMap((word, i): Name[] => {
    const { key, value, text } = word;
    if (key !== undefined) {
      const named = ARRAYS.has(key) && value !== undefined && value !== "" && value !== "head" && marker !== "motion";
      return named
        ? [{ kind: "array", name: value, span: { start: word.valueStart, end: word.end }, defines: false }]
        : [];
    }
    const defines = marker === "panel";
    if (defines ? i !== 0 : !mayBePanel(file, marker, text)) return [];
    return panelNameProblem(text) === undefined ? [{ kind: "panel", name: text, span: word, defines }] : [];
  });
}

function mayBePanel(file: BitmapFile, marker: Annotation["marker"], text: string): boolean {
  if (FORMATS.has(text) || readSize(text) || wordsFor(marker).flags.includes(text)) return false;
  // A misspelt word of @motion is no panel.
  return marker !== "motion" || file.known.names.has(text);
}

function holds({ start, end }: Span, offset: number): boolean {
  return start <= offset && offset <= end;
}
