import { describe, expect, it } from "vitest";
import type { Target } from "../../../shared/image/bring.ts";
import { bringIn } from "../../../shared/image/bring.ts";
import type { Channel, Choices } from "../../../shared/image/choices.ts";
import { FORMATS, type Format } from "../../../shared/pixels/formats.ts";
import type { RgbaPicture } from "../../../shared/pixels/rgba.ts";
import { greyPicture, rgbaPicture } from "../../support/rgba.ts";

function brought(
  picture: RgbaPicture,
  target: Partial<Omit<Target, "format">> & { format?: string },
  choices: Choices = {},
) {
  const { format = "gray8", ...more } = target;
  const whole = { width: picture.width, height: picture.height, cap: undefined, drive: 1, ...more };
  return bringIn([picture], { ...whole, format: FORMATS.get(format) as Format }, choices);
}

function values(...args: Parameters<typeof brought>): number[] {
  const result = brought(...args);
  if ("refused" in result) throw new Error(result.refused);
  return Array.from(result.frames[0] ?? []);
}

const notes = (...args: Parameters<typeof brought>) => {
  const result = brought(...args);
  return "refused" in result ? [result.refused] : result.notes;
};

const ramp = greyPicture(Array.from({ length: 256 }, (_, v) => v));

describe("channels", () => {
  it("every grey is its own luminance, red, green, blue and colours", () => {
    const all = Array.from({ length: 256 }, (_, v) => v);
    for (const channel of ["luminance", "red", "green", "blue"] as const)
      expect(values(ramp, {}, { channel })).toEqual(all);
    expect(values(ramp, { format: "rgb888" })).toEqual(all.map((v) => v * 0x010101));
    const deep = {
      width: 4,
      height: 1,
      most: 65_535,
      data: Uint16Array.from([0, 1, 257, 65_535].flatMap((v) => [v, v, v, 65_535])),
    };
    expect(values(deep, {})).toEqual([0, 0, 1, 255]);
  });

  /**
   * Luminance .2126 R + .7152 G + .0722 B of linear light (ITU-R BT.709, WCAG 2.2), encoded by IEC 61966-2-1: 255·encode(.2126) = 127.1,
   * of .7152 219.9, of .0722 75.9, of .9278 246.6; L* (CIE 15:2018) of the same: 53.24, 87.73, 32.30, 97.14 (values that CSS Color 4 and others list for sRGB's primaries).
   */
  const primaries = rgbaPicture([
    [255, 0, 0, 255],
    [0, 255, 0, 255],
    [0, 0, 255, 255],
    [255, 255, 0, 64],
  ]);

  it.each<[Channel, number[]]>([
    ["luminance", [127, 220, 76, 247]],
    ["lightness", [136, 224, 82, 248]],
    ["red", [255, 0, 0, 255]],
    ["green", [0, 255, 0, 255]],
    ["blue", [0, 0, 255, 0]],
    ["alpha", [255, 255, 255, 64]],
  ])("%s", (channel, expected) => {
    expect(values(primaries, {}, { channel, background: "none" })).toEqual(expected);
  });

  it("show a background through what is transparent, black unless it is said", () => {
    const half = rgbaPicture([
      [255, 255, 255, 51],
      [100, 100, 100, 0],
      [100, 100, 100, 255],
    ]);
    expect(values(half, {})).toEqual([51, 0, 100]);
    expect(values(half, {}, { background: 0xffffff })).toEqual([255, 255, 100]);
    expect(values(half, {}, { background: "none" })).toEqual([255, 100, 100]);
    expect(values(half, { format: "rgb888" }, { background: 0x0000ff })).toEqual([0x3333ff, 0x0000ff, 0x646464]);
  });

  it("that are the same everywhere are pointed out, with the one that varies", () => {
    const mask = rgbaPicture([
      [0, 0, 0, 0],
      [0, 0, 0, 255],
    ]);
    expect(brought(mask, {})).toMatchObject({
      notes: ["luminance is the same everywhere (0 %); alpha goes from 0 % to 100 %"],
      instead: "alpha",
    });
    expect(notes(mask, {}, { channel: "alpha" })).toEqual([]);
    const flat = greyPicture([7, 7]);
    expect(notes(flat, {})).toEqual(["luminance is the same everywhere (3 %), and so are the others"]);
    const hidden = rgbaPicture([
      [0, 0, 0, 0],
      [255, 0, 0, 0],
    ]);
    expect(notes(hidden, {})).toEqual([
      "luminance is the same everywhere (0 %); without a background luminance goes from 0 % to 50 %",
    ]);
  });
});

