/** The colours in which the pixels of a bitmap are drawn in a theme. */
import { hexOf } from "../../shared/pixels/colour.ts";
import type { Scale } from "../scale.ts";
import type { Theme } from "./theme.ts";

export interface Lamps {
  /** The ground of the display, and a pixel that is off. */
  readonly face: string;
  /** The edge of a lamp that is off; in a high-contrast theme of every lamp and cell. */
  readonly edge: string;
  /** What is to be seen on that ground beside the pixels. */
  readonly mark: string;
  /** Strokes across a pixel that is not written. */
  readonly hatch: string;
  /** The colour of a value, 0xRRGGBB: as in a hover; in a high-contrast theme levels go from its ground to its text. */
  shade(value: number): number;
  /** The same for a canvas or a style; undefined for a value that gives no light. */
  lit(value: number): string | undefined;
  /** Whether a value is over the cap. */
  over(value: number): boolean;
}

const known = new WeakMap<Scale, { readonly theme: Theme; readonly lamps: Lamps }>();

/** The same object as long as neither scale nor theme changes. */
export function lampsOf(scale: Scale, theme: Theme): Lamps {
  const before = known.get(scale);
  if (before?.theme === theme) return before.lamps;
  const lamps = makeLamps(scale, theme);
  known.set(scale, { theme, lamps });
  return lamps;
}

function makeLamps(scale: Scale, theme: Theme): Lamps {
  // Colours stay what they are in every theme, so their ground is black in each.
  const plain = theme.contrast && !scale.colour;
  const shade = plain ? (value: number) => theme.between(scale.code(scale.level(value))) : scale.seen;
  const words = new Map<number, string>();
  return {
    face: plain ? theme.background : "#000000",
    edge: plain ? theme.border : theme.contrast ? "#8c8c8c" : "#3d3d3d",
    mark: plain ? theme.foreground : "#dcdcdc",
    hatch: plain ? theme.foreground : theme.contrast ? "#ffffff" : "#9a9a9a",
    shade,
    lit: (value) => {
      if (scale.level(value) === 0) return undefined;
      const rgb = shade(value);
      const before = words.get(rgb);
      if (before !== undefined) return before;
      const css = hexOf(rgb);
      words.set(rgb, css);
      return css;
    },
    over: scale.over,
  };
}
