/** Playing: which frame comes when, how fast, and when it is asked first. */

import { describe, expect, test } from "vitest";
import type { BitmapInfo } from "../../../shared/protocol/lsp.ts";
import {
  AT_REST,
  besides,
  differing,
  frameAfter,
  nextSpeed,
  parseSpeed,
  runOf,
  speedOf,
} from "../../../webview/motion.ts";
import { allowed, playedOn, playPressed, tried } from "../../../webview/playing.ts";
import { type Action, reduce, START, type State } from "../../../webview/state.ts";
import { drop, falling } from "../../support/pictures.ts";

const run = (actions: readonly Action[], from: State) => actions.reduce(reduce, from);
const played = (mode: "loop" | "back" | "once", first: number, once = false, frames = 4) =>
  Array.from({ length: 8 }, (_, steps) => frameAfter(mode, frames, first, steps, once)).map(({ frame, over }) =>
    over ? "over" : frame,
  );

describe("the frame after so many steps", () => {
  test.each([
    ["loop", 0, false, [0, 1, 2, 3, 0, 1, 2, 3]],
    ["loop", 2, false, [2, 3, 0, 1, 2, 3, 0, 1]],
    ["back", 0, false, [0, 1, 2, 3, 2, 1, 0, 1]],
    ["back", 2, false, [2, 3, 2, 1, 0, 1, 2, 3]],
    ["once", 1, false, [1, 2, 3, "over", "over", "over", "over", "over"]],
    // Where motion is to be reduced, each runs through once.
    ["loop", 0, true, [0, 1, 2, 3, "over", "over", "over", "over"]],
    ["back", 0, true, [0, 1, 2, 3, 2, 1, 0, "over"]],
  ] as const)("%s from %i, once %s", (mode, first, once, expected) => {
    expect(played(mode, first, once)).toEqual(expected);
  });

  test("two frames go there and back as they loop, and a late step ends on the last", () => {
    expect(played("back", 0, false, 2)).toEqual([0, 1, 0, 1, 0, 1, 0, 1]);
    expect(frameAfter("once", 4, 0, 99, false)).toEqual({ frame: 3, over: true });
    expect(runOf("back", 1)).toEqual([0]);
  });
});

test("neighbours go round only in a loop", () => {
  expect(besides(AT_REST, 3, 0)).toEqual({ before: 2, after: 1 });
  expect(besides(AT_REST, 3, 2)).toEqual({ before: 1, after: 0 });
  expect(besides({ mode: "once" }, 3, 0)).toEqual({ before: undefined, after: 1 });
  expect(besides({ mode: "back" }, 3, 2)).toEqual({ before: 1, after: undefined });
  expect(besides(AT_REST, 1, 0)).toEqual({ before: undefined, after: undefined });
});

test("differing pixels are counted", () => {
  expect(differing([1, 2, 3], [1, 0, 4])).toBe(2);
});

test("speeds are typed, stepped through, and those of the source unless tried out", () => {
  expect(["12", " 7.5 ", "7,5", "0", "-1", "fast", "1e3", "241", ""].map(parseSpeed)).toEqual([
    12,
    7.5,
    7.5,
    undefined,
    undefined,
    undefined,
    undefined,
    undefined,
    undefined,
  ]);
  expect([nextSpeed(20, 1), nextSpeed(20, -1), nextSpeed(13, 1), nextSpeed(120, 1), nextSpeed(1, -1)]).toEqual([
    24, 15, 15, 120, 1,
  ]);
  expect([speedOf(AT_REST, falling()), speedOf({ ...AT_REST, fps: 3 }, falling()), speedOf(AT_REST, drop())]).toEqual([
    20, 3, 10,
  ]);
});

