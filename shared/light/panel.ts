/** Panels: what `@panel NAME WxH …` says of a display, and what a bitmap takes over from it. */
import type { OptionKey, Options, ParsedAnnotation } from "../pixels/options.ts";
import type { Span } from "../source/text.ts";

export interface Panel {
  readonly name: string;
  readonly nameSpan: Span;
  /** File that defines it, as the caller names files. */
  readonly file: string;
  readonly options: Options;
}

/** Panels by name, as many as define it. */
export type PanelIndex = ReadonlyMap<string, readonly Panel[]>;

/** What belongs to one array and never comes from its panel. */
const OWN: readonly OptionKey[] = ["frames", "fps", "first", "chars", "skip", "lead", "widths", "entries", "mask"];

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
  for (const key of ["cap", "night"] as const) {
    const level = inherited[key];
    if (otherFormat && level && "value" in level) delete inherited[key];
  }
  return { ...inherited, ...own };
}

/** Size of the driver's canvas, where `wire=` gives one of its own. */
export function canvasOf({ wire }: Options): { readonly width: number; readonly height: number } | undefined {
  const m = /(?:^|;)(\d{1,5})x(\d{1,5})(?:;|$)/.exec(wire ?? "");
  return m ? { width: Number(m[1]), height: Number(m[2]) } : undefined;
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
