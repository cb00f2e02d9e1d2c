/** Precision and recall of offers on labelled arrays. */
import { readFileSync } from "node:fs";
import { openText } from "../../../shared/bitmap/open.ts";
import type { BitmapFile } from "../../../shared/bitmap/resolve.ts";
import type { Offer } from "../../../shared/bitmap/suggest.ts";
import { suggest, unannotated } from "../../../shared/bitmap/suggest.ts";
import type { Labelled } from "./label.ts";

export interface Judged extends Labelled {
  readonly offers: readonly Offer[];
}

const opened = new Map<string, BitmapFile>();

/** A file of the corpus as it is read. */
export function corpusFile(name: string): BitmapFile {
  const known = opened.get(name) ?? openText(readFileSync(new URL(name, import.meta.url), "utf8"), name);
  opened.set(name, known);
  return known;
}

/** The offers for each labelled array; throws for a label whose array is not read. */
export function judge(labels: readonly Labelled[]): Judged[] {
  return labels.map((label) => {
    const file = corpusFile(label.file);
    const array = unannotated(file).find((a) => a.name === label.name);
    if (!array) throw new Error(`${label.file} has no unannotated array ${label.name}`);
    return { ...label, offers: suggest(file, array) };
  });
}

export interface Figures {
  readonly pictures: number;
  /** Pictures whose first offer is right, and those with the right one among their offers. */
  readonly firstRight: number;
  readonly anyRight: number;
  readonly tables: number;
  /** Arrays that are no pictures, and yet get an offer. */
  readonly wrongly: number;
}

export function figuresOf(judged: readonly Judged[]): Figures {
  const pictures = judged.filter((j) => j.words !== undefined);
  const tables = judged.filter((j) => j.words === undefined);
  return {
    pictures: pictures.length,
    firstRight: pictures.filter((j) => j.offers[0]?.words === j.words).length,
    anyRight: pictures.filter((j) => j.offers.some((o) => o.words === j.words)).length,
    tables: tables.length,
    wrongly: tables.filter((j) => j.offers.length > 0).length,
  };
}

/** What went wrong, one line an array, for people. */
export function mistakesOf(judged: readonly Judged[]): string[] {
  return judged.flatMap(({ file, name, words, offers }) => {
    const got = offers.map((o) => `${o.words} [${o.confidence}; ${o.evidence}]`).join(" | ") || "nothing";
    if (words === undefined) return offers.length > 0 ? [`${file} ${name}: no picture, but offered ${got}`] : [];
    return offers[0]?.words === words ? [] : [`${file} ${name}: is ${words}, offered ${got}`];
  });
}
