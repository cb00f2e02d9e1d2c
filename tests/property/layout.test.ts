import fc from "fast-check";
import { expect, test } from "vitest";
import { FORMATS } from "../../shared/pixels/formats.ts";
import type { Layout } from "../../shared/pixels/layout.ts";
import { layOut } from "../../shared/pixels/layout.ts";
import { setPixel, strayBits, unpack } from "../../shared/pixels/picture.ts";
import { runs } from "../support/runs.ts";
import { asElements } from "./render.ts";

/** Every arrangement that has a layout, in every format, also those that an annotation can't ask for. */
const layouts = fc
  .record({
    width: fc.integer({ min: 1, max: 20 }),
    height: fc.integer({ min: 1, max: 20 }),
    frames: fc.integer({ min: 1, max: 3 }),
    format: fc.constantFrom(...FORMATS.values()),
    elementBits: fc.constantFrom<8 | 16 | 32 | 64>(8, 16, 32, 64),
    pack: fc.constantFrom("rows" as const, "columns" as const, "pages" as const, "each" as const),
    bits: fc.constantFrom("msb" as const, "lsb" as const),
    pad: fc.constantFrom(
      "element" as const,
      "byte" as const,
      "16" as const,
      "32" as const,
      "frame" as const,
      "none" as const,
    ),
    spare: fc.constantFrom("last" as const, "first" as const),
    bytes: fc.constantFrom("be" as const, "le" as const),
    scan: fc.constantFrom("rows" as const, "columns" as const, "serpentine" as const, "serpentine-columns" as const),
    from: fc.constantFrom("top-left" as const, "top-right" as const, "bottom-left" as const, "bottom-right" as const),
    skip: fc.nat(4),
    lead: fc.nat(3),
  })
  .map((a) => layOut(a))
  .filter((made): made is Layout => !("why" in made));

/** Bits of a pixel in its elements: [element, mask] pairs. */
function bitsOf(layout: Layout, frame: number, i: number): [number, bigint][] {
  const { element, shift } = layout.table(frame);
  const at = element[i] as number;
  const all = (1n << BigInt(layout.elementBits)) - 1n;
  if (layout.span > 1) return Array.from({ length: layout.span }, (_, k) => [at + k, all]);
  // Bits beside a lone colour are not the pixel's: they may hold a fourth channel.
  const whole = layout.alone && layout.format.kind !== "rgb";
  return [[at, whole ? all : BigInt(layout.format.most) << BigInt(shift[i] as number)]];
}

test("every pixel has bits of its own, inside the elements that the bitmap takes", () => {
  fc.assert(
    fc.property(layouts, (layout) => {
      const used = new Map<number, bigint>();
      for (let frame = 0; frame < layout.frames; frame++) {
        for (let i = 0; i < layout.width * layout.height; i++) {
          for (const [element, mask] of bitsOf(layout, frame, i)) {
            if (element < layout.skip || element >= layout.elements)
              expect.fail(`pixel ${i} of frame ${frame} is in element ${element}`);
            if (mask >= 1n << BigInt(layout.elementBits))
              expect.fail(`pixel ${i} lies across the end of element ${element}`);
            if (((used.get(element) ?? 0n) & mask) !== 0n)
              expect.fail(`pixel ${i} of frame ${frame} shares bits in element ${element}`);
            used.set(element, (used.get(element) ?? 0n) | mask);
          }
        }
      }
      // Nothing longer is asked for than pixels, padding and leading elements take.
      expect(
        used.has(layout.elements - 1) || layout.pad !== "element" || layout.pack === "pages" || layout.lead > 0,
      ).toBe(true);
    }),
    { numRuns: runs(800) },
  );
});

test("a pixel that is set is read back; all others and the unused bits stay", () => {
  const stroke = fc.array(fc.record({ frame: fc.nat(), i: fc.nat(), value: fc.nat() }), {
    minLength: 1,
    maxLength: 12,
  });
  fc.assert(
    fc.property(
      layouts,
      fc.array(fc.bigInt({ min: 0n, max: (1n << 64n) - 1n }), { minLength: 1, maxLength: 16 }),
      stroke,
      fc.boolean(),
      (layout, noise, changes, invert) => {
        const elements = Array.from({ length: layout.elements }, (_, i) =>
          BigInt.asUintN(layout.elementBits, noise[i % noise.length] as bigint),
        );
        const picture = (frame: number) =>
          Array.from(unpack(asElements(elements, layout.elementBits), layout, frame, invert));
        const wanted = Array.from({ length: layout.frames }, (_, frame) => picture(frame));
        const before = [...elements];
        const touched = new Map<number, bigint>();
        for (const change of changes) {
          const frame = change.frame % layout.frames;
          const i = change.i % (layout.width * layout.height);
          const value = change.value % (layout.format.most + 1);
          setPixel(
            layout,
            frame,
            i,
            value,
            invert,
            (at) => elements[at] as bigint,
            (at, bits) => {
              elements[at] = bits;
            },
          );
          (wanted[frame] as number[])[i] = value;
          for (const [element, mask] of bitsOf(layout, frame, i))
            touched.set(element, (touched.get(element) ?? 0n) | mask);
        }
        expect(wanted.map((_, frame) => picture(frame))).toEqual(wanted);
        const strayed = elements.flatMap((bits, at) =>
          ((bits ^ (before[at] as bigint)) & ~(touched.get(at) ?? 0n)) === 0n ? [] : [at],
        );
        expect(strayed).toEqual([]);
      },
    ),
    { numRuns: runs(800) },
  );
});

