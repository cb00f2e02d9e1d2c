import { editPixels } from "../bitmap/edit.ts";
import type { Bitmap } from "../bitmap/resolve.ts";
import { pixelsOf } from "../bitmap/resolve.ts";
import { type Animation, type Flashing, flashingIn, largeShare, safeArea } from "../light/flashing.ts";
import { relativeLuminance, srgbToLinear } from "../light/lightness.ts";
import { remembered } from "../light/remembered.ts";
import { lightOfLevel } from "../light/screen.ts";
import { rgbOf } from "../pixels/colour.ts";
import { isColour } from "../pixels/formats.ts";
import type { Pixels } from "../pixels/picture.ts";
import type { BitmapFinding, Fix, Rule } from "./rules.ts";
import { bitmapOf, startOfFrame } from "./rules.ts";
import { softened } from "./soften.ts";

/** A second with fewer frames than this holds no seven changes, which are what is too many. */
const LEAST_FRAMES = 7;
/** Pixels times frames that are looked at; of more pixels as many as fit, evenly spread. */
const MOST_LOOKED_AT = 4_000_000;
const FEWEST_PIXELS = 64;

const CAUTION =
  "This check compares the animation with the published WCAG 2.2 flash thresholds. It is not a medical or legal assurance; brightness, distance and surroundings matter.";

/**
 * Animations that flash more often than the general and red flash thresholds of WCAG 2.2 (2.3.1) allow, judged as they
 * are driven, at their `fps`, going round and round. Where `pitch` and `distance` are not given, a quarter of the pixels
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
    if (!bitmap) return [];
    // Of red light the steps in colour count: what is softened enough by definition might still be red and nearly dark.
    const soft = finding.data.kind === "general" ? softer(file.source.text, bitmap) : undefined;
    return [slower(bitmap), soft].filter((fix) => fix !== undefined);
  },
};

/** What is to be said of frames that are played once, one after the other, such as those of a function. */
export function flashesOfFrames(bitmap: Bitmap, fps: number, frames: readonly Pixels[]): string[] {
  const order = frames.map((_, i) => i);
  const shown: Shown = { frames: frames.length, pixels: (frame) => frames[frame], order, loop: false };
  const area = (found: Flashing) => areaInWords(bitmap, found.share);
  return flashesOf(bitmap, fps, shown).map((found) => flashingInWords(frames.length, fps, found, area(found)).message);
}

type Light = readonly [number, number, number];

/** What is shown of a bitmap's panel in place of the frames of its array, which go round. */
export interface Shown {
  readonly frames: number;
  readonly pixels: (frame: number) => ArrayLike<number> | undefined;
  readonly order: readonly number[];
  readonly loop: boolean;
}

/** Where a bitmap, or what is shown in its place, flashes too often at a speed. */
export function flashesOf(bitmap: Bitmap, fps: number, shown = ownFrames(bitmap)): Flashing[] {
  const animation = Math.ceil(fps) < LEAST_FRAMES || !shown ? undefined : animationOf(bitmap, fps, shown);
  return animation ? flashingIn(animation) : [];
}

/** undefined for one that is no animation. */
function ownFrames(bitmap: Bitmap): Shown | undefined {
  const { frames, why, mask, options } = bitmap;
  if (why !== undefined || mask || frames < 2 || options.first !== undefined || options.chars) return undefined;
  const order = Array.from({ length: frames }, (_, i) => i);
  return { frames, pixels: (frame) => pixelsOf(bitmap, frame), order, loop: true };
}

