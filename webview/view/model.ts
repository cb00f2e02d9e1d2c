/** What is drawn of a state, worked out anew only where the state has changed: objects stay the same as long as they can. */
import type { Shown, ShownFinding } from "../../shared/protocol/webview.ts";
import { type PlacedFindings, placeFindings } from "../findings.ts";
import { type FrameLight, lightOf } from "../light.ts";
import { besides } from "../motion.ts";
import { pictureOf } from "../picture.ts";
import { type Scale, scaleOf } from "../scale.ts";
import type { State } from "../state.ts";
import type { Marks } from "./overlay.ts";

export interface Model {
  readonly now: State;
  readonly shown: Shown;
  readonly pictures: readonly Uint32Array[];
  /** Those of the frame at hand. */
  readonly pixels: Uint32Array;
  readonly light: FrameLight;
  readonly scale: Scale;
  readonly lines: readonly number[];
  /** 1 for each pixel that is not written. */
  readonly unwritten: Uint8Array;
  readonly placed: PlacedFindings;
}

export function modeller(): (now: State, shown: Shown) => Model {
  const pictures = picturesOf();
  const light = lightOfFrame();
  const unwritten = unwrittenOf();
  const placed = placing();
  return (now, shown) => {
    const all = pictures(now, shown);
    const scale = scaleOf(shown.bitmap, now.shows);
    const pixels = all[now.frame] ?? new Uint32Array(0);
    return {
      now,
      shown,
      pictures: all,
      pixels,
      light: light(pixels, shown, scale),
      scale,
      lines: shown.rowLines[now.frame] ?? [],
      unwritten: unwritten(shown, now.frame),
      placed: placed(shown.findings, now.frame, shown.bitmap.width),
    };
  };
}

/** The pictures of all frames; each stays the same object until it changes. */
function picturesOf(): (state: State, shown: Shown) => readonly Uint32Array[] {
  let of: Pick<State, "shown" | "queue" | "stroke" | "float"> = { queue: [] };
  let known: Uint32Array[] = [];
  return (state, shown) => {
    if (of.shown !== shown || of.queue !== state.queue) {
      known = shown.frames.map((_, frame) => pictureOf(state, frame));
    } else if (of.stroke !== state.stroke || of.float !== state.float) {
      const touched = new Set([of.stroke?.frame, state.stroke?.frame, of.float?.frame, state.float?.frame]);
      known = known.map((pixels, frame) => (touched.has(frame) ? pictureOf(state, frame) : pixels));
    }
    of = state;
    return known;
  };
}

function lightOfFrame(): (pixels: Uint32Array, shown: Shown, scale: Scale) => FrameLight {
  let of: Uint32Array | undefined;
  let by: Scale | undefined;
  let known: FrameLight | undefined;
  return (pixels, { bitmap: { width, height } }, scale) => {
    if (!known || of !== pixels || by !== scale) known = lightOf(pixels, width, height, scale);
    of = pixels;
    by = scale;
    return known;
  };
}

function unwrittenOf(): (shown: Shown, frame: number) => Uint8Array {
  let of: Shown | undefined;
  let flags: (Uint8Array | undefined)[] = [];
  return (shown, frame) => {
    if (of !== shown) flags = [];
    of = shown;
    const known = flags[frame] ?? new Uint8Array(shown.bitmap.width * shown.bitmap.height);
    if (!flags[frame]) for (const index of shown.unwritten[frame] ?? []) known[index] = 1;
    flags[frame] = known;
    return known;
  };
}

function placing(): (findings: readonly ShownFinding[], frame: number, width: number) => PlacedFindings {
  let of: readonly ShownFinding[] | undefined;
  let at = "";
  let known: PlacedFindings | undefined;
  return (findings, frame, width) => {
    const now = `${frame} ${width}`;
    if (!known || of !== findings || at !== now) known = placeFindings(findings, frame, width);
    of = findings;
    at = now;
    return known;
  };
}

/** The marks of the frames beside the one at hand; none while it plays. */
export function marksOf({ now, pictures, pixels, scale, shown }: Model): Marks | undefined {
  const { motion, playing, frame } = now;
  const { frames } = shown.bitmap;
  // A quarter of the light looks like more than half of it.
  const bright = scale.lightOf(scale.limit ?? scale.full) / 4;
  if (playing || frames < 2 || !(motion.before || motion.after || motion.changes)) return undefined;
  const { before, after } = besides(motion, frames, frame);
  const picture = (of: number | undefined) => (of === undefined ? undefined : pictures[of]);
  return {
    pixels,
    before: motion.before ? picture(before) : undefined,
    after: motion.after ? picture(after) : undefined,
    other: motion.changes ? picture(before) : undefined,
    bright: (value) => scale.light(value) >= bright,
  };
}
