/**
 * Animations judged by W3C WCAG 2.2, success criterion 2.3.1, general and red flash thresholds; counting as in technique
 * G19. Grey levels of an LED are linear light; code values are decoded by IEC 61966-2-1.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { bytes, codesIn, findingsOf } from "./findings.ts";
import { describeClean, describeFindings } from "./tables.ts";

const blink = (options: string, dark: number, lit: number) => bytes(`1x1 frames=2 ${options}`, `{ ${dark}, ${lit} }`);
const says = (fps: number, flashes: number) =>
  `At ${fps} fps light flashes ${flashes} times within one second (all frames), on 100 % of the pixels`;
const slowed = (source: string, fps: number, to: number) => ({
  [`Slow a to ${to} fps`]: source.replace(`fps=${fps}`, `fps=${to}`),
});

describeFindings("flashing", "warning", [
  {
    what: "dark and full ten times a second",
    source: blink("fps=20", 0, 255),
    says: says(20, 10),
    on: "0",
    fixes: {
      ...slowed(blink("fps=20", 0, 255), 20, 6),
      // 23/255 is less than a tenth, 24/255 with the rounding of both would not be in every case.
      "Soften the quick changes of a to 9 %": blink("fps=20", 116, 139),
    },
  },
  {
    // Seven changes in a second fail, six pass.
    what: "seven changes in a second",
    source: blink("fps=7", 0, 255),
    says: says(7, 3.5),
    on: "0",
    fixes: {
      ...slowed(blink("fps=7", 0, 255), 7, 6),
      "Soften the quick changes of a to 20 %": blink("fps=7", 116, 139),
    },
  },
  {
    what: "a change of a tenth of full light",
    source: blink("fps=20", 0, 26),
    says: says(20, 10),
    on: "0",
    fixes: {
      ...slowed(blink("fps=20", 0, 26), 20, 6),
      "Soften the quick changes of a to 95 %": blink("fps=20", 1, 25),
    },
  },
  {
    what: "the smallest change of code values on a screen",
    source: blink("light=srgb fps=20", 64, 109),
    says: says(20, 10),
    on: "64",
    fixes: {
      ...slowed(blink("light=srgb fps=20", 64, 109), 20, 6),
      "Soften the quick changes of a to 97 %": blink("light=srgb fps=20", 65, 108),
    },
  },
  {
    what: "red lamps, between two shades of which light alone would not flash",
    source: "// @bitmap 1x1 rgb888 frames=2 fps=20\nconst uint32_t a[] = { 0x000000, 0x480000 };",
    says: "At 20 fps red light flashes",
    on: "0x000000",
    fixes: {
      "Slow a to 6 fps": "// @bitmap 1x1 rgb888 frames=2 fps=6\nconst uint32_t a[] = { 0x000000, 0x480000 };",
    },
  },
  {
    what: "a quarter of the pixels",
    source: bytes("2x2 frames=2 fps=12", "{ 9, 9, 9, 0,  9, 9, 9, 255 }"),
    says: "on 25 % of the pixels",
    on: "9",
    fixes: {
      "Slow a to 6 fps": bytes("2x2 frames=2 fps=6", "{ 9, 9, 9, 0,  9, 9, 9, 255 }"),
      "Soften the quick changes of a to 9 %": bytes("2x2 frames=2 fps=12", "{ 9, 9, 9, 116,  9, 9, 9, 139 }"),
    },
  },
]);

describeFindings("flashing", "warning", [
  {
    // The first of the seconds that hold all ten changes, which goes on into the next round.
    what: "a second of a longer run",
    source: bytes("1x1 frames=40 fps=20", `{ ${"1, ".repeat(30)}${"255, 2, ".repeat(5)} }`),
    says: "At 20 fps light flashes 5 times within one second (frames 21 to 0, from 1.05 s)",
    on: "1",
    fixes: {
      "Slow a to 6 fps": bytes("1x1 frames=40 fps=6", `{ ${"1, ".repeat(30)}${"255, 2, ".repeat(5)} }`),
      // The burst stays, about its mean, which comes and goes over a second.
      "Soften the quick changes of a to 9 %": bytes(
        "1x1 frames=40 fps=20",
        `{ 59, 47, 47, 36, 36, 24, 24, 13, 13, ${"1, ".repeat(12)}13, 13, 24, 24, 36, 36, 47, 47, 59, ${"83, 59, ".repeat(5)} }`,
      ),
    },
  },
]);

/** Eight by eight pixels, of which the first so many flash: of 3 mm pitch, 9 mm² each. */
const corner = (count: number, seen: string) => {
  const list = (lit: number) => Array.from({ length: 64 }, (_, i) => (i < count ? lit : 9)).join(", ");
  return bytes(`8x8 frames=2 fps=7 ${seen}`, `{ ${list(0)},  ${list(200)} }`);
};

