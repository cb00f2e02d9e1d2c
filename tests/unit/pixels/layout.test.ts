import { describe, expect, it } from "vitest";
import { FORMATS } from "../../../shared/pixels/formats.ts";
import type { Arrangement } from "../../../shared/pixels/layout.ts";
import { layOut } from "../../../shared/pixels/layout.ts";

type Given = Partial<Omit<Arrangement, "format">> & { format?: string };

function laidOut({ format = "mono1", ...given }: Given) {
  const known = FORMATS.get(format);
  if (!known) throw new Error(format);
  const pack = given.pack ?? "rows";
  const bits = given.bits ?? (pack === "rows" || pack === "each" ? "msb" : "lsb");
  return layOut({
    width: 8,
    height: 8,
    frames: 1,
    format: known,
    elementBits: 8,
    pack,
    bits,
    pad: "element",
    spare: "last",
    bytes: bits === "lsb" ? "le" : "be",
    scan: "rows",
    from: "top-left",
    skip: 0,
    lead: 0,
    ...given,
  });
}

/** Element and lowest bit of every pixel of a frame, as `[element, bit]`. */
function places(given: Given, frame = 0): [number, number][] {
  const layout = laidOut(given);
  if ("why" in layout) throw new Error(layout.why);
  const { element, shift } = layout.table(frame);
  return Array.from(element, (e, i) => [e, shift[i] as number]);
}

type Formula = (x: number, y: number) => [element: number, bit: number];

/** Display memories: where the data sheet puts pixel x, y, as element and bit 0-7 (0-15 for words). */
const memories: [what: string, options: Given & { width: number; height: number }, elements: number, Formula][] = [
  // Solomon Systech SSD1306 data sheet, section 8.7: 8 pages of 128 columns, D0 at the top of its page.
  ["SSD1306", { width: 128, height: 64, pack: "pages" }, 1024, (x, y) => [(y >> 3) * 128 + x, y & 7]],
  // SH1106: as SSD1306 with 132 columns (from memory).
  ["SH1106", { width: 132, height: 64, pack: "pages" }, 1056, (x, y) => [(y >> 3) * 132 + x, y & 7]],
  // Philips PCD8544 data sheet, RAM format: 6 banks of 84 bytes, LSB at the top.
  ["PCD8544", { width: 84, height: 48, pack: "pages" }, 504, (x, y) => [(y >> 3) * 84 + x, y & 7]],
  // Sitronix ST7565 data sheet, display data RAM: D0 at the top of its page.
  ["ST7565", { width: 128, height: 32, pack: "pages" }, 512, (x, y) => [(y >> 3) * 128 + x, y & 7]],
  // Samsung KS0108B data sheet: 8 pages of 64 columns a chip, DB0 at the top.
  ["KS0108B", { width: 64, height: 64, pack: "pages" }, 512, (x, y) => [(y >> 3) * 64 + x, y & 7]],
  // Sitronix ST7920 data sheet, GDRAM: 16-bit words along a row, D15 is the left pixel.
  ["ST7920, words", { width: 128, height: 64, elementBits: 16 }, 512, (x, y) => [y * 8 + (x >> 4), 15 - (x & 15)]],
  // The same words sent high byte first.
  ["ST7920, bytes", { width: 128, height: 64 }, 1024, (x, y) => [y * 16 + (x >> 3), 7 - (x & 7)]],
  // IL3820 data sheet, RAM: rows of 16 bytes, D7 left (from memory).
  ["IL3820", { width: 128, height: 296 }, 4736, (x, y) => [y * 16 + (x >> 3), 7 - (x & 7)]],
  // Maxim MAX7219 data sheet, no-decode mode: registers 1-8 are the digits, D7..D0 = DP A B C D E F G.
  ["MAX7219", { width: 8, height: 8 }, 8, (x, y) => [y, 7 - x]],
  // Holtek HT16K33 data sheet, display RAM: an even byte for ROW0-7, an odd one for ROW8-15, D0 = ROW0.
  ["HT16K33, bytes", { width: 16, height: 8, bits: "lsb" }, 16, (x, y) => [2 * y + (x >> 3), x & 7]],
  ["HT16K33, words", { width: 16, height: 8, bits: "lsb", elementBits: 16 }, 8, (x, y) => [y, x]],
  // Solomon Systech SSD1327: 2 pixels a byte, the left one in the low nibble (from memory).
  [
    "SSD1327",
    { width: 128, height: 128, format: "gray4", bits: "lsb" },
    8192,
    (x, y) => [y * 64 + (x >> 1), 4 * (x & 1)],
  ],
  // Solomon Systech SSD1322: 4 pixels in 2 bytes, the high nibble first (from memory).
  ["SSD1322", { width: 256, height: 64, format: "gray4" }, 8192, (x, y) => [y * 128 + (x >> 1), 4 - 4 * (x & 1)]],
  // Xlib manual, XReadBitmapFile: rows padded to bytes, the least significant bit leftmost.
  ["XBM", { width: 10, height: 3, bits: "lsb" }, 6, (x, y) => [y * 2 + (x >> 3), x & 7]],
  // Netpbm PBM (P4): rows padded to bytes, the most significant bit leftmost.
  ["PBM", { width: 10, height: 3 }, 6, (x, y) => [y * 2 + (x >> 3), 7 - (x & 7)]],
  // 5x7 font columns, one byte a column, D0 at the top (common practice, no source).
  ["5x7 glyph", { width: 5, height: 7, pack: "columns" }, 5, (x, y) => [x, y]],
];

