/** Panels: what `@panel NAME WxH …` says of a display, and what a bitmap takes over from it. */
import type { OptionKey, Options, ParsedAnnotation } from "../pixels/options.ts";
import type { Span } from "../source/text.ts";
import type { Wiring } from "./wiring/wiring.ts";

/** Where something stands in a file: its line, and columns in UTF-16 units, all from 0. */
export interface Place {
  readonly line: number;
  readonly start: number;
  readonly end: number;
}

export interface Panel {
  readonly name: string;
  readonly nameSpan: Span;
  /** File that defines it, as it is told to people. */
  readonly file: string;
  /** The same file by the name that no other file has: a URI or a path. */
  readonly id: string;
  /** The annotation as it is written. */
  readonly text: string;
  /** Where its name stands; known of panels of other files. */
  readonly place?: Place;
  readonly options: Options;
  /** Where its pixels sit at the driver, by its table or its `wire=`; undefined where neither tells. */
  readonly wiring?: Wiring | undefined;
  /** Its wiring is said, but wrong: what depends on it can't be read. */
  readonly miswired?: boolean;
}

/** What belongs to one array and never comes from its panel. */
const OWN: readonly OptionKey[] = ["frames", "fps", "first", "chars", "skip", "lead", "widths", "entries", "mask"];

/** A panel from its annotation, whose text is `text`; undefined for one without a usable name. */
export function panelOf(
  { name, options }: ParsedAnnotation,
  { file, id, text }: Pick<Panel, "file" | "id" | "text">,
): Panel | undefined {
  if (!name) return undefined;
  return { name: name.text, nameSpan: { start: name.start, end: name.end }, file, id, text, options };
}

/** The bitmap's own options over those of its panel. A cap holds only in formats of the scale it was given for. */
export function withPanel(own: Options, panel: Panel | undefined): Options {
  if (!panel) return own;
  const inherited: Options = { ...panel.options };
  for (const key of OWN) delete inherited[key];
  const otherFormat = own.format !== undefined && own.format.full !== (panel.options.format?.full ?? 255);
  for (const key of ["cap", "night"] as const) {
    const level = inherited[key];
    if (otherFormat && level && "value" in level) delete inherited[key];
  }
  return { ...inherited, ...own };
}

/** The words of a panel's definition, however they are spaced: two that say the same are no contradiction. */
export function wordsOfPanel({ text }: Panel): string {
  return text.split(/\s+/).join(" ");
}

/** Tells its wiring from any other; one that is wrong is not the same as none. */
export function wiringKey({ wiring, miswired }: Panel): string | undefined {
  return miswired ? "wrong" : wiring?.key;
}
