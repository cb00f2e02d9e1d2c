/** Levels: what a raw value looks like on the screen, the rungs of the ladder, and a level as it is typed. */
import * as l10n from "@vscode/l10n";
import { lightness, lightOfLightness, linearToSrgb, srgbToLinear } from "../shared/light/lightness.ts";
import { type LightOfLevel, lightOfLevel } from "../shared/light/screen.ts";

/** sRGB code value (0–255, not rounded) of linear light (0–1). */
export function encode(linear: number): number {
  return 255 * linearToSrgb(linear);
}

/** Linear light (0–1) of an sRGB code value (0–255). */
export function decode(code: number): number {
  return srgbToLinear(code / 255);
}

/** About this much lightness lies between two rungs. */
const STEP = 8;
/** Formats with so few values show every one of them. */
const FEW = 16;

/**
 * Raw values of the ladder's rungs, rising from 0 to `most`, even in lightness. With a cap the steps are fitted below
 * it, so that the cap is a rung; they go on with the same step above it.
 */
export function rungs(most: number, cap?: number, light: LightOfLevel = "linear"): number[] {
  if (most < FEW) return Array.from({ length: most + 1 }, (_, value) => value);
  const anchor = cap !== undefined && cap > 0 && cap < most ? lightnessOf(cap, most, light) : 100;
  const step = anchor / Math.max(1, Math.round(anchor / STEP));
  const values = new Set<number>();
  // The last step before full may be longer, up to one and a half steps, never shorter than half a step.
  for (let k = 0; k * step < 100 - step / 2; k++) values.add(Math.round(most * levelFor(k * step, light)));
  values.add(most);
  return [...values].sort((a, b) => a - b);
}

/** The rung whose lightness is nearest to that of a raw value. */
export function nearestRung(
  value: number,
  ladder: readonly number[],
  most: number,
  light: LightOfLevel = "linear",
): number {
  const wanted = lightnessOf(value, most, light);
  const away = (rung: number) => Math.abs(lightnessOf(rung, most, light) - wanted);
  return ladder.reduce((best, rung) => (away(rung) < away(best) ? rung : best), 0);
}

/** Lightness L* (0–100) of a raw value. */
export function lightnessOf(value: number, most: number, light: LightOfLevel): number {
  return lightness(lightOfLevel(value, most, light));
}

/** Share of the highest value that has a lightness. */
function levelFor(lightnessValue: number, light: LightOfLevel): number {
  const share = lightOfLightness(lightnessValue);
  return light === "linear" ? share : encode(share) / 255;
}

/** The next rung above (`by` = 1) or below (`by` = -1) a raw value; the value itself at the ends. */
export function stepLevel(value: number, by: 1 | -1, ladder: readonly number[]): number {
  const ahead = ladder.filter((rung) => (by > 0 ? rung > value : rung < value));
  return (by > 0 ? ahead[0] : ahead[ahead.length - 1]) ?? value;
}

/** A level as typed: decimal, hex (`0x2A`) or per cent of full (`25%`, to the nearest value); or why it is none. */
export function parseLevel(text: string, most: number): number | { readonly refused: string } {
  const word = text.trim();
  const percent = /^(\d+(?:\.\d+)?)\s*%$/.exec(word);
  const value = percent
    ? Math.round((most * Number(percent[1])) / 100)
    : /^(?:\d+|0x[\da-f]+)$/i.test(word)
      ? Number(word)
      : undefined;
  if (value === undefined) return { refused: l10n.t("“{0}” is not a level: write 42, 0x2A or 25%", word) };
  return value > most ? { refused: l10n.t("{0} is above {1}, the highest value", word, most) } : value;
}
