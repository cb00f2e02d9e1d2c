/** The choices of `import`, from the text of its options. */

import type { Cutting } from "../../shared/image/art.ts";
import { charactersFrom } from "../../shared/image/art.ts";
import type { Choices, Crop } from "../../shared/image/choices.ts";
import { CHANNELS, DITHERS, FITS, MIRRORS, OVER_CAP, RESAMPLINGS, TURNS } from "../../shared/image/choices.ts";
import type { Format } from "../../shared/pixels/formats.ts";
import { FORMATS } from "../../shared/pixels/formats.ts";
import type { Turn } from "../../shared/pixels/rgba.ts";
import { nearest } from "../../shared/pixels/words.ts";
import type { Given } from "./command.ts";
import { textOf, wholeOf } from "./command.ts";
import { UserError } from "./files.ts";

export const IMPORT_OPTIONS = {
  as: "value",
  name: "value",
  into: "value",
  "frame-of": "value",
  frame: "value",
  line: "value",
  write: "flag",
  channel: "value",
  background: "value",
  invert: "flag",
  linear: "flag",
  turn: "value",
  mirror: "value",
  crop: "value",
  fit: "value",
  resample: "value",
  "over-cap": "value",
  threshold: "value",
  dither: "value",
  colours: "value",
  "palette-format": "value",
  cell: "value",
  gap: "value",
  margin: "value",
  chars: "value",
} as const;

/** Only what was given; a `UserError` names the option whose text is none of its values. */
export function choicesFrom(given: Given): Choices {
  const channel = oneOf(given, "channel", CHANNELS);
  const background = backgroundFrom(given);
  const turn = oneOf(given, "turn", TURNS);
  const mirror = oneOf(given, "mirror", MIRRORS);
  const crop = cropFrom(given);
  const fit = oneOf(given, "fit", FITS);
  const resample = oneOf(given, "resample", RESAMPLINGS);
  const overCap = oneOf(given, "over-cap", OVER_CAP);
  const threshold = thresholdFrom(given);
  const dither = oneOf(given, "dither", DITHERS);
  const colours = wholeOf(given, "colours", 2, undefined);
  return {
    ...(channel ? { channel } : {}),
    ...(background === undefined ? {} : { background }),
    ...(turn ? { turn: Number(turn) as Turn } : {}),
    ...(mirror ? { mirror } : {}),
    ...(crop ? { crop } : {}),
    ...(fit ? { fit } : {}),
    ...(resample ? { resample } : {}),
    ...(given.invert ? { invert: true } : {}),
    ...(given.linear ? { linear: true } : {}),
    ...(overCap ? { overCap } : {}),
    ...(threshold === undefined ? {} : { threshold }),
    ...(dither ? { dither } : {}),
    ...(colours === undefined ? {} : { colours }),
  };
}

/** The cells of a sheet, and the characters of glyphs. */
export function cuttingFrom(given: Given): Cutting {
  const cell = textOf(given, "cell");
  const chars = textOf(given, "chars");
  const [gap, margin] = [wholeOf(given, "gap", 0, undefined), wholeOf(given, "margin", 0, undefined)];
  if (cell === undefined && (gap !== undefined || margin !== undefined))
    throw new UserError("--gap and --margin need --cell with the size of a cell, such as 8x8");
  const size = cell === undefined ? undefined : sizeFrom("cell", cell);
  const points = chars === undefined ? undefined : charactersFrom(chars);
  if (chars !== undefined && (!points || points.length === 0))
    throw new UserError(`--chars takes characters such as 0123, or a range such as U+0030-U+0039, not ${chars}`);
  return {
    ...(size ? { cells: { ...size, gap: gap ?? 0, margin: margin ?? 0 } } : {}),
    ...(points ? { chars: points } : {}),
  };
}

/** The format of the colours of a palette. */
export function paletteFormatFrom(given: Given): Format | undefined {
  const rgb = [...FORMATS.values()].filter(({ kind }) => kind === "rgb").map(({ name }) => name);
  const name = oneOf(given, "palette-format", rgb);
  return name && FORMATS.get(name);
}

function oneOf<T extends string>(given: Given, option: string, known: readonly T[]): T | undefined {
  const text = textOf(given, option);
  if (text === undefined) return undefined;
  const found = known.find((word) => word === text);
  if (found !== undefined) return found;
  const near = nearest(text, known);
  throw new UserError(`--${option} takes ${known.join(", ")}, not ${text}${near ? `; did you mean ${near}?` : ""}`);
}

function sizeFrom(option: string, text: string): { readonly width: number; readonly height: number } {
  const [, width, height] = /^(\d{1,5})x(\d{1,5})$/.exec(text) ?? [];
  if (!Number(width) || !Number(height)) throw new UserError(`--${option} takes a size such as 8x8, not ${text}`);
  return { width: Number(width), height: Number(height) };
}

function backgroundFrom(given: Given): number | "none" | undefined {
  const text = textOf(given, "background");
  if (text === undefined || text === "none") return text;
  if (!/^#?[\dA-Fa-f]{6}$/.test(text))
    throw new UserError(`--background takes a colour such as #000000, or none, not ${text}`);
  return Number.parseInt(text.replace("#", ""), 16);
}

function cropFrom(given: Given): Crop | undefined {
  const text = textOf(given, "crop");
  if (text === undefined) return undefined;
  const [, x, y, size] = /^(\d{1,5}),(\d{1,5})(?:,(.+))?$/.exec(text) ?? [];
  if (x === undefined || y === undefined)
    throw new UserError(`--crop takes the corner and perhaps the size, such as 8,0 or 8,0,16x16, not ${text}`);
  return { x: Number(x), y: Number(y), ...(size === undefined ? {} : sizeFrom("crop", size)) };
}

/** A level of 255, or a percentage. */
function thresholdFrom(given: Given): number | undefined {
  const text = textOf(given, "threshold");
  if (text === undefined) return undefined;
  const [, digits, percent] = /^(\d{1,3})(%?)$/.exec(text) ?? [];
  const share = Number(digits) / (percent ? 100 : 255);
  if (digits === undefined || share > 1) throw new UserError(`--threshold takes 0 to 255 or a percentage, not ${text}`);
  return share;
}
