/** Random words of an `@bitmap` that go together. */
import fc from "fast-check";
import { FORMATS } from "../../shared/pixels/formats.ts";

const seldom = (...values: readonly string[]) => fc.option(fc.constantFrom(...values), { nil: undefined, freq: 2 });

export const wordsOf = (formats: readonly string[]) =>
  fc
    .record({
      width: fc.integer({ min: 1, max: 20 }),
      height: fc.integer({ min: 1, max: 20 }),
      frames: fc.constantFrom(1, 1, 2, 3, 12),
      format: fc.constantFrom(...formats),
      pack: seldom("rows", "columns", "pages", "each"),
      bits: seldom("msb", "lsb"),
      pad: seldom("element", "byte", "16", "32", "frame", "none"),
      spare: seldom("last", "first"),
      bytes: seldom("be", "le"),
      scan: seldom("rows", "columns", "serpentine", "serpentine-columns"),
      from: seldom("top-left", "top-right", "bottom-left", "bottom-right"),
      skip: seldom("1", "3", "20"),
      lead: seldom("1", "2"),
      first: seldom("' '", "'A'", "'&'", "U+1F33F"),
      cap: seldom("1", "25%"),
      invert: fc.boolean(),
      free: fc.boolean(),
    })
    .map(({ width, height, frames, format, pack, scan, invert, free, ...rest }) => {
      const whole = pack === "each" || (FORMATS.get(format)?.depth ?? 0) >= 8;
      const packing = whole && (pack === "columns" || pack === "pages") ? undefined : pack;
      const given = { pack: packing, scan: whole ? scan : undefined, ...rest };
      const options = Object.entries(given).flatMap(([key, value]) => (value === undefined ? [] : [`${key}=${value}`]));
      const words = [
        `${width}x${height}`,
        format,
        ...(frames > 1 ? [`frames=${frames}`] : []),
        ...options,
        ...(invert ? ["invert"] : []),
        ...(free ? ["-- the kettle boils; 'it' /* sings"] : []),
      ];
      return { words: words.join(" "), width, height, frames, format };
    });
