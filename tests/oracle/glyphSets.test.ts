/** Fonts as glyph sets: BDF made by `pcf2bdf` of Debian's xfonts-base and judged by Pillow's own reader, PSF of console-setup-linux. */
import { execFileSync } from "node:child_process";
import { readFile } from "node:fs/promises";
import { gunzipSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { readPicture } from "../../server/readPicture.ts";
import { openText } from "../../shared/bitmap/open.ts";
import { pixelsOf } from "../../shared/bitmap/resolve.ts";
import { artOf } from "../../shared/image/art.ts";
import { type Font, glyphsFor } from "../../shared/image/font.ts";
import { newPicture } from "../../shared/image/write.ts";

function font(bytes: Uint8Array): Font {
  const read = readPicture(bytes);
  if ("refused" in read || read.kind !== "font") throw new Error("refused" in read ? read.refused : "no font");
  return read.font;
}

/** Rows of a glyph in hexadecimal, padded to bytes. */
function rowsOf({ width, height, glyphs }: Font, point: number): string[] {
  const ink = glyphs.find(({ points }) => points.includes(point))?.ink ?? new Uint8Array();
  return Array.from({ length: height }, (_, y) => {
    const bits = Array.from(ink.subarray(y * width, (y + 1) * width))
      .join("")
      .padEnd(Math.ceil(width / 8) * 8, "0");
    return Number.parseInt(bits, 2)
      .toString(16)
      .padStart(bits.length / 4, "0");
  });
}

const bdf = (name: string) =>
  execFileSync("pcf2bdf", [`/usr/share/fonts/X11/misc/${name}.pcf.gz`], { maxBuffer: 1 << 26 });

describe("BDF", () => {
  it("has the 5×7 A that its file shows", () => {
    expect(rowsOf(font(bdf("5x7")), 65)).toEqual(["60", "90", "90", "f0", "90", "90", "00"]);
  });

  it.each(["5x7-ISO8859-1", "9x15-ISO8859-1"])("%s has the glyphs that Pillow reads in the PCF", (name) => {
    const script = [
      "import sys, json, gzip, io",
      "from PIL import PcfFontFile",
      `font = PcfFontFile.PcfFontFile(io.BytesIO(gzip.open("/usr/share/fonts/X11/misc/${name}.pcf.gz").read()))`,
      "out = {}",
      "for point in range(33, 127):",
      "    (dx, dy), (x0, y0, x1, y1), src, image = font.glyph[point]",
      '    out[point] = [dx, x0, y0, list(image.size), [1 if v else 0 for v in image.convert("L").getdata()]]',
      "json.dump(out, sys.stdout)",
    ].join("\n");
    type Theirs = Record<string, [number, number, number, [number, number], number[]]>;
    const theirs = JSON.parse(execFileSync("/usr/bin/python3", ["-c", script], { encoding: "utf8" })) as Theirs;
    const read = font(bdf(name));
    const { glyphs, height } = read;
    /** The ink without empty rows and columns around it. */
    const trimmed = (ink: ArrayLike<number>, width: number) => {
      const lit = Array.from(ink).flatMap((v, i) => (v ? [[i % width, Math.floor(i / width)] as const] : []));
      const [left, top] = [Math.min(...lit.map(([x]) => x)), Math.min(...lit.map(([, y]) => y))];
      return lit.map(([x, y]) => `${x - left},${y - top}`).join(" ");
    };
    const wrong = Object.entries(theirs).filter(([point, [advance, , , [width], ink]]) => {
      const glyph = glyphs.find(({ points }) => points.includes(Number(point)));
      return !glyph || glyph.advance !== advance || trimmed(glyph.ink, read.width) !== trimmed(ink, width);
    });
    expect(Object.keys(theirs).length).toBe(94);
    expect(height).toBe(Number(/x(\d+)/.exec(name)?.[1]));
    expect(wrong.map(([point]) => point)).toEqual([]);
  });

  it("in proportional widths becomes a set with its widths, which is read as it was drawn", () => {
    // A font of three glyphs by Adobe's technical note 5005: boxes narrower than the cell, below the baseline, and empty.
    const glyph = (name: string, point: number, advance: number, box: string, ...rows: string[]) =>
      `STARTCHAR ${name}\nENCODING ${point}\nSWIDTH 500 0\nDWIDTH ${advance} 0\nBBX ${box}\nBITMAP\n${rows.join("\n")}${rows.length > 0 ? "\n" : ""}ENDCHAR\n`;
    const text =
      "STARTFONT 2.1\nFONT -made-up\nSIZE 6 75 75\nFONTBOUNDINGBOX 4 6 0 -1\nCHARS 3\n" +
      glyph("space", 32, 2, "0 0 0 0") +
      glyph("exclam", 33, 2, "1 5 0 0", "80", "80", "80", "00", "80") +
      glyph("quotedbl", 34, 4, "3 3 0 -1", "A0", "40", "A0") +
      "ENDFONT\n";
    const art = artOf([{ kind: "font", font: font(Buffer.from(text)) }], {});
    if ("refused" in art) throw new Error(art.refused);
    const written = newPicture(openText("", "font.h"), art, { words: "mono1", name: "small", offset: 0, choices: {} });
    if ("refused" in written) throw new Error(written.refused);
    const { bitmaps, problems } = openText(written.text, "font.h");
    expect(problems).toEqual([]);
    expect(bitmaps[0]?.widths).toEqual([2, 2, 4]);
    const drawn = [0, 1, 2].map((frame) =>
      Array.from(pixelsOf(bitmaps[0] as never, frame) ?? [])
        .join("")
        .replace(/.{4}/g, "$& ")
        .trim(),
    );
    expect(drawn).toEqual([
      "0000 0000 0000 0000 0000 0000",
      "1000 1000 1000 0000 1000 0000",
      "0000 0000 0000 1010 0100 1010",
    ]);
  });
});

describe("PSF", () => {
  it("has the 8×8 A that console-setup's Lat15-VGA8 shows", async () => {
    const read = font(await readFile("/usr/share/consolefonts/Lat15-VGA8.psf.gz"));
    expect(rowsOf(read, 65).join("")).toBe("386cc6fec6c6c600");
  });

  it("of both versions hold the same glyphs, by the same characters", async () => {
    // Version 2 (psf.h of the kbd package) made of version 1 by hand: header of eight words, the glyphs, UTF-8 table.
    const first = gunzipSync(await readFile("/usr/share/consolefonts/Lat15-VGA16.psf.gz"));
    const [count, size] = [first.readUInt8(2) & 1 ? 512 : 256, first.readUInt8(3)];
    const header = Buffer.alloc(32);
    for (const [i, word] of [0x864ab572, 0, 32, 1, count, size, size, 8].entries()) header.writeUInt32LE(word, 4 * i);
    const table: Buffer[] = [];
    for (let at = 4 + count * size; at + 1 < first.length; at += 2) {
      const word = first.readUInt16LE(at);
      table.push(
        word === 0xffff
          ? Buffer.from([0xff])
          : word === 0xfffe
            ? Buffer.from([0xfe])
            : Buffer.from(String.fromCharCode(word)),
      );
    }
    const second = Buffer.concat([header, first.subarray(4, 4 + count * size), ...table]);
    expect(font(second)).toEqual(font(first));
    const digits = glyphsFor(font(second), [0x30, 0x39]);
    expect("refused" in digits ? digits.refused : digits.frames.length).toBe(2);
  });
});
