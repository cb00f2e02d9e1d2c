import { describe, expect, it } from "vitest";
import { artOf, charactersFrom } from "../../../shared/image/art.ts";
import { readBdf } from "../../../shared/image/bdf.ts";
import { isNetpbm, readNetpbm } from "../../../shared/image/netpbm.ts";
import { readPsf } from "../../../shared/image/psf.ts";
import { isXbm, readXbm } from "../../../shared/image/xbm.ts";
import { greyPicture } from "../../support/rgba.ts";

const latin = (text: string) => Buffer.from(text, "latin1");
const greys = (read: ReturnType<typeof readNetpbm>) =>
  "refused" in read ? read.refused : Array.from(read.data).filter((_, i) => i % 4 === 0);

describe("netpbm", () => {
  // The examples of pbm(5) and pgm(5) in small: comments anywhere in the header, digits of a PBM without spaces.
  it.each<[string, Uint8Array, number[]]>([
    ["P1", latin("P1\n# an ink\n3 2\n101\n0 1 0\n"), [0, 1, 0, 1, 0, 1]],
    ["P2", latin("P2 2 1 # levels\n15\n0 15\n"), [0, 15]],
    ["P4", Buffer.concat([latin("P4\n10 1\n"), Uint8Array.of(0b10000000, 0b01000000)]), [0, 1, 1, 1, 1, 1, 1, 1, 1, 0]],
    ["P5", Buffer.concat([latin("P5\n#\n2 1\n255\n"), Uint8Array.of(35, 10)]), [35, 10]],
    ["P5 of 16 bits", Buffer.concat([latin("P5 1 1 65535\n"), Uint8Array.of(0x12, 0x34)]), [0x1234]],
    [
      "P7",
      Buffer.concat([
        latin("P7\nWIDTH 1\nHEIGHT 1\n# alpha\nDEPTH 2\nMAXVAL 255\nTUPLTYPE GRAYSCALE_ALPHA\nENDHDR\n"),
        Uint8Array.of(9, 8),
      ]),
      [9],
    ],
  ])("%s", (_name, file, expected) => {
    expect(isNetpbm(file)).toBe(true);
    expect(greys(readNetpbm(file))).toEqual(expected);
  });

  it.each<[string, Uint8Array, string]>([
    ["ends in the header", latin("P5 2"), "the P5 file can't be read: its header ends early"],
    ["no numbers", latin("P5 two 1 255\n"), "the P5 file can't be read: its header is no list of numbers"],
    [
      "huge",
      latin("P5 50000 50000 255\n"),
      "the P5 file can't be read: it is 50000×50000 pixels large; pictures of up to 16777216 pixels are read",
    ],
    ["maxval", latin("P5 1 1 70000\nx"), "the P5 file can't be read: its maxval is 70000"],
    ["rows missing", latin("P6 2 1 255\nabc"), "the P6 file ends early: some rows of pixels are missing"],
    ["plain rows missing", latin("P2 2 1 255\n4\n"), "the P2 file ends early: some rows of pixels are missing"],
    ["a word among pixels", latin("P2 2 1 255\n4 x\n"), "the P2 file is damaged: its pixels are not all numbers"],
    ["above maxval", latin("P2 1 1 15\n16\n"), "the P2 file is damaged: 16 is above its maxval of 15"],
    [
      "raw above maxval",
      Buffer.concat([latin("P5 1 1 15\n"), Uint8Array.of(16)]),
      "the P5 file is damaged: 16 is above its maxval of 15",
    ],
    ["PAM without an end", latin("P7\nWIDTH 1\n"), "the P7 file can't be read: its header has no end"],
    [
      "PAM of five samples",
      latin("P7\nWIDTH 1\nHEIGHT 1\nDEPTH 5\nMAXVAL 255\nENDHDR\n"),
      "the P7 file can't be read: its pixels have 5 samples, and 1 to 4 are read",
    ],
  ])("%s", (_name, file, refused) => {
    expect(readNetpbm(file)).toEqual({ refused });
  });
});

describe("X bitmaps", () => {
  // Xlib manual, XReadBitmapFile: the least significant bit is leftmost.
  const text =
    "#define sprout_width 10\n#define sprout_height 3\nstatic char sprout_bits[] = {\n0x01, 0x02, 0x80, 0x01, 0x0f, 0xfc};\n";

  it("have white where a bit is set", () => {
    expect(isXbm(text)).toBe(true);
    const read = readXbm(text);
    const drawn =
      "refused" in read
        ? read.refused
        : Array.from(read.data)
            .filter((_, i) => i % 4 === 0)
            .map((v) => (v ? "#" : "."))
            .join("");
    expect(drawn).toBe(["#........#", ".......##.", "####......"].join(""));
  });

  it.each<[string, string]>([
    [
      text.replace("10", "99999"),
      "the X bitmap can't be read: it is 99999×3 pixels large; pictures of up to 16777216 pixels are read",
    ],
    [text.replace(", 0x0f, 0xfc", ""), "the X bitmap ends early: some rows of pixels are missing"],
    [text.replace(/static[\s\S]*/, ""), "the X bitmap can't be read: it has no list of bits"],
  ])("%#", (broken, refused) => {
    expect(readXbm(broken)).toEqual({ refused });
  });
});

