/** The options of the tools: what can be chosen, in words. A tool names those that it uses. */
import * as l10n from "@vscode/l10n";
import type { Ease, GradientShape } from "./gradient.ts";
import type { Symmetry } from "./mirror.ts";
import { type Tip, WIDEST } from "./nib.ts";

export interface ToolOptions {
  /** Of the brush, in pixels. */
  readonly width: number;
  readonly tip: Tip;
  /** Opacity in per cent, 1–100. */
  readonly strength: number;
  /** What becomes of a pixel: the level, or the rung above or below its own value. */
  readonly mode: "set" | "lighten" | "darken";
  readonly symmetry: Symmetry;
  readonly filled: "outline" | "filled";
  /** What Fill takes. */
  readonly region: "touching" | "everywhere";
  readonly shape: GradientShape;
  readonly ease: Ease;
  /** The level at the far end of a gradient. */
  readonly second: number;
  /** What a gradient covers. */
  readonly area: "frame" | "touching";
  /** Key of the glyph set; the first one where it names none. */
  readonly set: string;
  /** Gap between glyphs, in pixels. */
  readonly spacing: number;
}

export type OptionName = keyof ToolOptions;

/** In the order in which they are shown. */
export const START_OPTIONS: ToolOptions = {
  set: "",
  spacing: 1,
  second: 0,
  shape: "linear",
  ease: "linear",
  area: "frame",
  filled: "outline",
  region: "touching",
  width: 1,
  tip: "round",
  strength: 100,
  mode: "set",
  symmetry: "off",
};

interface Choice {
  readonly label: string;
  /** The label is seen; the words of the others speak for themselves. */
  readonly labelled?: boolean;
  /** What can be chosen, with its word and what it does. */
  readonly words: Readonly<Record<string, readonly [word: string, does: string]>>;
  /** The key that goes on to the next one. */
  readonly key?: string;
}

/** Options of which one of a few words is chosen. */
export const CHOICES = {
  tip: {
    label: l10n.t("tip"),
    words: {
      round: [l10n.t("round"), l10n.t("a round brush")],
      square: [l10n.t("square"), l10n.t("a square brush")],
    },
  },
  mode: {
    label: l10n.t("pixels"),
    words: {
      set: [l10n.t("set"), l10n.t("sets pixels to the level")],
      lighten: [l10n.t("lighten"), l10n.t("takes each pixel to the next rung of the ladder, up to the cap")],
      darken: [l10n.t("darken"), l10n.t("takes each pixel to the rung below")],
    },
    labelled: true,
  },
  symmetry: {
    label: l10n.t("symmetry"),
    words: {
      off: [l10n.t("off"), l10n.t("draws where you draw, and nowhere else")],
      columns: [l10n.t("columns"), l10n.t("left and right are alike")],
      rows: [l10n.t("rows"), l10n.t("upper and lower half are alike")],
      both: [l10n.t("both"), l10n.t("all four quarters are alike")],
    },
    labelled: true,
    key: "m",
  },
  filled: {
    label: l10n.t("form"),
    words: {
      outline: [l10n.t("outline"), l10n.t("the edge alone")],
      filled: [l10n.t("filled"), l10n.t("with all that is inside")],
    },
  },
  region: {
    label: l10n.t("fills"),
    words: {
      touching: [l10n.t("touching"), l10n.t("pixels of one value that touch by their edges")],
      everywhere: [l10n.t("everywhere"), l10n.t("all pixels of that value in the frame")],
    },
  },
  shape: {
    label: l10n.t("shape"),
    words: {
      linear: [l10n.t("straight"), l10n.t("linear: along the line from press to release")],
      radial: [l10n.t("radial"), l10n.t("outwards from the press, as far as the release")],
    },
  },
  ease: {
    label: l10n.t("steps"),
    words: {
      linear: [l10n.t("linear"), l10n.t("equal steps of the value")],
      smoothstep: [l10n.t("smoothstep"), l10n.t("slow at both ends: t²·(3 − 2t)")],
      even: [l10n.t("even"), l10n.t("even to the eye: equal steps of lightness (CIE L*)")],
    },
  },
  area: {
    label: l10n.t("covers"),
    words: {
      frame: [l10n.t("whole frame"), l10n.t("the whole frame, or what is selected")],
      touching: [l10n.t("touching"), l10n.t("pixels of one value that touch where you press, as Fill")],
    },
  },
} as const satisfies Partial<Record<OptionName, Choice>>;

export type ChoiceName = keyof typeof CHOICES;

export function choiceOf(name: ChoiceName): Choice {
  return CHOICES[name];
}

/** The value after this one, round and round. */
export function nextOf<N extends ChoiceName>(name: N, value: ToolOptions[N]): ToolOptions[N] {
  const all = Object.keys(CHOICES[name].words) as ToolOptions[N][];
  return all[(all.indexOf(value) + 1) % all.length] ?? value;
}

interface Amount {
  readonly label: string;
  readonly title: string;
  readonly unit?: string;
  readonly least: number;
  readonly most: number;
  readonly step: number;
}

/** Options that are a number. */
const AMOUNTS = {
  width: {
    label: l10n.t("width"),
    title: l10n.t("Width of the brush in pixels: key W wider, Shift+W narrower"),
    least: 1,
    most: WIDEST,
    step: 1,
  },
  strength: {
    label: l10n.t("strength"),
    title: l10n.t("Strength (opacity): how far pixels go towards the level, in per cent"),
    unit: "%",
    least: 1,
    most: 100,
    step: 5,
  },
  spacing: { label: l10n.t("spacing"), title: l10n.t("Gap between glyphs in pixels"), least: 0, most: 16, step: 1 },
} as const satisfies Partial<Record<OptionName, Amount>>;

export type AmountName = keyof typeof AMOUNTS;

export function amountOf(name: AmountName): Amount {
  return AMOUNTS[name];
}

/** A whole number within what the option takes. */
export function amountWithin(name: AmountName, value: number): number {
  const { least, most } = AMOUNTS[name];
  return Math.max(least, Math.min(most, Math.round(value)));
}

/** What was kept from last time, as far as it is still understood. */
export function optionsFrom(kept: unknown): ToolOptions {
  if (typeof kept !== "object" || kept === null) return START_OPTIONS;
  const given = kept as Readonly<Record<string, unknown>>;
  const entries = Object.entries(START_OPTIONS).map(([name, start]) => {
    const value = given[name];
    if (typeof value !== typeof start) return [name, start];
    if (name in CHOICES && !Object.hasOwn(CHOICES[name as ChoiceName].words, String(value))) return [name, start];
    if (typeof value === "number" && !Number.isFinite(value)) return [name, start];
    return [name, name in AMOUNTS ? amountWithin(name as AmountName, value as number) : value];
  });
  return Object.fromEntries(entries) as ToolOptions;
}
