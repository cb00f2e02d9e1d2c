/** Raw values from one format to another, by the light that they mean; and turned over. Pure. */
import { relativeLuminance } from "../../shared/light/lightness.ts";
import { remembered } from "../../shared/light/remembered.ts";
import { nearestColour, packWithin, rgbOf } from "../../shared/pixels/colour.ts";
import type { FormatName } from "../../shared/pixels/formats.ts";
import type { BitmapInfo } from "../../shared/protocol/lsp.ts";
import { decode, encode } from "../levels.ts";

/** What of a bitmap says what its values mean. */
export interface Values extends Pick<BitmapInfo, "kind" | "most" | "light" | "colours"> {
  readonly format: string;
}

/** Red, green and blue as linear light, 0–1. */
export type Light = readonly [number, number, number];

/** The value that gives what this one leaves of full light; of colours channel by channel. */
export function inverted(of: Values): (value: number) => number {
  // The fields of the rgb formats fill all bits, so this turns each channel over by itself.
  if (of.kind !== "palette") return (value) => of.most - value;
  const nearest = nearestColour(of.colours ?? []);
  return (value) => nearest(0xffffff - (rgbOf(known(of), value, of.colours) & 0xffffff));
}

/** Whether values mean the same in both formats. */
function sameValues(a: Values, b: Values): boolean {
  const alike = a.format === b.format && a.light === b.light;
  return alike && (a.kind !== "palette" || (a.colours ?? []).join() === (b.colours ?? []).join());
}

/**
 * Turns values of one format into the nearest of another. Between levels of light by their share of full, as they are;
 * else by linear light, with greys for colours and luminance (ITU-R BT.709) for levels. None is above `limit`, a level of
 * the format; but indices are those of the nearest colours, whatever their level.
 */
export function between(from: Values, to: Values, limit?: number): (value: number) => number {
  if (sameValues(from, to)) return (value) => value;
  const levels = isLevel(from) && isLevel(to) && from.light === to.light;
  const least = (value: number) => (limit === undefined ? value : Math.min(limit, value));
  if (levels) return (value) => least(Math.round((value * to.most) / from.most));
  const give = fromLight(to, to.most, limit);
  return remembered((value) => (isLevel(to) ? least(give(linearOf(from, value))) : give(linearOf(from, value))));
}

/** What light a value is; a palette's and an rgb format's are code values unless said otherwise. */
export function linearOf(of: Values, value: number): Light {
  if (isLevel(of)) {
    const share = value / of.most;
    const light = of.light === "linear" ? share : decode(255 * share);
    return [light, light, light];
  }
  const rgb = rgbOf(known(of), value, of.colours);
  const channel = (code: number) => (of.light === "linear" ? code / 255 : decode(code));
  return [channel(rgb >> 16), channel((rgb >> 8) & 255), channel(rgb & 255)];
}

/** The value nearest to some light. Of levels white is `full`; no channel of a colour is above `limit` (0–255). */
export function fromLight(to: Values, full: number, limit?: number): (light: Light) => number {
  if (isLevel(to)) {
    return ([r, g, b]) => {
      const light = Math.min(1, relativeLuminance(r, g, b));
      return Math.round(full * (to.light === "linear" ? light : encode(light) / 255));
    };
  }
  const code = (light: number) => Math.round(to.light === "linear" ? 255 * light : encode(light));
  const rgbOfLight = ([r, g, b]: Light) => (code(r) << 16) | (code(g) << 8) | code(b);
  if (to.kind === "rgb") return (light) => packWithin(known(to), rgbOfLight(light), limit ?? 255);
  const nearest = nearestColour(to.colours ?? []);
  return (light) => nearest(rgbOfLight(light));
}

function isLevel({ kind }: Values): boolean {
  return kind === "mono" || kind === "gray";
}

function known({ format, kind, most }: Values) {
  return { name: format as FormatName, kind, most };
}
