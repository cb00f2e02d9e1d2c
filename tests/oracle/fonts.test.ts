import { readFile } from "node:fs/promises";
import { gunzipSync } from "node:zlib";
import { beforeAll, describe, expect, it } from "vitest";
import { openText } from "../../shared/bitmap/open.ts";
import type { Bitmap } from "../../shared/bitmap/resolve.ts";
import { pixelsOf } from "../../shared/bitmap/resolve.ts";
import { arrayText } from "../support/arrayText.ts";
import { decodeRaw, type Rgb } from "../support/pillow.ts";

/** Rows of a glyph as `#` and `.`. */
type Drawn = string[];

function drawnBy(bitmap: Bitmap, frame: number): Drawn {
  const pixels = Array.from(pixelsOf(bitmap, frame) ?? []);
  return Array.from({ length: bitmap.height }, (_, y) =>
    pixels
      .slice(y * bitmap.width, (y + 1) * bitmap.width)
      .map((v) => (v === 0 ? "." : "#"))
      .join(""),
  );
}

function read(options: string, bytes: Uint8Array, elementBits: 8 | 16 = 8): Bitmap {
  const { bitmaps, problems } = openText(`// @bitmap ${options}\n${arrayText(bytes, elementBits)}`, "font.h");
  expect(problems).toEqual([]);
  const [bitmap] = bitmaps;
  if (!bitmap || bitmap.why !== undefined) throw new Error(bitmap?.why ?? "no bitmap");
  expect(bitmap.array.count).toBe(bitmap.layout?.elements);
  return bitmap;
}

/**
 * GNU Unifont in hexadecimal (unifont.hex, Debian package `unifont`; format in its unifont(5)): code point, colon, then
 * 16 rows from the top of two digits (8 columns) or four (16 columns), the left pixel highest.
 */
describe("Unifont", () => {
  interface Glyph {
    readonly point: number;
    readonly rows: Drawn;
  }
  let narrow: Glyph[];
  let wide: Glyph[];

  beforeAll(async () => {
    const lines = (await readFile("/usr/share/unifont/unifont.hex", "latin1")).split("\n");
    const glyphs = lines.flatMap((line): Glyph[] => {
      const [, point, digits = ""] = /^([0-9A-F]{4}):([0-9A-F]{32}|[0-9A-F]{64})$/.exec(line) ?? [];
      if (point === undefined) return [];
      const perRow = digits.length / 16;
      const rows = Array.from({ length: 16 }, (_, y) =>
        [...digits.slice(y * perRow, (y + 1) * perRow)]
          .map((d) => Number.parseInt(d, 16).toString(2).padStart(4, "0"))
          .join("")
          .replaceAll("0", ".")
          .replaceAll("1", "#"),
      );
      return [{ point: Number.parseInt(point, 16), rows }];
    });
    const columns = (n: number) => (g: Glyph) => g.rows[0]?.length === n;
    // The first 96 of the Latin letters, and 96 of the ideographs from U+4E00 on.
    narrow = glyphs
      .filter(columns(8))
      .filter(({ point }) => point >= 0x41)
      .slice(0, 96);
    wide = glyphs
      .filter(columns(16))
      .filter(({ point }) => point >= 0x4e00)
      .slice(0, 96);
  });

  it("draws the A that its documentation shows", () => {
    // U+0041 = 0000000018242442427E424242420000.
    const [a] = narrow;
    expect(a?.point).toBe(0x41);
    expect(a?.rows.slice(3, 7)).toEqual(["........", "...##...", "..#..#..", "..#..#.."]);
  });

  /** Bits of all glyphs put down one by one, in bytes, in the order of the pixels that `order` gives. */
  function store(
    glyphs: readonly Glyph[],
    order: (width: number) => [x: number, y: number][],
    msb: boolean,
  ): Uint8Array {
    const bits = glyphs.flatMap(({ rows }) =>
      order(rows[0]?.length ?? 0).map(([x, y]) => (rows[y]?.[x] === "#" ? 1 : 0)),
    );
    return Uint8Array.from({ length: bits.length / 8 }, (_, i) =>
      bits.slice(i * 8, i * 8 + 8).reduce<number>((byte, bit, k) => byte | (bit << (msb ? 7 - k : k)), 0),
    );
  }

  const byRows = (width: number) =>
    Array.from({ length: width * 16 }, (_, i): [number, number] => [i % width, Math.floor(i / width)]);
  const byColumns = (width: number) =>
    Array.from({ length: width * 16 }, (_, i): [number, number] => [Math.floor(i / 16), i % 16]);
  const byPages = (width: number) =>
    Array.from({ length: width * 16 }, (_, i): [number, number] => [
      (i >> 3) % width,
      8 * Math.floor(i / (8 * width)) + (i & 7),
    ]);

  it.each([
    ["mono1", byRows, true, 8],
    ["mono1 bits=lsb", byRows, false, 8],
    ["mono1 pack=columns", byColumns, false, 8],
    ["mono1 pack=columns bits=msb", byColumns, true, 8],
    ["mono1 pack=pages", byPages, false, 8],
    ["mono1 pack=columns bits=msb", byColumns, true, 16],
    ["mono1 pad=frame", byRows, true, 8],
  ] as const)("%s (%#)", (options, order, msb, elementBits) => {
    for (const glyphs of [narrow, wide]) {
      expect(glyphs).toHaveLength(96);
      const width = glyphs[0]?.rows[0]?.length ?? 0;
      const bitmap = read(`${width}x16 ${options} frames=96`, store(glyphs, order, msb), elementBits);
      glyphs.forEach(({ rows }, frame) => {
        expect(drawnBy(bitmap, frame)).toEqual(rows);
      });
    }
  });
});

