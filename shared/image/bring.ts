/** Pictures from outside to the raw values of a bitmap. Start here: `fit` gives the size, `channel` the light, `levels` the values. */

import { srgbToLinear } from "../light/lightness.ts";
import type { Format } from "../pixels/formats.ts";
import { FORMATS, isColour } from "../pixels/formats.ts";
import type { Pixels } from "../pixels/picture.ts";
import { paletteFor } from "../pixels/quantise.ts";
import type { RgbaPicture } from "../pixels/rgba.ts";
import type { Plane } from "./channel.ts";
import { planeOf, rangesOf } from "./channel.ts";
import type { Channel, Choices, OverCap } from "./choices.ts";
import type { Fitted } from "./fit.ts";
import { fitted } from "./fit.ts";
import type { Scale } from "./levels.ts";
import { eightBits, heldColour, isOverCap, rawValues, sideOf, topOf } from "./levels.ts";

type Refused = { readonly refused: string };

/** What the pictures are to become. */
export interface Target extends Scale {
  readonly width: number;
  readonly height: number;
  /** The format of the colours of a palette that is made. */
  readonly paletteFormat?: Format;
}

export interface Brought {
  /** Raw values of each frame, row by row. */
  readonly frames: readonly Pixels[];
  /** The colours (0xRRGGBB) of the palette that was made for them. */
  readonly palette?: readonly number[];
  readonly channel: Channel;
  readonly overCap: OverCap;
  /** In words: what was decided unasked, and what may have been meant otherwise. */
  readonly notes: readonly string[];
  /** A channel to take instead, where the one taken is the same everywhere. */
  readonly instead?: Channel;
}

/** All pictures become frames of one size; cap and palette are chosen for all of them together. */
export function bringIn(pictures: readonly RgbaPicture[], target: Target, choices: Choices): Brought | Refused {
  const { format } = target;
  const wrong = choicesRefused(choices, format);
  if (wrong !== undefined) return { refused: wrong };
  const fits: Fitted[] = [];
  for (const picture of pictures) {
    const fit = fitted(picture, target, choices);
    if ("refused" in fit) return fit;
    fits.push(fit);
  }
  const channel = choices.channel ?? (isColour(format) ? "colours" : "luminance");
  const planes = fits.map((fit) => lit(fit, target, channel, choices));
  const notes = [...new Set(fits.flatMap(({ note }) => note ?? []))];
  const even = sameEverywhere(fits, planes, channel, choices);
  if (even) notes.push(even.note);
  const over = isOverCap(planes, target) && format.kind !== "mono";
  const overCap = choices.overCap ?? (over ? "scale" : "clamp");
  if (over && choices.overCap === undefined) notes.push(`scaled, so that white is the cap of ${topOf(target)}`);
  const made = format.kind === "palette" && !target.colours ? madePalette(planes, target, choices, overCap) : undefined;
  const scale = made ? { ...target, colours: made } : target;
  // The colours of a palette that was made are within the cap already; given ones are what they are.
  const values = made ? { ...scale, cap: undefined } : scale;
  const capped = made && overCap === "scale" ? planes.map((plane) => dimmed(plane, topOf(target))) : planes;
  return {
    frames: capped.map((plane) => rawValues(plane, target, values, choices, overCap)),
    ...(made ? { palette: made } : {}),
    channel,
    overCap,
    notes,
    ...(even?.instead ? { instead: even.instead } : {}),
  };
}

