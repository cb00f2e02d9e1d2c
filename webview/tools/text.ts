/** Text from a glyph set: which dots it lights, from the upper left corner of its first glyph. */

/** A set as the page knows it; glyphs come when they are first wanted. */
export interface GlyphSet {
  /** Tells it from all others. */
  readonly key: string;
  readonly name: string;
  /** The header it is in, where that is another file. */
  readonly file?: string;
  readonly width: number;
  readonly height: number;
  /** The raw value of full light. */
  readonly full: number;
  /** Code points. */
  readonly characters: readonly number[];
  /** Widths of the glyphs, where they differ. */
  readonly widths?: readonly number[];
  /** Raw values of the glyphs that were asked for, row by row, by code point. */
  readonly glyphs: ReadonlyMap<number, readonly number[]>;
}

interface Dot {
  readonly x: number;
  readonly y: number;
  /** Of full, above 0 and up to 1. */
  readonly share: number;
}

export interface LaidText {
  readonly dots: readonly Dot[];
  /** How far the next glyph would be from the first one. */
  readonly advance: number;
  /** Characters that the set lacks, once each. */
  readonly missing: readonly string[];
  /** Code points whose glyphs are still to be asked for. */
  readonly wanted: readonly number[];
}

/** `spacing` is the gap between glyphs, in pixels. A space that the set lacks is a gap as wide as a glyph. */
export function layText(text: string, set: GlyphSet, spacing: number): LaidText {
  const dots: Dot[] = [];
  const missing = new Set<string>();
  const wanted = new Set<number>();
  let left = 0;
  for (const character of text) {
    const point = character.codePointAt(0) ?? 0;
    const at = set.characters.indexOf(point);
    if (at < 0 && character !== " ") {
      missing.add(character);
      continue;
    }
    const width = set.widths?.[at] ?? set.width;
    const pixels = set.glyphs.get(point);
    if (at >= 0 && !pixels) wanted.add(point);
    for (const [i, value] of (pixels ?? []).entries()) {
      const x = i % set.width;
      if (value === 0 || x >= width) continue;
      dots.push({ x: left + x, y: Math.floor(i / set.width), share: Math.min(1, value / set.full) });
    }
    left += width + spacing;
  }
  return { dots, advance: left, missing: [...missing], wanted: [...wanted] };
}