describe("fit", () => {
  const wide = greyPicture([40, 80, 120, 160], [40, 80, 120, 160]);

  it.each<[string, Choices, number[]]>([
    ["contain leaves dark rows", { fit: "contain" }, [60, 140, 0, 0]],
    ["cover cuts the sides off", { fit: "cover" }, [80, 120, 80, 120]],
    ["a part of the size of the bitmap", { crop: { x: 2, y: 0 } }, [120, 160, 120, 160]],
    ["a part of its own size", { crop: { x: 0, y: 0, width: 1, height: 1 } }, [40, 40, 40, 40]],
    ["the margin is the background where one is chosen", { fit: "contain", background: 0xffffff }, [60, 140, 255, 255]],
    ["the margin stays dark when all is inverted", { fit: "contain", invert: true }, [195, 115, 0, 0]],
    ["nearest", { fit: "contain", resample: "nearest" }, [80, 160, 0, 0]],
  ])("%s", (_name, choices, expected) => {
    expect(values(wide, { width: 2, height: 2 }, choices)).toEqual(expected);
  });

  it("says what was done unasked, and refuses what is not exact", () => {
    expect(notes(wide, { width: 2, height: 2 })).toEqual(["scaled from 4×2 to 2×2 with its sides in proportion"]);
    expect(notes(wide, { width: 2, height: 2 }, { fit: "exact" })).toEqual([
      "the picture is 4×2, and the bitmap 2×2: choose how it fits",
    ]);
    expect(notes(wide, { width: 2, height: 2 }, { crop: { x: 3, y: 0 } })).toEqual([
      "2×2 from 3,0 is not inside the picture, which is 4×2",
    ]);
    expect(notes(greyPicture([1], [2], [3]), { width: 60_000, height: 1 }, { fit: "cover" })).toEqual([
      "the picture would be 60000×180000 pixels large: crop it",
    ]);
  });
});

describe("levels", () => {
  it("keep to the cap: scaled if anything is over it, else as they are", () => {
    const bright = greyPicture([0, 64, 65, 255]);
    expect(values(bright, { cap: 64 })).toEqual([0, 16, 16, 64]);
    expect(notes(bright, { cap: 64 })).toEqual(["scaled, so that white is the cap of 64"]);
    expect(values(bright, { cap: 64 }, { overCap: "clamp" })).toEqual([0, 64, 64, 64]);
    const dim = greyPicture([0, 1, 63, 64]);
    expect(values(dim, { cap: 64 })).toEqual([0, 1, 63, 64]);
    expect(notes(dim, { cap: 64 })).toEqual([]);
    expect(values(dim, { cap: 64 }, { overCap: "scale" })).toEqual([0, 0, 16, 16]);
    expect(values(bright, { cap: 64, drive: 0.25 })).toEqual([0, 64, 65, 255]);
  });

  // PNG Third Edition, 13.12: floor(in · MAXOUT / MAXIN + 0.5).
  it.each([
    ["gray4", [0, 8, 9, 127, 128, 255], [0, 0, 1, 7, 8, 15]],
    ["gray2", [0, 42, 43, 127, 128, 255], [0, 0, 1, 1, 2, 3]],
    ["mono1", [0, 42, 43, 127, 128, 255], [0, 0, 0, 0, 1, 1]],
  ])("%s takes the nearest", (format, grey, expected) => {
    expect(values(greyPicture(grey), { format })).toEqual(expected);
  });

  it("by a threshold are full or dark", () => {
    const grey = greyPicture([0, 99, 100, 255]);
    expect(values(grey, { format: "mono1" }, { threshold: 100 / 255 })).toEqual([0, 0, 1, 1]);
    expect(values(grey, { cap: 64 }, { threshold: 100 / 255 })).toEqual([0, 0, 64, 64]);
    expect(values(grey, { format: "mono1" }, { threshold: 0.5, dither: "floyd-steinberg" })).toHaveLength(4);
  });

  it("become shares of time only where that is chosen (IEC 61966-2-1: 64, 128, 188 → .051269, .215861, .502886)", () => {
    const grey = greyPicture([0, 64, 128, 188, 255]);
    expect(values(grey, {}, { linear: true })).toEqual([0, 13, 55, 128, 255]);
    expect(values(grey, {})).toEqual([0, 64, 128, 188, 255]);
  });

  it("inverted and dithered stay within the cap", () => {
    for (const dither of ["floyd-steinberg", "ordered-2", "ordered-4", "ordered-8"] as const)
      for (const overCap of ["scale", "clamp"] as const) {
        const out = values(ramp, { cap: 10 }, { dither, overCap, invert: true });
        expect(Math.max(...out)).toBe(10);
        expect(Math.min(...out)).toBe(0);
      }
  });

  it.each<[string, string, Choices, string]>([
    ["colours of a grey", "gray8", { channel: "colours" }, "gray8 holds no colours: choose one channel"],
    ["threshold of colours", "rgb565", { threshold: 0.5 }, "a threshold is for levels; rgb565 holds colours"],
    ["two thresholds", "mono1", { threshold: 0.5, dither: "ordered-4" }, "an ordered dither has thresholds of its own"],
    [
      "ordered palette",
      "palette2",
      { dither: "ordered-4" },
      "an ordered dither needs even steps, which the colours of a palette are not: choose floyd-steinberg",
    ],
    ["colours of rgb", "rgb565", { colours: 4 }, "a number of colours is for the palette formats, not rgb565"],
    ["too many colours", "palette2", { colours: 5 }, "palette2 has 2 to 4 colours, not 5"],
    [
      "threshold of greys in steps",
      "gray4",
      { threshold: 0.5, dither: "floyd-steinberg" },
      "a threshold with Floyd–Steinberg is for mono1; gray4 holds more than two levels",
    ],
  ])("%s is refused", (_name, format, choices, refused) => {
    expect(brought(ramp, { format }, choices)).toEqual({ refused });
  });
});

