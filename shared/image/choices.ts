/** What can be chosen when a picture is brought in. The command's options and the editor's questions are these. */
import type { Resampling } from "../pixels/resample.ts";
import type { Mirror, Turn } from "../pixels/rgba.ts";

export const CHANNELS = ["luminance", "alpha", "red", "green", "blue", "lightness", "colours"] as const;
export const FITS = ["exact", "contain", "cover"] as const;
export const RESAMPLINGS = ["area", "nearest"] as const;
export const TURNS = ["0", "90", "180", "270"] as const;
export const MIRRORS = ["left-right", "top-bottom"] as const;
export const OVER_CAP = ["scale", "clamp"] as const;
export const DITHERS = ["none", "floyd-steinberg", "ordered-2", "ordered-4", "ordered-8"] as const;

export type Channel = (typeof CHANNELS)[number];
type Fit = (typeof FITS)[number];
export type OverCap = (typeof OVER_CAP)[number];
type Dither = (typeof DITHERS)[number];

/** A part of the picture, in its pixels after turning; as large as the bitmap where no size is given. */
export interface Crop {
  readonly x: number;
  readonly y: number;
  readonly width?: number;
  readonly height?: number;
}

/** Nothing chosen gives what most pictures need; see each field. */
export interface Choices {
  /** What a level is taken from. Default: luminance; the colours themselves for formats with colours. */
  readonly channel?: Channel;
  /** The colour (0xRRGGBB) that shows through, black by default; `none` takes colours as they are, whatever their alpha. */
  readonly background?: number | "none";
  /** Degrees, clockwise; before anything else. Then mirrored. */
  readonly turn?: Turn;
  readonly mirror?: Mirror;
  readonly crop?: Crop;
  /** Default: `exact` where the sizes agree, else `contain`. */
  readonly fit?: Fit;
  /** Default: `area`. */
  readonly resample?: Resampling;
  readonly invert?: boolean;
  /** Code values become shares of time, which is what values mean on a panel with `light=linear`. Never by default. */
  readonly linear?: boolean;
  /** What is done about the cap. Default: white becomes the cap if anything is over it, else all stays as it is. */
  readonly overCap?: OverCap;
  /** Share of full (0–1) from which a pixel is lit. For `mono1` half by default; greys keep their levels without it. */
  readonly threshold?: number;
  /** Default: none, the nearest level or colour. */
  readonly dither?: Dither;
  /** Most colours of a palette that is made; the format's own number by default. */
  readonly colours?: number;
}
