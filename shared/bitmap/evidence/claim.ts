/** What one piece of evidence says of an array: its size, perhaps its format and packing, and where that was seen. */
import type { FormatName } from "../../pixels/formats.ts";
import type { Options } from "../../pixels/options.ts";

export interface Claim {
  readonly width: number;
  readonly height: number;
  /** undefined where the length of the array must tell. */
  readonly frames?: number | undefined;
  /** Leading elements that are no pixels. */
  readonly skip?: number;
  readonly hints?: Hints;
  /** What was seen and where, in words that follow "because": `its name ends in _16x16`. */
  readonly evidence: string;
  /** How much it counts, 0 to 1; from 0.75 on it is clear. */
  readonly weight: number;
  /** The kind of evidence: two kinds that agree count more than one. */
  readonly kind: string;
  /** The evidence itself speaks of pixels or pictures. */
  readonly pictured?: boolean;
  /** Only for an array that words call a picture. */
  readonly needsWord?: boolean;
  /** A function whose name speaks of pictures takes it, whatever the array's own name says. */
  readonly drawnBy?: boolean;
  /** A comment that speaks of nothing else gives the size in pixels. */
  readonly inPixels?: boolean;
  /** Rows as drawn in comments, `1` lit and `0` dark: a reading must show them. */
  readonly drawn?: readonly string[];
  /** The panel to name instead of the size. */
  readonly panel?: string;
}

/** Properties of a reading that evidence speaks for. */
export interface Hints {
  readonly formats?: readonly FormatName[];
  readonly pack?: Options["pack"];
  readonly bits?: Options["bits"];
  readonly spare?: Options["spare"];
  readonly invert?: boolean;
  /** Number fields of a descriptor beside the size: one of them may count the frames. */
  readonly numbers?: readonly number[];
}
