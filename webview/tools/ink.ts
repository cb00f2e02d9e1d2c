/** From the pixels that a tool reaches to their new values: symmetry, what may be changed, mode and strength. */
import * as l10n from "@vscode/l10n";
import type { BitmapInfo } from "../../shared/protocol/lsp.ts";
import { addedTo, type Marks } from "./marks.ts";
import { type Indexes, mirrored } from "./mirror.ts";
import type { ToolOptions } from "./options.ts";
import type { Point, Size } from "./shapes.ts";
import type { GlyphSet } from "./text.ts";
import { tonesOf } from "./tones.ts";

export interface StrokeStep {
  /** Gives the picture under the stroke, which most tools need not see. */
  readonly pixels: () => ArrayLike<number>;
  readonly size: Size;
  readonly from: Point;
  /** Where the stroke was before this step. */
  readonly last: Point;
  readonly to: Point;
  readonly level: number;
  /** What the stroke has changed before this step. */
  readonly marks: Marks;
  readonly options: ToolOptions;
  readonly bitmap: BitmapInfo;
  /** Tells the pixels that may be changed; all where missing. */
  readonly mask?: ((index: number) => boolean) | undefined;
  readonly text?: string | undefined;
  readonly set?: GlyphSet | undefined;
}

/** What a pixel is to become: from the value that it had before the stroke, and its index. */
type Aim = (before: number, index: number) => number;

/**
 * The marks with these pixels and their images added. Values come from the picture under the stroke, so a stroke that
 * passes a pixel twice changes it once.
 */
export function inked(step: StrokeStep, indexes: Indexes, marks?: Marks, level = step.level): Marks {
  const { mode } = step.options;
  const tones = mode === "set" || !hasBetween(step.bitmap) ? undefined : tonesOf(step.bitmap);
  const by = mode === "darken" ? -1 : 1;
  return aimed(step, indexes, tones ? (before) => tones.step(before, by) : () => level, { marks, plain: !tones });
}

interface How {
  readonly marks?: Marks | undefined;
  /** The aim does not look at what was there. */
  readonly plain?: boolean;
}

/** As `inked`, with an aim for each pixel of its own, which must be the same for images of each other. */
export function aimed(step: StrokeStep, indexes: Indexes, aim: Aim, { marks, plain }: How = {}): Marks {
  const { size, mask, bitmap } = step;
  const { strength, symmetry } = step.options;
  const tones = strength < 100 && hasBetween(bitmap) ? tonesOf(bitmap) : undefined;
  const under = plain && !tones ? undefined : step.pixels();
  const all = mirrored(size, indexes, symmetry);
  return addedTo(marks, size.width * size.height, all.length, (set) => {
    for (let i = 0; i < all.length; i++) {
      const index = all[i] as number;
      if (mask && !mask(index)) continue;
      const before = under ? (under[index] as number) : 0;
      const value = aim(before, index);
      set(index, tones ? tones.blend(before, value, strength / 100) : value);
    }
  });
}

/** Between dark and lit there is nothing: strength and mode say nothing there. */
export function hasBetween({ most }: Pick<BitmapInfo, "most">): boolean {
  return most > 1;
}

/** Why values between others are out of the question, in words; undefined where all is well. */
export function refusal(needsTones: boolean, { kind, format }: BitmapInfo): string | undefined {
  if (!needsTones || kind !== "palette") return undefined;
  return l10n.t("the numbers of {0} are places in a palette, with nothing in between: use full strength", format);
}
