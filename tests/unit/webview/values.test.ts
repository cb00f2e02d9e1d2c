import { expect, test } from "vitest";
import { levelOf, rgbOf } from "../../../shared/pixels/colour.ts";
import { FORMATS, type Format } from "../../../shared/pixels/formats.ts";
import type { Shown } from "../../../shared/protocol/webview.ts";
import { pageKey } from "../../../webview/keys/page.ts";
import { changesOf, pictureOf } from "../../../webview/picture.ts";
import { scaleOf } from "../../../webview/scale.ts";
import { type Action, reduce, START, type State } from "../../../webview/state.ts";
import { firstValue, stepValue, valueName, valueWords } from "../../../webview/values.ts";
import { COLOUR_ART } from "../../support/colourArt.ts";
import { drop, falling, mono } from "../../support/pictures.ts";
import { shownFrom } from "../../support/shownFrom.ts";

const art = (name: string) => shownFrom(COLOUR_ART, name);
const run = (actions: readonly Action[], from: State = START) => actions.reduce(reduce, from);
const show = (shown: Shown): Action => ({ type: "show", shown });
const plain = { ctrlKey: false, metaKey: false, altKey: false };

test.each(["dawn", "seedling", "petals", "berries", "unnamed", "lamp", "fog"])(
  "%s: levels, colours and what is over the cap are those of the core",
  (name) => {
    const { bitmap, frames } = art(name);
    const format = FORMATS.get(bitmap.format) as Format;
    const scale = scaleOf(bitmap);
    for (const value of frames.flat()) {
      const level = levelOf(format, value, bitmap.colours);
      expect(scale.level(value)).toBe(level);
      expect(scale.rgb(value)).toBe(rgbOf(format, value, bitmap.colours));
      expect(scale.over(value)).toBe(bitmap.limit !== undefined && level > bitmap.limit);
    }
  },
);

test("the scale stays the same object while values mean the same", () => {
  const { bitmap } = art("seedling");
  const first = scaleOf(bitmap);
  expect(scaleOf({ ...bitmap, bytes: 99 })).toBe(first);
  expect(scaleOf({ ...bitmap, colours: [0, 1, 2, 3] })).not.toBe(first);
});

test("painting begins with the brightest within the cap", () => {
  expect(firstValue(drop().bitmap)).toBe(64);
  expect(firstValue(mono(8, 8).bitmap)).toBe(1);
  // A cap of 127: 15, 31 and 15 of 31, 63 and 31 (123, 125, 123 of 255).
  expect(firstValue(art("dawn").bitmap)).toBe((15 << 11) | (31 << 5) | 15);
  expect(firstValue(art("petals").bitmap)).toBe(0xffffff);
  expect(firstValue(art("seedling").bitmap)).toBe(3);
  expect(firstValue(art("unnamed").bitmap)).toBe(15);
  // Where every colour is over the cap there is still one to begin with.
  const { bitmap } = art("seedling");
  expect(firstValue({ ...bitmap, cap: 0, limit: 0, colours: [0xff0000, 0x00ff00] })).toBe(0);
});

test("a value is kept only for the format that it is one of", () => {
  expect(run([show(art("dawn")), { type: "level", level: 7 }, show(art("petals"))]).level).toBe(0xffffff);
  // 8 bits of grey and 8 bits of colour are not the same.
  expect(run([show(drop()), { type: "level", level: 7 }, show(art("berries"))]).level).toBe(0xff);
});

test.each([
  ["lamp", 42, "level 42", "level 42 of 255"],
  ["dawn", 0x7a80, "#7b5100", "#7b5100, raw 0x7A80"],
  ["petals", 0x000007, "#000007", "#000007, raw 0x000007"],
  ["berries", 0x03, "#0000ff", "#0000ff, raw 0x03"],
  ["seedling", 3, "index 3", "index 3, #7b5100"],
  ["unnamed", 3, "index 3", "index 3"],
])("%s: %i is said as %s, of a pixel as %s", (name, value, short, long) => {
  const { bitmap } = art(name);
  expect([valueName(bitmap, value), valueWords(bitmap, value)]).toEqual([short, long]);
});

