/** The wish to play: where light would flash too often, it is asked first, once for a bitmap and a speed. */
import * as l10n from "@vscode/l10n";
import { type Flashing, flashingIn } from "../shared/light/flashing.ts";
import { type Motion, runOf, speedOf } from "./motion.ts";
import { pictureOf } from "./picture.ts";
import { reducedMotion } from "./reducedMotion.ts";
import type { Action, State } from "./state.ts";
import { lightOfValue } from "./valueLight.ts";

/** What Play does now: plays, pauses, or asks. The pictures are looked at only here. */
export function playPressed(state: State): Action[] {
  const { playing, shown, motion } = state;
  if (!shown || shown.bitmap.frames < 2) return [];
  if (playing) return [{ type: "playing", playing: false }];
  if (motion.asking !== undefined) return [];
  const question = questionFor(state);
  return question === undefined
    ? [{ type: "playing", playing: true }]
    : [{ type: "motion", motion: { asking: question } }];
}

/** Another speed or way of playing; what plays is asked about again. */
export function tried(
  state: State,
  motion: { readonly fps?: number | undefined; readonly mode?: Motion["mode"] },
): Action[] {
  const change: Action = { type: "motion", motion: { ...motion, asking: undefined } };
  if (!state.playing) return [change];
  const next = { ...state, motion: { ...state.motion, ...motion } as Motion };
  const question = questionFor(next);
  if (question === undefined) return [change];
  return [change, ...stoppedBy(question)];
}

/** What plays on after the text has changed, which may have given it other frames or another speed. */
export function playedOn(state: State): Action[] {
  const question = state.playing ? questionFor(state) : undefined;
  return question === undefined ? [] : stoppedBy(question);
}

function stoppedBy(asking: string): Action[] {
  return [
    { type: "playing", playing: false },
    { type: "motion", motion: { asking } },
  ];
}

export function allowed(state: State): Action[] {
  const { motion } = state;
  if (motion.asking === undefined) return [];
  return [
    { type: "motion", motion: { asking: undefined, allowed: [...motion.allowed, keyOf(state)] } },
    { type: "playing", playing: true },
  ];
}

function keyOf({ shown, motion, shows }: State): string {
  return `${shown?.bitmap.name} ${shown?.bitmap.identity.ordinal} ${motion.mode} ${speedOf(motion, shown)} ${shows}`;
}

function questionFor(state: State): string | undefined {
  if (state.motion.allowed.includes(keyOf(state))) return undefined;
  const [worst] = flashes(state).sort((a, b) => b.flashes - a.flashes);
  if (!worst) return undefined;
  const { flashes: count, frames, kind } = worst;
  const fps = speedOf(state.motion, state.shown);
  const words =
    kind === "red"
      ? l10n.t("At {0} a second, red light flashes {1} times within one second", fps, count)
      : l10n.t("At {0} a second, light flashes {1} times within one second", fps, count);
  // In a run of less than a second it is everywhere.
  const all = frames.length >= runOf(state.motion.mode, state.shown?.bitmap.frames ?? 1).length;
  const where = l10n.t("frames {0} to {1}", frames[0] ?? 0, frames[frames.length - 1] ?? 0);
  return all ? `${words}.` : `${words} (${where}).`;
}

/** Light as the page shows it. */
function flashes(state: State): Flashing[] {
  const { shown, motion, shows } = state;
  if (!shown) return [];
  const { frames, width, height } = shown.bitmap;
  const light = lightOfValue(shown.bitmap, shows);
  const luminance = (frame: number) => Float32Array.from(pictureOf(state, frame), (value) => light(value).luminance);
  const rgb = (frame: number) => {
    const pixels = pictureOf(state, frame);
    const out = new Float32Array(3 * pixels.length);
    for (let i = 0; i < pixels.length; i++) out.set(light(pixels[i] as number).rgb, 3 * i);
    return out;
  };
  return flashingIn({
    pixels: width * height,
    fps: speedOf(motion, shown),
    order: runOf(motion.mode, frames),
    loop: motion.mode !== "once" && !reducedMotion(),
    luminance,
    rgb,
  });
}
