/** The table of keys: what the page does by it is what it lists, and no key means two things. */
import { describe, expect, test } from "vitest";
import { keyAction } from "../../../webview/keys/grid.ts";
import type { Key, KeyRow } from "../../../webview/keys/key.ts";
import { namesOf } from "../../../webview/keys/key.ts";
import { KEY_GROUPS, pageKey } from "../../../webview/keys/page.ts";
import { type Action, reduce, START, type State } from "../../../webview/state.ts";
import { drop, falling } from "../../support/pictures.ts";

const run = (actions: readonly Action[], from: State = START) => actions.reduce(reduce, from);
const rows = KEY_GROUPS.flatMap((group) => group.rows);
const ownOf = ({ own }: KeyRow) => own?.keys.map((key) => ({ on: own.on, key })) ?? [];

/** A press as the browser tells it: capitals with Shift. */
function press(name: string): Key {
  const [, ctrl, shift, key = ""] = /^(Ctrl\+)?(Shift\+)?(.+)$/s.exec(name) ?? [];
  const shiftKey = shift !== undefined;
  const typed = shiftKey && key.length === 1 ? key.toUpperCase() : key;
  return { key: typed, ctrlKey: ctrl !== undefined, shiftKey, metaKey: false, altKey: false };
}

/** States in which every key has something to do. */
const moving = run([
  { type: "show", shown: falling() },
  { type: "frame", frame: 2 },
]);
const selecting = run([{ type: "tool", tool: "select" }, { type: "selectAll" }], moving);
const still = run([{ type: "show", shown: drop() }]);
const wired = run([{ type: "show", shown: { ...drop(), wiring: { panel: "lantern", width: 9, height: 9 } } }]);
const STATES = [moving, selecting, still, wired];

describe("the list", () => {
  test("no key is listed twice", () => {
    const shown = rows.map((row) => row.shown);
    expect(shown).toEqual([...new Set(shown)]);
    expect(rows.filter((row) => !row.page && !row.own).map((row) => row.shown)).toEqual([]);
  });

  test("no key means two things: on the page, its grid and the clipboard; on the strip; while text is typed", () => {
    const page = rows.flatMap((row) => Object.keys(row.page ?? {}));
    const own = rows.flatMap(ownOf);
    const on = (...parts: string[]) => own.filter((one) => parts.includes(one.on)).map((one) => one.key);
    for (const names of [[...page, ...on("grid", "clipboard")], on("strip"), on("motion"), on("text")])
      expect(names.filter((name, i) => names.indexOf(name) !== i)).toEqual([]);
  });

  test("the keys are those that we meant", () => {
    const page = rows.flatMap((row) => Object.keys(row.page ?? {})).join(" ");
    expect(page).toBe(
      "Escape w Shift+w m d e l b o f g t s p [ ] # x Ctrl+a v r Shift+r u Shift+u i Delete Backspace " +
        "j n Shift+n Shift+Delete Shift+Backspace < > k , . h c a Shift+a y 0 + = - −",
    );
  });
});

describe("each key that is listed", () => {
  test.each(rows.flatMap(({ page = {} }) => Object.keys(page)))("%s does something somewhere on the page", (name) => {
    const done = STATES.map((state) => pageKey(press(name), state)).filter((deed) => deed !== undefined);
    expect(done.length).toBeGreaterThan(0);
    expect(STATES.flatMap((state) => keyAction(press(name), state))).toEqual([]);
  });

  test.each(
    rows
      .flatMap(ownOf)
      .filter((one) => one.on === "grid")
      .map((one) => [one.key]),
  )("“%s” does something on the grid, and nothing else on the page", (name) => {
    expect(STATES.flatMap((state) => keyAction(press(name), state)).length).toBeGreaterThan(0);
    expect(STATES.map((state) => pageKey(press(name), state)).filter((deed) => deed !== undefined)).toEqual([]);
  });
});

describe("a press", () => {
  const key = press("n");
  test.each<[string, Partial<Key>, string[]]>([
    ["a letter", { key: "n" }, ["n"]],
    ["a capital with Shift", { key: "N", shiftKey: true }, ["Shift+n", "n"]],
    ["a capital without Shift: caps lock is on", { key: "N" }, ["n"]],
    ["Cmd is Ctrl", { key: "a", metaKey: true }, ["Ctrl+a"]],
    ["Ctrl and Shift are the editor's", { key: "A", ctrlKey: true, shiftKey: true }, []],
    ["a sign that Shift types", { key: "<", shiftKey: true }, ["Shift+<", "<"]],
    ["a sign that Alt types", { key: "[", altKey: true }, ["["]],
    ["a letter with Alt is the editor's", { key: "n", altKey: true }, []],
  ])("%s", (_, more, names) => {
    expect(namesOf({ ...key, ...more })).toEqual(names);
  });

  test("the key of a tool chooses it, with Shift too", () => {
    expect(pageKey(press("Shift+d"), still)).toEqual([{ type: "tool", tool: "draw" }]);
  });

  test("nothing is done before a picture is shown", () => {
    expect(pageKey(press("d"), START)).toBeUndefined();
  });

  test("while a stroke is under way the selection keeps still", () => {
    const drawing = run([{ type: "begin", at: { x: 0, y: 0 } }], moving);
    expect(["v", "r", "i", "Delete", "Ctrl+a"].map((name) => pageKey(press(name), drawing))).toEqual(
      Array.from({ length: 5 }, () => undefined),
    );
    expect(pageKey(press("Escape"), drawing)).toEqual([{ type: "drop" }]);
  });

  test("a stroke of two presses that is refused is not said to start", () => {
    const colours = falling({ kind: "palette", format: "palette8" });
    const gradient = run([
      { type: "show", shown: colours },
      { type: "tool", tool: "gradient" },
    ]);
    const after = run(keyAction(press("Enter"), gradient), gradient);
    expect(after.stroke).toBeUndefined();
    expect(after.note).toContain("Not painted");
  });
});
