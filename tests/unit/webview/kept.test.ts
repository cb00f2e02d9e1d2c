/** What the page keeps while it is hidden or the editor is started anew, and how it comes back. */
import { describe, expect, test } from "vitest";
import { type Kept, keptOf, restored, showing } from "../../../webview/kept.ts";
import { AT_REST, motionFrom } from "../../../webview/motion.ts";
import { type Action, reduce, START, type State } from "../../../webview/state.ts";
import { drop, falling } from "../../support/pictures.ts";

const run = (actions: readonly Action[], from: State = START) => actions.reduce(reduce, from);
const shown = falling();
const looked: Action[] = [
  { type: "show", shown },
  { type: "frame", frame: 3 },
  { type: "motion", motion: { mode: "back", fps: 7.5, before: true, changes: true } },
];
const keep = (state: State) => keptOf(state, START) as Kept;
/** Through JSON, as the editor stores it. */
const stored = (kept: Kept) => JSON.parse(JSON.stringify(kept)) as Kept;
const again = (kept: Kept, next = shown) => {
  const begun = run(restored(kept));
  return run(showing(next, kept, begun), begun);
};

test("ghosts, speed and the way of playing come back with the frame", () => {
  const state = again(stored(keep(run(looked))));
  expect(state.motion).toEqual({ ...AT_REST, mode: "back", fps: 7.5, before: true, changes: true });
  expect([state.frame, state.playing]).toEqual([3, false]);
});

test("they come back to an array that has other frames by now, not to another array", () => {
  const kept = stored(keep(run(looked)));
  const { bitmap, frames } = shown;
  const identity = { ...bitmap.identity, structure: "9x9 2" };
  const fewer = { ...shown, bitmap: { ...bitmap, identity, frames: 2 }, frames: frames.slice(0, 2) };
  const state = again(kept, fewer);
  expect([state.motion.mode, state.motion.before, state.frame]).toEqual(["back", true, 0]);
  expect(again(kept, drop()).motion).toEqual(AT_REST);
});

test("neither a question nor what was allowed comes back: light that flashes is asked about again", () => {
  const asked = run([
    ...looked,
    { type: "motion", motion: { asking: "At 7.5 a second …", allowed: ["falling_drop 0"] } },
  ]);
  const state = again(stored(keep(asked)));
  expect([state.motion.asking, state.motion.allowed]).toEqual([undefined, []]);
});

test("a page that kept nothing of it, or what is not understood, begins at rest", () => {
  const { motion: _, ...older } = keep(run(looked));
  expect(again(older).motion).toEqual(AT_REST);
  for (const none of [
    undefined,
    null,
    7,
    "loop",
    {},
    { mode: "sideways", fps: 0, before: 1 },
    { fps: Number.NaN },
    { fps: 1e9 },
  ])
    expect(motionFrom(none)).toEqual({});
});

describe("while frames run", () => {
  const playing = run([{ type: "playing", playing: true }], run(looked));

  test("a frame that passes is not kept, a speed that is tried is", () => {
    expect(keptOf(run([{ type: "frame", frame: 4 }], playing), playing)).toBeUndefined();
    const faster = run([{ type: "motion", motion: { fps: 20 } }], playing);
    expect(keptOf(faster, playing)?.motion?.fps).toBe(20);
  });

  test("the frame that they stop on is kept", () => {
    const ran = run([{ type: "frame", frame: 1 }], playing);
    expect(keptOf(run([{ type: "playing", playing: false }], ran), ran)?.frame).toBe(1);
  });
});
