import { expect, test } from "vitest";
import type { Ask } from "../../../client/ask.ts";
import { alike, framesOf, joined, memberAt, membersOf, paintSet } from "../../../client/together.ts";
import type { BitmapInfo } from "../../../shared/protocol/lsp.ts";
import { info } from "./bitmaps.ts";

const array = (name: string, facts: Partial<BitmapInfo> = {}) =>
  info({ name, identity: { name, ordinal: 0, siblings: 1, structure: `4x4 ${facts.frames ?? 1}` }, ...facts });
const zero = array("digit_0");
const one = array("digit_1");
const wide = array("banner", { width: 8 });
const blink = array("blink", { frames: 2, bytes: 32 });
const all = [zero, wide, one, blink];
const set = membersOf(one, all, [blink.identity, zero.identity, wide.identity]);

test("a set has the arrays that are like the one shown, in the order of the text", () => {
  expect(set.map((m) => [m.bitmap.name, m.first])).toEqual([
    ["digit_0", 0],
    ["digit_1", 1],
    ["blink", 2],
  ]);
  expect(membersOf(one, all, []).map((m) => m.bitmap.name)).toEqual(["digit_1"]);
});

test.each<[string, Partial<BitmapInfo>]>([
  ["width", { width: 5 }],
  ["height", { height: 5 }],
  ["format", { format: "gray4" }],
  ["cap", { cap: 64 }],
  ["drive", { drive: 0.5 }],
  ["light", { light: "srgb" }],
  ["palette", { palette: "warm" }],
  ["picture", { why: "its values are not known" }],
])("arrays of another %s are not alike", (_, facts) => {
  expect(alike(zero, array("other", facts))).toBe(false);
});

test("the set is one bitmap whose frames have the names of their arrays", () => {
  const whole = joined(set);
  expect(whole).toMatchObject({ name: "digit_0 … blink", frames: 4, bytes: 64, width: 4, format: "gray8" });
  expect(whole.frameNames).toEqual(["digit_0", "digit_1", "blink 0", "blink 1"]);
  expect(whole.identity.structure).not.toBe(joined(membersOf(one, all, [blink.identity])).identity.structure);
  // With another array at its end it is known as the same set of another structure.
  const more = joined(
    membersOf(
      one,
      [...all, array("digit_2")],
      [...all, array("digit_2")].map((b) => b.identity),
    ),
  );
  expect([more.identity.name, more.name]).toEqual([whole.identity.name, "digit_0 … digit_2"]);
});

test("frames are counted through the arrays", () => {
  const picture = (frame: number) => ({ frame, pixels: [frame] });
  const frames = framesOf(set, [[picture(0)], [picture(0)], [picture(0), picture(1)]]);
  expect(frames.map((f) => f.frame)).toEqual([0, 1, 2, 3]);
  expect([0, 1, 2, 3].map((f) => memberAt(set, f)).map((m) => [m.member.bitmap.name, m.frame])).toEqual([
    ["digit_0", 0],
    ["digit_1", 0],
    ["blink", 0],
    ["blink", 1],
  ]);
});

const change = (frame: number) => ({ frame, x: 1, y: 2, value: 9, before: 0 });
const range = { start: { line: 0, character: 0 }, end: { line: 0, character: 1 } };

test("a stroke goes to the arrays that it touches, each by its own frames", async () => {
  const asked: unknown[] = [];
  const ask = (async (method: string, params: { identity: { name: string }; changes: unknown }) => {
    asked.push([method, params.identity.name, params.changes]);
    return { version: 7, edits: [{ range, newText: params.identity.name }] };
  }) as unknown as Ask;
  const painted = await paintSet(ask, {
    uri: "file:///a.h",
    version: 7,
    members: set,
    changes: [change(3), change(0)],
  });
  expect(asked).toEqual([
    ["dotwright/paint", "blink", [change(1)]],
    ["dotwright/paint", "digit_0", [change(0)]],
  ]);
  expect(painted).toEqual({
    version: 7,
    edits: [
      { range, newText: "blink" },
      { range, newText: "digit_0" },
    ],
  });
});

test("answers about two versions are not mixed", async () => {
  let version = 7;
  const ask = (async () => ({ version: version++, edits: [] })) as unknown as Ask;
  const painted = await paintSet(ask, {
    uri: "file:///a.h",
    version: 7,
    members: set,
    changes: [change(3), change(0)],
  });
  expect(painted.version).not.toBe(7);
  expect(painted.version).not.toBe(8);
});

test("a number that two arrays of a set share, as a table of pointers and its part do, is edited once", async () => {
  const edit = { range, newText: "9" };
  const ask = (async () => ({ version: 7, edits: [edit] })) as unknown as Ask;
  const members = membersOf(zero, [zero, one], [one.identity]);
  const painted = await paintSet(ask, { uri: "file:///a.h", version: 7, members, changes: [change(0), change(1)] });
  expect(painted).toEqual({ version: 7, edits: [edit] });
});
