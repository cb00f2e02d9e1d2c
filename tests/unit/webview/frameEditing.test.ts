/** Frames edited from the page: what is asked for, and what the page shows until and after the document has it. */
import { describe, expect, test } from "vitest";
import type { Shown } from "../../../shared/protocol/webview.ts";
import { added, movedTo, removed } from "../../../webview/frameEditing.ts";
import type { Key } from "../../../webview/keys/key.ts";
import { pageKey } from "../../../webview/keys/page.ts";
import { type Action, reduce, START, type State } from "../../../webview/state.ts";

import { restructured } from "../../support/page.ts";
import { drop, falling, mono } from "../../support/pictures.ts";

const run = (actions: readonly (Action | undefined)[], from: State = START) =>
  actions.reduce((state: State, action) => (action ? reduce(state, action) : state), from);
const show = (shown: Shown): Action => ({ type: "show", shown });
const at = (frame: number, shown = falling({ fps: 12 })) => run([show(shown), { type: "frame", frame }]);
const key = (name: string, shiftKey = false) => ({
  key: name,
  shiftKey,
  ctrlKey: false,
  metaKey: false,
  altKey: false,
});

describe("the order asked for", () => {
  test.each([
    ["a dark frame", added(at(1), "dark"), [0, 1, "dark", 2, 3, 4, 5], 2],
    ["a copy", added(at(5), "copy"), [0, 1, 2, 3, 4, 5, 5], 6],
    ["one fewer", removed(at(5)), [0, 1, 2, 3, 4], 4],
    ["the first one fewer", removed(at(0)), [1, 2, 3, 4, 5], 0],
    ["one moved on", movedTo(at(0), 1, 3), [0, 2, 3, 1, 4, 5], 3],
    ["one moved back", movedTo(at(0), 4, 0), [4, 0, 1, 2, 3, 5], 0],
    ["one moved past the end", movedTo(at(0), 4, 9), [0, 1, 2, 3, 5, 4], 5],
    ["a second frame", added(at(0, drop()), "dark"), [0, "dark"], 1],
  ] as const)("%s", (_, action, order, frame) => {
    expect(action).toMatchObject({ change: { kind: "frames", order }, frame });
  });

  test("nothing to delete or move", () => {
    expect(removed(at(0, drop()))).toBeUndefined();
    expect(movedTo(at(0), 2, 2)).toBeUndefined();
    expect(movedTo(at(0), 0, -1)).toBeUndefined();
  });
});

describe("until the document has it", () => {
  const change = { kind: "frames", order: [0, 1, "dark", 2, 3, 4, 5] } as const;
  const after = restructured(falling(), change);
  const asked = run([added(at(1), "dark")], at(1));

  test("the frame comes with the document, whichever of answer and document is first", () => {
    expect([asked.frame, asked.pending?.change]).toEqual([1, change]);
    const answer: Action = { type: "restructured", version: 2 };
    for (const order of [
      [answer, show(after)],
      [show(after), answer],
    ]) {
      const state = run(order, asked);
      expect([state.frame, state.pending, state.note]).toEqual([2, undefined, "dark frame added as 2 of 0–6"]);
    }
    expect(run([answer], asked).pending).toBeDefined();
  });

  test("nothing is painted, and nothing else asked for", () => {
    const painted = run([{ type: "begin", at: { x: 0, y: 0 } }, { type: "end" }], asked);
    expect([painted.queue, painted.note]).toEqual([[], "Not painted: the frames are being changed"]);
    expect(run([removed(asked)], asked).pending).toBe(asked.pending);
  });

  test("a refusal leaves all as it is", () => {
    const state = run([{ type: "notRestructured", reason: "a is a string" }], asked);
    expect([state.frame, state.pending, state.note]).toEqual([1, undefined, "Not changed: a is a string"]);
  });

  test("another bitmap that is shown meanwhile keeps its own frame", () => {
    const state = run([show(mono(8, 8)), { type: "restructured", version: 1 }], asked);
    expect([state.frame, state.pending, state.note]).toEqual([0, undefined, ""]);
  });

  test("the same array with other frames keeps frame, level and speed; another one does not", () => {
    const before = run(
      [
        { type: "level", level: 7 },
        { type: "motion", motion: { fps: 30 } },
      ],
      at(4),
    );
    const less = restructured(falling(), { kind: "frames", order: [0, 1, 2] });
    const undone = run([show(less)], before);
    expect([undone.frame, undone.level, undone.motion.fps]).toEqual([2, 7, 30]);
    const other = run([show(drop())], before);
    expect([other.frame, other.motion.fps]).toEqual([0, undefined]);
  });

  test("a document that can't be changed says so", () => {
    const fixed = at(0, falling({}, { readOnly: true }));
    expect(run([added(fixed, "dark")], fixed)).toMatchObject({ note: "Not changed: this document can’t be changed" });
    const away = run([{ type: "nothing", why: "half typed" }], at(0));
    expect(run([added(away, "dark")], away)).toMatchObject({ note: "Not changed: half typed" });
  });
});

