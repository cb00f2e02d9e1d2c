/** Sets of arrays: frames that are exchanged and exchanged back, and sizes that are extended and cropped again. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { openText } from "../../shared/bitmap/open.ts";
import { pixelsOf } from "../../shared/bitmap/resolve.ts";
import type { Restructuring } from "../../shared/bitmap/restructure/change.ts";
import { restructureTogether } from "../../shared/bitmap/restructure/restructure.ts";
import { checkFile } from "../../shared/checks/all.ts";
import { applyEdits } from "../../shared/source/text.ts";

const [WIDTH, HEIGHT] = [3, 2];
const level = fc.integer({ min: 0, max: 255 });
const frame = fc.array(level, { minLength: WIDTH * HEIGHT, maxLength: WIDTH * HEIGHT });
const spelling = fc.constantFrom<(value: number) => string>(
  (value) => `${value}`.padStart(3),
  (value) => `0x${value.toString(16).toUpperCase().padStart(2, "0")}`,
);
/** One to three frames each, in decimal or hexadecimal, with a comment. */
const arrays = fc.array(fc.tuple(fc.array(frame, { minLength: 1, maxLength: 3 }), spelling), {
  minLength: 2,
  maxLength: 4,
});

function textOf(set: readonly (readonly [readonly number[][], (value: number) => string])[]): string {
  return set
    .map(([frames, spelt], i) => {
      const rows = frames.map((pixels, f) => `  ${pixels.map(spelt).join(", ")}, // ${i} ${f}\n`).join("");
      const count = frames.length > 1 ? ` frames=${frames.length}` : "";
      return `// @bitmap ${WIDTH}x${HEIGHT}${count}\nconst uint8_t art_${i}[${frames.length * WIDTH * HEIGHT}] = {\n${rows}};\n`;
    })
    .join("\n");
}

function changed(text: string, change: Restructuring): string {
  const opened = openText(text, "art.cpp");
  const world = { reopen: (t: string) => openText(t, "art.cpp"), findings: checkFile };
  const done = restructureTogether(opened, opened.bitmaps, change, world);
  if ("refused" in done) throw new Error(done.refused);
  return applyEdits(text, done.edits);
}

const framesIn = (text: string) =>
  openText(text, "art.cpp").bitmaps.flatMap((b) =>
    Array.from({ length: b.frames }, (_, f) => [...(pixelsOf(b, f) ?? [])]),
  );

test("frames in any order are read in that order, names stay, and the way back gives the pixels back", () => {
  fc.assert(
    fc.property(arrays, fc.infiniteStream(fc.nat()), (set, numbers) => {
      const text = textOf(set);
      const before = framesIn(text);
      const random = numbers[Symbol.iterator]();
      const keys = before.map(() => random.next().value as number);
      const order = [...keys.keys()].sort((a, b) => (keys[a] as number) - (keys[b] as number) || a - b);
      const now = changed(text, { kind: "frames", order });
      expect(framesIn(now)).toEqual(order.map((i) => before[i]));
      expect([...now.matchAll(/uint8_t \w+/g)].join()).toBe([...text.matchAll(/uint8_t \w+/g)].join());
      const back = order.map((_, i) => order.indexOf(i));
      expect(framesIn(changed(now, { kind: "frames", order: back }))).toEqual(before);
    }),
    { numRuns: 60 },
  );
});

test("what is extended and cropped again is as it was", () => {
  const side = fc.nat(2);
  fc.assert(
    fc.property(arrays, side, side, side, side, (set, left, top, right, bottom) => {
      const text = textOf(set);
      const larger = changed(text, { kind: "size", left, top, right, bottom });
      const [first] = openText(larger, "art.cpp").bitmaps;
      expect([first?.width, first?.height]).toEqual([WIDTH + left + right, HEIGHT + top + bottom]);
      const again = changed(larger, {
        kind: "size",
        left: -left || 0,
        top: -top || 0,
        right: -right || 0,
        bottom: -bottom || 0,
      });
      expect(framesIn(again)).toEqual(framesIn(text));
    }),
    { numRuns: 60 },
  );
});
