/** Fonts of bitmaps: glyphs with their characters and widths. BDF and PSF give one; a glyph set is made of it. */
import { characterInWords } from "../bitmap/glyphs.ts";
import type { RgbaPicture } from "../pixels/rgba.ts";
import { samplesFor } from "../pixels/rgba.ts";

export interface Glyph {
  /** Code points that it shows; none where the font does not tell. */
  readonly points: readonly number[];
  /** Columns to the next glyph. */
  readonly advance: number;
  /** 1 for each lit pixel of the cell, row by row. */
  readonly ink: Uint8Array;
}

export interface Font {
  /** The cell that all glyphs share. */
  readonly width: number;
  readonly height: number;
  readonly glyphs: readonly Glyph[];
  /** Lit pixels that lie outside the cell, and of which glyphs. */
  readonly outside: readonly string[];
}

/** Most glyphs of a set, and most that a font is read to. */
export const MOST_GLYPHS = 65_536;

export interface GlyphFrames {
  readonly frames: readonly RgbaPicture[];
  readonly points: readonly number[];
  readonly widths: readonly number[];
}

/**
 * The glyphs of some characters, white on transparent black. Without a list: the visible ones of ASCII with the space,
 * as far as the font has them; else all it has.
 */
export function glyphsFor(
  font: Font,
  wanted: readonly number[] | undefined,
): GlyphFrames | { readonly refused: string } {
  const byPoint = new Map<number, Glyph>();
  for (const glyph of font.glyphs) for (const point of glyph.points) if (!byPoint.has(point)) byPoint.set(point, glyph);
  const ascii = Array.from({ length: 95 }, (_, i) => 32 + i).filter((point) => byPoint.has(point));
  const points = wanted ?? (ascii.length > 0 ? ascii : [...byPoint.keys()].sort((a, b) => a - b));
  if (points.length === 0) return { refused: "the font has no glyphs with known characters" };
  const missing = points.filter((point) => !byPoint.has(point));
  if (missing.length > 0) {
    const named = missing.slice(0, 8).map(characterInWords).join(", ");
    return { refused: `the font has no ${named}${missing.length > 8 ? ` and ${missing.length - 8} more` : ""}` };
  }
  const glyphs = points.map((point) => byPoint.get(point) as Glyph);
  return {
    frames: glyphs.map(({ ink }) => inked(ink, font.width, font.height)),
    points,
    widths: glyphs.map(({ advance }) => Math.max(0, Math.min(font.width, advance))),
  };
}

/** White where there is ink, else transparent black. */
function inked(ink: Uint8Array, width: number, height: number): RgbaPicture {
  const data = samplesFor(width, height, 255);
  ink.forEach((lit, i) => {
    if (lit) data.fill(255, 4 * i, 4 * i + 4);
  });
  return { width, height, most: 255, data };
}
