import type { Bitmap } from "../bitmap/resolve.ts";
import { pixelsOf } from "../bitmap/resolve.ts";
import { type Animation, type Flashing, flashingIn } from "../light/flashing.ts";
import { relativeLuminance, srgbToLinear } from "../light/lightness.ts";
import { remembered } from "../light/remembered.ts";
import { lightOfLevel } from "../light/screen.ts";
import { rgbOf } from "../pixels/colour.ts";
import { isColour } from "../pixels/formats.ts";
import type { Pixels } from "../pixels/picture.ts";
import type { BitmapFinding, Fix, Rule } from "./rules.ts";
import { bitmapOf, startOfFrame } from "./rules.ts";

/** A second with fewer frames than this holds no seven changes, which are what is too many. */
const LEAST_FRAMES = 7;
/** Pixels times frames that are looked at; of more pixels as many as fit, evenly spread. */
const MOST_LOOKED_AT = 4_000_000;
const FEWEST_PIXELS = 64;

const CAUTION =
  "This compares the animation with published thresholds. It is not a medical or legal assurance; brightness, distance and surroundings matter.";

/**
 * Animations that flash more often than the general and red flash thresholds of WCAG 2.2 (2.3.1) allow, judged as they
 * are driven, at their `fps`, going round and round. How large the panel is seen is not known: a quarter of its pixels
 * counts as a large area.
 */
export const flashing: Rule = {
  codes: ["flashing"],
  doc: "An animation flashes more often than the flash thresholds of WCAG 2.2 allow.",
  checkBitmap: (_text, bitmap) => {
    const { fps } = bitmap.options;
    if (fps === undefined) return [];
    return flashesOf(bitmap, fps).map((found) => findingFor(bitmap, fps, found));
  },
  fixes: (file, finding) => {
    const bitmap = bitmapOf(file, finding);
    const fix = bitmap && slower(bitmap);
    return fix ? [fix] : [];
  },
};

/** What is to be said of frames that are played once, one after the other, such as those of a function. */
export function flashesOfFrames(bitmap: Bitmap, fps: number, frames: readonly Pixels[]): string[] {
  if (Math.ceil(fps) < LEAST_FRAMES) return [];
  const run = { ...bitmap, frames: frames.length };
  const animation = animationOf(run, fps, (frame) => frames[frame]);
  return animation ? flashingIn({ ...animation, loop: false }).map((found) => messageFor(run, fps, found)) : [];
}

type Light = readonly [number, number, number];

function flashesOf(bitmap: Bitmap, fps: number): Flashing[] {
  const animation = Math.ceil(fps) < LEAST_FRAMES ? undefined : animationOf(bitmap, fps);
  return animation ? flashingIn(animation) : [];
}

/** The bitmap as it is shown at a speed; undefined for one that is no animation. */
function animationOf(
  bitmap: Bitmap,
  fps: number,
  read: (frame: number) => Pixels | undefined = (frame) => pixelsOf(bitmap, frame),
): Animation | undefined {
  const { width, height, frames, format, why, options } = bitmap;
  if (why !== undefined || frames < 2 || options.first !== undefined || options.chars) return undefined;
  const count = width * height;
  const looked = Math.min(count, Math.max(FEWEST_PIXELS, Math.floor(MOST_LOOKED_AT / (3 * frames + fps))));
  const light = lightOf(bitmap);
  /** Of each pixel that is looked at, so many numbers. */
  const numbers = (frame: number, each: number, of: (light: Light) => readonly number[]): Float32Array => {
    const pixels = read(frame);
    const out = new Float32Array(each * looked);
    for (let i = 0; pixels && i < looked; i++)
      out.set(of(light(pixels[Math.floor((i * count) / looked)] as number)), each * i);
    return out;
  };
  // Levels are shares of the light of a panel in its own colour.
  const weigh = isColour(format) ? relativeLuminance : Math.max;
  return {
    pixels: looked,
    fps,
    order: Array.from({ length: frames }, (_, i) => i),
    loop: true,
    luminance: (frame) => numbers(frame, 1, (rgb) => [weigh(...rgb)]),
    rgb: (frame) => numbers(frame, 3, (rgb) => rgb),
  };
}

/** Linear red, green and blue of a raw value as it is driven: 1 is the most that a channel gives. */
function lightOf({ format, light, drive, palette, options }: Bitmap): (value: number) => Light {
  const { full } = format;
  const tint = Number.parseInt((options.tint ?? "#ffffff").slice(1), 16);
  const own = channelsOf(tint, (code) => srgbToLinear(code / 255));
  const most = Math.max(...own) || 1;
  const share = (level: number) => lightOfLevel(level * drive, full, light);
  return remembered((value) => {
    if (isColour(format)) return channelsOf(rgbOf(format, value, palette?.colours), share);
    const [r, g, b] = own;
    return [(share(value) * r) / most, (share(value) * g) / most, (share(value) * b) / most];
  });
}

function channelsOf(rgb: number, of: (code: number) => number): Light {
  return [of(rgb >> 16), of((rgb >> 8) & 255), of(rgb & 255)];
}

/** The first of the frames that flash; in a short run the second goes round it more than once. */
function firstOf(bitmap: Bitmap, { frames }: Flashing): number {
  return new Set(frames).size === bitmap.frames ? 0 : (frames[0] ?? 0);
}

function messageFor(bitmap: Bitmap, fps: number, found: Flashing): string {
  const { kind, flashes, start, frames, share } = found;
  const all = new Set(frames).size === bitmap.frames;
  const first = firstOf(bitmap, found);
  const where = all ? "all frames" : `frames ${first} to ${frames[frames.length - 1]}, from ${round(start)} s`;
  const what = kind === "red" ? "red light flashes" : "light flashes";
  return (
    `At ${fps} fps ${what} ${flashes} times within one second (${where}), on ${Math.round(100 * share)} % of the pixels: ` +
    `more than the three of the WCAG 2.2 ${kind} flash threshold. ${CAUTION}`
  );
}

function findingFor(bitmap: Bitmap, fps: number, found: Flashing): BitmapFinding {
  const first = firstOf(bitmap, found);
  return {
    code: "flashing",
    severity: "warning",
    message: messageFor(bitmap, fps, found),
    span: startOfFrame(bitmap, first),
    data: { frame: first, kind: found.kind },
  };
}

function round(seconds: number): number {
  return Math.round(100 * seconds) / 100;
}

/** The highest whole speed at which it flashes no more. */
function slower(bitmap: Bitmap): Fix | undefined {
  const { words, options } = bitmap;
  const word = words.get("fps");
  if (!word || options.fps === undefined) return undefined;
  const animation = animationOf(bitmap, options.fps);
  if (!animation) return undefined;
  // A shorter second is part of a longer one: slower still, it flashes no more often.
  let [calm, flashing] = [LEAST_FRAMES - 1, Math.ceil(options.fps)];
  while (flashing - calm > 1) {
    const fps = Math.floor((calm + flashing) / 2);
    if (flashingIn({ ...animation, fps }).length > 0) flashing = fps;
    else calm = fps;
  }
  const edits = [{ start: word.start, end: word.end, text: `fps=${calm}` }];
  return { kind: "slow", title: `Slow ${bitmap.array.name} to ${calm} fps`, edits };
}
