/** Selecting, moving and changing what is selected, as the state has it. */
import { expect, test } from "vitest";
import { pictureOf } from "../../../webview/picture.ts";
import type { Change } from "../../../webview/selection/change.ts";
import { selectionWords } from "../../../webview/selection/selection.ts";
import { cropped, extended } from "../../../webview/selection/sizing.ts";
import { selectedByUser } from "../../../webview/selection/told.ts";
import { type Action, reduce, START, type State } from "../../../webview/state.ts";
import { drop, falling, mono, sky, wedge } from "../../support/pictures.ts";

const run = (actions: readonly Action[], from: State = START) => actions.reduce(reduce, from);
const show = (shown: ReturnType<typeof drop>): Action => ({ type: "show", shown });
const tool: Action = { type: "tool", tool: "select" };
const at = (x: number, y: number) => ({ x, y });
const dragged = (from: [number, number], ...to: [number, number][]): Action[] => [
  { type: "begin", at: at(...from) },
  ...to.map(([x, y]): Action => ({ type: "drag", to: at(x, y) })),
  { type: "end" },
];
const change = (wanted: Change): Action => ({ type: "change", change: wanted });
const picture = (state: State, frame = state.frame) => [...pictureOf(state, frame)];
/** The rows of the wedge (6×4, each pixel its index), as text. */
const rows = (state: State) => {
  const pixels = picture(state);
  return [0, 6, 12, 18].map((from) => pixels.slice(from, from + 6).join(" "));
};
const begun = (...actions: Action[]) => run([show(wedge()), tool, ...actions]);

test("a rectangle is drawn from corner to corner, also backwards and beyond the edge, and told in words", () => {
  const state = begun(...dragged([4, 3], [2, 1], [2, -5]));
  expect(state.selection).toMatchObject({ x: 2, y: 0, width: 3, height: 4, count: 12 });
  expect(state.note).toBe("3×4 pixels selected at column 2, row 0");
  expect(state.queue).toEqual([]);
  expect(selectionWords({ x: 2, y: 1, width: 4, height: 3, count: 12 })).toBe("4×3 pixels selected at column 2, row 1");
  expect(selectionWords({ x: 0, y: 0, width: 4, height: 3, count: 2 })).toBe("2 pixels selected at column 0, row 0");
});

test("a press without a move lets the selection go; Escape while it is drawn gives back the one before", () => {
  const selected = begun(...dragged([0, 0], [1, 1]));
  expect(run(dragged([4, 3]), selected).selection).toBeUndefined();
  const dropped = run([{ type: "begin", at: at(3, 3) }, { type: "drag", to: at(5, 3) }, { type: "drop" }], selected);
  expect([dropped.selection, dropped.grip]).toEqual([selected.selection, undefined]);
});

test("Shift and arrows select from where the cursor was; a step without it begins anew", () => {
  const steps: Action[] = [
    { type: "move", to: at(1, 1) },
    { type: "selectTo", to: at(2, 1) },
    { type: "selectTo", to: at(2, 2) },
  ];
  const state = run([show(wedge()), ...steps]);
  expect(state.selection).toMatchObject({ x: 1, y: 1, width: 2, height: 2 });
  const next = run(
    [
      { type: "move", to: at(5, 3) },
      { type: "selectTo", to: at(4, 3) },
    ],
    state,
  );
  expect(next.selection).toMatchObject({ x: 4, y: 3, width: 2, height: 1 });
});

test("all, and all pixels of one level", () => {
  expect(begun({ type: "selectAll" }).selection?.count).toBe(24);
  const state = run([show(drop()), { type: "move", to: at(4, 0) }, { type: "selectLevel" }]);
  expect([...(state.selection?.mask.entries() ?? [])].filter(([, on]) => on === 1).map(([i]) => i)).toEqual([
    4, 51, 60, 75, 77,
  ]);
  expect(state.note).toBe("5 pixels of level 15 selected");
});

test("the selection stays when frames change, and goes with another bitmap or size", () => {
  const state = run([show(falling()), tool, ...dragged([0, 0], [1, 1]), { type: "frame", frame: 3 }]);
  expect(state.selection?.count).toBe(4);
  expect(run([show(falling({}, { version: 2 }))], state).selection?.count).toBe(4);
  const shorter = falling({}, { version: 2 });
  const { identity } = shorter.bitmap;
  const changed = { ...shorter, bitmap: { ...shorter.bitmap, identity: { ...identity, structure: "shorter" } } };
  expect(run([show({ ...changed, frames: changed.frames.slice(1) })], state).selection?.count).toBe(4);
  const wider = { ...changed, bitmap: { ...changed.bitmap, width: 10 } };
  expect(run([show(wider)], state).selection).toBeUndefined();
  expect(run([show(mono(8, 8))], state).selection).toBeUndefined();
});

