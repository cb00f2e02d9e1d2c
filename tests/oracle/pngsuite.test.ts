/**
 * PNG files of PngSuite (Willem van Schaik) with their decoded pixels in SNG, which the sources of Go 1.19 come with
 * (Debian's golang-1.19-src), and netpbm's `pngtopam` on the same files.
 */
import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, it } from "vitest";
import { readPicture } from "../../server/readPicture.ts";
import { readPng } from "../../server/readPng.ts";
import { readNetpbm } from "../../shared/image/netpbm.ts";
import type { RgbaPicture } from "../../shared/pixels/rgba.ts";
import { filtered } from "../support/netpbm.ts";

const FOLDER = fileURLToPath(new URL("../../.sources/pngsuite/", import.meta.url));
let names: string[];

beforeAll(async () => {
  names = (await readdir(FOLDER)).filter((name) => name.endsWith(".png")).map((name) => name.slice(0, -4));
});

const bytesOf = (name: string) => readFile(join(FOLDER, `${name}.png`));

function picture(read: RgbaPicture | { readonly refused: string }): RgbaPicture {
  if ("refused" in read) throw new Error(read.refused);
  return read;
}

/** Red, green, blue and alpha of a SNG text (its manual page: `pixels hex` are samples of the stated depth). */
function samplesOfSng(text: string): { width: number; height: number; most: number; data: number[] } {
  const number = (pattern: RegExp) => Number(pattern.exec(text)?.[1] ?? Number.NaN);
  const [width, height, depth] = [number(/width:\s*(\d+)/), number(/height:\s*(\d+)/), number(/bitdepth:\s*(\d+)/)];
  const using = /using ([a-z ]+);/.exec(text)?.[1] ?? "";
  const palette = [...text.matchAll(/\(\s*(\d+),\s*(\d+),\s*(\d+)\)/g)].map(([, ...rgb]) => rgb.map(Number));
  const alphas = /tRNS \{([\d\s]+)\}/.exec(text)?.[1]?.trim().split(/\s+/).map(Number) ?? [];
  const grey = /tRNS \{\s*gray:\s*(\d+)/.exec(text)?.[1];
  const key =
    /tRNS \{\s*red:\s*(\d+);\s*green:\s*(\d+);\s*blue:\s*(\d+)/.exec(text)?.slice(1).map(Number) ??
    (grey ? [Number(grey)] : []);
  const rows = (/pixels hex([\s\da-f]*)/.exec(text)?.[1] ?? "").trim().split("\n");
  const most = using === "color palette" ? 255 : 2 ** depth - 1;
  const values = rows.flatMap((row) => {
    const bits = [...row.replace(/\s/g, "")].map((d) => Number.parseInt(d, 16).toString(2).padStart(4, "0")).join("");
    const samples = Array.from({ length: bits.length / depth }, (_, i) =>
      Number.parseInt(bits.slice(i * depth, (i + 1) * depth), 2),
    );
    // Indices fill whole bytes; the samples of other pictures may stand on one line for several rows.
    return using === "color palette" ? samples.slice(0, width) : samples;
  });
  const channels =
    using === "color palette" || using === "grayscale"
      ? 1
      : using === "grayscale alpha"
        ? 2
        : using === "color"
          ? 3
          : 4;
  const data: number[] = [];
  for (let i = 0; i < values.length; i += channels) {
    const pixel = values.slice(i, i + channels);
    const [first = 0] = pixel;
    const alpha = key.length > 0 && key.every((sample, c) => sample === pixel[c]) ? 0 : most;
    if (using === "color palette") data.push(...(palette[first] ?? []), alphas[first] ?? 255);
    else if (channels < 3) data.push(first, first, first, channels === 2 ? (pixel[1] as number) : alpha);
    else data.push(...pixel.slice(0, 3), channels === 4 ? (pixel[3] as number) : alpha);
  }
  return { width, height, most, data };
}

describe("PngSuite", () => {
  it("is decoded as its SNG goldens are, sample for sample, at 16 bits too", async () => {
    const goldens = (await readdir(FOLDER)).filter((name) => name.endsWith(".sng")).map((name) => name.slice(0, -4));
    const wrong: string[] = [];
    for (const name of goldens) {
      const golden = samplesOfSng(await readFile(join(FOLDER, `${name}.sng`), "latin1"));
      const { width, height, most, data } = picture(readPng(await bytesOf(name)));
      const same = golden.data.length === data.length && golden.data.every((sample, i) => sample === data[i]);
      if (!same || width !== golden.width || height !== golden.height || most !== golden.most) wrong.push(name);
    }
    expect(goldens.length).toBeGreaterThanOrEqual(35);
    expect(wrong).toEqual([]);
  });

  it("is what netpbm's pngtopam reads, with alpha and at 16 bits", async () => {
    const valid = names.filter((name) => !name.startsWith("invalid"));
    const wrong: string[] = [];
    for (const name of valid) {
      const bytes = await bytesOf(name);
      const ours = picture(readPng(bytes));
      const theirs = picture(readNetpbm(await filtered("pngtopam", ["-alphapam"], bytes)));
      const factor = ours.most / theirs.most;
      // Of one transparent colour among RGB this netpbm (11.01) makes no alpha; the golden above has it.
      const blind = bytes[25] === 2 && bytes.includes("tRNS");
      const differs = (sample: number, i: number) =>
        sample !== factor * (theirs.data[i] as number) && !(blind && i % 4 === 3);
      if (ours.data.some(differs)) wrong.push(name);
    }
    expect(valid.length).toBeGreaterThanOrEqual(38);
    expect(wrong).toEqual([]);
  });

  it.each([
    ["invalid-crc32", "the PNG file is damaged: the check sum of its chunk IHDR is wrong"],
    ["invalid-noend", "the PNG file ends early: its last chunk is missing"],
    ["invalid-trunc", "the PNG file ends early, in its chunk IEND"],
    ["invalid-palette", "the PNG file is damaged: index 255 not in palette"],
    ["invalid-zlib", "the PNG file is damaged: its pixels can't be unpacked"],
  ])("%s says what is wrong", async (name, refused) => {
    expect(readPicture(await bytesOf(name))).toEqual({ refused });
  });
});
