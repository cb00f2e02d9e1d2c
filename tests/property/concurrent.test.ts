import fc from "fast-check";
import { expect, test } from "vitest";
import { editPixels, findBitmap, identityOf } from "../../shared/bitmap/edit.ts";
import { openText } from "../../shared/bitmap/open.ts";
import type { Bitmap, BitmapFile } from "../../shared/bitmap/resolve.ts";
import { applyEdits } from "../../shared/source/text.ts";
import { runs } from "../support/runs.ts";
import { documents } from "./documents.ts";
import { elementList, expectOthersSame, strokes, touchedBits } from "./painting.ts";
import { allPixels, changesFor, wantedPixels } from "./pixels.ts";
import { render } from "./render.ts";
import { laterVersion, planEdits } from "./versions.ts";

const races = fc.record({
  plan: documents(),
  which: fc.nat(),
  stroke: strokes,
  edits: fc.array(planEdits, { maxLength: 4 }),
});

/** Paints as seen in version A on the text of version B; undefined where that is refused. */
function race({ plan, which, stroke, edits }: typeof races extends fc.Arbitrary<infer T> ? T : never) {
  const a = render(plan);
  const seen = openText(a.text, a.file);
  const origin = which % seen.bitmaps.length;
  const meant = seen.bitmaps[origin] as Bitmap;
  const changes = changesFor(meant, stroke);
  const b = laterVersion(plan, edits);
  const present = openText(b.text, b.file, { previous: seen });
  const found = findBitmap(present, identityOf(meant));
  if ("refused" in found) return undefined;
  const edited = editPixels(b.text, found, changes);
  if ("refused" in edited) return undefined;
  const after = openText(applyEdits(b.text, edited.edits), b.file);
  return { origin, meant, changes, b, present, found, index: present.bitmaps.indexOf(found), after };
}

/** Whether an array other than the meant one came to bear its name, in its place among those of that name. */
function takenOver(
  plan: { arrays: readonly { name: string }[] },
  origin: number,
  b: { known: readonly { plan: { name: string } }[]; origins: readonly number[] },
): boolean {
  const name = plan.arrays[origin]?.name;
  const were = plan.arrays.flatMap((array, i) => (array.name === name ? [i] : []));
  const are = b.known.flatMap((k, i) => (k.plan.name === name ? [b.origins[i]] : []));
  return were.length === are.length && were.some((w, i) => w === origin && are[i] !== origin);
}

function expectOnlyThose(present: BitmapFile, found: Bitmap, r: NonNullable<ReturnType<typeof race>>): void {
  const now = r.after.bitmaps[r.index] as Bitmap;
  expect(allPixels(now)).toEqual(wantedPixels(found, r.changes));
  const touched = touchedBits(found, r.changes);
  const old = elementList(found);
  elementList(now).forEach((bits, slot) => {
    const mask = touched.get(slot) ?? 0n;
    expect(bits & ~mask).toBe((old[slot] as bigint) & ~mask);
  });
  expectOthersSame(present, r.after, present.source.arrays.indexOf(found.array));
}

test("painting on a text that moved on is refused, or changes the meant pixels of the meant array only", () => {
  fc.assert(
    fc.property(races, (input) => {
      const r = race(input);
      if (!r || takenOver(input.plan, r.origin, r.b)) return;
      expect(r.b.origins[r.index]).toBe(r.origin);
      expectOnlyThose(r.present, r.found, r);
    }),
    { numRuns: runs(600) },
  );
});

test("an array that took the place and the name of the meant one is painted only where it has the pixels that were seen", () => {
  fc.assert(
    fc.property(races, (input) => {
      const r = race(input);
      if (!r || !takenOver(input.plan, r.origin, r.b)) return;
      const pixels = allPixels(r.found);
      for (const { frame, x, y, before } of r.changes) {
        expect(pixels[(frame * r.found.height + y) * r.found.width + x]).toBe(before);
      }
      expect(identityOf(r.found)).toEqual(identityOf(r.meant));
      expectOnlyThose(r.present, r.found, r);
    }),
    { numRuns: runs(600) },
  );
});

test("without edits painting goes through", () => {
  fc.assert(
    fc.property(races, (input) => {
      expect(race({ ...input, edits: [] })).toBeDefined();
    }),
    { numRuns: runs(600) },
  );
});
