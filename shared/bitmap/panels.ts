/** The panels that a file has from others: those of what it includes, and findings about names defined twice. */
import type { Panel, Place } from "../light/panel.ts";
import { panelOf, wordsOfPanel } from "../light/panel.ts";
import type { PanelIndex } from "../light/panelIndex.ts";
import { areEquallyNear, areNested, indexPanels, panelKey, seenFrom, WHICH_HOLDS } from "../light/panelIndex.ts";
import type { Related, WordProblem } from "../pixels/options.ts";
import { parseOptions } from "../pixels/options.ts";
import type { SourceFile } from "../source/read.ts";
import type { Span } from "../source/text.ts";
import { lineAt, lineStarts } from "../source/text.ts";
import { problem } from "./problem.ts";
import type { BitmapFile } from "./resolve.ts";
import { tablesOf, wiredPanel } from "./wirings.ts";

/**
 * The panels that a text defines, with their places in it; of one name only the first, as the others do not hold. `place`
 * is for who knows the lines of the text already.
 */
export function panelsIn(
  source: SourceFile,
  file: string,
  id: string,
  place: (span: Span) => Place = placesIn(source.text),
): readonly Panel[] {
  const panels = new Map<string, Panel>();
  for (const annotation of source.annotations) {
    if (annotation.marker !== "panel") continue;
    const parsed = parseOptions(annotation, new Set());
    const text = copied(source.text.slice(annotation.start, annotation.end));
    const panel = panelOf(parsed, { file, id, text });
    if (!panel || panels.has(panel.name)) continue;
    const wired = wiredPanel({ ...panel, name: copied(panel.name) }, undefined).panel;
    panels.set(panel.name, { ...wired, place: place(panel.nameSpan) });
  }
  for (const { panel, wiring } of tablesIn(source, panels))
    panels.set(panel.name, { ...panel, wiring, miswired: !wiring });
  return [...panels.values()];
}

/** The tables of addresses beside the panels that they are for. */
function tablesIn(source: SourceFile, panels: ReadonlyMap<string, Panel>) {
  const wirings = source.annotations.filter(({ marker, arrays }) => marker === "wiring" && arrays.length > 0);
  if (wirings.length === 0) return [];
  const names = new Set(panels.keys());
  const meanings = new Map(wirings.map((annotation) => [annotation, parseOptions(annotation, names)]));
  return tablesOf(source, meanings, (name) => panels.get(name)).tables;
}

/** Where spans that do not go over lines stand in a text. */
export function placesIn(text: string): (span: Span) => Place {
  let starts: Uint32Array | undefined;
  return ({ start, end }) => {
    starts ??= lineStarts(text);
    const line = lineAt(starts, start);
    const first = starts[line] as number;
    return { line, start: start - first, end: end - first };
  };
}

const ofSource = new WeakMap<SourceFile, readonly Panel[]>();

/** The panels of the files that a file includes, in the order in which they are read. Told people by the names that `around` has. */
export function includedPanels(
  source: SourceFile,
  id: string,
  around: PanelIndex,
): ReadonlyMap<string, readonly Panel[]> {
  const included = new Map<string, readonly Panel[]>();
  for (const [from, file] of source.included) {
    if (from === id) continue;
    const panels = ofSource.get(file) ?? panelsIn(file, lastPart(from), from);
    ofSource.set(file, panels);
    const named = (panel: Panel) => {
      const known = around.get(panel.name).find((p) => p.id === from);
      return known ? { ...panel, file: known.file } : panel;
    };
    included.set(from, panels.map(named));
  }
  return included;
}

/**
 * The file with other panels around it, all else as it was read; undefined where it means something else with them, and
 * must be resolved anew.
 */
export function withPanelsAround(file: BitmapFile, around: PanelIndex): BitmapFile | undefined {
  const { id, source, panels: own, known, problems } = file;
  const now = seenFrom({ id, own, included: includedPanels(source, id, around) }, around);
  const words = bareWords(source);
  const all = problems.length > 0;
  return panelKey(words, now, all) === panelKey(words, known, all) ? { ...file, known: now } : undefined;
}

