/** What holds of every tool that draws, whatever its options and wherever the stroke goes. */
import fc from "fast-check";
import { expect, test } from "vitest";
import type { BitmapInfo } from "../../shared/protocol/lsp.ts";
import type { StrokeStep } from "../../webview/tools/ink.ts";
import type { Marks } from "../../webview/tools/marks.ts";
import { CHOICES, type ChoiceName, START_OPTIONS, type ToolOptions } from "../../webview/tools/options.ts";
import type { GlyphSet } from "../../webview/tools/text.ts";
import { TOOL_NAMES, toolOf } from "../../webview/tools/tools.ts";
import { digits, soft } from "../support/glyphSets.ts";
import { drop } from "../support/pictures.ts";

const { cap: _, ...GREY } = drop().bitmap;
const FORMATS = [
  { format: "mono1", kind: "mono", most: 1, full: 1 },
  { format: "gray4", kind: "gray", most: 15, full: 15, cap: 9 },
  { format: "gray8", kind: "gray", most: 255, full: 255 },
  { format: "rgb332", kind: "rgb", most: 255, full: 255, light: "srgb" },
  { format: "rgb565", kind: "rgb", most: 65535, full: 255, light: "srgb", limit: 100 },
] as const satisfies Partial<BitmapInfo>[];

const choice = <N extends ChoiceName>(name: N) =>
  fc.constantFrom(...(Object.keys(CHOICES[name].words) as ToolOptions[N][]));
const options: fc.Arbitrary<ToolOptions> = fc.record({
  ...Object.fromEntries(Object.entries(START_OPTIONS).map(([name, value]) => [name, fc.constant(value)])),
  width: fc.integer({ min: 1, max: 5 }),
  strength: fc.oneof(fc.constant(100), fc.integer({ min: 1, max: 100 })),
  second: fc.nat(65535),
  spacing: fc.nat(2),
  tip: choice("tip"),
  mode: choice("mode"),
  symmetry: choice("symmetry"),
  filled: choice("filled"),
  region: choice("region"),
  shape: choice("shape"),
  ease: choice("ease"),
  area: choice("area"),
}) as fc.Arbitrary<ToolOptions>;

const sets: GlyphSet[] = [digits, soft].map(({ info, pictures }) => ({ ...info, key: info.name, glyphs: pictures }));
const place = fc.record({ x: fc.integer({ min: -3, max: 15 }), y: fc.integer({ min: -3, max: 15 }) });
const side = fc.integer({ min: 1, max: 12 });

/** A stroke on a picture: how it is made, and with what. */
const strokes = fc
  .record({ width: side, height: side, info: fc.constantFrom(...FORMATS) })
  .chain(({ width, height, info }) =>
    fc.record({
      size: fc.constant({ width, height }),
      bitmap: fc.constant<BitmapInfo>({ ...GREY, ...info, width, height }),
      tool: fc.constantFrom(...TOOL_NAMES.filter((name) => name !== "pick")),
      options,
      level: fc.integer({ min: 0, max: info.most }),
      pixels: fc.array(fc.integer({ min: 0, max: info.most }), {
        minLength: width * height,
        maxLength: width * height,
      }),
      from: fc.record({ x: fc.nat(width - 1), y: fc.nat(height - 1) }),
      path: fc.array(place, { minLength: 1, maxLength: 5 }),
      text: fc.constantFrom("", "0", "12 i", "olo"),
      set: fc.constantFrom(...sets),
    }),
  );
type Stroke = typeof strokes extends fc.Arbitrary<infer T> ? T : never;

function marksOf({ path, ...given }: Stroke, mask?: StrokeStep["mask"]): Marks {
  let [marks, last]: [Marks, Stroke["from"]] = [new Map(), given.from];
  for (const to of [given.from, ...path]) {
    marks = toolOf(given.tool).step?.({ ...given, pixels: () => given.pixels, last, to, marks, mask }) ?? marks;
    last = to;
  }
  return marks;
}

test("every new value is one of the format, on a pixel of the picture", () => {
  fc.assert(
    fc.property(strokes, (stroke) => {
      for (const [index, value] of marksOf(stroke)) {
        expect(Number.isInteger(value) && value >= 0 && value <= stroke.bitmap.most).toBe(true);
        expect(index >= 0 && index < stroke.pixels.length).toBe(true);
      }
    }),
  );
});

test("a picture that is alike on both sides stays so under symmetry", () => {
  fc.assert(
    fc.property(strokes, fc.constantFrom("columns", "rows", "both"), (stroke, symmetry) => {
      const { width, height } = stroke.size;
      const images = (i: number) => {
        const [x, y] = [i % width, Math.floor(i / width)];
        const mirrorX = symmetry === "rows" ? [] : [y * width + width - 1 - x];
        const mirrorY = symmetry === "columns" ? [] : [(height - 1 - y) * width + x];
        return [...mirrorX, ...mirrorY];
      };
      // Each pixel takes its value from the first of its images.
      const pixels = stroke.pixels.map((_, i) => {
        const [x, y] = [i % width, Math.floor(i / width)];
        const left = symmetry === "rows" ? x : Math.min(x, width - 1 - x);
        const upper = symmetry === "columns" ? y : Math.min(y, height - 1 - y);
        return stroke.pixels[upper * width + left] ?? 0;
      });
      const alike = { ...stroke, pixels, options: { ...stroke.options, symmetry } as ToolOptions };
      const marks = marksOf(alike);
      const out = pixels.map((value, i) => marks.get(i) ?? value);
      for (let i = 0; i < out.length; i++) for (const image of images(i)) expect(out[image]).toBe(out[i]);
    }),
  );
});

test("a mask keeps all other pixels, and changes nothing about those within", () => {
  fc.assert(
    fc.property(strokes, fc.nat(4), (stroke, every) => {
      const mask = (index: number) => index % (every + 2) === 0;
      const masked = marksOf(stroke, mask);
      for (const index of masked.keys()) expect(mask(index)).toBe(true);
      for (const [index, value] of marksOf(stroke)) if (mask(index)) expect(masked.get(index)).toBe(value);
    }),
  );
});

test("to go back over a stroke changes nothing more", () => {
  fc.assert(
    fc.property(strokes, fc.constantFrom("draw", "erase"), (stroke, tool) => {
      const there = { ...stroke, tool } as Stroke;
      const back = { ...there, path: [...there.path, ...there.path.slice().reverse(), there.from, ...there.path] };
      const [once, again] = [marksOf(there), marksOf(back)];
      for (const [index, value] of once) expect(again.get(index)).toBe(value);
    }),
  );
});

test("strength stays between what was there and the level", () => {
  fc.assert(
    fc.property(strokes, (stroke) => {
      if (stroke.bitmap.kind === "rgb") return;
      const plain = { ...stroke, tool: "draw", options: { ...stroke.options, mode: "set" } } as Stroke;
      for (const [index, value] of marksOf(plain)) {
        const before = stroke.pixels[index] ?? 0;
        expect(value).toBeGreaterThanOrEqual(Math.min(before, stroke.level));
        expect(value).toBeLessThanOrEqual(Math.max(before, stroke.level));
      }
    }),
  );
});
