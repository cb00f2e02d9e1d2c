/** Files to pictures: one file is a picture, a sheet of several, or a font; several files are a picture each. */
import { parseOptions } from "../pixels/options.ts";
import type { RgbaPicture } from "../pixels/rgba.ts";
import { annotationsIn } from "../source/annotationSyntax.ts";
import type { Font } from "./font.ts";
import { glyphsFor } from "./font.ts";
import type { Cells } from "./sheet.ts";
import { cutSheet } from "./sheet.ts";
import type { Art } from "./write.ts";

type Refused = { readonly refused: string };

/** What a reader makes of a file. */
export type Source =
  | {
      readonly kind: "picture";
      readonly picture: RgbaPicture;
      /** In words what of the file is left out. */
      readonly note?: string;
    }
  | { readonly kind: "font"; readonly font: Font };

export interface Cutting {
  /** The cells of a sheet. */
  readonly cells?: Cells | undefined;
  /** The characters that are taken of a font. */
  readonly chars?: readonly number[] | undefined;
}

/** The pictures, with what may be said of them. Refused is what does not go together. */
export function artOf(
  sources: readonly Source[],
  { cells, chars }: Cutting,
): (Art & { readonly notes: readonly string[] }) | Refused {
  const [first, another] = sources;
  if (!first) return { refused: "there is no picture" };
  const fonts = sources.filter(({ kind }) => kind === "font");
  if (fonts.length > 0 && another) return { refused: "a font is brought in by itself, not with other files" };
  if (first.kind === "font") {
    if (cells) return { refused: "a font has glyphs, which are no cells of a sheet" };
    const glyphs = glyphsFor(first.font, chars);
    if ("refused" in glyphs) return glyphs;
    const { outside } = first.font;
    const notes =
      outside.length === 0
        ? []
        : [`pixels outside the font's own box are left out of ${outside.slice(0, 8).join(", ")}`];
    return { pictures: glyphs.frames, points: glyphs.points, widths: glyphs.widths, notes };
  }
  const pictures: RgbaPicture[] = [];
  const notes = new Set<string>();
  for (const source of sources) {
    if (source.kind !== "picture") continue;
    if (source.note !== undefined) notes.add(source.note);
    const cut = cells ? cutSheet(source.picture, cells) : [source.picture];
    if ("refused" in cut) return cut;
    pictures.push(...cut);
  }
  // Pictures that show characters are glyphs too.
  if (chars && chars.length !== pictures.length)
    return {
      refused: `${chars.length} characters are named for ${pictures.length} ${pictures.length === 1 ? "picture" : "pictures"}`,
    };
  return { pictures, ...(chars ? { points: chars } : {}), notes: [...notes] };
}

/** The code points of characters as `chars=` would list them, or of a range such as U+0030-U+0039; undefined for neither. */
export function charactersFrom(text: string): readonly number[] | undefined {
  const [, from, to] = /^U\+([0-9A-Fa-f]{1,6})-U\+([0-9A-Fa-f]{1,6})$/.exec(text) ?? [];
  if (from !== undefined && to !== undefined) {
    const [first, last] = [Number.parseInt(from, 16), Number.parseInt(to, 16)];
    if (last < first || last > 0x10ffff || last - first >= 65_536) return undefined;
    return Array.from({ length: last - first + 1 }, (_, i) => first + i);
  }
  const comment = `// @bitmap chars="${text.replaceAll('"', '\\"')}"`;
  const [annotation] = annotationsIn(comment, { start: 0, end: comment.length });
  return annotation && parseOptions(annotation, new Set()).options.chars;
}