describe("memories of display controllers", () => {
  it.each(memories)("%s", (_what, options, elements, formula) => {
    const layout = laidOut(options);
    expect(layout).toMatchObject({ elements });
    const expected: [number, number][] = [];
    for (let y = 0; y < options.height; y++) for (let x = 0; x < options.width; x++) expected.push(formula(x, y));
    expect(places(options)).toEqual(expected);
  });
});

const bit = (e: number, b: number): [number, number] => [e, b];

/** [what, options, places of all pixels row by row] */
const packed: [string, Given, [number, number][]][] = [
  [
    "pad=none: bits run on",
    { width: 3, height: 3, pad: "none" },
    [bit(0, 7), bit(0, 6), bit(0, 5), bit(0, 4), bit(0, 3), bit(0, 2), bit(0, 1), bit(0, 0), bit(1, 7)],
  ],
  [
    "pad=frame: rows run on",
    { width: 3, height: 2, pad: "frame" },
    [bit(0, 7), bit(0, 6), bit(0, 5), bit(0, 4), bit(0, 3), bit(0, 2)],
  ],
  [
    "pad=byte in 16-bit elements",
    { width: 2, height: 2, pad: "byte", elementBits: 16 },
    [bit(0, 15), bit(0, 14), bit(0, 7), bit(0, 6)],
  ],
  ["pad=16 in bytes", { width: 2, height: 2, pad: "16" }, [bit(0, 7), bit(0, 6), bit(2, 7), bit(2, 6)]],
  ["pad=32 in bytes", { width: 1, height: 2, pad: "32" }, [bit(0, 7), bit(4, 7)]],
  [
    "spare=first",
    { width: 3, height: 2, spare: "first" },
    [bit(0, 2), bit(0, 1), bit(0, 0), bit(1, 2), bit(1, 1), bit(1, 0)],
  ],
  ["spare=first, bits=lsb", { width: 3, height: 1, spare: "first", bits: "lsb" }, [bit(0, 5), bit(0, 6), bit(0, 7)]],
  [
    "spare=first in columns",
    { width: 1, height: 3, pack: "columns", bits: "msb", spare: "first" },
    [bit(0, 2), bit(0, 1), bit(0, 0)],
  ],
  ["from=top-right", { width: 2, height: 1, from: "top-right" }, [bit(0, 6), bit(0, 7)]],
  ["from=bottom-left", { width: 1, height: 2, from: "bottom-left" }, [bit(1, 7), bit(0, 7)]],
  ["from=bottom-right", { width: 2, height: 2, from: "bottom-right" }, [bit(1, 6), bit(1, 7), bit(0, 6), bit(0, 7)]],
  [
    "columns, MSB at the top",
    { width: 2, height: 2, pack: "columns", bits: "msb" },
    [bit(0, 7), bit(1, 7), bit(0, 6), bit(1, 6)],
  ],
  ["pages, MSB at the top", { width: 2, height: 1, pack: "pages", bits: "msb" }, [bit(0, 7), bit(1, 7)]],
  ["skip and lead", { width: 1, height: 1, skip: 2, lead: 3 }, [bit(5, 7)]],
  [
    "bytes=le in a wide element",
    { width: 16, height: 1, elementBits: 16, bytes: "le" },
    Array.from({ length: 16 }, (_, x) => bit(0, x < 8 ? 7 - x : 23 - x)),
  ],
  [
    "gray2, MSB first",
    { width: 5, height: 1, format: "gray2" },
    [bit(0, 6), bit(0, 4), bit(0, 2), bit(0, 0), bit(1, 6)],
  ],
];