describe("light that flashes", () => {
  /** Every second frame dark, the others at a level of a cap of 64. */
  const blinking = (level: number, fps: number, tint = "#ffb84d") => {
    const shown = falling({ fps, tint });
    const frames = shown.frames.map((f, i) => f.map(() => (i % 2) * level));
    return reduce(START, { type: "show", shown: { ...shown, frames } });
  };
  const asks = (state: State) => run(playPressed(state), state).motion.asking;

  test.each([
    [64, 20, "At 20 a second, light flashes 10 times within one second."],
    [64, 7, "At 7 a second, light flashes 3.5 times within one second."],
    [64, 6, undefined],
    // A tenth of what is allowed, which is shown as full light.
    [7, 20, "At 20 a second, light flashes 10 times within one second."],
    [6, 20, undefined],
  ])("level %i at %i a second", (level, fps, question) => {
    expect(asks(blinking(level, fps))).toBe(question);
  });

  test("red light is red", () => {
    expect(asks(blinking(6, 20, "#ff0000"))).toBe("At 20 a second, red light flashes 10 times within one second.");
  });

  test("is asked about once for each speed and way of playing", () => {
    let state = blinking(64, 20);
    state = run(playPressed(state), state);
    expect(state.playing).toBe(false);
    expect(playPressed(state)).toEqual([]);
    state = run(allowed(state), state);
    expect([state.playing, state.motion.asking]).toEqual([true, undefined]);
    state = run(playPressed(state), state);
    state = run(playPressed(state), state);
    expect(state.playing).toBe(true);
    state = run(tried(state, { fps: 24 }), state);
    expect([state.playing, state.motion.fps]).toEqual([false, 24]);
    expect(state.motion.asking).toContain("At 24 a second");
    state = run(tried(state, { fps: undefined }), state);
    expect([state.playing, state.motion.asking]).toEqual([false, undefined]);
    expect(run(playPressed(state), state).playing).toBe(true);
    expect(asks(run(tried(state, { mode: "back" }), state))).toBeDefined();
  });

  test("the question goes when the text gives another speed", () => {
    let state = blinking(64, 20);
    state = run(playPressed(state), state);
    const slower = falling({ fps: 5 }, { version: 2 });
    expect(run([{ type: "show", shown: { ...falling(), version: 2 } }], state).motion.asking).toBeDefined();
    expect(run([{ type: "show", shown: slower }], state).motion.asking).toBeUndefined();
  });

  test("is asked about when the text gives what plays another speed or other frames", () => {
    const slow = run(playPressed(blinking(64, 5)), blinking(64, 5));
    expect([slow.playing, playedOn(slow)]).toEqual([true, []]);
    const fast = blinking(64, 20).shown;
    if (!fast) throw new Error("nothing is shown");
    const shown = run([{ type: "show", shown: { ...fast, version: 2 } }], slow);
    expect(shown.playing).toBe(true);
    const asked = run(playedOn(shown), shown);
    expect([asked.playing, asked.motion.asking]).toEqual([
      false,
      "At 20 a second, light flashes 10 times within one second.",
    ]);
  });

  test("played once it may stay below what a loop exceeds", () => {
    const state = blinking(64, 20);
    expect(asks(run(tried(state, { mode: "once" }), state))).toBeUndefined();
  });
});

test("colours flash by their own light, red ones as red", () => {
  const { cap: _, limit: __, tint: ___, ...plain } = falling({ fps: 20 }).bitmap;
  const bitmap = { ...plain, format: "rgb565", kind: "rgb", most: 0xffff, full: 255, light: "srgb" } as const;
  const asked = (value: number, more: Partial<BitmapInfo> = {}) => {
    const shown = falling();
    const frames = shown.frames.map((f, i) => f.map(() => (i % 2) * value));
    const state = reduce(START, { type: "show", shown: { ...shown, bitmap: { ...bitmap, ...more }, frames } });
    return run(playPressed(state), state).motion.asking;
  };
  expect(asked(0x07e0)).toContain(", light flashes 10 times");
  expect(asked(0x8000)).toContain(", red light flashes 10 times");
  // Blue gives less than a tenth of the light of white.
  expect(asked(0x001f)).toBeUndefined();
  // As on the page: the cap is full light, and values are light or code values as `light=` says.
  expect(asked(0x001f, { light: "linear" })).toBeUndefined();
  expect(asked(0x2104)).toBeUndefined();
  expect(asked(0x2104, { cap: 33, limit: 33 })).toContain(", light flashes 10 times");
  expect(asked(0x2104, { light: "linear" })).toContain(", light flashes 10 times");
});