describe("a set of arrays", () => {
  const set = (frame: number) =>
    at(frame, falling({ frameNames: ["digit_0", "digit_1", "digit_2", "digit_3", "blink 0", "blink 1"] } as object));

  test("words name the arrays", () => {
    const notes = [added(set(1), "dark"), added(set(1), "copy"), movedTo(set(1), 1, 2), movedTo(set(1), 3, 0)];
    expect(notes.map((one) => one?.note)).toEqual([
      "a dark one added behind digit_1; tables that list the arrays stay as they are",
      "digit_1 copied behind it; tables that list the arrays stay as they are",
      "digit_1 and digit_2 have changed places",
      "what digit_3 held is in digit_0 now; those between have moved by one",
    ]);
  });

  test("with an array more it stays the same set, and the new one is at hand", () => {
    const asked = run([added(set(5), "copy")], set(5));
    const shown = asked.shown;
    if (!shown) throw new Error("nothing is shown");
    const identity = { ...shown.bitmap.identity, structure: "seven" };
    const more = {
      ...shown,
      version: 2,
      bitmap: { ...shown.bitmap, identity, frames: 7 },
      frames: [...shown.frames, shown.frames[5] ?? []],
    };
    const state = run([{ type: "restructured", version: 2 }, show(more)], asked);
    expect([state.frame, state.note.slice(0, 7)]).toEqual([6, "blink 1"]);
  });
});

describe("keys", () => {
  const frameKeyActions = (press: Key, state: State) => {
    const deed = pageKey(press, state);
    return typeof deed === "object" ? deed : [];
  };
  const types = (name: string, shift = false, state = at(2)) =>
    frameKeyActions(key(name, shift), state).map((a) => (a.type === "restructure" ? a.note : a.type));
  test.each([
    ["n", false, ["dark frame added as 3 of 0–6"]],
    ["N", true, ["frame 2 copied to 3 of 0–6"]],
    ["Delete", true, ["frame 2 deleted, 5 are left"]],
    ["Delete", false, []],
    ["<", true, ["frame 2 moved to 1 of 0–5"]],
    [">", false, ["frame 2 moved to 3 of 0–5"]],
    ["k", false, ["playing"]],
    ["h", false, ["motion"]],
    ["c", false, ["motion"]],
    [",", false, ["motion"]],
    ["q", false, []],
  ] as const)("%s with Shift %s", (name, shift, expected) => {
    expect(types(name, shift)).toEqual(expected);
  });

  test("a stroke under way is ended first", () => {
    const painting = run([{ type: "begin", at: { x: 0, y: 0 } }], at(2));
    const after = run(frameKeyActions(key("n"), painting), painting);
    expect([after.stroke, after.queue.length, after.pending?.frame]).toEqual([undefined, 1, 3]);
  });

  test("with Ctrl, held down, or on one frame they do nothing that needs more", () => {
    expect(frameKeyActions({ ...key("n"), ctrlKey: true }, at(2))).toEqual([]);
    expect(frameKeyActions({ ...key("n"), repeat: true }, at(2))).toEqual([]);
    for (const name of ["k", "h", "c", ",", "<"]) expect(types(name, false, at(0, drop()))).toEqual([]);
  });
});