test("stray bits are those of no pixel, and clearing them leaves the picture as it is", () => {
  fc.assert(
    fc.property(
      layouts,
      fc.array(fc.bigInt({ min: 0n, max: (1n << 64n) - 1n }), { minLength: 1, maxLength: 16 }),
      (layout, noise) => {
        const elements = Array.from({ length: layout.elements }, (_, i) =>
          BigInt.asUintN(layout.elementBits, noise[i % noise.length] as bigint),
        );
        const pictures = () =>
          Array.from({ length: layout.frames }, (_, frame) =>
            Array.from(unpack(asElements(elements, layout.elementBits), layout, frame, false)),
          );
        const before = pictures();
        for (const { element, cleared } of strayBits(asElements(elements, layout.elementBits), layout)) {
          expect(cleared).not.toBe(elements[element]);
          elements[element] = cleared;
        }
        expect(pictures()).toEqual(before);
        expect(strayBits(asElements(elements, layout.elementBits), layout)).toEqual([]);
      },
    ),
    { numRuns: runs(800) },
  );
});

/**
 * The rules of the annotation table, done the slow way: one bit after another is put down, line by line, and each
 * bit's place is then looked up in the element that it falls in.
 */
function slowly(layout: Layout, frame: number): [number, number][] {
  const { width, height, elementBits: size, format, bits, bytes, pad, spare, lead, skip } = layout;
  const places = new Map<number, number>();
  let position = 0;
  const start = (grain: number) => {
    while (position % grain !== 0) position++;
  };
  const columns = layout.pack === "columns";
  const bands = layout.pack === "pages";
  const grain = { element: size, byte: 8, 16: 16, 32: 32, frame: 1, none: 1 }[pad];
  position = skip * size;
  for (let f = 0; f <= frame; f++) {
    if (pad !== "none") start(size);
    position += lead * size;
    const origin = position;
    const fresh = () => {
      while ((position - origin) % grain !== 0) position++;
    };
    const lines = bands ? Math.ceil(height / 8) : columns ? width : height;
    const length = bands ? width * 8 : columns ? height : width;
    for (let line = 0; line < lines; line++) {
      fresh();
      if (spare === "first" && !bands) {
        const total = Math.ceil((length * format.depth) / grain) * grain;
        position += total - length * format.depth;
      }
      for (let k = 0; k < length; k++) {
        const short = bands && spare === "first" && line === lines - 1 ? (8 - (height % 8)) % 8 : 0;
        const x = bands ? Math.floor(k / 8) : columns ? line : k;
        const y = bands ? line * 8 + (k % 8) - short : columns ? k : line;
        if (f === frame && y < height && y >= (bands ? line * 8 : 0)) places.set(y * width + x, position);
        position += format.depth;
      }
    }
    fresh();
  }
  return Array.from({ length: width * height }, (_, i) => {
    const x = i % width;
    const y = Math.floor(i / width);
    const u = layout.from.endsWith("right") ? width - 1 - x : x;
    const v = layout.from.startsWith("bottom") ? height - 1 - y : y;
    const place = places.get(v * width + u) as number;
    const inElement = place % size;
    const byte = bytes === "be" ? size / 8 - 1 - Math.floor(inElement / 8) : Math.floor(inElement / 8);
    const bit = bits === "msb" ? 8 - format.depth - (inElement % 8) : inElement % 8;
    return [Math.floor(place / size), byte * 8 + bit];
  });
}

test("packed pixels lie where the words of the annotation say, worked out bit by bit", () => {
  const packed = layouts.filter((l) => l.pack !== "each" && l.format.depth < 8);
  fc.assert(
    fc.property(packed, fc.nat(2), (layout, f) => {
      const frame = f % layout.frames;
      const { element, shift } = layout.table(frame);
      const found = Array.from(element, (at, i) => [at, shift[i] as number]);
      expect(found).toEqual(slowly(layout, frame));
    }),
    { numRuns: runs(600) },
  );
});
