/** Other formats: what each would be called and lose, and which words it takes. */
import type { Format } from "../../pixels/formats.ts";
import { FORMATS, isColour } from "../../pixels/formats.ts";
import type { Pixels } from "../../pixels/picture.ts";
import type { IntType } from "../../source/types.ts";
import type { Bitmap } from "../resolve.ts";
import type { Width } from "./declared.ts";
import { typeEdit } from "./declared.ts";
import { formatWords } from "./formatWords.ts";
import { converter, histogramOf, lost, threshold, topOf } from "./levels.ts";
import type { Plan, Target } from "./plan.ts";
import { aim, planOf } from "./plan.ts";
import type { Subject } from "./subject.ts";

export function formatPlans(s: Subject): Plan[] {
  const plans: Plan[] = [];
  for (const format of FORMATS.values()) {
    if (format === s.bitmap.format) continue;
    const plan = format.kind === "palette" ? undefined : formatPlan(s, format);
    if (plan) plans.push(plan);
  }
  return plans;
}

function formatPlan(s: Subject, format: Format): Plan | undefined {
  const { bitmap } = s;
  if (bitmap.format.kind === "palette" && (!bitmap.palette || bitmap.options.palette === "head")) return undefined;
  const bits = elementBits(s, format);
  if (bits === undefined) return undefined;
  const words = formatWords(s, format, bits);
  words.set("format", format.name);
  if (bitmap.words.has("palette")) words.set("palette", undefined);
  const target: Target = {
    words,
    bits: bits === 64 ? undefined : bits,
    pixels: (frames, now) => {
      const value = converter(bitmap, now);
      return frames.map((pixels) => inFormat(pixels, now, value));
    },
  };
  const now = withCap(s, target, words);
  // In a scale so coarse that the cap allows nothing but dark, no picture is left.
  if (now?.cap === 0 && bitmap.cap !== 0) return undefined;
  return now && planOf(s, "format", `format:${format.name}`, titleOf(bitmap, now), target, now);
}

/** The pixels in the array that the format calls for. */
function inFormat(pixels: Pixels, { format }: Bitmap, value: (v: number) => number): Pixels {
  const Values = format.depth <= 8 ? Uint8Array : format.depth <= 16 ? Uint16Array : Uint32Array;
  const out = new Values(pixels.length);
  for (let i = 0; i < out.length; i++) out[i] = value(pixels[i] as number);
  return out;
}

/** Caps in raw values follow the scale, rounded down, also those that the panel gave; they say nothing of lit and dark. */
function withCap(s: Subject, target: Target, words: Map<string, string | undefined>): Bitmap | undefined {
  const { bitmap } = s;
  const format = FORMATS.get(words.get("format") ?? "") as Format;
  for (const key of CAPS) {
    const raw = bitmap.words.has(key) && "value" in (bitmap.options[key] ?? {});
    if (raw && format.kind === "mono") words.set(key, undefined);
    else if (raw && format.full !== bitmap.format.full) words.set(key, scaledCap(bitmap, key, format));
  }
  const now = aim(s, target);
  const lost = CAPS.filter((key) => now && now[key] === undefined && bitmap[key] !== undefined);
  if (!now || lost.length === 0 || format.kind === "mono") return now;
  for (const key of lost) words.set(key, scaledCap(bitmap, key, format));
  return aim(s, target);
}

const CAPS = ["cap", "night"] as const;

function scaledCap(bitmap: Bitmap, key: (typeof CAPS)[number], format: Format): string {
  return `${key}=${Math.floor(((bitmap[key] ?? 0) * format.full) / bitmap.format.full)}`;
}

/** The width that the new pixels go well with; undefined where none can be had. */
function elementBits(s: Subject, { depth }: Format): IntType["bits"] | undefined {
  const { layout, type } = s;
  const now = type.bits;
  const before = layout.format.depth;
  const can = (bits: Width) => bits === now || (layout.skip + layout.lead === 0 && typeEdit(s, bits) !== undefined);
  if (depth === 16) return now === 8 && can(16) ? 16 : now;
  if (depth === 24) return now === 16 ? (can(8) ? 8 : undefined) : now;
  // Elements that were as wide as a colour are no wider than a level needs.
  return before > 8 && layout.alone && can(8) ? 8 : now;
}

/** The title says how levels are made where that is not plain, and what is lost. */
function titleOf(bitmap: Bitmap, now: Bitmap): string {
  const [from, to] = [bitmap.format, now.format];
  const grey = to.kind === "mono" || to.kind === "gray";
  const how =
    from.kind === "mono" && to.kind !== "mono"
      ? `, lit at ${topOf(now)}`
      : `${isColour(from) && grey ? " by luminance (ITU-R BT.709)" : ""}${to.kind === "mono" ? `, lit from ${threshold(bitmap)} up` : ""}`;
  const count = lost(bitmap, now);
  const all = [...histogramOf(bitmap).values()].reduce((sum, n) => sum + n, 0);
  const what = isColour(from) || isColour(to) ? "colour" : "level";
  const loss = count === 0 ? "" : `: ${count} of ${all} pixels take${count === 1 ? "s" : ""} another ${what}`;
  return `Convert to ${to.name}${how}${loss}`;
}
