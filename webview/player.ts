/** Plays the frames on request. Where motion is to be reduced they run through once instead of again and again. */
import type { Action, State } from "./state.ts";

/** Speed where the source gives none. */
const FPS = 10;

/** To be called on every change of state. */
export function player(dispatch: (action: Action) => void, state: () => State): (now: State) => void {
  let running = false;
  const run = (first: number) => {
    let begun: number | undefined;
    const tick = (time: number) => {
      const { playing, shown, frame } = state();
      if (!playing || !shown) {
        running = false;
        return;
      }
      begun ??= time;
      const { frames, fps } = shown.bitmap;
      const passed = first + Math.floor(((time - begun) / 1000) * (fps || FPS));
      if (reducedMotion() && passed >= frames) {
        // A late tick may have passed over the last frame, where the run ends.
        dispatch({ type: "frame", frame: frames - 1 });
        dispatch({ type: "playing", playing: false });
      } else if (passed % frames !== frame) {
        dispatch({ type: "frame", frame: passed % frames });
      }
      requestAnimationFrame(tick);
    };
    requestAnimationFrame(tick);
  };
  return (now) => {
    if (!now.playing || running) return;
    running = true;
    // Once through means from the start, not from where the strip happens to stand.
    run(reducedMotion() ? 0 : now.frame);
  };
}

function reducedMotion(): boolean {
  return (
    document.body.classList.contains("vscode-reduce-motion") || matchMedia("(prefers-reduced-motion: reduce)").matches
  );
}
