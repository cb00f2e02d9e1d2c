/** Panels: what `@panel NAME WxH …` says of a display, and what a bitmap takes over from it. */
import type { OptionKey, Options, ParsedAnnotation } from "../pixels/options.ts";
import type { Span } from "../source/text.ts";
import type { Wiring } from "./wiring/wiring.ts";

export interface Panel {
  readonly name: string;
  readonly nameSpan: Span;
  /** File that defines it, as the caller names files. */
  readonly file: string;
  readonly options: Options;
  /** Where its pixels sit at the driver, by its table or its `wire=`; undefined where neither tells. */
  readonly wiring?: Wiring | undefined;
  /** Its wiring is said, but wrong: what depends on it can't be read. */
  readonly miswired?: boolean;
}

/** Panels by name, as many as define it. */
export type PanelIndex = ReadonlyMap<string, readonly Panel[]>;

/** What belongs to one array and never comes from its panel. */
const OWN: readonly OptionKey[] = ["frames", "fps", "first", "chars", "skip", "lead", "widths", "entries"];

/** A panel from its annotation; undefined for one without a usable name. */
export function panelOf(parsed: ParsedAnnotation, file: string): Panel | undefined {
  const { name, options } = parsed;
  return name ? { name: name.text, nameSpan: { start: name.start, end: name.end }, file, options } : undefined;
}

/** The bitmap's own options over those of its panel. A cap holds only in formats of the scale it was given for. */
export function withPanel(own: Options, panel: Panel | undefined): Options {
  if (!panel) return own;
  const inherited: Options = { ...panel.options };
  for (const key of OWN) delete inherited[key];
  const otherFormat = own.format !== undefined && own.format.full !== (panel.options.format?.full ?? 255);
  if (otherFormat && inherited.cap && "value" in inherited.cap) delete inherited.cap;
  return { ...inherited, ...own };
}

/** Groups panels by name. */
export function indexPanels(panels: Iterable<Panel>): PanelIndex {
  const index = new Map<string, Panel[]>();
  for (const panel of panels) {
    const known = index.get(panel.name);
    if (known) known.push(panel);
    else index.set(panel.name, [panel]);
  }
  return index;
}