/**
 * PC Screen Fonts of the Linux console (Debian package `console-setup-linux`), header included and passed over by
 * `skip`. PSF1: magic 36 04, mode, bytes a glyph, 8 columns. PSF2: magic 72 b5 4a 86, version, header size, flags,
 * glyphs, bytes a glyph, height, width, each 32 bits, low byte first. Rows are padded to bytes, the left pixel highest
 * (psf description of the kbd project, from memory).
 */
describe("console fonts", () => {
  const header = (data: Buffer) => {
    if (data.readUInt16BE(0) === 0x3604) {
      const glyphs = (data[2] as number) & 1 ? 512 : 256;
      return { start: 4, glyphs, size: data[3] as number, width: 8, height: data[3] as number };
    }
    expect(data.readUInt32BE(0)).toBe(0x72b54a86);
    const [start = 0, , glyphs = 0, size = 0, height = 0, width = 0] = [8, 12, 16, 20, 24, 28].map((at) =>
      data.readUInt32LE(at),
    );
    return { start, glyphs, size, width, height };
  };

  it.each(["Lat15-VGA8", "Lat15-Fixed16", "Lat15-Terminus24x12", "Lat15-TerminusBold20x10", "Lat15-VGA28x16"])(
    "%s: every glyph as Pillow decodes it",
    async (font) => {
      const data = gunzipSync(await readFile(`/usr/share/consolefonts/${font}.psf.gz`));
      const { start, glyphs, size, width, height } = header(data);
      const bytes = data.subarray(0, start + glyphs * size);
      const bitmap = read(`${width}x${height} mono1 frames=${glyphs} skip=${start}`, bytes);
      const bands = Array.from({ length: glyphs }, (_, i) =>
        data.subarray(start + i * size, start + (i + 1) * size).toString("hex"),
      );
      const [judged] = (await decodeRaw([{ mode: "1", raw: "1", size: [width, height], bands }])) as [Rgb];
      expect([judged.width, judged.height]).toEqual([width, height * glyphs]);
      const drawn = Array.from({ length: glyphs }, (_, i) => drawnBy(bitmap, i)).flat();
      const expected = Array.from({ length: height * glyphs }, (_, y) =>
        Array.from({ length: width }, (_, x) => (judged.data[(y * width + x) * 3] === 0 ? "." : "#")).join(""),
      );
      expect(drawn).toEqual(expected);
    },
  );

  it("Lat15-VGA8 holds the A that it is known by", async () => {
    // 38 6c c6 fe c6 c6 c6 00.
    const data = gunzipSync(await readFile("/usr/share/consolefonts/Lat15-VGA8.psf.gz"));
    const bitmap = read("8x8 mono1 frames=256 skip=4", data.subarray(0, 4 + 256 * 8));
    expect(drawnBy(bitmap, 65)).toEqual([
      "..###...",
      ".##.##..",
      "##...##.",
      "#######.",
      "##...##.",
      "##...##.",
      "##...##.",
      "........",
    ]);
  });
});
