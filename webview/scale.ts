/**
 * What the raw values of a bitmap mean: their level, their colour in the source, and how they look on the panel. One
 * table for everything that the page draws or says; pure.
 */
import { fullLight } from "../shared/light/limit.ts";
import { dutyCode, lightOfLevel, screenCode } from "../shared/light/screen.ts";
import { rgbOf } from "../shared/pixels/colour.ts";
import type { FormatName } from "../shared/pixels/formats.ts";
import { isColour } from "../shared/pixels/formats.ts";
import type { BitmapInfo } from "../shared/protocol/lsp.ts";
import type { Shows } from "./look.ts";

export interface Scale {
  /** Pixels have colours of their own, so that a level is the brightest channel in eight bits. */
  readonly colour: boolean;
  /** The highest level. */
  readonly full: number;
  /** Highest level within the cap, if there is one. */
  readonly limit: number | undefined;
  /** The level of a raw value. */
  level(value: number): number;
  /** Whether a raw value is over the cap. */
  over(value: number): boolean;
  /** The colour of a raw value as the format has it, 0xRRGGBB. */
  rgb(value: number): number;
  /** The colour of a raw value on the page, 0xRRGGBB: as in a hover, or as it is driven; full is the cap, in the panel's tint. */
  seen(value: number): number;
  /** The same of a level as a grey without tint, 0–255. */
  code(level: number): number;
  /** Share of full light (0–1, linear) of a raw value; of a colour the mean of its channels. */
  light(value: number): number;
  /** The same of a level in all channels. */
  lightOf(level: number): number;
}

interface Known {
  last?: { readonly key: string; readonly scale: Scale };
  readonly scales: WeakMap<BitmapInfo, Scale>;
}

const known: Readonly<Record<Shows, Known>> = { seen: { scales: new WeakMap() }, driven: { scales: new WeakMap() } };

/** The scale of a bitmap: the same object for every version of it in which values mean the same. */
export function scaleOf(bitmap: BitmapInfo, shows: Shows = "seen"): Scale {
  const own = known[shows];
  const before = own.scales.get(bitmap);
  if (before) return before;
  const { format, light, tint, cap, limit, drive, colours } = bitmap;
  const key = [format, bitmap.most, light, tint, cap, limit, drive, colours?.join(" ")].join();
  const last = own.last?.key === key ? own.last : { key, scale: makeScale(bitmap, shows) };
  own.last = last;
  own.scales.set(bitmap, last.scale);
  return last.scale;
}

/** Formats with more values than this are worked out value by value. */
const TABLE = 2 ** 16;

function makeScale(bitmap: BitmapInfo, shows: Shows): Scale {
  const { kind, most, full, light, limit, colours, cap, drive, tint = "#ffffff" } = bitmap;
  const format = { name: bitmap.format as FormatName, kind, most };
  const colour = isColour(format);
  const top = fullLight({ cap, drive, format: { full } });
  const tints = [1, 3, 5].map((at) => Number.parseInt(tint.slice(at, at + 2), 16));
  const code = (level: number, channel?: number) =>
    shows === "seen" ? screenCode(level, top, light, channel) : dutyCode(level, top, full, light, channel);
  const codes = tints.map((channel) => tabled(full, (level) => code(level, channel)));
  const [reds, greens, blues] = codes as [Table, Table, Table];
  const greys = tabled(full, (level) => code(level));
  const lights = tabled(full, (level) => lightOfLevel(level, full, light));
  const rgb = most < TABLE ? tabled(most, (value) => rgbOf(format, value, colours)) : (value: number) => value;
  const level = colour ? (value: number) => brightest(rgb(value)) : (value: number) => value;
  const channels = (value: number): readonly [number, number, number] => {
    if (!colour) return [value, value, value];
    const of = rgb(value);
    return [of >> 16, (of >> 8) & 255, of & 255];
  };
  return {
    colour,
    full,
    limit,
    level,
    over: (value) => limit !== undefined && level(value) > limit,
    rgb,
    seen: (value) => {
      const [r, g, b] = channels(value);
      return (reds(r) << 16) | (greens(g) << 8) | blues(b);
    },
    code: greys,
    light: (value) => {
      if (!colour) return lights(value);
      const of = rgb(value);
      return (lights(of >> 16) + lights((of >> 8) & 255) + lights(of & 255)) / 3;
    },
    lightOf: lights,
  };
}

/** The level of a colour, as `levelOf` in pixels/colour gives it. */
function brightest(rgb: number): number {
  return Math.max(rgb >> 16, (rgb >> 8) & 255, rgb & 255);
}

type Table = (index: number) => number;

/** A function of 0 to `most`, each worked out once and only where it is asked for. */
function tabled(most: number, of: (index: number) => number): Table {
  const table = new Float64Array(most + 1).fill(-1);
  return (index) => {
    const before = table[index];
    if (before !== undefined && before >= 0) return before;
    const made = of(index);
    table[index] = made;
    return made;
  };
}
