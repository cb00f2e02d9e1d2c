/** Pictures read, scaled and reduced to levels as netpbm, Pillow and ImageMagick do it, where those are exact. */
import { execFileSync } from "node:child_process";
import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { bringIn } from "../../shared/image/bring.ts";
import { planeOf } from "../../shared/image/channel.ts";
import type { Choices } from "../../shared/image/choices.ts";
import { readNetpbm } from "../../shared/image/netpbm.ts";
import { readXbm } from "../../shared/image/xbm.ts";
import { FORMATS, type Format } from "../../shared/pixels/formats.ts";
import { resampled } from "../../shared/pixels/resample.ts";
import type { RgbaPicture } from "../../shared/pixels/rgba.ts";
import { filtered, pamOf, readXbm as readXbmByNetpbm } from "../support/netpbm.ts";
import { randomBytes } from "../support/random.ts";

function picture(read: RgbaPicture | { readonly refused: string }): RgbaPicture {
  if ("refused" in read) throw new Error(read.refused);
  return read;
}

const readBack = async (bytes: Promise<Uint8Array>) => picture(readNetpbm(await bytes));

/** What a script for Debian's own Python prints as JSON, given JSON. */
function pillow(script: string, given: unknown): number[][] {
  return JSON.parse(
    execFileSync("/usr/bin/python3", ["-c", script], { input: JSON.stringify(given), encoding: "utf8" }),
  );
}

/** Whole samples, rounded half up. */
const rounded = (data: ArrayLike<number>) => Array.from(data, (sample) => Math.floor(sample + 0.5));

describe("netpbm files", () => {
  const samples = randomBytes(7 * 5 * 3, 11);
  const ppm = () => filtered("pamtopnm", [], pamOf(7, 5, 3, 255, samples));

  it("are read the same raw and plain, in all three kinds", async () => {
    const raw = await ppm();
    const grey = await filtered("ppmtopgm", [], raw);
    const bits = await filtered("pgmtopbm", ["-threshold"], grey);
    for (const [file, kind] of [
      [raw, "P3"],
      [grey, "P2"],
      [bits, "P1"],
    ] as const) {
      const plain = await filtered("pnmtoplainpnm", [], file);
      expect(Buffer.from(plain).toString("latin1", 0, 2)).toBe(kind);
      expect(readNetpbm(plain)).toEqual(readNetpbm(file));
    }
    expect(Array.from(picture(readNetpbm(raw)).data).filter((_, i) => i % 4 < 3)).toEqual(samples);
    // Black is 1 in a PBM, and ppmtopgm's levels below half of it are black.
    const levels = picture(readNetpbm(grey)).data;
    expect(Array.from(picture(readNetpbm(bits)).data)).toEqual(
      Array.from(levels, (v, i) => (i % 4 === 3 || v >= 128 ? 1 : 0)),
    );
  });

  it.each([1, 3, 100, 255, 256, 1023, 65_535])("keep a maxval of %d, as pamdepth writes it", async (most) => {
    const file = pamOf(7, 5, 4, 65_535, randomBytes(140, 5, 65_535));
    const read = await readBack(filtered("pamdepth", [String(most)], file));
    const from = picture(readNetpbm(file));
    expect(read.most).toBe(most);
    // PNG Third Edition, 13.12: floor(in · most out / most in + 0.5).
    expect(Array.from(read.data)).toEqual(Array.from(from.data, (v) => Math.floor((v * most) / 65_535 + 0.5)));
  });
});

describe("area average", () => {
  // Whole and fractional ratios, down and up.
  const SIZES = [
    [16, 12, 8, 6],
    [16, 12, 5, 7],
    [31, 17, 9, 9],
    [9, 9, 16, 16],
    [40, 3, 7, 3],
    [8, 8, 8, 3],
    [64, 64, 1, 1],
    [5, 5, 12, 4],
  ] as const;

  it("is netpbm's `pamscale -linear`, with premultiplied alpha: no pixel differs", async () => {
    let [pixels, wrong] = [0, 0];
    for (const [i, [W, H, width, height]] of SIZES.entries()) {
      for (const depth of [1, 2, 3, 4] as const) {
        const file = pamOf(W, H, depth, 255, randomBytes(W * H * depth, 100 * i + depth));
        const theirs = await readBack(filtered("pamscale", ["-linear", `-xsize=${width}`, `-ysize=${height}`], file));
        const ours = rounded(resampled(picture(readNetpbm(file)), width, height, "area").data);
        for (let p = 0; p < width * height; p++) {
          pixels++;
          // What can't be seen has no colour to compare.
          const seen = (theirs.data[4 * p + 3] as number) > 0 ? [0, 1, 2, 3] : [3];
          if (seen.some((c) => ours[4 * p + c] !== theirs.data[4 * p + c])) wrong++;
        }
      }
    }
    expect(pixels).toBeGreaterThan(1500);
    expect(wrong).toBe(0);
  });

  it("gives the values worked out by hand", () => {
    const row = (most: number, ...data: number[]): RgbaPicture => ({
      width: data.length / 4,
      height: 1,
      most,
      data: Uint8Array.from(data),
    });
    const greys = row(255, ...[0, 90, 255].flatMap((v) => [v, v, v, 255]));
    expect(rounded(resampled(greys, 2, 1, "area").data).filter((_, i) => i % 4 === 0)).toEqual([30, 200]);
    const colours = row(255, 255, 0, 0, 255, 0, 255, 0, 51);
    expect(rounded(resampled(colours, 1, 1, "area").data)).toEqual([213, 43, 0, 153]);
  });
});

