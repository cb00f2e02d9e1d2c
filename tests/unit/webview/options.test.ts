import { expect, test } from "vitest";
import { pageKey } from "../../../webview/keys/page.ts";
import { type Action, reduce, START, type State } from "../../../webview/state.ts";
import { nextOf, optionsFrom, START_OPTIONS } from "../../../webview/tools/options.ts";
import { drop } from "../../support/pictures.ts";

const run = (actions: readonly Action[], from: State = START) => actions.reduce(reduce, from);

test("options that were kept come back as far as they are understood", () => {
  expect(optionsFrom(undefined)).toEqual(START_OPTIONS);
  expect(optionsFrom("nothing")).toEqual(START_OPTIONS);
  expect(optionsFrom({ ...START_OPTIONS, width: 7, symmetry: "both", set: "font 0 file:///a.h" })).toMatchObject({
    width: 7,
    symmetry: "both",
    set: "font 0 file:///a.h",
  });
  const odd = { width: 9000, strength: "50", symmetry: "toString", mode: "burn", spacing: Number.NaN, more: 1 };
  expect(optionsFrom(odd)).toEqual({ ...START_OPTIONS, width: 64 });
});

test("keys: W and Shift+W for the width within its bounds, M round all symmetries", () => {
  const key = { ctrlKey: false, metaKey: false, altKey: false };
  const press = (state: State, ...keys: string[]) =>
    keys.reduce((now, one) => {
      const deed = pageKey({ ...key, key: one, shiftKey: one === "W" }, now);
      return typeof deed === "object" ? run(deed, now) : now;
    }, state);
  const begun = run([{ type: "show", shown: drop() }]);
  expect(press(begun, "w", "w").options.width).toBe(3);
  expect(press(begun, "w", "w", "W", "W", "W", "W").options.width).toBe(1);
  expect(["m", "mm", "mmm", "mmmm"].map((keys) => press(begun, ...keys).options.symmetry)).toEqual([
    "columns",
    "rows",
    "both",
    "off",
  ]);
  expect(press(begun, "o").tool).toBe("oval");
  expect(press(begun, "g").tool).toBe("gradient");
  expect(press(begun, "t").tool).toBe("text");
  expect(nextOf("filled", "filled")).toBe("outline");
  // What a key has changed is told.
  expect([press(begun, "w", "w").note, press(begun, "m").note]).toEqual(["width 3", "symmetry columns"]);
});

test("a shape under way follows a change of its options and of the level; what is drawn bit by bit does not", () => {
  const at = (x: number, y: number) => ({ x, y });
  const box = run([
    { type: "show", shown: drop() },
    { type: "tool", tool: "box" },
    { type: "begin", at: at(0, 0) },
    { type: "drag", to: at(3, 3) },
  ]);
  expect(box.stroke?.marks.size).toBe(12);
  const filled = run(
    [
      { type: "options", options: { filled: "filled" } },
      { type: "level", level: 7 },
    ],
    box,
  );
  expect([filled.stroke?.marks.size, filled.stroke?.marks.get(10)]).toEqual([16, 7]);
  const drawn = run(
    [
      { type: "tool", tool: "draw" },
      { type: "begin", at: at(0, 0) },
    ],
    box,
  );
  expect(run([{ type: "level", level: 7 }], drawn).stroke?.marks.get(0)).toBe(64);
});

test("a gradient, strength and steps are refused for indices of a palette, in words", () => {
  const { cap: _, ...bitmap } = drop().bitmap;
  const shown = { ...drop(), bitmap: { ...bitmap, kind: "palette", format: "palette8", full: 255 } as const };
  const begin: Action = { type: "begin", at: { x: 0, y: 0 } };
  const palette = run([{ type: "show", shown }]);
  const refused =
    "Not painted: the numbers of palette8 are places in a palette, with nothing in between: use full strength";
  for (const before of [
    [{ type: "tool", tool: "gradient" }],
    [{ type: "options", options: { strength: 50 } }],
    [{ type: "options", options: { mode: "lighten" } }],
  ] satisfies Action[][]) {
    const state = run([...before, begin], palette);
    expect([state.stroke, state.note]).toEqual([undefined, refused]);
  }
  // Erase has no mode, so that one does not stand in its way.
  const erasing: Action[] = [
    { type: "tool", tool: "erase" },
    { type: "options", options: { mode: "lighten" } },
  ];
  expect(run([...erasing, begin], palette).stroke?.marks.get(0)).toBe(0);
  expect(run([begin], palette).stroke?.marks.size).toBe(1);
});
