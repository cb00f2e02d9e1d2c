/** Raw values to choose from and to speak of, in formats of every kind; pure. */
import * as l10n from "@vscode/l10n";
import { hexOf, packWithin } from "../shared/pixels/colour.ts";
import type { FormatName } from "../shared/pixels/formats.ts";
import type { BitmapInfo } from "../shared/protocol/lsp.ts";
import { rungs, stepLevel } from "./levels.ts";
import { countsOf } from "./light.ts";
import { scaleOf } from "./scale.ts";
import { levelName } from "./words.ts";

/** The value to begin with: the brightest within the cap. */
export function firstValue(bitmap: BitmapInfo): number {
  const { kind, full, limit, most, colours } = bitmap;
  if (kind === "rgb") return packWithin(formatOf(bitmap), 0xffffff, limit ?? full);
  if (kind !== "palette") return limit ?? most;
  if (!colours) return most;
  const { over, light } = scaleOf(bitmap);
  const within = [...colours.keys()].filter((index) => index <= most && !over(index));
  return within.reduce((best, index) => (light(index) > light(best) ? index : best), within[0] ?? 0);
}

/**
 * The next value above (`by` = 1) or below (`by` = -1): the next rung, the next index, or of colours the next one of
 * those in use, from the darkest to the lightest.
 */
export function stepValue(bitmap: BitmapInfo, pixels: ArrayLike<number>, value: number, by: 1 | -1): number {
  if (bitmap.kind === "palette") return Math.max(0, Math.min(highestIndex(bitmap), value + by));
  if (bitmap.kind !== "rgb") return stepLevel(value, by, rungs(bitmap.most, bitmap.limit, bitmap.light));
  const order = inOrder(bitmap, [...new Set([...countsOf(pixels).keys(), value])]);
  // From the lightest to the darkest.
  return order[order.indexOf(value) - by] ?? value;
}

/** The last index that can be chosen: that of the palette's last colour, or of the format where there is none. */
export function highestIndex({ most, colours }: BitmapInfo): number {
  return colours ? Math.min(most, colours.length - 1) : most;
}

/** Values from the lightest to the darkest, those of the same light by their number: the order does not change as one paints. */
export function inOrder(bitmap: BitmapInfo, values: readonly number[]): number[] {
  const { light } = scaleOf(bitmap);
  const lit = values.map((value) => ({ value, light: light(value) }));
  return lit.sort((a, b) => b.light - a.light || b.value - a.value).map(({ value }) => value);
}

/** A value as it is written: `42`, `lit`, `#7b5100`, `3`. */
export function valueText(bitmap: BitmapInfo, value: number): string {
  if (bitmap.kind === "rgb") return hexOf(scaleOf(bitmap).rgb(value));
  return bitmap.kind === "palette" ? String(value) : levelName(value, bitmap.most);
}

/** A value in few words: `level 42`, `lit`, `#7b5100`, `index 3`. */
export function valueName(bitmap: BitmapInfo, value: number): string {
  if (bitmap.kind === "palette") return l10n.t("index {0}", value);
  const text = valueText(bitmap, value);
  return bitmap.kind === "gray" ? l10n.t("level {0}", text) : text;
}

/** A value as it is said of a pixel: `level 42 of 255`, `lit`, `#7b5100, raw 0x7A80`, `index 3, #7b5100`. */
export function valueWords(bitmap: BitmapInfo, value: number): string {
  const { kind, most, colours } = bitmap;
  if (kind === "rgb") return l10n.t("{0}, raw {1}", valueName(bitmap, value), rawHex(bitmap, value));
  if (kind !== "palette") return most > 1 ? l10n.t("level {0} of {1}", value, most) : levelName(value, most);
  if (!colours) return valueName(bitmap, value);
  if (value >= colours.length) return l10n.t("{0}, which has no colour", valueName(bitmap, value));
  return `${valueName(bitmap, value)}, ${hexOf(colours[value] ?? 0)}`;
}

/** `0x7A80`, as many digits as the format has. */
export function rawHex({ most }: Pick<BitmapInfo, "most">, value: number): string {
  return `0x${value.toString(16).toUpperCase().padStart(most.toString(16).length, "0")}`;
}

/** The format as the core's functions of colours take it. */
export function formatOf({ format, kind, most }: Pick<BitmapInfo, "format" | "kind" | "most">) {
  return { name: format as FormatName, kind, most };
}
