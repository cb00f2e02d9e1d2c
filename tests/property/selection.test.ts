/** What is done to selected pixels can be undone by doing it again; and copied pixels are pasted as they were. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { copiedText } from "../../shared/bitmap/copied.ts";
import { openText } from "../../shared/bitmap/open.ts";
import { pasted } from "../../shared/bitmap/pasted.ts";
import { FORMATS } from "../../shared/pixels/formats.ts";
import { between, inverted, type Values } from "../../webview/selection/levels.ts";
import { changed, lift, mirrored, type Piece, put, shifted, turned, turnedBox } from "../../webview/selection/piece.ts";
import { indexesOf, ofIndexes, ofMask } from "../../webview/selection/selection.ts";
import { runs } from "../support/runs.ts";
import { documents } from "./documents.ts";
import { FRAGMENTS } from "./fragments.ts";
import { render } from "./render.ts";

const side = fc.integer({ min: 1, max: 12 });

/** A piece of any shape. */
const pieces: fc.Arbitrary<Piece> = fc.tuple(side, side).chain(([width, height]) =>
  fc
    .tuple(
      fc.array(fc.nat(255), { minLength: width * height, maxLength: width * height }),
      fc.array(fc.nat(1), { minLength: width * height, maxLength: width * height }),
    )
    .map(([values, mask]) => ({
      width,
      height,
      pixels: Uint32Array.from(values, (value, i) => (mask[i] === 1 ? value : 0)),
      mask: Uint8Array.from(mask),
    })),
);

const times = (count: number, change: (piece: Piece) => Piece, piece: Piece) => {
  let now = piece;
  for (let i = 0; i < count; i++) now = change(now);
  return now;
};

describe("a piece is as before", () => {
  test("after four turns, and after one to either side", () => {
    fc.assert(
      fc.property(pieces, fc.integer({ min: -9, max: 9 }), fc.integer({ min: -9, max: 9 }), (piece, x, y) => {
        expect(times(4, (p) => turned(p, "right"), piece)).toEqual(piece);
        expect(turned(turned(piece, "right"), "left")).toEqual(piece);
        const box = { x, y, width: piece.width, height: piece.height };
        expect(turnedBox(turnedBox(box))).toEqual(box);
      }),
      { numRuns: runs(200) },
    );
  });

  test("mirrored twice; mirrored both ways it is turned twice", () => {
    fc.assert(
      fc.property(pieces, (piece) => {
        for (const what of ["columns", "rows"] as const) expect(mirrored(mirrored(piece, what), what)).toEqual(piece);
        expect(mirrored(mirrored(piece, "columns"), "rows")).toEqual(times(2, (p) => turned(p, "left"), piece));
      }),
      { numRuns: runs(200) },
    );
  });

  test("shifted as often as it is wide or high, and there and back", () => {
    fc.assert(
      fc.property(pieces, fc.integer(), fc.integer(), (piece, x, y) => {
        expect(times(piece.width, (p) => shifted(p, { x: 1, y: 0 }), piece)).toEqual(piece);
        expect(times(piece.height, (p) => shifted(p, { x: 0, y: -1 }), piece)).toEqual(piece);
        expect(shifted(shifted(piece, { x, y }), { x: -x, y: -y })).toEqual(piece);
      }),
      { numRuns: runs(200) },
    );
  });

  test.each([...FORMATS.values()].filter((f) => f.kind !== "palette"))("inverted twice: $name", (format) => {
    const values: Values = { format: format.name, kind: format.kind, most: format.most, light: "linear" };
    const invert = inverted(values);
    fc.assert(
      fc.property(fc.nat(format.most), (value) => {
        expect(invert(invert(value))).toBe(value);
        expect(invert(value)).toBeLessThanOrEqual(format.most);
      }),
      { numRuns: runs(100) },
    );
    expect(changed({ width: 1, height: 1, pixels: Uint32Array.of(0), mask: Uint8Array.of(1) }, invert).pixels).toEqual(
      Uint32Array.of(format.most),
    );
  });
});

