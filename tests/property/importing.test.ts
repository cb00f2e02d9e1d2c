import fc from "fast-check";
import { expect, test } from "vitest";
import { encodePng } from "../../server/png.ts";
import { readPicture } from "../../server/readPicture.ts";
import { openText } from "../../shared/bitmap/open.ts";
import { pixelsOf } from "../../shared/bitmap/resolve.ts";
import { bringIn } from "../../shared/image/bring.ts";
import { DITHERS, FITS, OVER_CAP } from "../../shared/image/choices.ts";
import { newPicture } from "../../shared/image/write.ts";
import { FORMATS } from "../../shared/pixels/formats.ts";
import { paletteFor } from "../../shared/pixels/quantise.ts";
import type { RgbaPicture } from "../../shared/pixels/rgba.ts";
import { runs } from "../support/runs.ts";

const pictures = fc
  .record({
    width: fc.integer({ min: 1, max: 9 }),
    height: fc.integer({ min: 1, max: 9 }),
    most: fc.constantFrom(1, 7, 255, 65_535),
  })
  .chain(({ width, height, most }) =>
    fc.array(fc.nat(most), { minLength: 4 * width * height, maxLength: 4 * width * height }).map(
      (data): RgbaPicture => ({
        width,
        height,
        most,
        data: most > 255 ? Uint16Array.from(data) : Uint8Array.from(data),
      }),
    ),
  );

test("whatever is brought in fits its format and cap, and is read back from the text as it was made", () => {
  const words = fc.constantFrom(
    "mono1",
    "mono1 pack=pages",
    "mono1 invert",
    "gray2",
    "gray4 bits=lsb",
    "gray8",
    "gray8 cap=64",
    "gray8 drive=25% cap=40",
    "rgb332",
    "rgb565 cap=100",
    "rgb888",
    "palette1",
    "palette2 cap=90",
    "palette4",
  );
  const choices = fc.record(
    {
      fit: fc.constantFrom(...FITS.filter((fit) => fit !== "exact")),
      dither: fc.constantFrom(...DITHERS),
      overCap: fc.constantFrom(...OVER_CAP),
      invert: fc.boolean(),
      linear: fc.boolean(),
      background: fc.oneof(fc.constant("none" as const), fc.nat(0xffffff)),
      turn: fc.constantFrom(0, 90, 180, 270),
    },
    { requiredKeys: [] },
  );
  const size = fc.record({ width: fc.integer({ min: 1, max: 12 }), height: fc.integer({ min: 1, max: 12 }) });
  fc.assert(
    fc.property(
      fc.array(pictures, { minLength: 1, maxLength: 3 }),
      words,
      choices,
      size,
      (art, format, chosen, { width, height }) => {
        const file = openText("", "art.h");
        const given = `${width}x${height} ${format}`;
        const written = newPicture(
          file,
          { pictures: art },
          { words: given, name: "seed", offset: 0, choices: chosen as never },
        );
        if ("refused" in written) {
          expect(written.refused).toMatch(/ordered dither/);
          return;
        }
        const { bitmaps, problems } = openText(written.text, "art.h");
        expect(problems).toEqual([]);
        const [bitmap] = bitmaps;
        if (!bitmap) throw new Error(written.text);
        expect(bitmap.frames).toBe(art.length);
        const limit =
          bitmap.cap === undefined ? bitmap.format.full : Math.ceil((bitmap.cap + 1) / bitmap.drive - 1e-9) - 1;
        art.forEach((_, frame) => {
          const values = Array.from(pixelsOf(bitmap, frame) ?? []);
          expect(values).toEqual(Array.from(written.brought.frames[frame] ?? []));
          if (bitmap.format.kind === "gray") expect(Math.max(...values)).toBeLessThanOrEqual(limit);
        });
      },
    ),
    { numRuns: runs(600) },
  );
});

test("grey in is the same grey out, for every format that holds it", () => {
  fc.assert(
    fc.property(fc.array(fc.nat(255), { minLength: 1, maxLength: 64 }), (greys) => {
      const data = Uint8Array.from(greys.flatMap((v) => [v, v, v, 255]));
      const read = readPicture(
        encodePng({ width: greys.length, height: 1, channels: 1, data: Uint8Array.from(greys) }),
      );
      if ("refused" in read || read.kind !== "picture") throw new Error("not read");
      expect(read.picture.data).toEqual(data);
      for (const name of ["gray8", "rgb888"]) {
        const format = FORMATS.get(name);
        if (!format) throw new Error(name);
        const out = bringIn([read.picture], { width: greys.length, height: 1, format, cap: undefined, drive: 1 }, {});
        if ("refused" in out) throw new Error(out.refused);
        expect(Array.from(out.frames[0] ?? [])).toEqual(greys.map((v) => (name === "gray8" ? v : v * 0x010101)));
      }
    }),
    { numRuns: runs(100) },
  );
});

test("any bytes are read or refused in words, also such that begin like a picture", () => {
  const begin = fc.constantFrom(
    [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a],
    [..."P2 3 3 9 "].map((c) => c.charCodeAt(0)),
    [..."P5 2 2 255\n"].map((c) => c.charCodeAt(0)),
    [..."P7\nWIDTH 2\nHEIGHT 2\nDEPTH 1\n"].map((c) => c.charCodeAt(0)),
    [..."STARTFONT 2.1\nFONTBOUNDINGBOX 4 4 0 0\nSTARTCHAR a\n"].map((c) => c.charCodeAt(0)),
    [..."#define a_width 8\n#define a_height 1\nstatic char a_bits[] = {"].map((c) => c.charCodeAt(0)),
    [0x36, 0x04, 3, 2],
    [0x72, 0xb5, 0x4a, 0x86, 0, 0, 0, 0, 32, 0, 0, 0],
    [0x1f, 0x8b],
    [],
  );
  fc.assert(
    fc.property(begin, fc.uint8Array({ maxLength: 200 }), (start, rest) => {
      const read = readPicture(Uint8Array.from([...start, ...rest]));
      if ("refused" in read) expect(read.refused.length).toBeGreaterThan(10);
      else expect(["picture", "font"]).toContain(read.kind);
    }),
    { numRuns: runs(2000) },
  );
});

test("a palette has no more colours than asked for, none twice, and all of a picture that has no more", () => {
  const colours = fc.array(fc.nat(0xffffff), { minLength: 1, maxLength: 40 });
  fc.assert(
    fc.property(colours, fc.constantFrom(2, 4, 16, 256), (pixels, most) => {
      const palette = paletteFor(pixels, most);
      expect(new Set(palette).size).toBe(palette.length);
      expect(palette.length).toBeLessThanOrEqual(most);
      if (new Set(pixels).size <= most) expect(new Set(palette)).toEqual(new Set(pixels));
      // Which pixel comes first has no say.
      expect(paletteFor([...pixels].reverse(), most)).toEqual(palette);
    }),
    { numRuns: runs(300) },
  );
});