describe("the area of a panel whose pitch and distance are known", () => {
  const found = (source: string) => findingsOf(source, "flashing").map(({ message }) => message);

  // 0.006 sr: D²·0.006 = 540 mm² at 300 mm, 1500 at 500 mm, 6000 at 1000 mm (WCAG 2.2, 25 % of a field of 10°).
  it.each([
    ["pitch=3mm distance=300mm", 60, "540 mm², safe would be less than 540 mm² at 300 mm"],
    ["pitch=5mm distance=500mm", 60, "1500 mm², safe would be less than 1500 mm² at 500 mm"],
    ["pitch=1cm distance=1m", 60, "6000 mm², safe would be less than 6000 mm² at 1000 mm"],
  ])("%s: %i pixels flash on a large area, one less does not", (seen, count, says) => {
    expect(found(corner(count, seen))).toEqual([expect.stringContaining(says)]);
    expect(found(corner(count - 1, seen))).toEqual([]);
  });

  it("a small panel seen from afar is small as a whole", () => {
    expect(found(corner(64, "pitch=2mm distance=300mm"))).toEqual([]);
    expect(found(corner(64, "pitch=2mm"))).toEqual([expect.stringContaining("on 100 % of the pixels: ")]);
  });

  it("on a large panel a quarter is not needed", () => {
    expect(found(corner(6, "pitch=1cm distance=300mm"))).toEqual([
      expect.stringContaining("on 9 % of the pixels (600 mm²"),
    ]);
    expect(found(corner(6, ""))).toEqual([]);
  });
});

describe("softer steps", () => {
  const shape = fc.record({
    format: fc.constantFrom("gray8 pack=each", "gray4 pack=each", "rgb565"),
    fps: fc.integer({ min: 7, max: 60 }),
    frames: fc.integer({ min: 2, max: 24 }),
    seed: fc.array(fc.nat(0xffff), { minLength: 1, maxLength: 40 }),
  });

  it("always pass, keep within the values that there were, and leave calm pixels alone", () => {
    let softened = 0;
    fc.assert(
      fc.property(shape, ({ format, fps, frames, seed }) => {
        const most = format.startsWith("rgb") ? 0xffff : format.startsWith("gray4") ? 15 : 255;
        const value = (i: number) => (i % 4 === 3 ? most >> 1 : (seed[i % seed.length] as number) % (most + 1));
        const values = Array.from({ length: 4 * frames }, (_, i) => value(i));
        const source = `// @bitmap 4x1 ${format} frames=${frames} fps=${fps}\nconst uint16_t a[] = { ${values.join(", ")} };`;
        for (const finding of findingsOf(source, "flashing"))
          for (const { title, kind, after } of finding.fixes) {
            if (kind !== "soften") continue;
            softened++;
            expect([title, codesIn(after).filter((code) => code === "flashing")]).toEqual([title, []]);
            const now = (/\{ (.*) \}/.exec(after)?.[1] ?? "").split(", ").map(Number);
            for (let pixel = 0; pixel < 4; pixel++) {
              const own = (list: readonly number[]) => list.filter((_, i) => i % 4 === pixel);
              if (format.startsWith("rgb")) continue;
              expect(Math.max(...own(now))).toBeLessThanOrEqual(Math.max(...own(values)));
              expect(Math.min(...own(now))).toBeGreaterThanOrEqual(Math.min(...own(values)));
            }
            expect(now.filter((_, i) => i % 4 === 3)).toEqual(values.filter((_, i) => i % 4 === 3));
          }
      }),
      { numRuns: 60 },
    );
    expect(softened).toBeGreaterThan(20);
  });

  it("are not offered where nothing lies between dark and lit, for palettes, and for red light", () => {
    const kinds = (source: string) => findingsOf(source, "flashing").flatMap((f) => f.fixes.map(({ kind }) => kind));
    expect(kinds(bytes("8x1 mono1 frames=2 fps=20", "{ 0x00, 0xFF }"))).toEqual(["slow"]);
    expect(kinds("// @bitmap 1x1 rgb888 frames=2 fps=20\nconst uint32_t a[] = { 0x000000, 0x480000 };")).toEqual([
      "slow",
    ]);
  });
});

describeClean("flashing", [
  ["six changes in a second", blink("fps=6", 0, 255)],
  ["less than a tenth of full light", blink("fps=20", 0, 25)],
  ["code values just below", blink("light=srgb fps=20", 64, 108)],
  ["the darker state at 0.8 of full", blink("fps=20", 204, 255)],
  ["full-scale art that is driven at a twelfth", blink("fps=20 drive=8%", 0, 255)],
  ["less than a quarter of the pixels", bytes("5x1 frames=2 fps=20", "{ 9, 9, 9, 9, 0,  9, 9, 9, 9, 255 }")],
  ["a fade over many frames", bytes("1x1 frames=8 fps=20", "{ 0, 64, 128, 192, 255, 192, 128, 64 }")],
  ["no speed", blink("", 0, 255)],
  ["a glyph set", blink("fps=20 first='0'", 0, 255)],
  ["a still picture", bytes("2x1 fps=20", "{ 0, 255 }")],
]);
