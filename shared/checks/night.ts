import { editPixels } from "../bitmap/edit.ts";
import type { Bitmap } from "../bitmap/resolve.ts";
import { pixelsOf } from "../bitmap/resolve.ts";
import type { Night } from "../light/night.ts";
import { lowestLit, nightLevel } from "../light/night.ts";
import { rgbOf, valueInWords } from "../pixels/colour.ts";
import { isColour } from "../pixels/formats.ts";
import { changesOf } from "./changes.ts";
import type { Rule } from "./rules.ts";
import { bitmapOf, counted } from "./rules.ts";

/** What of a picture is lost where the firmware scales it down to `night=`: pixels that go dark, values that become one. */
export const night: Rule = {
  codes: ["night"],
  doc: "At the night level of its bitmap or panel, parts of a picture go dark or can no longer be told apart.",
  checkBitmap: (_text, bitmap) => {
    const lost = lostByNight(bitmap);
    if (!lost || (lost.dark === 0 && lost.merged.length === 0)) return [];
    const { array } = bitmap;
    const parts = [
      ...(lost.dark > 0 ? [`${lost.dark} of ${counted(lost.lit, "lit pixel")} of ${array.name} go dark`] : []),
      ...lost.merged.slice(0, MOST_GROUPS).map((values) => `${inWords(bitmap, values)} become one`),
      ...(lost.merged.length > MOST_GROUPS ? [`so do ${lost.merged.length - MOST_GROUPS} more groups`] : []),
    ];
    const message = `By night, at ${bitmap.night} instead of ${dayOf(bitmap)}, ${parts.join("; ")}.`;
    return [{ code: "night", severity: "information", message, span: array.nameSpan, data: { dark: lost.dark } }];
  },
  fixes: (file, finding) => {
    const bitmap = bitmapOf(file, finding);
    const least = bitmap && leastLit(bitmap);
    if (!bitmap || least === undefined || bitmap.format.kind !== "gray" || least > dayLimit(bitmap)) return [];
    const changes = changesOf(bitmap, (value) => (value > 0 ? Math.max(value, least) : 0));
    const edited = editPixels(file.source.text, bitmap, changes);
    if ("refused" in edited || edited.edits.length === 0) return [];
    const title = `Raise what goes dark by night to ${least}, the lowest value that stays lit`;
    return [{ kind: "lit-by-night", title, edits: edited.edits }];
  },
};

/** Groups of values that are named in a message, and values of a group. */
const MOST_GROUPS = 3;
const MOST_VALUES = 6;

export interface LostByNight {
  /** Pixels that are lit by day, and those of them that are dark by night. */
  readonly lit: number;
  readonly dark: number;
  /** Values that are lit by night and can't be told apart any more, group by group, the lowest first. */
  readonly merged: readonly (readonly number[])[];
}

/** undefined where no night level is given, or there is no picture. */
export function lostByNight(bitmap: Bitmap): LostByNight | undefined {
  const { frames, format, palette } = bitmap;
  const levels = nightOf(bitmap);
  if (!levels || bitmap.why !== undefined || format.kind === "mono") return undefined;
  const dimmed = nightLevel(levels);
  /** What a raw value is by day and by night, as a number that is 0 for dark. */
  const shown = (value: number, level: (channel: number) => number) => {
    if (!isColour(format)) return level(value);
    const rgb = rgbOf(format, value, palette?.colours);
    return level(rgb >> 16) * 65536 + level((rgb >> 8) & 255) * 256 + level(rgb & 255);
  };
  const counts = new Map<number, number>();
  for (let frame = 0; frame < frames; frame++) {
    const pixels = pixelsOf(bitmap, frame);
    if (!pixels) return undefined;
    for (let i = 0; i < pixels.length; i++) counts.set(pixels[i] as number, (counts.get(pixels[i] as number) ?? 0) + 1);
  }
  let [lit, dark] = [0, 0];
  const groups = new Map<number, number[]>();
  for (const [value, count] of [...counts].sort(([a], [b]) => a - b)) {
    const day = shown(value, (channel) => channel);
    if (day === 0) continue;
    lit += count;
    const by = shown(value, dimmed);
    if (by === 0) dark += count;
    else groups.set(by, [...(groups.get(by) ?? []), value]);
  }
  return { lit, dark, merged: [...groups.values()].filter((values) => values.length > 1) };
}

function nightOf(bitmap: Bitmap): Night | undefined {
  return bitmap.night === undefined ? undefined : { night: bitmap.night, day: dayOf(bitmap), drive: bitmap.drive };
}

/** The highest level by day: the cap, else full. */
function dayOf({ cap, format }: Bitmap): number {
  return cap ?? format.full;
}

/** The highest raw level that the firmware may be given by day. */
function dayLimit(bitmap: Bitmap): number {
  return Math.min(bitmap.format.full, Math.floor(dayOf(bitmap) / bitmap.drive));
}

function leastLit(bitmap: Bitmap): number | undefined {
  const levels = nightOf(bitmap);
  return levels && lowestLit(levels);
}

function inWords({ format, palette }: Bitmap, values: readonly number[]): string {
  const named = values.slice(0, MOST_VALUES).map((value) => valueInWords(format, value, palette?.colours));
  const rest = values.length - named.length;
  return rest > 0 ? `${named.join(", ")} and ${rest} more` : named.join(" and ").replace(/ and (?=.* and )/g, ", ");
}
