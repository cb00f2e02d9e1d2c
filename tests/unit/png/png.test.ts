import { inflateSync } from "node:zlib";
import { PNG } from "pngjs";
import { describe, expect, it } from "vitest";
import { encodeApng, encodePng, enlarge, type Raster } from "../../../server/png.ts";
import { chunksOf, crcOf } from "./chunks.ts";

const grey = (width: number, height: number, ...data: number[]): Raster => ({
  width,
  height,
  channels: 1,
  data: Uint8Array.from(data),
});
const rgb = (width: number, height: number, ...data: number[]): Raster => ({
  ...grey(width, height, ...data),
  channels: 3,
});

/** Red, green and blue of all pixels; alpha must be full everywhere. */
function decoded(file: Uint8Array): { width: number; height: number; pixels: number[][] } {
  const { width, height, data } = PNG.sync.read(Buffer.from(file));
  const pixels = Array.from({ length: width * height }, (_, i) => [...data.subarray(4 * i, 4 * i + 4)]);
  return { width, height, pixels: pixels.map(([r = -1, g = -1, b = -1, a]) => (a === 255 ? [r, g, b] : [])) };
}

describe("a PNG file", () => {
  it.each([
    ["grey", grey(3, 2, 0, 1, 64, 127, 128, 255), [0, 1, 64, 127, 128, 255].map((v) => [v, v, v])],
    [
      "RGB",
      rgb(2, 1, 255, 0, 1, 2, 254, 77),
      [
        [255, 0, 1],
        [2, 254, 77],
      ],
    ],
    ["one pixel", grey(1, 1, 200), [[200, 200, 200]]],
  ])("%s: pngjs reads the same values", (_what, raster, pixels) => {
    expect(decoded(encodePng(raster))).toEqual({ width: raster.width, height: raster.height, pixels });
  });

  it("all 256 greys", () => {
    const all = Array.from({ length: 256 }, (_, v) => v);
    expect(decoded(encodePng(grey(16, 16, ...all))).pixels).toEqual(all.map((v) => [v, v, v]));
  });

  it("takes a part of a larger buffer", () => {
    const data = Uint8Array.from([9, 9, 1, 2, 9]).subarray(2, 4);
    expect(decoded(encodePng({ width: 2, height: 1, channels: 1, data })).pixels).toEqual([
      [1, 1, 1],
      [2, 2, 2],
    ]);
  });

  // PNG Third Edition, 11.2.1: width, height, bit depth 8, colour type 0 or 2, compression, filter and interlace 0.
  it.each([
    ["grey", grey(3, 2, 1, 2, 3, 4, 5, 6), 0],
    ["RGB", rgb(1, 1, 1, 2, 3), 2],
  ])("%s: header, order and checksums of the chunks", (_what, raster, colourType) => {
    const chunks = chunksOf(encodePng(raster));
    expect(chunks[0]?.type).toBe("IHDR");
    const header = Buffer.alloc(13);
    header.writeUInt32BE(raster.width, 0);
    header.writeUInt32BE(raster.height, 4);
    header.set([8, colourType, 0, 0, 0], 8);
    expect(chunks[0]?.data).toEqual(header);
    expect(chunks[chunks.length - 1]).toMatchObject({ type: "IEND", data: Buffer.alloc(0) });
    for (const { crc } of chunks) expect(crc[0]).toBe(crc[1]);
    // Section 7.2: each scanline is a filter byte and its samples.
    const lines = inflateSync(Buffer.concat(chunks.filter((c) => c.type === "IDAT").map((c) => c.data)));
    expect(lines).toHaveLength(raster.height * (1 + raster.width * raster.channels));
  });

  it("the checksum is that of the standard", () => {
    // The check value of CRC-32 for "123456789" (ITU-T V.42, from memory) and the CRC of an empty IEND chunk.
    expect(crcOf(Buffer.from("123456789"))).toBe(0xcbf43926);
    expect(crcOf(Buffer.from("IEND"))).toBe(0xae426082);
  });
});