test.each<[string, Change, string[]]>([
  ["turn right", { kind: "turn", turn: "right" }, ["0 1 2 3 4 5", "6 13 7 9 10 11", "12 14 8 15 16 17"]],
  ["turn left", { kind: "turn", turn: "left" }, ["0 1 2 3 4 5", "6 8 14 9 10 11", "12 7 13 15 16 17"]],
  ["mirror columns", { kind: "mirror", what: "columns" }, ["0 1 2 3 4 5", "6 8 7 9 10 11", "12 14 13 15 16 17"]],
  ["mirror rows", { kind: "mirror", what: "rows" }, ["0 1 2 3 4 5", "6 13 14 9 10 11", "12 7 8 15 16 17"]],
  ["shift right", { kind: "shift", by: at(1, 0) }, ["0 1 2 3 4 5", "6 8 7 9 10 11", "12 14 13 15 16 17"]],
  ["invert", { kind: "invert" }, ["0 1 2 3 4 5", "6 16 15 9 10 11", "12 10 9 15 16 17"]],
  ["erase", { kind: "erase" }, ["0 1 2 3 4 5", "6 0 0 9 10 11", "12 0 0 15 16 17"]],
  ["fill", { kind: "fill" }, ["0 1 2 3 4 5", "6 20 20 9 10 11", "12 20 20 15 16 17"]],
])("%s is one stroke and leaves all else alone", (_, wanted, expected) => {
  const state = begun({ type: "level", level: 20 }, ...dragged([1, 1], [2, 2]), change(wanted));
  expect(rows(state)).toEqual([...expected, "18 19 20 21 22 23"]);
  expect(state.queue).toHaveLength(1);
  expect(state.selection).toMatchObject({ x: 1, y: 1, width: 2, height: 2 });
});

test("what is not square turns about its middle, and what falls outside is told", () => {
  const inside = begun(...dragged([1, 1], [3, 1]), change({ kind: "turn", turn: "right" }));
  expect(rows(inside)).toEqual(["0 1 7 3 4 5", "6 0 8 0 10 11", "12 13 9 15 16 17", "18 19 20 21 22 23"]);
  expect(inside.selection).toMatchObject({ x: 2, y: 0, width: 1, height: 3 });
  expect(inside.note).toBe("turned right; 2 lit pixels beside it are covered");
  const edge = begun(...dragged([1, 0], [3, 0]), change({ kind: "turn", turn: "right" }));
  expect(edge.note).toBe(
    "turned right; 1 lit pixel beside it is covered; 1 pixel that was lit fell outside: undo brings it back",
  );
  const whole = begun(change({ kind: "turn", turn: "left" }));
  expect(whole.note).toBe("turned left; 7 pixels that were lit fell outside: undo brings them back");
});

test("with the tool in hand and nothing selected it is the whole frame, in all frames if wanted, as one stroke", () => {
  const shown = falling();
  const shift: Change = { kind: "shift", by: at(0, 1) };
  const one = run([show(shown), tool, change(shift)]);
  expect(picture(one, 1)).toEqual(shown.frames[1]);
  expect(picture(one, 0)).toEqual([...(shown.frames[0] ?? []).slice(72), ...(shown.frames[0] ?? []).slice(0, 72)]);
  const all = run([show(shown), tool, { type: "allFrames", on: true }, change(shift)]);
  expect(all.queue).toHaveLength(1);
  for (const [frame, pixels] of shown.frames.entries())
    expect(picture(all, frame)).toEqual([...pixels.slice(72), ...pixels.slice(0, 72)]);
});

test("dragging inside the selection moves its pixels; what lies under them is kept until release", () => {
  const held = begun(...dragged([0, 0], [1, 0]), { type: "begin", at: at(1, 0) }, { type: "drag", to: at(3, 2) });
  expect(rows(held)).toEqual(["0 0 2 3 4 5", "6 7 8 9 10 11", "12 13 0 1 16 17", "18 19 20 21 22 23"]);
  const over = run([{ type: "drag", to: at(3, 3) }], held);
  expect(rows(over)).toEqual(["0 0 2 3 4 5", "6 7 8 9 10 11", "12 13 14 15 16 17", "18 19 0 1 22 23"]);
  expect(over.queue).toEqual([]);
  const done = run([{ type: "end" }], over);
  expect(rows(done)).toEqual(rows(over));
  expect([done.queue.length, done.selection?.x, done.selection?.y]).toEqual([1, 2, 3]);
  const dropped = run([{ type: "letGo" }], over);
  expect([rows(dropped), dropped.queue, dropped.selection?.count]).toEqual([rows(begun()), [], 2]);
});

