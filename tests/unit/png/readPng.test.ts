import { crc32, deflateSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { encodeApng } from "../../../server/png.ts";
import { readPicture } from "../../../server/readPicture.ts";
import { readPng } from "../../../server/readPng.ts";

function chunk(type: string, data: Uint8Array): Buffer {
  const body = Buffer.concat([Buffer.from(type, "latin1"), data]);
  const out = Buffer.alloc(body.length + 8);
  out.writeUInt32BE(data.length, 0);
  body.copy(out, 4);
  out.writeUInt32BE(crc32(body), body.length + 4);
  return out;
}

/** A PNG file put together chunk by chunk; `rows` with their filter types. */
function png(
  header: { width: number; height: number; depth?: number; type?: number; interlace?: number },
  rows: Uint8Array,
  ...before: Buffer[]
): Buffer {
  const { width, height, depth = 8, type = 0, interlace = 0 } = header;
  const data = Buffer.alloc(13);
  data.writeUInt32BE(width, 0);
  data.writeUInt32BE(height, 4);
  data.set([depth, type, 0, 0, interlace], 8);
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([
    signature,
    chunk("IHDR", data),
    ...before,
    chunk("IDAT", deflateSync(rows)),
    chunk("IEND", Buffer.alloc(0)),
  ]);
}

const small = png({ width: 2, height: 1 }, Uint8Array.of(0, 7, 200));
const refusal = (file: Uint8Array) => {
  const read = readPng(file);
  return "refused" in read ? read.refused : undefined;
};

describe("samples", () => {
  it("stay what they are", () => {
    expect(readPng(small)).toEqual({
      width: 2,
      height: 1,
      most: 255,
      data: Uint8Array.of(7, 7, 7, 255, 200, 200, 200, 255),
    });
  });

  it("of 16 bits are not rounded to 8, and a transparent colour keeps its value (11.3.1.1)", () => {
    const rows = Uint8Array.of(0, 0x01, 0x02, 0xff, 0xfe);
    const key = chunk("tRNS", Uint8Array.of(0xff, 0xfe));
    expect(readPng(png({ width: 2, height: 1, depth: 16 }, rows, key))).toEqual({
      width: 2,
      height: 1,
      most: 65_535,
      data: Uint16Array.of(0x0102, 0x0102, 0x0102, 65_535, 0xfffe, 0xfffe, 0xfffe, 0),
    });
  });

  it.each([
    [1, [0b10_000000], [255, 0]],
    [2, [0b01_10_0000], [85, 170]],
    [4, [0x3c], [51, 204]],
  ])("of %d bits become 8 exactly", (depth, bytes, expected) => {
    const read = readPng(png({ width: 2, height: 1, depth }, Uint8Array.from([0, ...bytes])));
    expect("refused" in read ? read.refused : Array.from(read.data).filter((_, i) => i % 4 === 0)).toEqual(expected);
  });
});

describe("an animation", () => {
  it("gives its still picture, and says so", () => {
    const frame = { width: 1, height: 1, channels: 1 as const };
    const file = encodeApng(
      [0, 90, 180].map((v) => ({ ...frame, data: Uint8Array.of(v) })),
      4,
    );
    expect(readPicture(file)).toMatchObject({
      picture: { data: Uint8Array.of(0, 0, 0, 255) },
      note: "of the animation only the still picture is taken",
    });
    expect(readPicture(small)).not.toHaveProperty("note");
  });
});

describe("files that are no whole PNG", () => {
  it("of 50,000 × 50,000 pixels are refused by their header alone", () => {
    const file = png({ width: 50_000, height: 50_000 }, Uint8Array.of(0));
    const began = performance.now();
    expect(refusal(file)).toBe(
      "the PNG file can't be read: it is 50000×50000 pixels large; pictures of up to 16777216 pixels are read",
    );
    // Also where nothing follows the header.
    expect(refusal(file.subarray(0, 33))).toContain("50000×50000");
    expect(performance.now() - began).toBeLessThan(1000);
  });

  it("say where they end, whatever is missing", () => {
    const messages = new Set<string>();
    for (let length = 8; length < small.length; length++) messages.add(refusal(small.subarray(0, length)) ?? "read");
    expect([...messages]).toEqual([
      "the PNG file ends early: its header is not there",
      "the PNG file ends early: its last chunk is missing",
      "the PNG file ends early",
      "the PNG file ends early, in its chunk IDAT",
      "the PNG file ends early, in its chunk IEND",
    ]);
  });

  it("with one changed byte are refused, wherever it is", () => {
    for (let at = 0; at < small.length; at++) {
      const broken = Buffer.from(small);
      broken[at] = (broken[at] as number) ^ 0x10;
      expect(refusal(broken), `byte ${at}`).toMatch(/no PNG file|damaged|ends early|can't be read/);
    }
    const sum = Buffer.from(small);
    sum[small.length - 14] = (sum[small.length - 14] as number) ^ 1;
    expect(refusal(sum)).toBe("the PNG file is damaged: the check sum of its chunk IDAT is wrong");
  });

  it.each<[string, Buffer, string]>([
    [
      "more data than pixels",
      png({ width: 1, height: 1 }, new Uint8Array(1 << 24)),
      "the PNG file is damaged: it holds more data than its pixels take",
    ],
    [
      "more data in passes",
      png({ width: 1, height: 1, interlace: 1 }, new Uint8Array(1 << 24)),
      "the PNG file is damaged: it holds more data than its pixels take",
    ],
    [
      "missing rows",
      png({ width: 4, height: 4 }, new Uint8Array(9)),
      "the PNG file ends early: some rows of pixels are missing",
    ],
    [
      "no such depth",
      png({ width: 1, height: 1, type: 2, depth: 4 }, new Uint8Array(4)),
      "the PNG file is damaged: there is no colour type 2 with 4 bits",
    ],
    [
      "no palette",
      png({ width: 1, height: 1, type: 3 }, new Uint8Array(2)),
      "the PNG file is damaged: its palette is missing",
    ],
    [
      "unknown critical chunk",
      png({ width: 1, height: 1 }, new Uint8Array(2), chunk("ABCD", new Uint8Array(1))),
      "the PNG file is damaged: its chunk ABCD is unknown",
    ],
    [
      "unknown filter",
      png({ width: 1, height: 1 }, Uint8Array.of(9, 0)),
      "the PNG file is damaged: Unrecognised filter type - 9",
    ],
    ["no pixels", png({ width: 0, height: 1 }, new Uint8Array(1)), "the PNG file can't be read: it has no pixels"],
  ])("%s", (_name, file, refused) => {
    expect(refusal(file)).toBe(refused);
  });

  it.each<[string, Uint8Array, string]>([
    ["nothing", new Uint8Array(0), "the file is empty"],
    [
      "text",
      Buffer.from("const int x = 1;\n"),
      "it is neither a picture nor a font that can be read (PNG, PBM, PGM, PPM, PAM, XBM, BDF or PSF)",
    ],
    ["JPEG", Uint8Array.of(0xff, 0xd8, 0xff, 0xe0), "it is a JPEG picture: save it as PNG first"],
    ["GIF", Buffer.from("GIF89a"), "it is a GIF picture: save it as PNG first"],
    [
      "SVG",
      Buffer.from('<?xml version="1.0"?>\n<svg xmlns="http://www.w3.org/2000/svg"/>'),
      "it is an SVG drawing: save it as PNG first",
    ],
    ["broken gzip", Uint8Array.of(0x1f, 0x8b, 8, 0, 0), "the packed file is damaged or ends early"],
  ])("%s is told from a picture by how it begins", (_name, bytes, refused) => {
    expect(readPicture(bytes)).toEqual({ refused });
  });
});