test("an index beyond the palette says that it has no colour; one bit is lit or dark", () => {
  const { bitmap } = art("seedling");
  expect(valueWords({ ...bitmap, most: 15 }, 9)).toBe("index 9, which has no colour");
  expect([0, 1].map((value) => valueWords(mono(8, 8).bitmap, value))).toEqual(["dark", "lit"]);
});

test("[ and ] go to the next index, the next colour in use, the next rung, and stay at the ends", () => {
  const { bitmap: seedling, frames } = art("seedling");
  expect(
    [0, 3].map((v) => [stepValue(seedling, frames[0] ?? [], v, -1), stepValue(seedling, frames[0] ?? [], v, 1)]),
  ).toEqual([
    [0, 1],
    [2, 3],
  ]);
  const { bitmap: berries } = art("berries");
  const pixels = [0x00, 0xff, 0x1c, 0x03, 0x1c];
  const path = [0x00];
  for (let i = 0; i < 4; i++) path.push(stepValue(berries, pixels, path.at(-1) ?? 0, 1));
  // Full blue and full green give the same light: the mean of the channels.
  expect(path).toEqual([0x00, 0x03, 0x1c, 0xff, 0xff]);
  expect(stepValue(drop().bitmap, [], 64, -1)).toBe(45);
});

test("X begins to replace what is under the pixel cursor, Escape ends it; one bit has nothing to replace", () => {
  const state = run([show(drop()), { type: "move", to: { x: 4, y: 1 } }]);
  const actions = pageKey({ ...plain, key: "x" }, state);
  expect(actions).toEqual([{ type: "replacing", value: 42 }]);
  const replacing = run(actions as Action[], state);
  expect(pageKey({ ...plain, key: "Escape" }, replacing)).toEqual([{ type: "replacing", value: undefined }]);
  expect(run([{ type: "replacing", value: undefined }], replacing).replacing).toBeUndefined();
  expect(pageKey({ ...plain, key: "x", ctrlKey: true }, state)).toBeUndefined();
  expect(pageKey({ ...plain, key: "x" }, run([show(mono(8, 8))]))).toBeUndefined();
});

test("replacing changes one frame or all as one stroke, counts what it changes, and leaves the rest", () => {
  const shown = falling();
  const count = (pixels: ArrayLike<number>, value: number) => Array.from(pixels).filter((v) => v === value).length;
  const begun = run([
    show(shown),
    { type: "frame", frame: 2 },
    { type: "level", level: 20 },
    { type: "replacing", value: 64 },
  ]);
  const one = run([{ type: "replace", frames: "one" }], begun);
  expect(one.queue).toHaveLength(1);
  expect(one.queue[0]?.parts.map(({ frame }) => frame)).toEqual([2]);
  expect([count(pictureOf(one, 2), 64), count(pictureOf(one, 3), 64) > 0]).toEqual([0, true]);
  expect(one.replacing).toBeUndefined();
  const all = run([{ type: "replace", frames: "all" }], begun);
  expect(all.queue).toHaveLength(1);
  const before = shown.frames.map((pixels) => count(pixels, 64));
  const total = before.reduce((a, b) => a + b, 0);
  expect(all.note).toBe(`${total} pixels: level 64 replaced by level 20`);
  const sent = all.queue[0];
  if (!sent) throw new Error("there is no stroke");
  const changes = changesOf(all, sent);
  expect(changes).toHaveLength(total);
  expect(changes.every(({ before, value }) => before === 64 && value === 20)).toBe(true);
  for (const [frame, pixels] of shown.frames.entries())
    expect(Array.from(pictureOf(all, frame))).toEqual(pixels.map((value) => (value === 64 ? 20 : value)));
});

