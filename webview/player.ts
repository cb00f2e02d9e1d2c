/** Plays the frames on request. Where motion is to be reduced they run through once instead of again and again. */
import type { Shown } from "../shared/protocol/webview.ts";
import { frameAfter, speedOf } from "./motion.ts";
import { playedOn } from "./playing.ts";
import { reducedMotion } from "./reducedMotion.ts";
import type { Action, State } from "./state.ts";

/** To be called on every change of state. */
export function player(dispatch: (action: Action) => void, state: () => State): (now: State) => void {
  let running = false;
  /** What has been looked at for flashes: what plays. */
  let seen: Shown | undefined;
  const run = (start: number) => {
    let first = start;
    let begun: number | undefined;
    let way = "";
    const tick = (time: number) => {
      const { playing, shown, frame, motion } = state();
      if (!playing || !shown) {
        running = false;
        return;
      }
      const { frames } = shown.bitmap;
      const fps = speedOf(motion, shown);
      const now = `${fps} ${motion.mode} ${frames}`;
      // Another speed goes on from the frame that is seen.
      if (way !== now) {
        if (way !== "") first = frame;
        way = now;
        begun = time;
      }
      begun ??= time;
      const steps = Math.floor(((time - begun) / 1000) * fps);
      // A late tick may have passed over the last frame, where a run ends.
      const next = frameAfter(motion.mode, frames, first, steps, reducedMotion());
      if (next.frame !== frame) dispatch({ type: "frame", frame: next.frame });
      if (next.over) dispatch({ type: "playing", playing: false });
      requestAnimationFrame(tick);
    };
    requestAnimationFrame(tick);
  };
  return (now) => {
    const before = seen;
    seen = now.playing ? now.shown : undefined;
    if (before && seen && seen !== before) for (const action of playedOn(now)) dispatch(action);
    if (!state().playing || running) return;
    running = true;
    const last = (now.shown?.bitmap.frames ?? 1) - 1;
    // Once through means from the start, not from where the strip happens to stand.
    const anew = reducedMotion() || (now.motion.mode === "once" && now.frame === last);
    run(anew ? 0 : now.frame);
  };
}
