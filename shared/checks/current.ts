import type { PixelChange } from "../bitmap/edit.ts";
import { editPixels } from "../bitmap/edit.ts";
import type { Bitmap } from "../bitmap/resolve.ts";
import { pixelsOf } from "../bitmap/resolve.ts";
import { currentOfPixel } from "../light/current.ts";
import { lightOfLevel } from "../light/screen.ts";
import { rgbOf } from "../pixels/colour.ts";
import { isColour } from "../pixels/formats.ts";
import { elementOfSlot, elementSpan } from "../source/arrays.ts";
import type { Rule } from "./rules.ts";
import { bitmapOf } from "./rules.ts";

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
    const { array, frames, layout } = bitmap;
    const what = frames > 1 ? `Frame ${frame} of ${array.name}` : array.name;
    const average = frames > 1 ? `, ${milliamperes(mean)} in the mean of all frames` : "";
    const message = `${what} draws about ${milliamperes(worst)}${average}, over the budget of ${milliamperes(budget)}. This is an estimate; size supplies and wires by their data sheets and local rules.`;
    const slot = layout?.table(frame).element[0];
    const element = slot === undefined ? -1 : elementOfSlot(array, slot);
    const span = element < 0 ? array.nameSpan : elementSpan(array, element);
    return [{ code: "current", severity: "warning", message, span, data: { frame } }];
  },
  fixes: (file, finding) => {
    const bitmap = bitmapOf(file, finding);
    const { budget } = bitmap?.options ?? {};
    const currents = bitmap && currentsOf(bitmap);
    // The colours of a palette may serve other bitmaps too; between dark and lit there is nothing.
    if (!bitmap || budget === undefined || !currents || bitmap.format.kind !== "gray") return [];
    const changes = dimmed(bitmap, budget);
    const edited = changes && editPixels(file.source.text, bitmap, changes);
    if (!edited || "refused" in edited || edited.edits.length === 0) return [];
    const title = `Scale ${bitmap.array.name} down to ${milliamperes(budget)}`;
    return [{ kind: "scale-current", title, edits: edited.edits }];
  },
};

/** Undefined where the bitmap has no picture, or the current of a channel is not given. */
export function currentsOf(bitmap: Bitmap, scale = 1): Currents | undefined {
  const { options, frames, why } = bitmap;
  if (options.full === undefined || why !== undefined) return undefined;
  const supply = { full: options.full, idle: options.idle ?? 0, duty: options.duty ?? 1 };
  const shares = sharesOf(bitmap, scale);
  const known = new Map<number, number>();
  const of = (value: number): number => {
    const before = known.get(value);
    if (before !== undefined) return before;
    const made = currentOfPixel(shares(value), supply);
    known.set(value, made);
    return made;
  };
  let [worst, at, sum] = [-1, 0, 0];
  for (let frame = 0; frame < frames; frame++) {
    const pixels = pixelsOf(bitmap, frame);
    if (!pixels) return undefined;
    let total = 0;
    for (let i = 0; i < pixels.length; i++) total += of(pixels[i] as number);
    sum += total;
    if (total > worst) [worst, at] = [total, frame];
  }
  return { worst, frame: at, mean: sum / frames };
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

/** All levels scaled by the greatest share that keeps the worst frame within the budget; undefined where none does. */
function dimmed(bitmap: Bitmap, budget: number): PixelChange[] | undefined {
  const fits = (scale: number) => (currentsOf(bitmap, scale)?.worst ?? Number.POSITIVE_INFINITY) <= budget;
  // What dark pixels draw can't be scaled away.
  if (!fits(0)) return undefined;
  let [low, high] = [0, 1];
  for (let i = 0; i < 24; i++) {
    const middle = (low + high) / 2;
    if (fits(middle)) low = middle;
    else high = middle;
  }
  const changes: PixelChange[] = [];
  for (let frame = 0; frame < bitmap.frames; frame++) {
    const pixels = pixelsOf(bitmap, frame) ?? [];
    for (let i = 0; i < pixels.length; i++) {
      const before = pixels[i] as number;
      const value = Math.floor(before * low);
      if (value !== before) changes.push({ frame, x: i % bitmap.width, y: Math.floor(i / bitmap.width), value });
    }
  }
  return changes;
}

/** `250 mA`, `1.2 A`. */
export function milliamperes(value: number): string {
  if (value >= 1000) return `${Math.round(value / 100) / 10} A`;
  return `${value < 10 ? Math.round(value * 10) / 10 : Math.round(value)} mA`;
}
