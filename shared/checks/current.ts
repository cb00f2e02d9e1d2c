import type { PixelChange } from "../bitmap/edit.ts";
import { editPixels } from "../bitmap/edit.ts";
import type { Bitmap } from "../bitmap/resolve.ts";
import { pixelsOf } from "../bitmap/resolve.ts";
import { currentOfFrame, currentOfValue, milliamperes } from "../light/current.ts";
import type { Way } from "../light/dim.ts";
import { levelOf } from "../pixels/colour.ts";
import { SUPPLIES } from "./cautions.ts";
import { changesOf } from "./changes.ts";
import { dimmedBy, whyNotDimmed } from "./dimming.ts";
import type { Fix, Rule } from "./rules.ts";
import { bitmapOf, startOfFrame, withoutTwins } from "./rules.ts";

/** Estimated current of the frames of a bitmap, in milliamperes. */
export interface Currents {
  readonly worst: number;
  /** The frame that draws most. */
  readonly frame: number;
  readonly mean: number;
}

/** Frames that draw more than the supply's `budget`, as they are driven. One finding for an array: its worst frame. */
export const current: Rule = {
  codes: ["current"],
  doc: "A frame is estimated to draw more current than the budget of its bitmap or panel allows.",
  checkBitmap: (_text, bitmap) => {
    const { budget } = bitmap.options;
    const currents = budget === undefined ? undefined : currentsOf(bitmap);
    if (budget === undefined || !currents || currents.worst <= budget * (1 + 1e-9)) return [];
    const { worst, mean, frame } = currents;
    const { array, frames } = bitmap;
    const what = frames > 1 ? `Frame ${frame} of ${array.name}` : array.name;
    const average = frames > 1 ? `, ${milliamperes(mean)} in the mean of all frames` : "";
    const message = `${what} draws about ${milliamperes(worst)}${average}, over the budget of ${milliamperes(budget)}. ${SUPPLIES}`;
    const span = startOfFrame(bitmap, frame);
    return [{ code: "current", severity: "warning", message, span, data: { frame } }];
  },
  fixes: (file, finding) => {
    const bitmap = bitmapOf(file, finding);
    const { budget } = bitmap?.options ?? {};
    if (!bitmap || budget === undefined || whyNotDimmed(bitmap) !== undefined) return [];
    const fixes = (["linear", "even", "clamp"] as const).map((way): Fix | undefined => {
      const changes = budgetChanges(bitmap, way, budget);
      const edited = changes && editPixels(file.source.text, bitmap, changes);
      if (!edited || "refused" in edited || edited.edits.length === 0) return undefined;
      return { kind: `${way}-current`, title: titleOf(way, bitmap, budget), edits: edited.edits };
    });
    return withoutTwins(fixes);
  },
};

function titleOf(way: Way, { array }: Bitmap, budget: number): string {
  const within = milliamperes(budget);
  if (way === "clamp") return `Clamp ${array.name} so that it draws ${within} at most`;
  return `Scale ${array.name} down to ${within}${way === "even" ? ", evenly to the eye" : ""}`;
}

/**
 * The pixels that change so that the worst frame is within the budget, which is used as far as it goes; with `limit` no
 * level is above that either. Undefined where nothing helps.
 */
export function budgetChanges(
  bitmap: Bitmap,
  way: Way,
  budget: number,
  limit = bitmap.format.full,
): PixelChange[] | undefined {
  const counts = countsOf(bitmap);
  if (!counts) return undefined;
  const { format, palette } = bitmap;
  const within = (dim: (value: number) => number) =>
    counts.every((own) => [...own.keys()].every((value) => levelOf(format, dim(value), palette?.colours) <= limit));
  const fits = (share: number) => {
    const dim = dimmedBy(bitmap, way, share);
    return currentsAt(bitmap, counts, dim).worst <= budget && (limit === format.full || within(dim));
  };
  // What dark pixels draw can't be scaled away.
  if (!fits(0)) return undefined;
  let [low, high] = [0, 1];
  // Levels of colours have 256 steps, and there may be very many colours.
  for (let i = 0; i < (format.kind === "rgb" ? 10 : 24); i++) {
    const middle = (low + high) / 2;
    if (fits(middle)) low = middle;
    else high = middle;
  }
  return changesOf(bitmap, dimmedBy(bitmap, way, low));
}

/** Undefined where the bitmap has no picture, or the current of a channel is not given. */
export function currentsOf(bitmap: Bitmap): Currents | undefined {
  const counts = countsOf(bitmap);
  return counts && currentsAt(bitmap, counts, (value) => value);
}

/** How often each frame has each raw value. */
type Counts = readonly ReadonlyMap<number, number>[];

function countsOf(bitmap: Bitmap): Counts | undefined {
  if (bitmap.options.full === undefined || bitmap.why !== undefined || bitmap.mask) return undefined;
  const counts: Map<number, number>[] = [];
  for (let frame = 0; frame < bitmap.frames; frame++) {
    const pixels = pixelsOf(bitmap, frame);
    if (!pixels) return undefined;
    const own = new Map<number, number>();
    for (let i = 0; i < pixels.length; i++) own.set(pixels[i] as number, (own.get(pixels[i] as number) ?? 0) + 1);
    counts.push(own);
  }
  return counts;
}

/** With raw values changed first. */
function currentsAt(
  { options, format, light, drive, palette }: Bitmap,
  counts: Counts,
  changed: (value: number) => number,
): Currents {
  const { full = 0, idle = 0, duty = 1 } = options;
  const of = currentOfValue({ format, light, drive, colours: palette?.colours }, { full, idle, duty });
  const totals = counts.map((own) => currentOfFrame(own, (value) => of(changed(value))));
  const worst = Math.max(...totals);
  return { worst, frame: totals.indexOf(worst), mean: totals.reduce((sum, total) => sum + total, 0) / totals.length };
}
