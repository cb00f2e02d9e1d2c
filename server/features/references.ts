/** Where the names of annotations are defined and used: definition and references. */
import type { Location, Position } from "vscode-languageserver/node";
import type { BitmapFile } from "../../shared/bitmap/resolve.ts";
import type { Panel } from "../../shared/light/panel.ts";
import type { Parsed } from "../documents.ts";
import type { Name } from "./names.ts";
import { arrayNamed, nameAt, namesOf, panelNamed } from "./names.ts";
import { rangeOf } from "./place.ts";

/** The definition that holds; undefined on other words, and on the definition itself. `uriOf` gives a file's URI. */
export function definition(parsed: Parsed, position: Position, uriOf: (id: string) => string): Location | undefined {
  const { document, file, uri } = parsed;
  const named = nameAt(file, document.offsetAt(position));
  if (!named) return undefined;
  if (named.kind === "array") {
    const array = named.defines ? undefined : arrayNamed(file, named.name);
    return array && { uri, range: rangeOf(document, array.nameSpan) };
  }
  const panel = panelNamed(file, named.name);
  if (!panel) return undefined;
  if (panel.id === file.id) return { uri, range: rangeOf(document, panel.nameSpan) };
  const { place } = panel;
  if (!place) return undefined;
  const { line, start, end } = place;
  return {
    uri: uriOf(panel.id),
    range: { start: { line, character: start }, end: { line, character: end } },
  };
}

/** A name, and which of several definitions is meant by it: that of the file with this id; "" where nobody defines it. */
export interface Meant {
  readonly name: Name;
  readonly home: string;
}

export function meantAt({ document, file }: Parsed, position: Position): Meant | undefined {
  const name = nameAt(file, document.offsetAt(position));
  if (!name) return undefined;
  if (name.kind === "array") return { name, home: file.id };
  return { name, home: name.defines ? file.id : (panelNamed(file, name.name)?.id ?? "") };
}

/** All places of a file that mean the same. */
export function placesIn(file: BitmapFile, { name, home }: Meant): Name[] {
  if (name.kind === "array") return file.id === home ? namesOf(file, "array", name.name) : [];
  const holding: Panel | undefined = panelNamed(file, name.name);
  return namesOf(file, "panel", name.name).filter(({ defines }) => (defines ? file.id : (holding?.id ?? "")) === home);
}

/** The places in one file; that of a definition only where `declared`. */
export function references({ uri, document, file }: Parsed, meant: Meant, declared: boolean): Location[] {
  return placesIn(file, meant)
    .filter(({ defines }) => declared || !defines)
    .map(({ span }) => ({ uri, range: rangeOf(document, span) }));
}
