/** Bitmaps made from random words are read back as what was asked for, all dark, and nothing is found wrong with them. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { canMakeLike, makeLike } from "../../shared/bitmap/like.ts";
import { makeBitmap } from "../../shared/bitmap/make.ts";
import { openText } from "../../shared/bitmap/open.ts";
import { placed, placeNear } from "../../shared/bitmap/place.ts";
import type { Bitmap, BitmapFile } from "../../shared/bitmap/resolve.ts";
import { checkFile } from "../../shared/checks/all.ts";
import { FORMATS } from "../../shared/pixels/formats.ts";
import { strayBits, unpack } from "../../shared/pixels/picture.ts";
import { storedBits } from "../../shared/source/arrays.ts";
import { applyEdits } from "../../shared/source/text.ts";
import { runs } from "../support/runs.ts";
import { documents } from "./documents.ts";
import { render } from "./render.ts";
import { wordsOf } from "./wordsOf.ts";

const EMPTY = { text: "#include <stdint.h>\n", file: "art.h" };
const texts = fc.oneof(fc.constant(EMPTY), documents().map(render));

/** What a file holds, apart from the bitmap of that name. */
function others(file: BitmapFile, but: string): unknown {
  const arrays = file.source.arrays.filter((a) => a.name !== but);
  const found = checkFile(file).filter((f) => file.bitmaps[f.bitmap]?.array.name !== but);
  return [
    arrays.map((a) => [a.name, a.ordinal, a.count, a.given, String(storedBits(a))]),
    found.map((f) => [f.code, f.severity, f.message]),
  ];
}

/** Raw values of all pixels that the array has elements for, read without the code that wrote them. */
function litPixels({ array, layout, frames, invert }: Bitmap): number {
  const bits = storedBits(array);
  if (!bits || !layout) return -1;
  let lit = 0;
  for (let frame = 0; frame < frames; frame++) {
    const { element } = layout.table(frame);
    unpack(bits, layout, frame, invert).forEach((value, i) => {
      if (value !== 0 && (element[i] as number) + layout.span <= array.count) lit++;
    });
  }
  return lit;
}

test("a made bitmap is what its words say, dark, complete and without findings; all else stays as it was", () => {
  fc.assert(
    fc.property(wordsOf([...FORMATS.keys()]), texts, fc.nat(), ({ words, width, height, frames }, given, seed) => {
      const before = openText(given.text, given.file);
      const offset = seed % (given.text.length + 1);
      const place = placeNear(before.source, offset);
      // What stands under a condition that does not hold is not read.
      fc.pre(!/#if(?![\s\S]*#endif)/.test(given.text.slice(0, place.span.start)));
      const request = { words, name: "kettle", offset: place.span.start, indent: place.indent };
      const made = makeBitmap(before, request);
      if ("refused" in made) return expect.fail(`${words}: ${made.refused}`);
      const { edit } = placed(place, `${made.annotation}\n${place.indent}${made.statement}`, "\n");
      const after = openText(applyEdits(given.text, [edit]), given.file);
      const bitmap = after.bitmaps.find((b) => b.array.name === "kettle");
      if (!bitmap?.layout) return expect.fail(`${words}: not read back`);
      expect([bitmap.width, bitmap.height, bitmap.frames]).toEqual([width, height, frames]);
      expect([bitmap.array.count, bitmap.array.given]).toEqual([made.elements, made.elements]);
      expect(bitmap.layout.elements).toBe(made.elements);
      expect(litPixels(bitmap)).toBe(0);
      const bits = storedBits(bitmap.array);
      expect(bits && strayBits(bits, bitmap.layout).map((s) => s.element)).toEqual([]);
      const own = checkFile(after).filter((f) => after.bitmaps[f.bitmap] === bitmap && f.code !== "uniform");
      // A format without pictures yet is told as information.
      expect(own.filter((f) => f.severity !== "information")).toEqual([]);
      expect(others(after, "kettle")).toEqual(others(before, "kettle"));
    }),
    { numRuns: runs(600) },
  );
});

test("a bitmap like another has its shape, is dark, and changes nothing else", () => {
  let made = 0;
  fc.assert(
    fc.property(documents(), (plan) => {
      const { text, file } = render(plan);
      const before = openText(text, file);
      for (const bitmap of before.bitmaps) {
        if (!canMakeLike(before, bitmap)) continue;
        const edit = makeLike(before, bitmap);
        if ("refused" in edit) return expect.fail(`${bitmap.array.name}: ${edit.refused}`);
        const after = openText(applyEdits(text, [edit]), file);
        const like = after.bitmaps.find(
          (b) => b.array.base >= edit.start && b.array.base < edit.start + edit.text.length,
        );
        if (!like) return expect.fail(`${edit.text}\nis not read back`);
        made++;
        const shape = (b: Bitmap) => [b.width, b.height, b.frames, b.format, b.array.type, b.array.count, b.invert];
        expect(shape(like)).toEqual(shape(bitmap));
        expect(like.layout).toBe(bitmap.layout);
        expect(like.array.readOnly).toBe(undefined);
        expect(litPixels(like)).toBe(0);
        expect(others(after, like.array.name)).toEqual(others(before, like.array.name));
      }
    }),
    { numRuns: runs(300) },
  );
  // Most arrays of the documents stand for themselves.
  expect(made).toBeGreaterThanOrEqual(runs(200));
});