describe("nearest pixels", () => {
  it("are those of Pillow's `Image.NEAREST`", () => {
    const cases = [
      [16, 12, 8, 6],
      [31, 17, 9, 9],
      [9, 9, 16, 16],
      [10, 10, 4, 7],
    ] as const;
    const pictures = cases.map(([W, H, width, height]) => ({ W, H, width, height, data: randomBytes(W * H * 4, W) }));
    const script = [
      "import sys, json",
      "from PIL import Image",
      "out = []",
      "for p in json.load(sys.stdin):",
      '    image = Image.frombytes("RGBA", (p["W"], p["H"]), bytes(p["data"]))',
      '    out.append(list(image.resize((p["width"], p["height"]), Image.NEAREST).tobytes()))',
      "json.dump(out, sys.stdout)",
    ].join("\n");
    const theirs = pillow(script, pictures);
    const ours = pictures.map(({ W, H, width, height, data }) => {
      const whole = { width: W, height: H, most: 255, data: Uint8Array.from(data) };
      return Array.from(resampled(whole, width, height, "nearest").data);
    });
    expect(ours).toEqual(theirs);
  });
});

/** Raw values of a grey picture, one pixel each. */
function levels(grey: RgbaPicture, format: string, choices: Choices): number[] {
  const { width, height } = grey;
  const target = { width, height, format: FORMATS.get(format) as Format, cap: undefined, drive: 1 };
  const brought = bringIn([grey], target, choices);
  if ("refused" in brought) throw new Error(brought.refused);
  return Array.from(brought.frames[0] ?? []);
}

describe("dithering", () => {
  const W = 23;
  const H = 19;
  const noise = (seed: number) => pamOf(W, H, 1, 255, randomBytes(W * H, seed));
  /** Smooth, as errors travel furthest in it. */
  const slope = (seed: number) =>
    pamOf(
      W,
      H,
      1,
      255,
      Array.from({ length: W * H }, (_, i) => (i * 3 + seed * 7) % 256),
    );

  it("by Floyd and Steinberg is Pillow's, in 100 pictures", () => {
    const pictures = Array.from({ length: 100 }, (_, i) => (i % 2 ? noise(i + 1) : slope(i)));
    const script = [
      "import sys, json",
      "from PIL import Image",
      "out = []",
      "for data in json.load(sys.stdin):",
      `    image = Image.frombytes("L", (${W}, ${H}), bytes(data)).convert("1")`,
      '    out.append([1 if v else 0 for v in image.convert("L").getdata()])',
      "json.dump(out, sys.stdout)",
    ].join("\n");
    const theirs = pillow(
      script,
      pictures.map((file) => [...file.subarray(file.length - W * H)]),
    );
    const ours = pictures.map((file) => levels(picture(readNetpbm(file)), "mono1", { dither: "floyd-steinberg" }));
    const wrong = ours.filter((values, i) => String(values) !== String(theirs[i]));
    expect(wrong.length).toBe(0);
  });

  it.each([
    [2, "mono1", 2],
    [4, "mono1", 2],
    [8, "mono1", 2],
    [4, "gray2", 4],
    [8, "gray4", 16],
  ] as const)("by the matrix of side %d to %s is ImageMagick's", async (side, format, count) => {
    for (const file of [
      noise(7),
      slope(3),
      pamOf(
        16,
        16,
        1,
        255,
        Array.from({ length: 256 }, (_, i) => i),
      ),
    ]) {
      const grey = picture(readNetpbm(file));
      const pgm = await filtered("pamtopnm", [], file);
      const map = `o${side}x${side}${count > 2 ? `,${count}` : ""}`;
      const theirs = await readBack(
        filtered("convert-im6", ["pgm:-", "-ordered-dither", map, "-depth", "8", "pgm:-"], pgm),
      );
      const expected = Array.from(theirs.data)
        .filter((_, i) => i % 4 === 0)
        .map((v) => Math.round((v * (count - 1)) / theirs.most));
      expect(levels(grey, format, { dither: `ordered-${side}` })).toEqual(expected);
    }
  });
});

describe("luminance", () => {
  it("is that of ImageMagick's Rec709Luminance, within a step of 16 bits", async () => {
    const file = await filtered("pamtopnm", [], pamOf(16, 16, 3, 65_535, randomBytes(768, 3, 65_535)));
    // It decodes to linear light, weighs with .212656 .715158 .072186 and leaves the sum linear; sRGB encodes it again.
    const args = ["ppm:-", "-grayscale", "Rec709Luminance", "-colorspace", "sRGB", "-depth", "16", "ppm:-"];
    const theirs = await readBack(filtered("convert-im6", args, file));
    const ours = planeOf(picture(readNetpbm(file)), "luminance", {}).data;
    const apart = Array.from(ours, (sample, i) => Math.abs(sample - (theirs.data[4 * i] as number)));
    // The more precise weights move a sample by up to .0001 of full.
    expect(Math.max(...apart) / 65_535).toBeLessThan(0.0002);
  });
});

describe("X bitmaps", () => {
  it("of Debian's xbitmaps are pictures pixel for pixel as netpbm reads them, white where the bit is set", async () => {
    const folder = "/usr/include/X11/bitmaps";
    const names = await readdir(folder);
    const wrong: string[] = [];
    for (const name of names) {
      const theirs = await readXbmByNetpbm(join(folder, name));
      const ours = picture(readXbm(await readFile(join(folder, name), "latin1")));
      const same = theirs.ink.every((ink, i) => ours.data[4 * i] === 255 * ink) && ours.width === theirs.width;
      if (!same) wrong.push(name);
    }
    expect(names.length).toBeGreaterThanOrEqual(71);
    expect(wrong).toEqual([]);
  });
});