function choicesRefused({ channel, threshold, dither, colours }: Choices, format: Format): string | undefined {
  const grey = format.kind === "mono" || format.kind === "gray";
  if (grey && channel === "colours") return `${format.name} holds no colours: choose one channel`;
  if (threshold !== undefined && !grey) return `a threshold is for levels; ${format.name} holds colours`;
  if (threshold !== undefined && sideOf({ dither: dither ?? "none" }) !== undefined)
    return "an ordered dither has thresholds of its own";
  if (threshold !== undefined && dither === "floyd-steinberg" && format.kind !== "mono")
    return `a threshold with Floyd–Steinberg is for mono1; ${format.name} holds more than two levels`;
  if (format.kind === "palette" && sideOf({ dither: dither ?? "none" }) !== undefined)
    return "an ordered dither needs even steps, which the colours of a palette are not: choose floyd-steinberg";
  if (colours !== undefined && format.kind !== "palette")
    return `a number of colours is for the palette formats, not ${format.name}`;
  if (colours !== undefined && (colours < 2 || colours > format.most + 1))
    return `${format.name} has 2 to ${format.most + 1} colours, not ${colours}`;
  return undefined;
}

/** The channel of a frame as it is asked for; around the picture it is dark, unless a background was chosen. */
function lit({ picture, inside }: Fitted, { width, height }: Target, channel: Channel, choices: Choices): Plane {
  const { most, channels, data } = planeOf(picture, channel, choices);
  const dark = choices.background === undefined || choices.background === "none";
  for (let y = 0, at = 0; y < height; y++) {
    const row = y >= inside.y && y < inside.y + inside.height;
    for (let x = 0; x < width; x++) {
      const around = dark && !(row && x >= inside.x && x < inside.x + inside.width);
      for (let c = 0; c < channels; c++, at++) {
        const sample = data[at] as number;
        const turned = choices.invert ? most - sample : sample;
        data[at] = around ? 0 : choices.linear ? most * srgbToLinear(turned / most) : turned;
      }
    }
  }
  return { most, channels, data };
}

/** A channel that is the same everywhere has no picture in it: that is said, with the one that varies most. */
function sameEverywhere(
  fits: readonly Fitted[],
  planes: readonly Plane[],
  channel: Channel,
  choices: Choices,
): { readonly note: string; readonly instead?: Channel } | undefined {
  const [first] = planes;
  const value = first?.data[0];
  if (!first || planes.some(({ data }) => data.some((sample) => sample !== value))) return undefined;
  const percent = (share: number) => `${Math.round(100 * share)} %`;
  const said = `${channel === "colours" ? "the colour" : channel} is the same everywhere (${percent((value ?? 0) / first.most)})`;
  const shown = rangesOf(
    fits.map(({ picture }) => picture),
    choices,
  );
  const stored = rangesOf(
    fits.map(({ picture }) => picture),
    { background: "none" },
  );
  const varying = [...shown].sort((a, b) => b.high - b.low - (a.high - a.low))[0];
  if (varying && varying.high > varying.low)
    return {
      note: `${said}; ${varying.channel} goes from ${percent(varying.low)} to ${percent(varying.high)}`,
      instead: varying.channel,
    };
  const hidden = stored.find(({ low, high }) => high > low);
  return {
    note: hidden
      ? `${said}; without a background ${hidden.channel} goes from ${percent(hidden.low)} to ${percent(hidden.high)}`
      : `${said}, and so are the others`,
  };
}

/** Colours for all frames together, as the palette's own format holds them and within the cap. */
function madePalette(planes: readonly Plane[], target: Target, choices: Choices, overCap: OverCap): number[] {
  const limit = topOf(target);
  const held = target.paletteFormat ?? (FORMATS.get("rgb888") as Format);
  const samples = planes.map((plane) => eightBits(plane, overCap === "scale" ? limit : 255));
  function* colours() {
    for (const data of samples)
      for (let i = 0; i < data.length; i += 3)
        yield heldColour(
          held,
          ((data[i] as number) << 16) | ((data[i + 1] as number) << 8) | (data[i + 2] as number),
          limit,
        );
  }
  const made = paletteFor(colours(), choices.colours ?? target.format.most + 1);
  return [...new Set(made.map((rgb) => heldColour(held, rgb, limit)))];
}

/** Samples whose full is a share of what it was. */
function dimmed({ data, most, channels }: Plane, limit: number): Plane {
  return { most, channels, data: data.map((sample) => (sample * limit) / 255) };
}