function animationOf(bitmap: Bitmap, fps: number, { frames, order, loop, pixels: shown }: Shown): Animation {
  const { width, height, format } = bitmap;
  const count = width * height;
  const looked = Math.min(count, Math.max(FEWEST_PIXELS, Math.floor(MOST_LOOKED_AT / (3 * frames + fps))));
  const light = lightOf(bitmap);
  /** Runs over the raw values of the pixels that are looked at. */
  const each = (frame: number, take: (value: number, i: number) => void) => {
    const pixels = shown(frame);
    for (let i = 0; pixels && i < looked; i++) take(pixels[Math.floor((i * count) / looked)] as number, i);
  };
  // Levels are shares of the light of a panel in its own colour.
  const weigh = isColour(format) ? relativeLuminance : Math.max;
  const weighed = remembered((value) => weigh(...light(value)));
  return {
    pixels: looked,
    fps,
    order,
    loop,
    large: largeOf(bitmap),
    luminance: (frame) => {
      const out = new Float32Array(looked);
      each(frame, (value, i) => {
        out[i] = weighed(value);
      });
      return out;
    },
    rgb: (frame) => {
      const out = new Float32Array(3 * looked);
      each(frame, (value, i) => {
        const [r, g, b] = light(value);
        out[3 * i] = r;
        out[3 * i + 1] = g;
        out[3 * i + 2] = b;
      });
      return out;
    },
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

function findingFor(bitmap: Bitmap, fps: number, found: Flashing): BitmapFinding {
  const { first, message } = flashingInWords(bitmap.frames, fps, found, areaInWords(bitmap, found.share));
  return {
    code: "flashing",
    severity: "warning",
    message,
    span: startOfFrame(bitmap, first),
    data: { frame: first, kind: found.kind },
  };
}

/** The first frame of the worst second, and what is said of it; `count` are the frames that there are. */
export function flashingInWords(
  count: number,
  fps: number,
  { kind, flashes, start, frames, share }: Flashing,
  area = "",
): { readonly first: number; readonly message: string } {
  // In a short run the second goes round it more than once.
  const all = new Set(frames).size === count;
  const first = all ? 0 : (frames[0] ?? 0);
  const where = all ? "all frames" : `frames ${first} to ${frames[frames.length - 1]}, from ${round(start)} s`;
  const what = kind === "red" ? "red light flashes" : "light flashes";
  const message =
    `At ${fps} fps ${what} ${flashes} times within one second (${where}), on ${Math.round(100 * share)} % of the pixels${area}: ` +
    `more than the three of the WCAG 2.2 ${kind} flash threshold. ${CAUTION}`;
  return { first, message };
}

/** The share from which an area is large, where the panel's pitch and distance are known. */
function largeOf({ width, height, options: { pitch, distance } }: Bitmap): number | undefined {
  return pitch === undefined || distance === undefined ? undefined : largeShare(width * height, pitch, distance);
}

/** How large the flashing pixels are seen, where that is known. */
function areaInWords({ width, height, options: { pitch, distance } }: Bitmap, share: number): string {
  if (pitch === undefined || distance === undefined) return "";
  const area = Math.round(share * width * height * pitch ** 2);
  return ` (${area} mm², safe would be less than ${Math.round(safeArea(distance))} mm² at ${distance} mm)`;
}

function round(seconds: number): number {
  return Math.round(100 * seconds) / 100;
}

/** The highest whole speed at which it flashes no more. */
function slower(bitmap: Bitmap): Fix | undefined {
  const { words, options } = bitmap;
  const word = words.get("fps");
  if (!word || options.fps === undefined) return undefined;
  const shown = ownFrames(bitmap);
  if (!shown) return undefined;
  const animation = animationOf(bitmap, options.fps, shown);
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

/** With its quick changes made small enough. */
function softer(text: string, bitmap: Bitmap): Fix | undefined {
  const { fps } = bitmap.options;
  const found =
    fps === undefined ? undefined : softened(bitmap, fps, (shown) => flashesOf(bitmap, fps, shown).length > 0);
  const edited = found && editPixels(text, bitmap, found.changes);
  if (!found || !edited || "refused" in edited || edited.edits.length === 0) return undefined;
  const title = `Soften the quick changes of ${bitmap.array.name} to ${Math.round(100 * found.share)} %`;
  return { kind: "soften", title, edits: edited.edits };
}