test("a copy stays where it was, and what is put down beyond the edge is told", () => {
  const held = begun(
    ...dragged([4, 3], [5, 3]),
    { type: "begin", at: at(5, 3), copy: true },
    { type: "drag", to: at(5, 1) },
  );
  expect(rows(held)).toEqual(["0 1 2 3 4 5", "6 7 8 9 22 23", "12 13 14 15 16 17", "18 19 20 21 22 23"]);
  const out = run([{ type: "drag", to: at(9, 1) }, { type: "end" }], held);
  expect(rows(out)[1]).toBe("6 7 8 9 10 22");
  expect(out.note).toContain("1 pixel that was lit fell outside");
});

test("by keyboard: taken up, moved with arrows, put down", () => {
  const up = begun(...dragged([0, 0], [1, 0]), { type: "lift", copy: false });
  const moved = run(
    [
      { type: "floatBy", by: at(0, 1) },
      { type: "floatBy", by: at(0, 1) },
    ],
    up,
  );
  expect(moved.note).toBe("2×1 pixels at column 0, row 2");
  const down = run([{ type: "putDown" }], moved);
  expect(rows(down)).toEqual(["0 0 2 3 4 5", "6 7 8 9 10 11", "0 1 14 15 16 17", "18 19 20 21 22 23"]);
  expect(down.queue).toHaveLength(1);
});

const DOWN: Action = { type: "floatBy", by: at(0, 1) };
const piece = { width: 2, height: 1, pixels: Uint32Array.of(9, 8), mask: Uint8Array.of(1, 1) };

test("what is pasted floats at the selection, goes along to other frames, and is written by a press outside of it", () => {
  const shown = falling();
  const paste: Action = { type: "paste", piece, note: "pasted" };
  const state = run([show(shown), tool, ...dragged([3, 7], [4, 8]), paste, { type: "frame", frame: 2 }]);
  expect([state.float?.at, state.float?.frame, state.queue.length]).toEqual([at(3, 7), 2, 0]);
  expect(picture(state)[66]).toBe(9);
  const written = run([{ type: "begin", at: at(0, 0) }, { type: "end" }], state);
  expect([written.float, written.queue.length, written.cursor, written.selection]).toEqual([
    undefined,
    1,
    at(0, 0),
    undefined,
  ]);
  expect(picture(written, 2)[66]).toBe(9);
  const dropped = run([{ type: "letGo" }], state);
  expect([picture(dropped, 2), dropped.queue, dropped.selection?.x]).toEqual([shown.frames[2], [], 3]);
});

test("another tool writes what floats, another bitmap drops it and says so", () => {
  const state = run([show(drop()), { type: "paste", piece, note: "pasted" }]);
  expect(run([{ type: "tool", tool: "draw" }], state).queue).toHaveLength(1);
  const other = run([show(falling())], state);
  expect([other.float, other.queue, other.note]).toEqual([
    undefined,
    [],
    "What floated was dropped: another bitmap is shown",
  ]);
});

test("frames that are changed write what floats before, and undoing that later drops what floats then", () => {
  const shown = falling();
  const floats = run([show(shown), tool, ...dragged([3, 2], [5, 4]), { type: "lift", copy: false }, DOWN]);
  const order: Action = { type: "restructure", change: { kind: "frames", order: [1, 0] }, frame: 1, note: "" };
  const pending = run([order], floats);
  expect([pending.float, pending.queue.length, pending.pending !== undefined]).toEqual([undefined, 1, true]);
  const { identity } = shown.bitmap;
  const other = { ...shown, version: 9, bitmap: { ...shown.bitmap, identity: { ...identity, structure: "other" } } };
  const undone = run([show(other)], floats);
  expect([undone.float, undone.queue, undone.selection?.count, undone.note]).toEqual([
    undefined,
    [],
    9,
    "move dropped",
  ]);
});

test("cropping and extending ask for another size in all frames", () => {
  const state = begun(...dragged([1, 1], [3, 3]));
  expect(cropped(state)).toMatchObject({ change: { kind: "size", left: -1, top: -1, right: -2, bottom: 0 } });
  expect(cropped(begun())).toBeUndefined();
  expect(cropped(begun({ type: "selectAll" }))).toBeUndefined();
  const sides = ([x, y]: readonly [number, number]) => extended(state, { x, y })?.change;
  expect(sides([-1, 0])).toEqual({ kind: "size", left: 1, top: 0, right: 0, bottom: 0 });
  expect(sides([0, 1])).toEqual({ kind: "size", left: 0, top: 0, right: 0, bottom: 1 });
  expect(extended(state, { x: 1, y: 0 })?.note).toBe("extended to 7×4");
});