describe("fonts", () => {
  const bdf =
    "STARTFONT 2.1\nFONTBOUNDINGBOX 8 2 0 0\nCHARS 1\nSTARTCHAR A\nENCODING 65\nDWIDTH 8 0\nBBX 8 2 0 0\nBITMAP\n18\n24\nENDCHAR\nENDFONT\n";

  it.each<[string, string, string]>([
    [
      "no box",
      bdf.replace("FONTBOUNDINGBOX 8 2 0 0", "FONTBOUNDINGBOX 8 2"),
      "the BDF font is damaged: its FONTBOUNDINGBOX is not four numbers",
    ],
    [
      "huge box",
      bdf.replace("FONTBOUNDINGBOX 8 2", "FONTBOUNDINGBOX 9000 2"),
      "the BDF font can't be read: its glyphs are 9000×2; up to 255×255 are read",
    ],
    ["row missing", bdf.replace("24\n", ""), "the BDF font is damaged: rows are missing in the glyph A"],
    ["no row", bdf.replace("24", "2x"), "the BDF font is damaged: “2x” is no row of 8 pixels in the glyph A"],
    [
      "no glyph box",
      bdf.replace("BBX 8 2 0 0\n", ""),
      "the BDF font is damaged: BBX is not four numbers in the glyph A",
    ],
    ["ends in a glyph", bdf.slice(0, -24), "the BDF font ends early, in the glyph A"],
    ["ends before its end", bdf.replace("ENDFONT\n", ""), "the BDF font ends early: its last line is missing"],
    ["no glyphs", bdf.replace(/STARTCHAR[\s\S]*ENDCHAR\n/, ""), "the BDF font is damaged: it has no glyphs"],
  ])("BDF: %s", (_name, text, refused) => {
    expect(readBdf(text)).toEqual({ refused });
  });

  it("BDF: pixels outside the font's box are told", () => {
    const read = readBdf(bdf.replace("BBX 8 2 0 0", "BBX 8 2 0 1"));
    if ("refused" in read) throw new Error(read.refused);
    expect(read.outside).toEqual(["A"]);
    expect(artOf([{ kind: "font", font: read }], {})).toMatchObject({
      notes: ["pixels outside the font's own box are left out of A"],
    });
  });

  it.each<[string, Uint8Array, string]>([
    ["header", Uint8Array.of(0x36, 0x04, 0), "the PSF font ends early: its header is not whole"],
    [
      "header of version 2",
      Uint8Array.of(0x72, 0xb5, 0x4a, 0x86, 0),
      "the PSF font ends early: its header is not whole",
    ],
    ["glyphs", Uint8Array.of(0x36, 0x04, 0, 8, 1), "the PSF font ends early: some glyphs are missing"],
    ["height", Uint8Array.of(0x36, 0x04, 0, 0), "the PSF font can't be read: it has 256 glyphs of 8×0"],
  ])("PSF: %s", (_name, bytes, refused) => {
    expect(readPsf(bytes)).toEqual({ refused });
  });

  it("give the glyphs that are asked for, by character or range", () => {
    expect(charactersFrom("AB:")).toEqual([65, 66, 58]);
    expect(charactersFrom('"\\\\')).toEqual([34, 92]);
    expect(charactersFrom("U+0030-U+0032")).toEqual([48, 49, 50]);
    expect(charactersFrom("U+0032-U+0030")).toBeUndefined();
    const read = readBdf(bdf);
    if ("refused" in read) throw new Error(read.refused);
    expect(artOf([{ kind: "font", font: read }], { chars: [65] })).toMatchObject({ points: [65], widths: [8] });
    expect(artOf([{ kind: "font", font: read }], { chars: [65, 66, 0x1f600] })).toEqual({
      refused: "the font has no 'B', '😀'",
    });
  });

  it("go with no other files and no cells", () => {
    const read = readBdf(bdf);
    if ("refused" in read) throw new Error(read.refused);
    const font = { kind: "font", font: read } as const;
    const picture = { kind: "picture", picture: greyPicture([1, 2]) } as const;
    expect(artOf([font, picture], {})).toEqual({ refused: "a font is brought in by itself, not with other files" });
    expect(artOf([font], { cells: { width: 1, height: 1, gap: 0, margin: 0 } })).toEqual({
      refused: "a font has glyphs, which are no cells of a sheet",
    });
    expect(artOf([picture], { chars: [65, 66] })).toEqual({ refused: "2 characters are named for 1 picture" });
    expect(artOf([picture], { cells: { width: 1, height: 1, gap: 0, margin: 0 }, chars: [65, 66] })).toMatchObject({
      points: [65, 66],
    });
  });
});
