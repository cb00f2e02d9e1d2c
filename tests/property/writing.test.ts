import fc from "fast-check";
import { expect, test } from "vitest";
import { editPixels } from "../../shared/bitmap/edit.ts";
import { openText } from "../../shared/bitmap/open.ts";
import type { Bitmap } from "../../shared/bitmap/resolve.ts";
import { applyEdits } from "../../shared/source/text.ts";
import { runs } from "../support/runs.ts";
import { documents } from "./documents.ts";
import {
  elementAt,
  elementList,
  expectOthersSame,
  moved,
  strokes,
  tokensOf,
  touchedBits,
  withoutColumns,
} from "./painting.ts";
import { allPixels, changesFor, wantedPixels } from "./pixels.ts";
import type { Known } from "./render.ts";
import { render } from "./render.ts";
import { NAMES, styleLost } from "./spellings.ts";

const painted = fc.record({ plan: documents(), which: fc.nat(), stroke: strokes });

/** Opens a document and paints in one of its bitmaps. */
function paint({ plan, which, stroke }: typeof painted extends fc.Arbitrary<infer T> ? T : never) {
  const { text, file, known } = render(plan);
  const before = openText(text, file);
  const index = which % before.bitmaps.length;
  const bitmap = before.bitmaps[index] as Bitmap;
  const changes = changesFor(bitmap, stroke);
  const edited = editPixels(text, bitmap, changes);
  if ("refused" in edited) throw new Error(edited.refused);
  const { edits } = edited;
  const written = applyEdits(text, edits);
  const after = openText(written, file, { previous: before });
  const same = known[index] as Known;
  return {
    text,
    file,
    known: same,
    before,
    index,
    bitmap,
    changes,
    /** As written, and without the spaces of columns. */
    written: applyEdits(text, edits),
    all: edits,
    edits: withoutColumns(text, edits),
    after,
    now: after.bitmaps[index] as Bitmap,
  };
}

test("the pixels are the wanted ones, and painting back restores the picture", () => {
  fc.assert(
    fc.property(painted, (input) => {
      const p = paint(input);
      expect(p.now.why).toBeUndefined();
      expect(allPixels(p.now)).toEqual(wantedPixels(p.bitmap, p.changes));
      const back = p.changes.map((c) => ({ ...c, value: c.before as number, before: undefined }));
      const undone = editPixels(
        p.written,
        p.now,
        back.map(({ before: _, ...c }) => c),
      );
      if ("refused" in undone) throw new Error(undone.refused);
      const restored = openText(applyEdits(p.written, undone.edits), p.file);
      expect(allPixels(restored.bitmaps[p.index] as Bitmap)).toEqual(allPixels(p.bitmap));
    }),
    { numRuns: runs(350) },
  );
});

test("bits that belong to no changed pixel, other elements and other arrays stay", () => {
  fc.assert(
    fc.property(painted, (input) => {
      const p = paint(input);
      const touched = touchedBits(p.bitmap, p.changes);
      const [old, now] = [elementList(p.bitmap), elementList(p.now)];
      expect(now.length).toBe(old.length);
      old.forEach((bits, slot) => {
        const mask = touched.get(slot) ?? 0n;
        expect((now[slot] as bigint) & ~mask).toBe(bits & ~mask);
      });
      expectOthersSame(p.before, p.after, p.before.source.arrays.indexOf(p.bitmap.array));
      const [were, are] = [tokensOf(p.text, p.bitmap), tokensOf(p.written, p.now)];
      were.forEach((token, slot) => {
        if (token !== undefined && now[slot] === old[slot]) expect(are[slot]).toBe(token);
      });
    }),
    { numRuns: runs(350) },
  );
});

test("edits replace tokens of changed elements, write zeros out, or redraw one symbol of a drawing", () => {
  fc.assert(
    fc.property(painted, (input) => {
      const p = paint(input);
      const [old, now] = [elementList(p.bitmap), elementList(p.now)];
      const symbols = new Set(
        p.known.drawings.flatMap((d) => Array.from({ length: p.bitmap.width }, (_, x) => d.at + x * d.step)),
      );
      const ends = new Set(
        p.bitmap.array.gaps.map((gap) => p.bitmap.array.base + (p.bitmap.array.list?.nodes[gap.node]?.lastEnd ?? -1)),
      );
      // A comment after the last element keeps its line: what begins a new line is written after it.
      for (const end of [...ends]) {
        const beside = /^[ \t]*,?[ \t]*(?:\/\/[^\r\n]*|(?:\/\*.*?\*\/[ \t]*)+(?:\/\/[^\r\n]*)?)/.exec(
          p.text.slice(end),
        );
        if (beside) ends.add(end + beside[0].trimEnd().length).add(end + beside[0].length);
      }
      for (const edit of p.edits) {
        const element = elementAt(p.bitmap, edit);
        if (element >= 0) {
          const slot = p.bitmap.array.slots?.[element] ?? element;
          expect(now[slot]).not.toBe(old[slot]);
        } else if (edit.start === edit.end) expect(ends).toContain(edit.start);
        else {
          expect(edit.text.length).toBe(1);
          expect(symbols).toContain(edit.start);
        }
      }
      expect(new Set(p.edits.map((e) => `${e.start} ${e.end}`)).size).toBe(p.edits.length);
      const filled = p.edits.some((e) => e.start === e.end);
      const lit = old.some((bits, slot) => tokensOf(p.text, p.bitmap)[slot] === undefined && now[slot] !== bits);
      expect(filled).toBe(lit);
    }),
    { numRuns: runs(350) },
  );
});

