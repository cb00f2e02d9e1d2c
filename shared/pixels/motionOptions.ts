/** The options of `@motion`: their spelling and their values. What they mean together is decided in `motion/resolve`. */
import type { Marker } from "../source/annotationSyntax.ts";
import type { OptionRow } from "./optionRows.ts";
import { choice, name, unit, whole } from "./optionRows.ts";

/** What an `@motion` says; numbers as its words give them. */
export interface MotionOptions {
  /** A bitmap, or one of its frames: `drip[3]`. */
  image?: string;
  /** A field, or a bitmap as the image. */
  mask?: string;
  soft?: number;
  rim?: number;
  level?: number;
  from?: number;
  to?: number;
  step?: number;
  seconds?: number;
  ease?: "linear" | "cubic-in" | "cubic-out" | "cubic-in-out";
  loop?: "once" | "around" | "there-and-back";
  angle?: number;
  seed?: number;
  fps?: number;
  buffer?: string;
  code?: boolean;
}

const MOTION: readonly Marker[] = ["motion"];

/** Values of `mask` that are no array. */
export const FIELDS = ["radial", "linear", "angular", "diamond", "noise"] as const;

const signed = (most: number, doc: string): OptionRow => ({
  on: MOTION,
  doc,
  form: `a whole number from -${most} to ${most}`,
  parse: (v) => (/^[+-]?\d{1,9}$/.test(v) && Math.abs(Number(v)) <= most ? Number(v) : undefined),
});
const upTo = (least: number, most: number, doc: string): OptionRow => ({
  ...whole(MOTION, least, doc, most),
  form: `a whole number from ${least} to ${most}`,
});
const PICTURE = /^[A-Za-z_][\w:.]*(?:\[\d{1,9}\][\w:.]*)*$/;

export const MOTION_OPTIONS: Readonly<Record<string, OptionRow>> = {
  image: {
    on: MOTION,
    form: "the name of a bitmap of this file, or a frame of it: name[2]",
    doc: "The picture that is uncovered.",
    parse: (v) => (PICTURE.test(v) ? v : undefined),
  },
  mask: {
    on: MOTION,
    form: `${FIELDS.join(", ")}, or the name of a bitmap of this file`,
    doc:
      "When each pixel's turn comes: a value from 0 to 255 for each. `radial` is 255 in the middle and 0 in the corners, " +
      "`diamond` the same with rows and columns added up, `linear` rises in the direction of `angle`, `angular` goes round, " +
      "`noise` takes the pixels in a random order (`seed`).",
    parse: (v) => (PICTURE.test(v) ? v : undefined),
  },
  soft: upTo(0, 1023, "Width of the edge to both sides, in values of the mask: it fades in from there to the rim."),
  rim: upTo(0, 1023, "Width of the full edge to both sides; at most `soft`. With both the same the edge is hard."),
  level: upTo(0, 255, "Light of the edge itself, a raw value. 0: no edge of its own."),
  from: signed(
    2047,
    "Where the edge begins, in values of the mask. From high to low uncovers, from low to high covers.",
  ),
  to: signed(2047, "Where the edge ends; no frame goes past it."),
  step: upTo(1, 4095, "How far the edge goes from frame to frame."),
  seconds: unit(MOTION, { "": 1, s: 1, ms: 0.001 }, "a time such as 1.5", "How long one way takes, instead of `step`."),
  ease: choice(
    MOTION,
    ["linear", "cubic-in", "cubic-out", "cubic-in-out"],
    "How the edge goes: evenly, slow at first, slow at last, or both.",
  ),
  loop: choice(
    MOTION,
    ["once", "around", "there-and-back"],
    "Once; again from the start; or back again, where neither end is shown twice.",
  ),
  angle: signed(
    360,
    "Degrees clockwise: where `linear` rises to (0: to the right), where `angular` begins (0: at the top).",
  ),
  seed: whole(MOTION, 0, "Another random order of `noise`.", 999_999_999),
  fps: unit(MOTION, { "": 1 }, "frames a second, such as 20", "Frames a second; else those of the bitmap."),
  buffer: name(MOTION, "the name of an array", "The array that the code fills."),
  code: {
    on: MOTION,
    flag: true,
    form: "a bare word",
    doc: "The next function fills the pixels.",
    parse: () => true,
  },
};
