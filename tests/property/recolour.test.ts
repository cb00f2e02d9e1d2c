import fc from "fast-check";
import { expect, test } from "vitest";
import { openText } from "../../shared/bitmap/open.ts";
import { recolour } from "../../shared/bitmap/recolour.ts";
import type { Bitmap } from "../../shared/bitmap/resolve.ts";
import { FORMATS, type Format } from "../../shared/pixels/formats.ts";
import { applyEdits } from "../../shared/source/text.ts";
import { runs } from "../support/runs.ts";

/** A format, bits of an element, and the words that say how a colour lies in its elements. */
const KINDS = [
  ["rgb332", 8, ""],
  ["rgb565", 16, ""],
  ["rgb565", 8, ""],
  ["rgb565", 8, " bytes=le"],
  ["rgb565", 16, " bytes=le"],
  ["rgb888", 8, ""],
  ["rgb888", 32, ""],
  ["gray8", 8, ""],
  ["gray4", 8, ""],
  ["gray8", 32, " pack=each"],
] as const;

const spellings = [
  (value: number) => String(value),
  (value: number) => `0x${value.toString(16)}`,
  (value: number) => `0X${value.toString(16).toUpperCase().padStart(4, "0")}`,
  (value: number) => `0b${value.toString(2)}`,
  (value: number) => `${value} /* a colour */`,
] as const;

const palettes = fc
  .record({
    kind: fc.constantFrom(...KINDS),
    elements: fc.array(fc.tuple(fc.nat(0xffffff), fc.constantFrom(...spellings)), { minLength: 6, maxLength: 24 }),
    skip: fc.nat(2),
    which: fc.nat(),
    value: fc.nat(0xffffff),
  })
  .map(({ kind: [format, bits, words], elements, skip, which, value }) => {
    const most = 2 ** Math.min(bits, 24) - 1;
    // Whole colours: as many elements as all of them take.
    const span = Math.max(1, (FORMATS.get(format) as Format).depth / bits);
    const kept = elements.slice(0, skip + Math.floor((elements.length - skip) / span) * span);
    const list = kept.map(([number, spell]) => spell(number & most)).join(", ");
    const text = `int before[] = { 1, 2 };
// @palette ${format}${words}${skip > 0 ? ` skip=${skip}` : ""}
const uint${bits}_t colours[] = { ${list} }; // after
// @bitmap 2x1 palette8 palette=colours
const uint8_t icon[] = { 0, 1 };
`;
    return { text, which, value };
  });

test("another colour changes that one, leaves all others and every byte outside the palette's numbers", () => {
  fc.assert(
    fc.property(palettes, ({ text, which, value }) => {
      const bitmap = openText(text, "art.h").bitmaps[0] as Bitmap;
      const { palette } = bitmap;
      if (!palette) throw new Error("the palette is not read");
      const before = Array.from(palette.values);
      const index = which % before.length;
      const wanted = value & palette.format.most;
      const rewrite = recolour(text, bitmap, { index, value: wanted, before: before[index] as number });
      if ("refused" in rewrite) throw new Error(rewrite.refused);
      const written = applyEdits(text, rewrite.edits);
      const after = Array.from(openText(written, "art.h").bitmaps[0]?.palette?.values ?? []);
      expect(after).toEqual(before.map((one, i) => (i === index ? wanted : one)));
      const [open, close] = [text.indexOf("{", text.indexOf("colours[]")), text.indexOf("}; // after")];
      expect(rewrite.edits.every(({ start, end }) => open < start && end <= close)).toBe(true);
      const comments = (of: string) => of.match(/\/\*.*?\*\//g)?.length ?? 0;
      expect(comments(written)).toBe(comments(text));
      if (wanted === before[index]) expect(rewrite.edits).toEqual([]);
    }),
    { numRuns: runs(400) },
  );
});
