import { expect, test } from "vitest";
import type { Shown } from "../../../shared/protocol/webview.ts";
import { changesOf, pictureOf } from "../../../webview/picture.ts";
import { type Action, reduce, START, type State } from "../../../webview/state.ts";
import { drop, falling, mono } from "../../support/pictures.ts";

const run = (actions: readonly Action[], from: State = START) => actions.reduce(reduce, from);
const show = (shown: Shown): Action => ({ type: "show", shown });
const dot = (x: number, y: number): Action[] => [{ type: "begin", at: { x, y } }, { type: "end" }];
const valueAt = (state: State, x: number, y: number) => pictureOf(state, state.frame)[y * 9 + x];
const stroke = (state: State, at = 0) => {
  const sent = state.queue[at];
  if (!sent) throw new Error(`there is no stroke ${at}`);
  return sent;
};

test("the level starts at the cap, else at full, and is kept only where the format has it", () => {
  expect(run([show(drop())]).level).toBe(64);
  expect(run([show(mono(8, 8))]).level).toBe(1);
  expect(run([show(drop()), { type: "level", level: 7 }, show(drop({ version: 2 }))]).level).toBe(7);
  expect(run([show(drop()), { type: "level", level: 7 }, show(falling())]).level).toBe(7);
  expect(run([show(drop()), { type: "level", level: 7 }, show(mono(8, 8))]).level).toBe(1);
  expect(run([show(mono(8, 8)), show(drop())]).level).toBe(64);
});

test("a stroke without a change is no stroke", () => {
  expect(run([show(drop()), ...dot(4, 2)]).queue).toEqual([]);
  expect(run([show(drop()), ...dot(0, 0)]).queue).toHaveLength(1);
});

test("a stroke waits for its own bitmap while another one is shown, and is not drawn on that", () => {
  const state = run([show(drop()), ...dot(0, 0), show(falling())]);
  expect(valueAt(state, 0, 0)).toBe(0);
  expect(stroke(state).identity.name).toBe("drop_icon");
  expect(changesOf(state, stroke(state))).toEqual([{ frame: 0, x: 0, y: 0, value: 64, before: 0 }]);
  const back = run([show(drop({ version: 2 }))], state);
  expect(valueAt(back, 0, 0)).toBe(64);
  expect(run([{ type: "answered", id: 1, version: 3 }], state).queue).toEqual([]);
});

test("a waiting stroke takes over the newest identity when arrays of its name come before it", () => {
  const shown = drop();
  const identity = { ...shown.bitmap.identity, ordinal: 1, siblings: 2 };
  const moved = { ...shown, version: 2, bitmap: { ...shown.bitmap, identity } };
  expect(stroke(run([show(shown), ...dot(0, 0), show(moved)])).identity).toEqual(identity);
  // The other one of two arrays of that name is another bitmap.
  const other = { ...moved, bitmap: { ...moved.bitmap, identity: { ...identity, ordinal: 0 } } };
  expect(stroke(run([show(moved), ...dot(0, 0), show(other)])).identity).toEqual(identity);
});

test("a stroke whose pixels the document has meanwhile asks for nothing", () => {
  const shown = drop();
  const pixels = [64, ...(shown.frames[0] ?? []).slice(1)];
  const state = run([show(shown), ...dot(0, 0), show({ ...shown, version: 2, frames: [pixels] })]);
  expect(changesOf(state, stroke(state))).toEqual([]);
});

test("another bitmap during a stroke drops it and says so; the same one keeps it", () => {
  const begun = run([show(drop()), { type: "begin", at: { x: 0, y: 0 } }]);
  expect(run([show(drop({ version: 2 }))], begun).stroke?.marks.size).toBe(1);
  const dropped = run([show(falling())], begun);
  expect([dropped.stroke, dropped.note]).toEqual([undefined, "stroke dropped: another bitmap is shown"]);
});

test("cursor and frame stay inside what is shown", () => {
  const state = run([show(falling()), { type: "frame", frame: 99 }, { type: "move", to: { x: 99, y: -1 } }]);
  expect([state.frame, state.cursor]).toEqual([5, { x: 8, y: 0 }]);
  const smaller = run([show(mono(4, 4))], state);
  expect([smaller.frame, smaller.cursor]).toEqual([0, { x: 3, y: 0 }]);
});

test("picking twice in a row gives back the tool before the first", () => {
  const pick: Action = { type: "tool", tool: "pick" };
  const state = run([show(drop()), { type: "tool", tool: "box" }, pick, pick, { type: "begin", at: { x: 4, y: 1 } }]);
  expect([state.tool, state.level]).toEqual(["box", 42]);
});