test("taking pixels up and putting them back changes nothing", () => {
  fc.assert(
    fc.property(pieces, ({ pixels, mask, width, height }) => {
      const selection = ofMask({ width, height }, mask);
      if (!selection) return;
      expect(ofIndexes({ width, height }, indexesOf(selection))).toEqual(selection);
      const piece = lift(pixels, selection);
      const out = new Map<number, number>();
      put(piece, selection, { width, height }, (index, value) => out.set(index, value));
      expect([...out.keys()].sort((a, b) => a - b)).toEqual(indexesOf(selection));
      for (const [index, value] of out) expect(value).toBe(pixels[index]);
    }),
    { numRuns: runs(200) },
  );
});

test("values keep their order between formats of levels, and full stays full", () => {
  const levels = [...FORMATS.values()].filter((f) => f.kind === "mono" || f.kind === "gray");
  const lights = fc.constantFrom("linear" as const, "srgb" as const);
  const format = fc.constantFrom(...levels);
  fc.assert(
    fc.property(format, format, lights, lights, fc.nat(255), fc.nat(255), (from, to, a, b, one, other) => {
      const give = between(
        { format: from.name, kind: from.kind, most: from.most, light: a },
        { format: to.name, kind: to.kind, most: to.most, light: b },
      );
      const [low, high] = [Math.min(one, other) % (from.most + 1), Math.max(one, other) % (from.most + 1)];
      expect(give(Math.min(low, high))).toBeLessThanOrEqual(give(Math.max(low, high)));
      expect([give(0), give(from.most)]).toEqual([0, to.most]);
    }),
    { numRuns: runs(200) },
  );
});

test("any text that is pasted is a picture of its size or refused in words", () => {
  const home = openText("#define ON 1\n// @panel hut 3x3 gray8\n", "art.h");
  const texts = fc.oneof(
    fc.string({ unit: "grapheme" }),
    fc.array(fc.constantFrom(...FRAGMENTS), { maxLength: 30 }).map((parts) => parts.join(" ")),
    documents().map((plan) => render(plan).text),
  );
  fc.assert(
    fc.property(texts, side, (text, width) => {
      const read = pasted(text, home, width);
      if ("refused" in read) {
        expect(read.refused).not.toBe("");
        return;
      }
      expect(read.pixels).toHaveLength(read.width * read.height);
      expect(read.pixels.every((value) => Number.isInteger(value) && value >= 0)).toBe(true);
    }),
    { numRuns: runs(400) },
  );
});

const words = fc.constantFrom(
  "gray8",
  "gray8 cap=64",
  "gray8 from=bottom-right",
  "gray8 scan=serpentine",
  "gray4",
  "gray4 bits=lsb pad=byte",
  "gray2 invert",
  "mono1",
  "mono1 pack=pages",
  "mono1 pack=columns bits=msb",
  "mono1 pack=each",
  "mono1 invert spare=first",
  "rgb332",
  "rgb565",
  "rgb565 bytes=le",
  "rgb888",
  "palette4 palette=colours",
);

test("pixels copied as text and pasted are the same, in the same file and in one that knows nothing of it", () => {
  const homes = ["", "#define ON 1\nint other[3] = {1, 2, 3};\n"].map((text) => openText(text, "other.h"));
  fc.assert(
    fc.property(words, side, side, fc.infiniteStream(fc.nat(0xffffff)), (given, width, height, stream) => {
      const palette = "// @palette rgb565\nuint16_t colours[16] = {1};\n";
      const home = openText(`${palette}// @bitmap 24x16 ${given}\nuint16_t art[] = {0};\n`, "art.h");
      const model = home.bitmaps.find((b) => b.array.name === "art");
      if (!model) throw new Error(`no bitmap of ${given}`);
      const pixels = [...stream.take(width * height)].map((value) => value % (model.format.most + 1));
      const text = copiedText(home, model, { width, height, pixels });
      if (typeof text !== "string") throw new Error(text.refused);
      for (const target of [home, ...homes]) {
        const read = pasted(text, target, 5);
        expect(read, text).toMatchObject({ width, height, pixels });
      }
    }),
    { numRuns: runs(300) },
  );
});
