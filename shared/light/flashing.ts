/**
 * Flashes of light that can harm photosensitive viewers: W3C WCAG 2.2, success criterion 2.3.1 and its definitions
 * "general flash and red flash thresholds" and "relative luminance"; counting as in technique G19.
 *
 * - A general flash is a pair of opposing changes of relative luminance by 10 % of the maximum or more, the darker state
 *   being below 0.80. A red flash is a pair of opposing changes to and from a saturated red, R/(R+G+B) ≥ 0.8, by more
 *   than 0.2 in the CIE 1976 UCS diagram.
 * - More than three flashes within any one second are too many. Every change between two extremes is half a flash, so
 *   seven are too many and six are not. A fade over several frames is one change.
 * - Light that flashes at the same time on a small area is safe: less than 0.006 sr within any field of 10°, a quarter
 *   of it. Where pitch and distance are known, that many square millimetres are small, wherever on the panel they are;
 *   else a quarter of its pixels. "At the same time" is within one second: which pixels flash in step does not matter.
 *   Both are stricter than the definition, and so is that the limit itself is too much.
 *
 * This compares an animation with published thresholds. It is no medical assurance: brightness, distance and
 * surroundings matter.
 */
import { relativeLuminance } from "./lightness.ts";
import { remembered } from "./remembered.ts";

/** Frames as they are shown one after the other. Light is linear; 1 is the most that the display gives. */
export interface Animation {
  /** Pixels of a frame. */
  readonly pixels: number;
  /** Frames a second. */
  readonly fps: number;
  /** The frames of one run, in the order in which they are shown. */
  readonly order: readonly number[];
  /** The run begins anew after its end. */
  readonly loop: boolean;
  /** Relative luminance, 0–1, of each pixel of a frame. */
  readonly luminance: (frame: number) => ArrayLike<number>;
  /** Linear red, green and blue, 0–1, three numbers to a pixel; missing where no pixel can be a saturated red. */
  readonly rgb?: (frame: number) => ArrayLike<number>;
  /** Share of the pixels from which light flashes on a large area (see `largeShare`); a quarter where missing. */
  readonly large?: number | undefined;
}

/** The second in which most flashes are, of those in which there are too many. */
export interface Flashing {
  readonly kind: "general" | "red";
  /** Flashes in that second, in halves; so many that a quarter of the pixels has them at least. */
  readonly flashes: number;
  /** When the second begins, in seconds from the start of the run. */
  readonly start: number;
  /** The frames shown in it, from the first to the last as they come. */
  readonly frames: readonly number[];
  /** Share of the pixels, 0–1, that flash too often in it. */
  readonly share: number;
}

/** Least change of relative luminance, and where the darker state must be below it (WCAG 2.2, general flash). */
const LEAST_CHANGE = 0.1;
const DARKER_BELOW = 0.8;
/** Saturated red, and least change of chromaticity (WCAG 2.2, red flash). */
const RED_SHARE = 0.8;
const LEAST_SHIFT = 0.2;
/** Changes within one second that are too many: more than three flashes (G19). */
const TOO_MANY = 7;
/** Share of the pixels from which light flashes on a large area. */
const LARGE_AREA = 0.25;
/** Solid angle under which flashing light is safe, in steradians (WCAG 2.2, general flash). */
const SAFE_ANGLE = 0.006;
/** What floating point may lose: the thresholds themselves count. */
const EPSILON = 1e-9;
/** Frames that are looked at at most: a run, what comes before it in the loop, and a second more. */
const MOST_FRAMES = 20_000;

/** Changes within one second that are told apart. */
const MOST_COUNTED = 255;

/** Square millimetres that are seen under the safe angle from a distance in millimetres. */
export function safeArea(distance: number): number {
  return SAFE_ANGLE * distance ** 2;
}

/** Share of so many pixels, a square of `pitch` millimetres each, that is a large area from a distance in millimetres. */
export function largeShare(pixels: number, pitch: number, distance: number): number {
  return safeArea(distance) / (pitch ** 2 * pixels);
}

/** Where an animation flashes too often: at most one of each kind, the worst. Throws a RangeError for a bad speed. */
export function flashingIn(animation: Animation): Flashing[] {
  const { fps, order, pixels, rgb } = animation;
  if (!(fps > 0 && Number.isFinite(fps))) throw new RangeError(`${fps} is no speed`);
  if (order.length < 2 || pixels < 1) return [];
  const shown = unrolled(animation);
  const found: Flashing[] = [];
  const general = worst(animation, shown, "general", luminanceChanges(animation, shown));
  if (general) found.push(general);
  const red = rgb && worst(animation, shown, "red", redChanges(animation.pixels, rgb, shown));
  if (red) found.push(red);
  return found;
}

/** The run; in a loop with the one before it, in which a change may begin, and on until one ends behind a second. */
function unrolled({ order, loop, fps }: Animation): number[] {
  if (!loop) return [...order];
  const count = Math.min(MOST_FRAMES, 3 * order.length + Math.ceil(fps));
  return Array.from({ length: count }, (_, i) => order[i % order.length] as number);
}

/** Calls back with the places in `shown` at which a pixel has changed from one extreme to the other. */
type Changes = (pixel: number, changed: (at: number) => void) => void;

