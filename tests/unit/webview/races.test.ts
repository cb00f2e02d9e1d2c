/** What is on its way while something else is shown or asked for: it comes to the bitmap that was meant, or nowhere. */
import { describe, expect, test } from "vitest";
import type { Rpc } from "../../../shared/protocol/rpc.ts";
import type { Shown, ToHost } from "../../../shared/protocol/webview.ts";
import { added, movedTo } from "../../../webview/frameEditing.ts";
import { changesOf, pictureOf } from "../../../webview/picture.ts";
import { restructurer } from "../../../webview/restructure.ts";
import { makeClipboard } from "../../../webview/selection/clipboard.ts";
import { type Action, reduce, START, type State } from "../../../webview/state.ts";
import { restructured } from "../../support/page.ts";
import { drop, falling, mono } from "../../support/pictures.ts";

const run = (actions: readonly (Action | undefined)[], from: State = START) =>
  actions.reduce((state: State, action) => (action ? reduce(state, action) : state), from);
const show = (shown: Shown): Action => ({ type: "show", shown });
const begin = (x: number, y: number): Action => ({ type: "begin", at: { x, y } });
const dot = (x: number, y: number): Action[] => [begin(x, y), { type: "end" }];

/** The extension: what is asked, and answers as they are given. */
function extension() {
  const asked: [string, unknown][] = [];
  const answers: ((result: unknown) => void)[] = [];
  const call = (method: string, params: unknown) => {
    asked.push([method, params]);
    return new Promise((resolve) => answers.push(resolve));
  };
  return { asked, answers, rpc: { call } as unknown as Rpc<ToHost> };
}

test("a stroke that waits while a wider bitmap is shown keeps its own pixels", () => {
  const state = run([show(drop()), ...dot(3, 2), show(mono(32, 8))]);
  const [sent] = state.queue;
  expect(sent && changesOf(state, sent)).toEqual([{ frame: 0, x: 3, y: 2, value: 64, before: 26 }]);
});

describe("frames", () => {
  test("are changed in the array that was meant, whatever is shown when it is asked for", () => {
    const { asked, rpc } = extension();
    const ask = restructurer(rpc, () => undefined);
    const waiting = run([show(falling()), ...dot(0, 0)]);
    const wanted = run([added(waiting, "dark")], waiting);
    ask(wanted);
    expect(asked).toEqual([]);
    ask(run([show(mono(8, 8)), { type: "answered", id: 1, version: 2 }], wanted));
    expect(asked).toMatchObject([["restructure", { identity: falling().bitmap.identity }]]);
  });

  test("are asked for once, also where the document is shown before the answer", () => {
    const { asked, rpc } = extension();
    const ask = restructurer(rpc, () => undefined);
    const before = run([show(falling())]);
    const wanted = run([added(before, "dark")], before);
    ask(wanted);
    ask(run([show({ ...falling(), version: 2 })], wanted));
    expect(asked).toHaveLength(1);
  });

  test("nothing is replaced or typed until they have changed, as it might come to another frame", () => {
    const before = run([show(falling())]);
    const asked = run([movedTo(before, 0, 2)], before);
    const replaced = run(
      [
        { type: "replacing", value: 0 },
        { type: "replace", frames: "all" },
      ],
      asked,
    );
    expect([replaced.queue, replaced.note]).toEqual([[], "Not painted: the frames are being changed"]);
    const typed = run(
      [
        { type: "tool", tool: "text" },
        { type: "typed", text: "A" },
      ],
      asked,
    );
    expect([typed.stroke, typed.note]).toEqual([undefined, "Not painted: the frames are being changed"]);
  });

  test.each<[string, Action]>([
    ["moved on the strip", { type: "restructure", change: { kind: "frames", order: [1, 0] }, frame: 0, note: "" }],
    ["of another speed", { type: "restructure", change: { kind: "speed", fps: 9 }, frame: 0, note: "" }],
  ])("%s wait for the stroke under way", (_, action) => {
    const after = run([show(falling()), begin(0, 0), action]);
    expect([after.stroke, after.queue.length, after.pending !== undefined]).toEqual([undefined, 1, true]);
  });

  test("wait for words whose glyphs are on their way, and say so", () => {
    const glyphs = { name: "small", width: 3, height: 5, full: 1, characters: [65], glyphs: new Map(), key: "small" };
    const typed = run([
      show(falling()),
      { type: "tool", tool: "text" },
      { type: "sets", sets: [glyphs] },
      { type: "typed", text: "A" },
    ]);
    const after = run([added(typed, "dark")], typed);
    expect([after.stroke?.text, after.pending, after.note]).toEqual([
      "A",
      undefined,
      "the glyphs are still on their way",
    ]);
  });

  test("the note of a change is not said of another array of that name", () => {
    const twice = (ordinal: number): Shown => {
      const shown = falling();
      return { ...shown, bitmap: { ...shown.bitmap, identity: { ...shown.bitmap.identity, ordinal, siblings: 2 } } };
    };
    const before = run([show(twice(0))]);
    const asked = run([added(before, "dark")], before);
    const other = restructured(twice(1), { kind: "speed", fps: 9 });
    const after = run([show(other), { type: "restructured", version: 2 }], asked);
    expect([after.frame, after.pending, after.note]).toEqual([0, undefined, ""]);
  });
});

test("what is cut is not erased from another bitmap that is shown by then", async () => {
  const { asked, answers, rpc } = extension();
  let state = run([show(drop()), { type: "tool", tool: "select" }]);
  const dispatch = (action: Action) => {
    state = reduce(state, action);
  };
  const clipboard = makeClipboard(rpc, dispatch, () => state);
  clipboard.copy(true);
  expect(asked[0]?.[0]).toBe("copied");
  dispatch(show(falling()));
  answers[0]?.({ text: "…" });
  await Promise.resolve();
  answers[1]?.({});
  await new Promise((resolve) => setImmediate(resolve));
  answers[1]?.({});
  await new Promise((resolve) => setImmediate(resolve));
  expect([asked[1]?.[0], state.note]).toEqual(["toClipboard", "9×9 pixels cut, as an array in C"]);
  expect(state.queue).toEqual([]);
  expect(pictureOf(state, 0)).toEqual(Uint32Array.from(falling().frames[0] ?? []));
});
