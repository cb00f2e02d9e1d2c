/** The answers to the probe as the page keeps them: pure steps. */
import { describe, expect, test } from "vitest";
import { type Action, reduce, START, type State } from "../../../webview/state.ts";
import { foundInWords } from "../../../webview/wiring/probing.ts";
import { dropOn } from "../../support/pictures.ts";

const run = (actions: readonly Action[], from: State = START) => actions.reduce(reduce, from);
const wiring = { panel: "lantern", width: 9, height: 9, index: Array.from({ length: 81 }, (_, i) => i) };
const shown = { ...dropOn({}), wiring };
const began = run([
  { type: "show", shown },
  { type: "wiring", open: true },
  { type: "probe", step: "begin" },
]);

describe("the probe on the page", () => {
  test("asks first whether every pixel lights up, and takes it for granted", () => {
    expect(began.probing).toMatchObject({ pattern: 0, panel: "lantern" });
    expect(began.probing?.lit.size).toBe(81);
    expect(foundInWords(began.probing as NonNullable<State["probing"]>)).toBe("Nothing is known yet.");
  });

  test("lights and darkens single pixels, all or none", () => {
    const dark = run([{ type: "probe", step: "light", pixel: 7, lit: false }], began);
    expect(dark.probing?.lit.has(7)).toBe(false);
    expect(run([{ type: "probe", step: "light", pixel: 7, lit: true }], dark).probing?.lit.size).toBe(81);
    expect(run([{ type: "probe", step: "none" }], began).probing?.lit.size).toBe(0);
    expect(
      run(
        [
          { type: "probe", step: "none" },
          { type: "probe", step: "all" },
        ],
        began,
      ).probing?.lit.size,
    ).toBe(81);
  });

  test("goes on with an answer and back to it", () => {
    const next = run([{ type: "probe", step: "answer" }], began);
    expect(next.probing?.answers).toHaveLength(1);
    expect(next.probing?.pattern).toBeGreaterThan(0);
    expect(next.probing?.lit.size).toBe(0);
    const back = run([{ type: "probe", step: "back" }], next);
    expect(back.probing).toMatchObject({ pattern: 0, answers: [] });
    expect(back.probing?.lit.size).toBe(81);
    expect(run([{ type: "probe", step: "back" }], back)).toMatchObject({ probing: { pattern: 0 } });
  });

  test("goes on while strokes change the picture, and ends with its panel, its view or by its word", () => {
    const painted = { ...shown, version: shown.version + 1 };
    expect(run([{ type: "show", shown: painted }], began).probing).toBe(began.probing);
    const other = { ...painted, wiring: { ...wiring, panel: "shelf" } };
    expect(run([{ type: "show", shown: other }], began).probing).toBeUndefined();
    const larger = { ...painted, wiring: { ...wiring, width: 16 } };
    expect(run([{ type: "show", shown: larger }], began).probing).toBeUndefined();
    expect(run([{ type: "probe", step: "stop" }], began).probing).toBeUndefined();
    const closed = run([{ type: "wiring", open: false }], began);
    expect([closed.probing, closed.wiring]).toEqual([undefined, false]);
  });

  test("does not begin where no panel is", () => {
    const without = run([
      { type: "show", shown: dropOn({}) },
      { type: "probe", step: "begin" },
    ]);
    expect(without.probing).toBeUndefined();
    expect(run([{ type: "probe", step: "answer" }], without)).toBe(without);
  });
});