test("where pixels are selected only those are replaced, in one frame or in all, and the words say so", () => {
  const shown = falling();
  const { width } = shown.bitmap;
  const inside = (i: number) => i % width <= 4 && Math.floor(i / width) <= 3;
  const begun = run([
    show(shown),
    { type: "frame", frame: 2 },
    { type: "level", level: 20 },
    { type: "tool", tool: "select" },
    { type: "begin", at: { x: 0, y: 0 } },
    { type: "drag", to: { x: 4, y: 3 } },
    { type: "end" },
    { type: "replacing", value: 64 },
  ]);
  const counts = shown.frames.map((pixels) => pixels.filter((v, i) => v === 64 && inside(i)).length);
  expect(counts[2]).toBeGreaterThan(0);
  expect(counts[2]).toBeLessThan(shown.frames[2]?.filter((v) => v === 64).length ?? 0);
  const wanted = (frame: number) => shown.frames[frame]?.map((v, i) => (v === 64 && inside(i) ? 20 : v));
  const one = run([{ type: "replace", frames: "one" }], begun);
  expect(shown.frames.map((_, f) => Array.from(pictureOf(one, f)))).toEqual(
    shown.frames.map((pixels, f) => (f === 2 ? wanted(f) : pixels)),
  );
  expect(one.note).toBe(`${counts[2]} pixels of the selection: level 64 replaced by level 20`);
  expect(one.selection).toBe(begun.selection);
  const all = run([{ type: "replace", frames: "all" }], begun);
  expect(shown.frames.map((_, f) => Array.from(pictureOf(all, f)))).toEqual(shown.frames.map((_, f) => wanted(f)));
  const none = run(
    [
      { type: "replacing", value: 99 },
      { type: "replace", frames: "all" },
    ],
    begun,
  );
  expect([none.queue, none.note]).toEqual([[], "Nothing to replace in the selection"]);
});

test("X with the cursor outside of the selection begins with what most selected pixels have", () => {
  const shown = drop();
  const row = (y: number) => shown.frames[0]?.slice(9 * y, 9 * y + 9) ?? [];
  const selected: Action[] = [
    show(shown),
    { type: "level", level: 42 },
    { type: "tool", tool: "select" },
    { type: "begin", at: { x: 3, y: 4 } },
    { type: "drag", to: { x: 5, y: 4 } },
    { type: "end" },
  ];
  expect(new Set(row(4).slice(3, 6))).toEqual(new Set([64, 42]));
  const begins = (x: number, y: number) =>
    pageKey({ ...plain, key: "x" }, run([...selected, { type: "move", to: { x, y } }]));
  // Outside of it, on another value, and on the chosen value inside of it.
  expect([row(0)[0], row(4).indexOf(42)]).toEqual([0, 5]);
  expect(begins(0, 0)).toEqual([{ type: "replacing", value: 64 }]);
  expect(begins(5, 4)).toEqual([{ type: "replacing", value: 64 }]);
});

test("nothing is replaced where there is nothing, or nothing may be written", () => {
  const from = (shown: Shown, value: number) =>
    run([show(shown), { type: "level", level: 20 }, { type: "replacing", value }, { type: "replace", frames: "all" }]);
  expect([from(drop(), 99).queue, from(drop(), 99).note]).toEqual([[], "Nothing to replace"]);
  expect(from(drop(), 20).note).toBe("Nothing to replace");
  expect(from(drop({ readOnly: true }), 64).note).toContain("can’t be changed");
  const away = run([{ type: "nothing", why: "half typed" }], run([show(drop()), { type: "replacing", value: 64 }]));
  expect(run([{ type: "replace", frames: "all" }], away)).toMatchObject({ queue: [], note: "Not painted: half typed" });
});

test("another bitmap ends replacing, a new version of the same does not", () => {
  const begun = run([show(drop()), { type: "replacing", value: 64 }]);
  expect(run([show(drop({ version: 2 }))], begun).replacing).toBe(64);
  expect(run([show(falling())], begun).replacing).toBeUndefined();
});

test("a replacement waits behind a stroke, and takes what that one left", () => {
  const dot: Action[] = [{ type: "begin", at: { x: 0, y: 0 } }, { type: "end" }];
  const state = run([show(drop()), ...dot, { type: "level", level: 20 }, { type: "replacing", value: 64 }]);
  const after = run([{ type: "replace", frames: "one" }], state);
  expect(after.queue.map(({ id }) => id)).toEqual([1, 2]);
  expect(pictureOf(after, 0)[0]).toBe(20);
});