/** What a file takes from the panels around it, as one text, without keeping the file: see `panelKey`. */
export function panelUse({ id, source, panels, problems }: BitmapFile): (around: PanelIndex) => string {
  const none = indexPanels([]);
  const own = panels.map((panel) => ({ ...panel, name: copied(panel.name), text: copied(panel.text) }));
  const included = includedPanels(source, id, none);
  const words = bareWords(source).map(copied);
  const all = problems.length > 0;
  return (around) => panelKey(words, seenFrom({ id, own, included }, around), all);
}

/** Words that may name a panel: its own, and where a motion may show a bitmap of an included file, those of that file. */
function bareWords(source: SourceFile): string[] {
  const moves = source.annotations.some((a) => a.marker === "motion");
  const annotations = (moves ? [source, ...source.included.values()] : [source]).flatMap((s) => s.annotations);
  const words = annotations.flatMap((a) => a.words.filter((w) => w.key === undefined).map((w) => w.text));
  return [...new Set(words)];
}

/** A text of its own: a piece of a long text may keep all of it in memory. */
export function copied(text: string): string {
  return JSON.parse(JSON.stringify(text)) as string;
}

function lastPart(id: string): string {
  const last = id.slice(Math.max(id.lastIndexOf("/"), id.lastIndexOf("\\")) + 1);
  try {
    return decodeURIComponent(last);
  } catch {
    return last;
  }
}

/** Most other places that a finding names. */
const MOST_RELATED = 10;

/**
 * Panels of the file that other files define too: a warning where they say something else and files have both at hand,
 * else a word about it: folders side by side may well be projects of their own.
 */
export function definedAgain(own: readonly Panel[], known: PanelIndex): WordProblem[] {
  return own.flatMap((panel): WordProblem[] => {
    const others = known.get(panel.name).filter(({ id }) => id !== panel.id);
    const unlike = others
      .filter((other) => isUnlike(other, panel))
      .sort((a, b) => Number(areNested(b, panel)) - Number(areNested(a, panel)));
    const [first] = unlike.length > 0 ? unlike : others;
    if (!first) return [];
    const more = others.length > 1 ? ` and ${others.length - 1} more` : "";
    const where = `${homeOf(first)}${more}`;
    const message =
      unlike.length > 0
        ? `The panel \`${panel.name}\` is defined otherwise in ${where}. ${WHICH_HOLDS}`
        : `The panel \`${panel.name}\` is defined in ${where} too, in the same words. One definition is enough for all files.`;
    const related = [first, ...others.filter((other) => other !== first)].slice(0, MOST_RELATED).flatMap(placed);
    const severity = unlike.length > 0 && areNested(first, panel) ? "warning" : "information";
    return [{ ...problem(panel.nameSpan, message), severity, related }];
  });
}

/** A panel that is named where only the order of paths says which of several definitions it is. */
export function chosenByPath(
  name: Span & { readonly text: string },
  known: PanelIndex,
  id: string,
  included: ReadonlyMap<string, unknown>,
): WordProblem[] {
  const [first, ...others] = known.get(name.text);
  if (!first || first.id === id || included.has(first.id)) return [];
  const rivals = others.filter((other) => areEquallyNear(first, other, id) && isUnlike(first, other));
  const [second] = rivals;
  if (!second) return [];
  const message = `\`${name.text}\` is defined in ${homeOf(first)} and otherwise in ${homeOf(second)}; taken is the first by path. Include the file that is meant, or rename one.`;
  const related = [first, ...rivals].slice(0, MOST_RELATED).flatMap(placed);
  return [{ ...problem(name, message), severity: "warning", related }];
}

function isUnlike(a: Panel, b: Panel): boolean {
  return wordsOfPanel(a) !== wordsOfPanel(b);
}

/** `board.h:3`, the line counted from 1. */
export function homeOf({ file, place }: Panel): string {
  return place ? `${file}:${place.line + 1}` : file;
}

function placed(panel: Panel): Related[] {
  const { id, file, place } = panel;
  return place ? [{ id, file, ...place, message: wordsOfPanel(panel) }] : [];
}