test("a literal keeps its prefix, width, letter case and suffix; a name comes only from the array itself", () => {
  fc.assert(
    fc.property(painted, (input) => {
      const p = paint(input);
      const used = new Set(p.known.tokens.filter((t) => t !== undefined && NAMES.has(t)));
      for (const edit of p.edits) {
        if (elementAt(p.bitmap, edit) < 0) continue;
        const before = p.text.slice(edit.start, edit.end);
        expect(styleLost(before, edit.text)).toBeUndefined();
        if (/^[A-Z]+$/.test(edit.text)) expect(used).toContain(edit.text);
      }
    }),
    { numRuns: runs(350) },
  );
});

test("a drawing shows its row after the change if it did before, and stays as it is if it did not", () => {
  fc.assert(
    fc.property(painted, (input) => {
      const p = paint(input);
      const pixels = wantedPixels(p.bitmap, p.changes);
      const { width, height } = p.bitmap;
      for (const d of p.known.drawings) {
        const size = 1 + (width - 1) * d.step;
        const shown = (text: string, at: number) =>
          text
            .slice(at, at + size)
            .split("")
            .filter((_, i) => i % d.step === 0);
        const drawn = shown(p.written, moved(p.all, d.at));
        const first = (d.frame * height + d.y) * width;
        const wanted = pixels.slice(first, first + width).map((v) => (v > 0 ? "#" : "."));
        expect(drawn).toEqual(d.right ? wanted : shown(p.text, d.at));
      }
    }),
    { numRuns: runs(350) },
  );
});

/** Small sources beside which a change was once written wrongly, each with the text that is wanted. */
const BESIDE: [string, string, string][] = [
  [
    "two rows on a line share no drawing",
    "// @bitmap 2x1 frames=2\nuint8_t a[] = {0, 9, 0, 9 /* .# */};",
    "// @bitmap 2x1 frames=2\nuint8_t a[] = {7, 9, 7, 9 /* .# */};",
  ],
  [
    "a digit separator is no quote",
    "// @bitmap 2x1 mono1\nuint8_t a[] = {\n  0b0000'0000 // . .\n};",
    "// @bitmap 2x1 mono1\nuint8_t a[] = {\n  0b1000'0000 // # .\n};",
  ],
  [
    "a word is no drawing",
    "// @bitmap 3x1\nuint8_t a[] = {\n  0, 9, 9 // off\n};",
    "// @bitmap 3x1\nuint8_t a[] = {\n  7, 9, 9 // off\n};",
  ],
  [
    "a mark after a space is no drawing",
    "// @bitmap 2x1 mono1 from=top-right\nuint8_t a[] = {\n  0x80 // !\n};",
    "// @bitmap 2x1 mono1 from=top-right\nuint8_t a[] = {\n  0xc0 // !\n};",
  ],
];

test.for(BESIDE)("%s", ([, before, after]) => {
  const bitmap = openText(before, "art.cpp").bitmaps[0] as Bitmap;
  const value = bitmap.format.most > 1 ? 7 : 1;
  const frames = Array.from({ length: bitmap.frames }, (_, frame) => ({ frame, x: 0, y: 0, value }));
  const edited = editPixels(before, bitmap, frames);
  if ("refused" in edited) throw new Error(edited.refused);
  expect(applyEdits(before, edited.edits)).toBe(after);
});

test("a decimal literal of 64 bits stays one that can be read", () => {
  const text = "// @bitmap 64x1 mono1\nuint64_t a[] = {5};";
  const bitmap = openText(text, "art.cpp").bitmaps[0] as Bitmap;
  const edited = editPixels(text, bitmap, [{ frame: 0, x: 0, y: 0, value: 1 }]);
  if ("refused" in edited) throw new Error(edited.refused);
  const now = openText(applyEdits(text, edited.edits), "art.cpp").bitmaps[0] as Bitmap;
  expect(now.why).toBeUndefined();
  expect(elementList(now)).toEqual([(1n << 63n) + 5n]);
});
