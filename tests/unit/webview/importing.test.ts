import { describe, expect, test } from "vitest";
import type { ImportBegin } from "../../../shared/protocol/importing.ts";
import { questionsOf } from "../../../webview/import/questions.ts";
import { type Change, changed, choicesFor, keyOf, type State, started } from "../../../webview/import/state.ts";
import { formatIn, sizeIn, withFormat, withSize } from "../../../webview/import/words.ts";

const PANELS = ["lantern"];

describe("the words of the annotation", () => {
  test.each([
    ["lantern", "9x9", "9x9"],
    ["lantern gray4 fps=4", "9x9", "9x9 gray4 fps=4"],
    ["gray4", "lantern", "lantern gray4"],
    ["9x9 gray4", "", "gray4"],
    ["", "lantern", "lantern"],
  ])("%s with the size %s", (words, size, expected) => {
    expect(withSize(words, size, PANELS)).toBe(expected);
  });

  test.each([
    ["lantern", "mono1 pack=pages", "lantern mono1 pack=pages"],
    ["9x9 mono1 pack=pages cap=1", "gray8", "9x9 gray8 cap=1"],
    ["gray8", "rgb565", "rgb565"],
    ["lantern gray4", "", "lantern"],
  ])("%s with the format %s", (words, format, expected) => {
    expect(withFormat(words, format, PANELS)).toBe(expected);
  });

  test("tell their size and format", () => {
    expect(sizeIn("gray8 12x8", PANELS)).toBe("12x8");
    expect(sizeIn("lantern", PANELS)).toBe("lantern");
    expect(formatIn("12x8 mono1 bits=lsb pack=pages")).toBe("mono1 bits=lsb pack=pages");
  });
});

const identity = { name: "drip", ordinal: 0, siblings: 1, structure: "" };
const begin: ImportBegin = {
  names: ["a.png"],
  opened: { id: "1", kind: "pictures", width: 9, height: 9, count: 1, transparent: true },
  file: "art.h",
  line: 3,
  start: { panels: [{ name: "lantern", width: 9, height: 9, format: "gray8" }], sizes: ["8x8"], formats: [] },
  homes: [{ name: "drip", identity, width: 9, height: 9, frames: 2, format: "palette2", panel: "grid" }],
  place: { kind: "new", words: "lantern" },
  remembered: { lantern: { dither: "ordered-4", threshold: 0.5 }, grid: { linear: true, colours: 4 } },
};
const having = (state: State, ...changes: Change[]) => changes.reduce(changed, state);
const place = (words: string): Change => ({ type: "place", place: { kind: "new", words } });

describe("choices", () => {
  test("begin with those that were made for the panel, until another is made", () => {
    const state = started(begin);
    expect(state.choices).toEqual({ dither: "ordered-4", threshold: 0.5 });
    const other = having(state, { type: "place", place: { kind: "further", identity } });
    expect([keyOf(other), other.choices]).toEqual(["grid", { linear: true, colours: 4 }]);
    const touched = having(other, { type: "choose", choices: { invert: true } }, place("lantern"));
    expect(touched.choices).toEqual({ linear: true, colours: 4, invert: true });
    expect(having(touched, { type: "choose", choices: { invert: undefined } }).choices).toEqual({
      linear: true,
      colours: 4,
    });
  });

  test("that say nothing for the format are left out", () => {
    const all = {
      threshold: 0.5,
      dither: "ordered-4",
      linear: true,
      colours: 4,
      overCap: "clamp",
      channel: "colours",
    } as const;
    const chosen = having(started(begin), { type: "choose", choices: all });
    const sent = (words: string) => choicesFor(having(chosen, place(words)));
    expect(sent("9x9 mono1")).toEqual({ dither: "ordered-4" });
    expect(sent("9x9 gray8")).toEqual({ dither: "ordered-4", linear: true, overCap: "clamp" });
    expect(sent("9x9 rgb565")).toEqual({ dither: "ordered-4", overCap: "clamp", channel: "colours" });
    expect(sent("9x9 palette2")).toEqual({ colours: 4, overCap: "clamp", channel: "colours" });
  });
});

describe("questions", () => {
  const keys = (state: State) => questionsOf(state).map(({ key }) => key);

  test("are those that mean something", () => {
    const state = started(begin);
    expect(keys(state)).toEqual(["place", "form", "many", "upright", "fit", "light", "ground", "levels", "steps"]);
    const opaque = started({ ...begin, opened: { ...begin.opened, transparent: false, count: 3 } });
    expect(keys(opaque)).toEqual(["place", "form", "upright", "fit", "light", "levels", "steps"]);
    const font = started({ ...begin, opened: { ...begin.opened, kind: "font" } });
    expect(keys(font)).toEqual(["place", "form", "many"]);
    expect(keys(having(state, { type: "place", place: { kind: "further", identity } }))).not.toContain("form");
  });

  test("give every value of a field back as it was taken", () => {
    for (const question of questionsOf(started(begin)))
      for (const field of question.fields) {
        if (field.kind === "text") continue;
        for (const { value } of field.options) {
          const state = having(started(begin), ...field.set(value));
          const again = questionsOf(state).find(({ key }) => key === question.key);
          const now = again?.fields.find(({ name }) => name === field.name);
          expect([question.key, field.name, now?.value]).toEqual([question.key, field.name, value]);
        }
      }
  });
});