describe("colours", () => {
  const colours = rgbaPicture([
    [255, 0, 255, 255],
    [14, 68, 156, 255],
    [255, 184, 77, 255],
  ]);

  // Rounded to the nearest of each channel; the kernel's vectors, which drop bits, have 0A33 for 0E449C (see kernelColours).
  it("become the nearest of the format", () => {
    expect(values(colours, { format: "rgb888" })).toEqual([0xff00ff, 0x0e449c, 0xffb84d]);
    expect(values(colours, { format: "rgb565" })).toEqual([
      0xf81f,
      (2 << 11) | (17 << 5) | 19,
      (31 << 11) | (45 << 5) | 9,
    ]);
    expect(values(colours, { format: "rgb332" })).toEqual([0xe3, (0 << 5) | (2 << 2) | 2, (7 << 5) | (5 << 2) | 1]);
  });

  // The colours of the kernel's drm_format_helper_test.c, which drops bits (see kernelColours); rounding each channel to the
  // nearest (13.12 of the PNG standard) gives these, worked out by hand.
  it.each([
    [0x0e449c, 0x1233],
    [0x114d05, 0x1261],
    [0xa80303, 0xa020],
    [0x6c7073, 0x6b8e],
    [0xff00ff, 0xf81f],
  ])("#%i is rounded, not cut off, to rgb565", (rgb, expected) => {
    const picture = rgbaPicture([[rgb >> 16, (rgb >> 8) & 255, rgb & 255, 255]]);
    expect(values(picture, { format: "rgb565" })).toEqual([expected]);
  });

  it("keep to the cap of a channel", () => {
    expect(values(colours, { format: "rgb888", cap: 128 })).toEqual([0x800080, 0x07224e, 0x805c27]);
    expect(values(colours, { format: "rgb888", cap: 128 }, { overCap: "clamp" })).toEqual([
      0x800080, 0x0e4480, 0x80804d,
    ]);
    for (const v of values(colours, { format: "rgb565", cap: 100 }, { dither: "ordered-4" }))
      expect(v >> 11).toBeLessThanOrEqual(12);
  });

  it("take the nearest of a given palette", () => {
    expect(values(colours, { format: "palette2", colours: [0x000000, 0xff00ff, 0x104080, 0xffffff] })).toEqual([
      1, 2, 3,
    ]);
  });

  it("make a palette that keeps all of them, dark ones first", () => {
    const made = brought(colours, { format: "palette2" });
    expect(made).toMatchObject({ palette: [0x0e449c, 0xff00ff, 0xffb84d] });
    expect(values(colours, { format: "palette2" })).toEqual([1, 0, 2]);
    const few = brought(colours, { format: "palette2" }, { colours: 2 });
    expect("refused" in few ? 0 : few.palette?.length).toBe(2);
    expect(brought(colours, { format: "palette2", cap: 100 })).toMatchObject({
      palette: [0x051b3d, 0x640064, 0x64481e],
    });
  });
});
