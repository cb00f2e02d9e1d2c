import type { Bitmap } from "../bitmap/resolve.ts";
import { pixelsOf } from "../bitmap/resolve.ts";
import { type Flashing, flashingIn } from "../light/flashing.ts";
import { srgbToLinear } from "../light/lightness.ts";
import { lightOfLevel } from "../light/screen.ts";
import { rgbOf } from "../pixels/colour.ts";
import { isColour } from "../pixels/formats.ts";
import { elementOfSlot, elementSpan } from "../source/arrays.ts";
import type { BitmapFinding, Fix, Rule } from "./rules.ts";
import { bitmapOf } from "./rules.ts";

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

function flashesOf(bitmap: Bitmap, fps: number): Flashing[] {
  const { width, height, frames, format, why, options } = bitmap;
  if (why !== undefined || frames < 2 || Math.ceil(fps) < LEAST_FRAMES || options.first !== undefined || options.chars)
    return [];
  const count = width * height;
  const looked = Math.min(count, Math.max(FEWEST_PIXELS, Math.floor(MOST_LOOKED_AT / (3 * frames + fps))));
  const light = lightOf(bitmap);
  const known = new Map<number, Float32Array>();
  /** Linear red, green and blue of the pixels looked at. */
  const rgb = (frame: number): Float32Array => {
    const before = known.get(frame);
    if (before) return before;
    const pixels = pixelsOf(bitmap, frame);
    const out = new Float32Array(3 * looked);
    for (let i = 0; pixels && i < looked; i++)
      out.set(light(pixels[Math.floor((i * count) / looked)] as number), 3 * i);
    known.set(frame, out);
    return out;
  };
  const luminances = new Map<number, Float32Array>();
  const luminance = (frame: number): Float32Array => {
    const before = luminances.get(frame);
    if (before) return before;
    const parts = rgb(frame);
    const out = new Float32Array(looked);
    // Levels are shares of the light of a panel in its own colour; colours weigh as in WCAG's relative luminance.
    for (let i = 0; i < looked; i++) {
      const [r, g, b] = [parts[3 * i] as number, parts[3 * i + 1] as number, parts[3 * i + 2] as number];
      out[i] = isColour(format) ? 0.2126 * r + 0.7152 * g + 0.0722 * b : Math.max(r, g, b);
    }
    luminances.set(frame, out);
    return out;
  };
  const order = Array.from({ length: frames }, (_, i) => i);
  return flashingIn({ pixels: looked, fps, order, loop: true, luminance, rgb });
}

/** Linear red, green and blue of a raw value as it is driven: 1 is the most that a channel gives. */
function lightOf({ format, light, drive, palette, options }: Bitmap): (value: number) => readonly number[] {
  const { full } = format;
  const tint = Number.parseInt((options.tint ?? "#ffffff").slice(1), 16);
  const own = [tint >> 16, (tint >> 8) & 255, tint & 255].map((code) => srgbToLinear(code / 255));
  const most = Math.max(...own) || 1;
  const known = new Map<number, readonly number[]>();
  return (value) => {
    const before = known.get(value);
    if (before) return before;
    const share = (level: number) => lightOfLevel(level * drive, full, light);
    const rgb = isColour(format) ? rgbOf(format, value, palette?.colours) : undefined;
    const made =
      rgb === undefined
        ? own.map((channel) => (share(value) * channel) / most)
        : [rgb >> 16, (rgb >> 8) & 255, rgb & 255].map(share);
    known.set(value, made);
    return made;
  };
}

function findingFor(bitmap: Bitmap, fps: number, { kind, flashes, start, frames, share }: Flashing): BitmapFinding {
  // In a short run the second goes round it more than once.
  const all = new Set(frames).size === bitmap.frames;
  const first = all ? 0 : (frames[0] ?? 0);
  const where = all ? "all frames" : `frames ${first} to ${frames[frames.length - 1]}, from ${round(start)} s`;
  const what = kind === "red" ? "red light flashes" : "light flashes";
  const message =
    `At ${fps} fps ${what} ${flashes} times within one second (${where}), on ${Math.round(100 * share)} % of the pixels: ` +
    `more than the three of the WCAG 2.2 ${kind} flash threshold. ${CAUTION}`;
  return { code: "flashing", severity: "warning", message, span: spanOf(bitmap, first), data: { frame: first, kind } };
}

function round(seconds: number): number {
  return Math.round(100 * seconds) / 100;
}

/** The first number of a frame; the name where it is not written. */
function spanOf({ array, layout }: Bitmap, frame: number) {
  const slot = layout?.table(frame).element[0];
  const element = slot === undefined ? -1 : elementOfSlot(array, slot);
  return element < 0 ? array.nameSpan : elementSpan(array, element);
}

/** The highest whole speed at which it flashes no more. */
function slower(bitmap: Bitmap): Fix | undefined {
  const { words, options } = bitmap;
  const word = words.get("fps");
  if (!word || options.fps === undefined) return undefined;
  for (let fps = Math.ceil(options.fps) - 1; fps >= 1; fps--) {
    if (flashesOf(bitmap, fps).length > 0) continue;
    const edits = [{ start: word.start, end: word.end, text: `fps=${fps}` }];
    return { kind: "slow", title: `Slow ${bitmap.array.name} to ${fps} fps`, edits };
  }
  return undefined;
}
