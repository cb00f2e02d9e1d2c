import { editPixels } from "../bitmap/edit.ts";
import type { Bitmap } from "../bitmap/resolve.ts";
import { pixelsOf } from "../bitmap/resolve.ts";
import { currentOfPixel } from "../light/current.ts";
import { remembered } from "../light/remembered.ts";
import { lightOfLevel } from "../light/screen.ts";
import { rgbOf } from "../pixels/colour.ts";
import { isColour } from "../pixels/formats.ts";
import { changesOf } from "./changes.ts";
import type { Rule } from "./rules.ts";
import { bitmapOf, startOfFrame } from "./rules.ts";

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
    const message = `${what} draws about ${milliamperes(worst)}${average}, over the budget of ${milliamperes(budget)}. This is an estimate; size supplies and wires by their data sheets and local rules.`;
    const span = startOfFrame(bitmap, frame);
    return [{ code: "current", severity: "warning", message, span, data: { frame } }];
  },
  fixes: (file, finding) => {
    const bitmap = bitmapOf(file, finding);
    const { budget } = bitmap?.options ?? {};
    // The colours of a palette may serve other bitmaps too; between dark and lit there is nothing.
    if (!bitmap || budget === undefined || bitmap.format.kind !== "gray") return [];
    const scale = dimming(bitmap, budget);
    const changes = scale === undefined ? undefined : changesOf(bitmap, (value) => Math.floor(value * scale));
    const edited = changes && editPixels(file.source.text, bitmap, changes);
    if (!edited || "refused" in edited || edited.edits.length === 0) return [];
    const title = `Scale ${bitmap.array.name} down to ${milliamperes(budget)}`;
    return [{ kind: "scale-current", title, edits: edited.edits }];
  },
};

/** Undefined where the bitmap has no picture, or the current of a channel is not given. */
export function currentsOf(bitmap: Bitmap): Currents | undefined {
  const counts = countsOf(bitmap);
  return counts && currentsAt(bitmap, counts, 1);
}

/** How often each frame has each raw value. */
type Counts = readonly ReadonlyMap<number, number>[];

function countsOf(bitmap: Bitmap): Counts | undefined {
  if (bitmap.options.full === undefined || bitmap.why !== undefined) return undefined;
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

/** With all levels scaled first. */
function currentsAt(bitmap: Bitmap, counts: Counts, scale: number): Currents {
  const { full = 0, idle = 0, duty = 1 } = bitmap.options;
  const shares = sharesOf(bitmap, scale);
  const of = remembered((value) => currentOfPixel(shares(value), { full, idle, duty }));
  const totals = counts.map((own) => {
    let total = 0;
    for (const [value, count] of own) total += count * of(value);
    return total;
  });
  const worst = Math.max(...totals);
  return { worst, frame: totals.indexOf(worst), mean: totals.reduce((sum, total) => sum + total, 0) / totals.length };
}

/** Shares of full light (0–1) of the channels of a raw value as it is driven. `scale`: levels are scaled so first. */
function sharesOf({ format, light, drive, palette }: Bitmap, scale: number): (value: number) => readonly number[] {
  const share = (level: number) => lightOfLevel(Math.floor(level * scale) * drive, format.full, light);
  return (value) => {
    if (!isColour(format)) return [share(value)];
    const rgb = rgbOf(format, value, palette?.colours);
    return [share(rgb >> 16), share((rgb >> 8) & 255), share(rgb & 255)];
  };
}

/** The greatest share to scale all levels by, so that the worst frame is within the budget; undefined where none does. */
function dimming(bitmap: Bitmap, budget: number): number | undefined {
  const counts = countsOf(bitmap);
  const fits = (scale: number) => counts !== undefined && currentsAt(bitmap, counts, scale).worst <= budget;
  // What dark pixels draw can't be scaled away.
  if (!fits(0)) return undefined;
  let [low, high] = [0, 1];
  for (let i = 0; i < 24; i++) {
    const middle = (low + high) / 2;
    if (fits(middle)) low = middle;
    else high = middle;
  }
  return low;
}

/** `250 mA`, `1.2 A`. */
export function milliamperes(value: number): string {
  if (value >= 1000) return `${Math.round(value / 100) / 10} A`;
  return `${value < 10 ? Math.round(value * 10) / 10 : Math.round(value)} mA`;
}
