/**
 * Flashes by W3C WCAG 2.2 (success criterion 2.3.1, definitions of general and red flash, technique G19). The edge
 * values follow from the definitions; relative luminance is that of WCAG, by IEC 61966-2-1.
 */
import { describe, expect, test } from "vitest";
import type { Animation } from "../../../shared/light/flashing.ts";
import { flashingIn } from "../../../shared/light/flashing.ts";
import { srgbToLinear } from "../../../shared/light/lightness.ts";

/** Frames of so many pixels, all of one light. */
function plain(lights: readonly number[], fps: number, given: Partial<Animation> = {}): Animation {
  return {
    pixels: 4,
    fps,
    order: lights.map((_, i) => i),
    loop: true,
    luminance: (frame) => new Array<number>(given.pixels ?? 4).fill(lights[frame] ?? 0),
    ...given,
  };
}

const general = (animation: Animation) => flashingIn(animation).find((f) => f.kind === "general")?.flashes;
const grey = (code: number) => srgbToLinear(code / 255);

describe("a general flash", () => {
  test.each([
    // Smallest grey of sRGB that flashes from black, and the two pairs about ΔL = 0.1.
    [grey(0), grey(90), true],
    [grey(0), grey(89), false],
    [grey(64), grey(109), true],
    [grey(64), grey(108), false],
    // Exactly a tenth of the maximum counts.
    [0.3, 0.4, true],
    [0.3, 0.3999, false],
    // The darker state must be below 0.80.
    [0.7999, 0.9, true],
    [0.8, 0.9, false],
    [0.8, 1, false],
  ])("%f to %f: %s", (dark, light, flashes) => {
    expect(general(plain([dark, light], 20)) !== undefined).toBe(flashes);
  });

  test.each([
    // Alternating frames: a change with each. Six changes in a second are three flashes, seven are too many (G19).
    [6, undefined],
    [6.5, 3.5],
    [7, 3.5],
    [10, 5],
    [20, 10],
  ])("at %f changes a second there are %s flashes", (fps, flashes) => {
    expect(general(plain([0, 1], fps))).toBe(flashes);
  });

  test("a fade over several frames is one change", () => {
    const fade = [0, 0.2, 0.4, 0.6, 0.8, 1, 0.8, 0.6, 0.4, 0.2];
    expect(general(plain(fade, 30))).toBeUndefined();
    // Seven turns of ten frames in a second: from 35 frames a second on.
    expect(general(plain(fade, 34))).toBe(3.5);
    expect(general(plain(fade, 60))).toBe(6);
  });

  test("a dip of less than a tenth does not end a change", () => {
    expect(general(plain([0, 0.5, 0.45, 1, 0.95, 0.5, 0.55, 0.05], 24))).toBeUndefined();
    expect(general(plain([0, 0.5, 0.4, 1, 0.9, 0.5, 0.6, 0.05], 24))).toBeDefined();
  });

  test("steps that add up to a tenth are a change, in as many frames as they take", () => {
    expect(general(plain([0.5, 0.55, 0.6, 0.55], 14))).toBe(3.5);
    expect(general(plain([0.5, 0.54, 0.59, 0.55], 14))).toBeUndefined();
  });
});

describe("the area", () => {
  const some = (count: number, pixels: number): Animation => ({
    ...plain([0, 1], 20, { pixels }),
    luminance: (frame) => Array.from({ length: pixels }, (_, i) => (i < count ? frame % 2 : 0.5)),
  });
  test.each([
    [24, 100, false],
    [25, 100, true],
    [20, 81, false],
    [21, 81, true],
    [1, 1, true],
  ])("%i of %i pixels", (count, pixels, flashes) => {
    const [found] = flashingIn(some(count, pixels));
    expect(found !== undefined).toBe(flashes);
    if (found) expect(found.share).toBeCloseTo(count / pixels);
  });

  test("pixels that flash in turn flash together", () => {
    const turns = { ...some(0, 4), luminance: (frame: number) => [frame % 2, 1 - (frame % 2), 0, 0] };
    expect(general(turns)).toBe(10);
  });
});

describe("the second", () => {
  const calm = new Array<number>(40).fill(0);
  test("is where most flashes are, with its frames", () => {
    const burst = [...calm, 1, 0, 1, 0, 1, 0, 1, 0, ...calm];
    const [found] = flashingIn(plain(burst, 10, { loop: false }));
    expect(found).toMatchObject({ kind: "general", flashes: 4, share: 1 });
    expect(found?.frames).toHaveLength(10);
    expect(found?.frames.filter((frame) => frame >= 40 && frame < 48)).toHaveLength(8);
    expect(found?.start).toBeCloseTo((found?.frames[0] ?? 0) / 10);
  });

  test("goes on over the seam of a loop", () => {
    const ends = [1, 0, 1, 0, ...calm, 1, 0, 1, 0];
    expect(general(plain(ends, 10, { loop: true }))).toBe(4);
    expect(general(plain(ends, 10, { loop: false }))).toBeUndefined();
  });

  test("a loop shorter than a second is counted as often as it comes", () => {
    expect(general(plain([0, 1], 8, { loop: true }))).toBe(4);
    expect(general(plain([0, 1], 8, { loop: false }))).toBeUndefined();
  });

  test("frames come in the order of the run, there and back too", () => {
    const back = plain([0, 1, 0.5], 12, { order: [0, 1, 2, 1] });
    expect(flashingIn(back)[0]?.frames.slice(0, 4)).toEqual(expect.arrayContaining([0, 1, 2]));
    expect(general(plain([1], 12, { order: [0] }))).toBeUndefined();
  });
});

describe("a red flash", () => {
  const colours = (list: readonly (readonly number[])[], fps = 20): Animation => ({
    ...plain(
      list.map(() => 0.5),
      fps,
      { pixels: 1 },
    ),
    rgb: (frame) => list[frame] ?? [0, 0, 0],
  });
  const kinds = (animation: Animation) => flashingIn(animation).map((f) => f.kind);
  test.each([
    ["red and black", [1, 0, 0], [0, 0, 0], true],
    ["red and blue", [1, 0, 0], [0, 0, 1], true],
    ["red and white", [1, 0, 0], [1, 1, 1], true],
    // R/(R+G+B) is 0.8 and a little less.
    ["a red that is just saturated, and blue", [0.8, 0.2, 0], [0, 0, 1], true],
    ["a red that is not quite saturated, and blue", [0.79, 0.21, 0], [0, 0, 1], false],
    ["two reds", [1, 0, 0], [0.5, 0, 0], false],
    ["green and blue", [0, 1, 0], [0, 0, 1], false],
  ])("%s: %s", (_, a, b, flashes) => {
    expect(kinds(colours([a, b] as number[][])).includes("red")).toBe(flashes);
  });

  test("is counted as general ones are", () => {
    expect(
      kinds(
        colours(
          [
            [1, 0, 0],
            [0, 0, 1],
          ],
          6,
        ),
      ),
    ).toEqual([]);
    expect(
      flashingIn(
        colours(
          [
            [1, 0, 0],
            [0, 0, 1],
          ],
          7,
        ),
      ),
    ).toMatchObject([{ kind: "red", flashes: 3.5 }]);
  });
});

test("a speed that is none is an error", () => {
  for (const fps of [0, -1, Number.NaN, Number.POSITIVE_INFINITY])
    expect(() => flashingIn(plain([0, 1], fps))).toThrow(RangeError);
});