describe("an animated PNG (PNG Third Edition, 11.3.4)", () => {
  const frames = [grey(2, 1, 0, 255), grey(2, 1, 64, 65), grey(2, 1, 1, 2)];
  const chunks = chunksOf(encodeApng(frames, 20));

  it("the control chunks stand in their order: acTL before IDAT, fcTL before each frame", () => {
    expect(chunks.map(({ type }) => type)).toEqual([
      "IHDR",
      "acTL",
      "fcTL",
      "IDAT",
      "fcTL",
      "fdAT",
      "fcTL",
      "fdAT",
      "IEND",
    ]);
    for (const { crc } of chunks) expect(crc[0]).toBe(crc[1]);
  });

  it("acTL: the number of frames, and 0 plays for loops for ever", () => {
    const { data } = chunks[1] ?? { data: Buffer.alloc(0) };
    expect([data.length, data.readUInt32BE(0), data.readUInt32BE(4)]).toEqual([8, 3, 0]);
  });

  it("fcTL and fdAT share one sequence from 0 without a gap", () => {
    const numbered = chunks.filter(({ type }) => type === "fcTL" || type === "fdAT");
    expect(numbered.map(({ data }) => data.readUInt32BE(0))).toEqual([0, 1, 2, 3, 4]);
  });

  it("fcTL: whole frames, a delay of 1/20 s, no disposal, no blending", () => {
    for (const { data } of chunks.filter(({ type }) => type === "fcTL")) {
      expect(data).toHaveLength(26);
      const [width, height, x, y] = [4, 8, 12, 16].map((at) => data.readUInt32BE(at));
      expect([width, height, x, y]).toEqual([2, 1, 0, 0]);
      expect(data.readUInt16BE(20) / data.readUInt16BE(22)).toBeCloseTo(1 / 20, 12);
      expect([data[24], data[25]]).toEqual([0, 0]);
    }
  });

  it("each fdAT is the image data of its frame after the number", () => {
    const later = chunks.filter(({ type }) => type === "fdAT");
    const lines = later.map(({ data }) => inflateSync(data.subarray(4)));
    const alone = frames.slice(1).map((frame) => {
      const idat = chunksOf(encodePng(frame)).filter(({ type }) => type === "IDAT");
      return inflateSync(Buffer.concat(idat.map(({ data }) => data)));
    });
    expect(lines).toEqual(alone);
  });

  it("a decoder without animation shows the first frame", () => {
    expect(decoded(encodeApng(frames, 20)).pixels).toEqual([
      [0, 0, 0],
      [255, 255, 255],
    ]);
  });

  it.each([
    [1, 1],
    [12.5, 0.08],
    [50, 0.02],
    [0.5, 2],
  ])("%f frames a second wait %f s", (fps, seconds) => {
    const control = chunksOf(encodeApng(frames, fps)).find(({ type }) => type === "fcTL")?.data;
    expect(control && control.readUInt16BE(20) / control.readUInt16BE(22)).toBeCloseTo(seconds, 12);
  });

  it("speeds beyond 16 bits stay valid", () => {
    for (const fps of [100_000, 0.0001]) {
      const control = chunksOf(encodeApng(frames, fps)).find(({ type }) => type === "fcTL")?.data;
      expect(control?.readUInt16BE(22)).toBeGreaterThan(0);
    }
  });

  it("one frame is a plain PNG, none is an error", () => {
    expect(encodeApng([grey(1, 1, 7)], 20)).toEqual(encodePng(grey(1, 1, 7)));
    expect(() => encodeApng([], 20)).toThrow("an animation needs a frame");
  });
});

describe("enlarging", () => {
  it.each([
    [grey(2, 1, 1, 2), 1, grey(2, 1, 1, 2)],
    [grey(2, 1, 1, 2), 2, grey(4, 2, 1, 1, 2, 2, 1, 1, 2, 2)],
    [grey(1, 2, 1, 2), 3, grey(3, 6, 1, 1, 1, 1, 1, 1, 1, 1, 1, 2, 2, 2, 2, 2, 2, 2, 2, 2)],
    [rgb(1, 1, 1, 2, 3), 2, rgb(2, 2, 1, 2, 3, 1, 2, 3, 1, 2, 3, 1, 2, 3)],
  ])("%o by %i", (raster, scale, expected) => {
    expect(enlarge(raster, scale)).toEqual(expected);
  });
});
