/** Marks of many pixels are kept in another form than those of few: both must be the same map. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { addedTo, type Marks } from "../../webview/tools/marks.ts";

const COUNT = 4096;
const step = fc.array(fc.tuple(fc.integer({ min: 0, max: COUNT - 1 }), fc.integer({ min: 0, max: 2 ** 24 - 1 })), {
  maxLength: 60,
});

test("steps of any length give the map that the same sets would, and leave the one before as it was", () => {
  fc.assert(
    fc.property(fc.array(fc.tuple(step, fc.boolean()), { maxLength: 6 }), (steps) => {
      const expected = new Map<number, number>();
      let marks: Marks | undefined;
      for (const [changes, many] of steps) {
        const before = marks && ([marks, new Map(marks)] as const);
        // How many are announced decides the form.
        marks = addedTo(marks, COUNT, many ? COUNT : changes.length, (set) => {
          for (const [index, value] of changes) set(index, value);
        });
        for (const [index, value] of changes) expected.set(index, value);
        if (before) expect(sorted(before[0])).toEqual(sorted(before[1]));
        same(marks, expected);
      }
    }),
  );
});

const sorted = (marks: Marks) => [...marks].sort(([a], [b]) => a - b);

function same(marks: Marks, expected: Map<number, number>): void {
  expect(marks.size).toBe(expected.size);
  expect(sorted(marks)).toEqual(sorted(expected));
  expect([...marks.keys()].sort((a, b) => a - b)).toEqual([...expected.keys()].sort((a, b) => a - b));
  expect([...marks.values()].sort((a, b) => a - b)).toEqual([...expected.values()].sort((a, b) => a - b));
  const seen = new Map<number, number>();
  marks.forEach((value, index) => {
    seen.set(index, value);
  });
  expect(seen.size).toBe(expected.size);
  for (const [index, value] of expected)
    expect([marks.get(index), marks.has(index), seen.get(index)]).toEqual([value, true, value]);
  expect([marks.get(COUNT), marks.has(COUNT)]).toEqual([undefined, false]);
}
