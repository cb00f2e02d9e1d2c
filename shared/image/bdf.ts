/** BDF fonts (Adobe, Glyph Bitmap Distribution Format 2.2, technical note 5005). */
import type { Font, Glyph } from "./font.ts";
import { MOST_GLYPHS } from "./font.ts";

type Refused = { readonly refused: string };

export function isBdf(text: string): boolean {
  return /^STARTFONT\s/.test(text);
}

interface Box {
  readonly width: number;
  readonly height: number;
  readonly x: number;
  readonly y: number;
}

/**
 * The glyphs in the font's bounding box, each where its own box puts it from the baseline. Rows are hexadecimal, padded
 * on the right to bytes, the leftmost pixel highest. `ENCODING` is taken as the code point, which it is in fonts of
 * ISO 10646 and of Latin-1.
 */
export function readBdf(text: string): Font | Refused {
  const lines = text.split(/\r\n|\r|\n/);
  const cell = boxOf(lines.find((line) => line.startsWith("FONTBOUNDINGBOX")));
  if (!cell) return damaged("its FONTBOUNDINGBOX is not four numbers");
  if (cell.width < 1 || cell.height < 1 || cell.width > 255 || cell.height > 255)
    return {
      refused: `the BDF font can't be read: its glyphs are ${cell.width}×${cell.height}; up to 255×255 are read`,
    };
  const glyphs: Glyph[] = [];
  const outside: string[] = [];
  for (let i = 0; i < lines.length; i++) {
    const [word, name = ""] = (lines[i] as string).split(/\s+/, 2);
    if (word !== "STARTCHAR") continue;
    if (glyphs.length >= MOST_GLYPHS) return { refused: `the BDF font has more than ${MOST_GLYPHS} glyphs` };
    const end = lines.indexOf("ENDCHAR", i);
    if (end < 0) return { refused: `the BDF font ends early, in the glyph ${name}` };
    const read = glyphOf(lines.slice(i, end), cell);
    if ("refused" in read) return damaged(`${read.refused} in the glyph ${name}`);
    glyphs.push(read.glyph);
    if (read.outside) outside.push(name);
    i = end;
  }
  if (glyphs.length === 0) return damaged("it has no glyphs");
  if (!lines.includes("ENDFONT")) return { refused: "the BDF font ends early: its last line is missing" };
  return { width: cell.width, height: cell.height, glyphs, outside };
}

function damaged(how: string): Refused {
  return { refused: `the BDF font is damaged: ${how}` };
}

function glyphOf(lines: readonly string[], cell: Box): { readonly glyph: Glyph; readonly outside: boolean } | Refused {
  const field = (word: string) => lines.find((line) => line.startsWith(`${word} `));
  const box = boxOf(field("BBX"));
  if (!box || box.width < 0 || box.height < 0) return { refused: "BBX is not four numbers" };
  const [point = -1] = numbersOf(field("ENCODING"));
  const [advance = box.width] = numbersOf(field("DWIDTH"));
  const start = lines.findIndex((line) => line.trim() === "BITMAP");
  const rows = lines.slice(start + 1, start + 1 + box.height);
  if (start < 0 || rows.length < box.height) return { refused: "rows are missing" };
  const ink = new Uint8Array(cell.width * cell.height);
  let outside = false;
  // The lower left corner of the cell is at cell.x, cell.y from the origin, that of the glyph at box.x, box.y.
  const left = box.x - cell.x;
  const top = cell.height + cell.y - (box.height + box.y);
  for (const [y, row] of rows.entries()) {
    const digits = row.trim();
    if (!/^[\dA-Fa-f]*$/.test(digits) || digits.length < Math.ceil(box.width / 8) * 2)
      return { refused: `“${digits.slice(0, 20)}” is no row of ${box.width} pixels` };
    for (let x = 0; x < box.width; x++) {
      const bit = (Number.parseInt(digits[x >> 2] as string, 16) >> (3 - (x & 3))) & 1;
      if (bit === 0) continue;
      const [u, v] = [left + x, top + y];
      if (u < 0 || v < 0 || u >= cell.width || v >= cell.height) outside = true;
      else ink[v * cell.width + u] = 1;
    }
  }
  return { glyph: { points: point >= 0 ? [point] : [], advance, ink }, outside };
}

function boxOf(line: string | undefined): Box | undefined {
  const [width, height, x, y] = numbersOf(line);
  return width === undefined || height === undefined || x === undefined || y === undefined
    ? undefined
    : { width, height, x, y };
}

function numbersOf(line = ""): number[] {
  const words = line.trim().split(/\s+/).slice(1);
  return words.every((word) => /^-?\d{1,6}$/.test(word)) ? words.map(Number) : [];
}