/** The second with most changes, by how many changes a large area has. */
function worst(
  { pixels, fps, order, large: share = LARGE_AREA }: Animation,
  shown: readonly number[],
  kind: Flashing["kind"],
  changes: Changes,
): Flashing | undefined {
  // A second is half-open: frames at, at + 1, … while they begin less than one second after the first.
  const span = Math.max(1, Math.ceil(fps - EPSILON));
  const seconds = Math.max(1, shown.length - span + 1);
  const counts = new Uint16Array(shown.length);
  /** By second and number of changes: how many pixels have so many. */
  const most = Math.min(span, shown.length, MOST_COUNTED) + 1;
  const pixelsWith = new Uint32Array(seconds * most);
  for (let pixel = 0; pixel < pixels; pixel++) {
    let any = 0;
    counts.fill(0);
    changes(pixel, (at) => {
      counts[at] = 1;
      any++;
    });
    if (any < TOO_MANY) continue;
    let sum = 0;
    for (let at = 0; at < shown.length; at++) {
      sum += counts[at] as number;
      if (at >= span) sum -= counts[at - span] as number;
      const second = Math.max(0, at - span + 1);
      if (sum < TOO_MANY || (at < span - 1 && at < shown.length - 1)) continue;
      const place = second * most + Math.min(sum, MOST_COUNTED);
      pixelsWith[place] = (pixelsWith[place] as number) + 1;
    }
  }
  const large = Math.max(1, Math.ceil(pixels * share - EPSILON));
  let found: { second: number; changes: number; pixels: number } | undefined;
  for (let second = 0; second < seconds; second++) {
    let together = 0;
    let has = 0;
    for (let count = most - 1; count >= TOO_MANY; count--) {
      together += pixelsWith[second * most + count] as number;
      if (together >= large && has === 0) has = count;
    }
    if (has > (found?.changes ?? 0)) found = { second, changes: has, pixels: together };
  }
  if (!found) return undefined;
  const { second } = found;
  return {
    kind,
    flashes: found.changes / 2,
    start: (second % order.length) / fps,
    frames: shown.slice(second, second + span),
    share: found.pixels / pixels,
  };
}

/** Changes of luminance between local extremes; what goes back by less than a change does not end one. */
function luminanceChanges(animation: Animation, shown: readonly number[]): Changes {
  const { loop } = animation;
  const lights = shown.map(remembered(animation.luminance));
  return (pixel, changed) => {
    let low = lights[0]?.[pixel] ?? 0;
    let high = low;
    /** Where the light goes: up, down, or not known yet; and where its extreme is. */
    let going = 0;
    let extreme = 0;
    for (let at = 1; at < lights.length; at++) {
      const light = (lights[at] as ArrayLike<number>)[pixel] as number;
      if (going >= 0 && light > high) {
        high = light;
        extreme = at;
      }
      if (going <= 0 && light < low) {
        low = light;
        extreme = at;
      }
      const fell = going >= 0 && high - light >= LEAST_CHANGE - EPSILON && light < DARKER_BELOW;
      const rose = going <= 0 && light - low >= LEAST_CHANGE - EPSILON && low < DARKER_BELOW;
      if (!fell && !rose) continue;
      // It has turned: the change before it ended at the extreme.
      if (going !== 0) changed(extreme);
      going = fell ? -1 : 1;
      low = high = light;
      extreme = at;
    }
    // A loop goes on: where its last change ends is not seen.
    if (going !== 0 && !loop) changed(extreme);
  };
}

/** Changes to and from a saturated red. */
function redChanges(pixels: number, rgb: (frame: number) => ArrayLike<number>, shown: readonly number[]): Changes {
  const states = shown.map(remembered((frame) => chromaticities(pixels, rgb(frame))));
  return (pixel, changed) => {
    let from = states[0];
    for (let at = 1; at < states.length; at++) {
      const to = states[at];
      if (!from || !to) return;
      const reds = (from.red[pixel] as number) + (to.red[pixel] as number);
      if (reds === 0) {
        from = to;
        continue;
      }
      const du = (to.u[pixel] as number) - (from.u[pixel] as number);
      const dv = (to.v[pixel] as number) - (from.v[pixel] as number);
      if (Math.hypot(du, dv) <= LEAST_SHIFT) continue;
      changed(at);
      from = to;
    }
  };
}

/**
 * CIE 1976 u′ and v′ by way of the XYZ of linear sRGB (IEC 61966-2-1): u′ = 4X/(X + 15Y + 3Z), v′ = 9Y/(X + 15Y + 3Z).
 * Black has no chromaticity: it is given that of white, from which saturated red is far enough to count.
 */
function chromaticities(pixels: number, rgb: ArrayLike<number>) {
  const [u, v] = [new Float32Array(pixels), new Float32Array(pixels)];
  const red = new Uint8Array(pixels);
  for (let i = 0; i < pixels; i++) {
    const [r, g, b] = [rgb[3 * i] as number, rgb[3 * i + 1] as number, rgb[3 * i + 2] as number];
    const sum = r + g + b;
    const x = sum > 0 ? 0.4124 * r + 0.3576 * g + 0.1805 * b : 0.9505;
    const y = sum > 0 ? relativeLuminance(r, g, b) : 1;
    const z = sum > 0 ? 0.0193 * r + 0.1192 * g + 0.9505 * b : 1.089;
    const all = x + 15 * y + 3 * z;
    u[i] = (4 * x) / all;
    v[i] = (9 * y) / all;
    red[i] = sum > 0 && r / sum >= RED_SHARE - EPSILON ? 1 : 0;
  }
  return { u, v, red };
}