describe("pixels that share elements", () => {
  it.each(packed)("%s", (_what, options, expected) => {
    expect(places(options)).toEqual(expected);
  });
});

/** Whole pixels of 3x2: [options, element of each pixel row by row] */
const whole: [Given, number[]][] = [
  [{}, [0, 1, 2, 3, 4, 5]],
  [{ scan: "columns" }, [0, 2, 4, 1, 3, 5]],
  [{ scan: "serpentine" }, [0, 1, 2, 5, 4, 3]],
  [{ scan: "serpentine-columns" }, [0, 3, 4, 1, 2, 5]],
  [{ from: "top-right" }, [2, 1, 0, 5, 4, 3]],
  [{ from: "bottom-left" }, [3, 4, 5, 0, 1, 2]],
  [{ from: "bottom-right" }, [5, 4, 3, 2, 1, 0]],
  [{ scan: "serpentine", from: "bottom-right" }, [3, 4, 5, 2, 1, 0]],
  [{ scan: "columns", from: "bottom-left" }, [1, 3, 5, 0, 2, 4]],
  [{ scan: "serpentine-columns", from: "top-right" }, [4, 3, 0, 5, 2, 1]],
  [{ skip: 1, lead: 2 }, [3, 4, 5, 6, 7, 8]],
  [{ elementBits: 16, pack: "each" }, [0, 1, 2, 3, 4, 5]],
  [{ format: "mono1", pack: "each" }, [0, 1, 2, 3, 4, 5]],
  [{ format: "rgb565" }, [0, 2, 4, 6, 8, 10]],
  [{ format: "rgb565", elementBits: 16 }, [0, 1, 2, 3, 4, 5]],
  [{ format: "rgb888" }, [0, 3, 6, 9, 12, 15]],
];

describe("whole pixels", () => {
  it.each(whole)("%j", (options, elements) => {
    expect(places({ width: 3, height: 2, format: "gray8", ...options })).toEqual(elements.map((e) => [e, 0]));
  });
});

describe("frames", () => {
  /** [options, elements of the whole bitmap, place of the first pixel of frame 2] */
  it.each<[Given, number, [number, number]]>([
    [{ width: 3, height: 3, frames: 3 }, 9, [6, 7]],
    [{ width: 3, height: 3, frames: 3, pad: "frame" }, 6, [4, 7]],
    [{ width: 3, height: 3, frames: 3, pad: "none" }, 4, [2, 5]],
    [{ width: 3, height: 3, frames: 3, lead: 1 }, 12, [9, 7]],
    [{ width: 3, height: 3, frames: 3, skip: 4, lead: 1 }, 16, [13, 7]],
    [{ width: 5, height: 7, frames: 3, pack: "columns" }, 15, [10, 0]],
    [{ width: 4, height: 12, frames: 3, pack: "pages" }, 24, [16, 0]],
    [{ width: 3, height: 3, frames: 3, format: "gray8" }, 27, [18, 0]],
  ])("%j", (options, elements, first) => {
    expect(laidOut(options)).toMatchObject({ elements });
    expect(places(options, 2)[0]).toEqual(first);
    // Frame by frame and back: the tables that are kept do not get mixed up.
    expect([places(options, 1)[0], places(options, 0)[0]]).not.toContainEqual(first);
    expect(places(options, 2)[0]).toEqual(first);
  });

  it.each<[Given, number, number]>([
    [{ width: 10, height: 3 }, 2, 3],
    [{ width: 10, height: 12, pack: "pages" }, 10, 2],
    [{ width: 10, height: 12, pack: "columns" }, 2, 10],
    [{ width: 10, height: 3, pad: "none" }, 0, 3],
    [{ width: 10, height: 3, pad: "frame" }, 0, 3],
    [{ width: 3, height: 2, format: "rgb565" }, 6, 2],
  ])("%j: elements and number of lines", (options, lineElements, lines) => {
    expect(laidOut(options)).toMatchObject({ lineElements, lines });
  });
});

describe("pixels that do not fit", () => {
  it.each<[Given, string]>([
    [{ format: "rgb565", pack: "each" }, "a pixel of 16 bits does not fit in an element of 8 bits"],
    [{ format: "rgb888", elementBits: 16 }, "pixels of 24 bits do not divide into elements of 16 bits"],
  ])("%j", (options, why) => {
    expect(laidOut(options)).toEqual({ why });
  });
});