test("pasted pixels are turned where they float", () => {
  const state = run([show(drop()), { type: "paste", piece, note: "pasted" }, change({ kind: "turn", turn: "right" })]);
  expect([state.float?.piece.width, state.float?.piece.height, state.queue.length]).toEqual([1, 2, 0]);
  expect([picture(state)[0], picture(state)[9]]).toEqual([9, 8]);
});

test("other tools paint only what is selected, and say so where that is nothing", () => {
  const state = begun(...dragged([1, 0], [2, 3]), { type: "tool", tool: "draw" }, { type: "level", level: 23 });
  expect(rows(run(dragged([0, 1], [5, 1]), state))[1]).toBe("6 23 23 9 10 11");
  const outside = run(dragged([4, 0], [5, 0]), state);
  expect([outside.queue, outside.note]).toEqual([[], "Not painted: it is not selected. Escape lets the selection go"]);
});

test("in a document that can't be changed pixels are selected, not moved, changed or pasted", () => {
  const state = run([
    show(wedge()),
    show({ ...wedge(), version: 2, readOnly: true }),
    tool,
    ...dragged([0, 0], [2, 2]),
  ]);
  expect(state.selection?.count).toBe(9);
  for (const action of [
    change({ kind: "invert" }),
    { type: "lift", copy: true } as const,
    { type: "paste", piece, note: "" } as const,
    { type: "begin", at: at(0, 0) } as const,
  ]) {
    const next = run([action], state);
    expect([next.queue, next.float, next.note]).toEqual([[], undefined, "Not painted: this document can’t be changed"]);
  }
});

test("the text is told of a selection once it stands, and of none after it is let go; not of its own", () => {
  const told = (before: State, action: Action) => selectedByUser(action, before, reduce(before, action));
  const drawing = begun({ type: "begin", at: at(0, 0) }, { type: "drag", to: at(1, 1) });
  expect(told(drawing, { type: "end" })).toEqual([0, 1, 6, 7]);
  const state = run([{ type: "end" }], drawing);
  expect(told(state, { type: "move", to: at(3, 3) })).toBeUndefined();
  expect(told(state, { type: "letGo" })).toEqual([]);
  expect(told(state, { type: "selectText", pixels: [3, 4] })).toBeUndefined();
  const byText = run([{ type: "selectText", pixels: [3, 4] }], state);
  expect(byText.selection).toMatchObject({ x: 3, y: 0, width: 2, height: 1 });
  expect(run([{ type: "selectText", pixels: [] }], byText).selection).toBeUndefined();
  expect(run([{ type: "selectText", pixels: [] }], state).selection?.count).toBe(4);
});

test("values are said as everywhere else: colours as colours, one bit as lit or a level of 0 or 1", () => {
  const blue = run([show(sky(4, 4, "rgb565")), tool, { type: "level", level: 0x001f }, { type: "selectAll" }]);
  expect(run([change({ kind: "fill" })], blue).note).toBe("filled with #0000ff");
  const all = run([change({ kind: "fill" }), { type: "selectLevel" }], blue);
  expect(all.note).toBe("16 pixels of #0000ff selected");
  const dots = run([show(mono(4, 4)), tool, { type: "level", level: 1 }, change({ kind: "fill" })]);
  expect(dots.note).toBe("filled with lit");
  expect(run([{ type: "selectLevel" }], dots).note).toBe("16 pixels of level 1 selected");
});

test("exchanging values puts down what floats first: it is not taken for what lies under it", () => {
  // A copy of value 7 (column 1, row 1) floats over value 0.
  const floating = begun(
    ...dragged([1, 1], [1, 1], [2, 1], [1, 1]),
    { type: "lift", copy: true },
    { type: "floatBy", by: at(-1, -1) },
    { type: "level", level: 9 },
    { type: "replacing", value: 7 },
  );
  const after = run([{ type: "replace", frames: "one" }], floating);
  expect(rows(after)[0]).toBe("9 1 2 3 4 5");
  expect(rows(after)[1]).toBe("6 9 8 9 10 11");
  expect([after.float, after.queue.length]).toEqual([undefined, 2]);
  const none = run(
    [
      { type: "replacing", value: 100 },
      { type: "replace", frames: "one" },
    ],
    floating,
  );
  expect([none.float !== undefined, none.queue.length, none.note]).toEqual([true, 0, "Nothing to replace"]);
});
