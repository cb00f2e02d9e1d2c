import { expect, test } from "vitest";
import { type Action, reduce, START, type State } from "../../../webview/state.ts";
import type { GlyphSet } from "../../../webview/tools/text.ts";
import { layText } from "../../../webview/tools/text.ts";
import { digits, soft } from "../../support/glyphSets.ts";
import { drop } from "../../support/pictures.ts";

const setOf = ({ info, pictures }: typeof digits): GlyphSet => ({
  ...info,
  key: info.name,
  glyphs: pictures,
});

const seen = (text: string, set: GlyphSet, spacing: number) => {
  const { dots, advance } = layText(text, set, spacing);
  return Array.from({ length: set.height }, (_, y) =>
    Array.from({ length: advance }, (_, x) => {
      const share = dots.find((dot) => dot.x === x && dot.y === y)?.share ?? 0;
      return share === 1 ? "#" : share > 0 ? "+" : ".";
    }).join(""),
  );
};

test("glyphs stand side by side, and a space that the set lacks is a gap as wide as a glyph", () => {
  expect(seen("10 2", setOf(digits), 1)).toEqual([
    ".#..###.....##..",
    "##..#.#.......#.",
    ".#..#.#......#..",
    ".#..#.#.....#...",
    "###.###.....###.",
  ]);
});

test("each glyph has its own width where the set has widths, and its greys", () => {
  expect(seen("lol", setOf(soft), 2)).toEqual(["#..+#+..#..", "#..#.#..#..", "#..+#+..#.."]);
  expect(seen("ll", setOf(soft), 0)[0]).toBe("##");
});

test("characters that the set lacks are named once each, and those still to be asked for too", () => {
  const set = { ...setOf(digits), glyphs: new Map([...digits.pictures].slice(0, 1)) };
  const { missing, wanted, advance } = layText("0123👋33", set, 1);
  expect(missing).toEqual(["3", "👋"]);
  expect(wanted).toEqual([49, 50]);
  expect(advance).toBe(12);
});

const run = (actions: readonly Action[], from: State = START) => actions.reduce(reduce, from);
const type = (text: string): Action => ({ type: "typed", text });
const writing = run([
  { type: "show", shown: { ...drop(), frames: [new Array(81).fill(0)] } },
  { type: "tool", tool: "text" },
  { type: "sets", sets: [setOf(digits), setOf(soft)] },
]);
/** What the stroke under way lights, as rows of 9. */
const picture = ({ stroke }: State) =>
  Array.from({ length: 9 }, (_, y) =>
    Array.from({ length: 9 }, (_, x) => ((stroke?.marks.get(y * 9 + x) ?? 0) > 0 ? "#" : ".")).join(""),
  );

test("what is typed is on the picture at once, moves with the pixel cursor and is written as one stroke", () => {
  const typed = run([{ type: "move", to: { x: 1, y: 0 } }, type("1"), type("12")], writing);
  expect(picture(typed).slice(0, 5)).toEqual(["..#..##..", ".##....#.", "..#...#..", "..#..#...", ".###.###."]);
  const moved = run([{ type: "drag", to: { x: 0, y: 4 } }], typed);
  expect(picture(moved)[4]).toBe(".#..##...");
  // To let go of the pointer does not end it, Enter does.
  expect(run([{ type: "end", released: true }], moved).stroke?.text).toBe("12");
  const written = run([{ type: "end" }], moved);
  expect([written.queue.length, written.queue[0]?.parts[0]?.marks.size, written.stroke]).toEqual([1, 16, undefined]);
  expect(written.cursor).toEqual({ x: 8, y: 4 });
});

test("text follows level, strength, symmetry and the set while it is typed", () => {
  const typed = run([type("1")], writing);
  expect([...new Set(typed.stroke?.marks.values())]).toEqual([64]);
  const half = run(
    [
      { type: "level", level: 40 },
      { type: "options", options: { strength: 50 } },
    ],
    typed,
  );
  expect([...new Set(half.stroke?.marks.values())]).toEqual([20]);
  const both = run([{ type: "options", options: { symmetry: "columns" } }], typed);
  expect(picture(both)[4]).toBe("###...###");
  const other = run([{ type: "options", options: { set: "soft3x3" } }, type("o")], typed);
  // Half of the level where the glyph is half lit.
  expect([...(other.stroke?.marks.values() ?? [])]).toEqual([32, 64, 32, 64, 64, 32, 64, 32]);
});

test("a press moves the text there; Escape drops it; what the set lacks is told", () => {
  const typed = run([type("17")], writing);
  expect(typed.note).toBe("digits3x5 has no “7”");
  expect(run([type("1")], typed).note).toBe("");
  const moved = run([{ type: "begin", at: { x: 3, y: 2 } }], typed);
  expect([moved.stroke?.text, moved.stroke?.to]).toEqual(["17", { x: 3, y: 2 }]);
  expect(run([{ type: "drop" }], moved)).toMatchObject({ note: "stroke dropped", queue: [] });
});

test("text may run out of the picture on every side", () => {
  const typed = run([type("0"), { type: "drag", to: { x: -1, y: -2 } }], writing);
  expect(picture(typed).slice(0, 3)).toEqual([".#.......", ".#.......", "##......."]);
});

test("glyphs that come later are drawn when they are there; another tool takes the text away", () => {
  const bare = { ...setOf(digits), glyphs: new Map() };
  const typed = run([{ type: "sets", sets: [bare] }, type("1")], writing);
  expect(typed.stroke?.marks.size).toBe(0);
  const early = run([{ type: "end" }], typed);
  expect([early.stroke?.text, early.note, early.queue]).toEqual(["1", "the glyphs are still on their way", []]);
  const came = run([{ type: "glyphs", key: "digits3x5", glyphs: digits.pictures }], typed);
  expect(came.stroke?.marks.size).toBe(8);
  expect(run([{ type: "tool", tool: "draw" }], came).stroke).toBeUndefined();
});

test("a document that can’t be changed takes no text", () => {
  const readOnly = run([{ type: "show", shown: drop({ version: 2, readOnly: true }) }, type("1")], writing);
  expect([readOnly.stroke, readOnly.note]).toEqual([undefined, "Not painted: this document can’t be changed"]);
});
