/** Pictures from outside as a new bitmap: its annotation and array, with the palette and the widths that go with it. */
import type { Refused } from "../bitmap/make.ts";
import { makeBitmap, meaningOf, nameRefused } from "../bitmap/make.ts";
import { makeNumbers } from "../bitmap/numbers.ts";
import { reopened } from "../bitmap/open.ts";
import { placed, placeNear } from "../bitmap/place.ts";
import type { Bitmap, BitmapFile } from "../bitmap/resolve.ts";
import { pixelsOf, resolveFile } from "../bitmap/resolve.ts";
import { charactersInWords } from "../bitmap/restructure/characters.ts";
import { packRgb } from "../pixels/colour.ts";
import type { Format } from "../pixels/formats.ts";
import { FORMATS } from "../pixels/formats.ts";
import type { Pixels } from "../pixels/picture.ts";
import type { RgbaPicture } from "../pixels/rgba.ts";
import { freeName } from "../source/identifiers.ts";
import { readSource } from "../source/read.ts";
import type { TextEdit } from "../source/text.ts";
import { applyEdits, eolOf } from "../source/text.ts";
import type { Brought } from "./bring.ts";
import { bringIn } from "./bring.ts";
import type { Choices } from "./choices.ts";

/** Pictures, and for glyphs what they are of. */
export interface Art {
  readonly pictures: readonly RgbaPicture[];
  readonly points?: readonly number[];
  readonly widths?: readonly number[];
}

export interface NewPicture {
  /** The words of the annotation: format and options, and a size or a panel where it is not to be the picture's own. */
  readonly words: string;
  readonly name: string;
  /** Where it is to stand in the file: at the nearest place where it may. */
  readonly offset: number;
  readonly choices: Choices;
  /** The format of a palette that is made; `rgb888` by default. */
  readonly paletteFormat?: Format;
}

export interface Written {
  /** Annotation and array, with those that go with it before them. */
  readonly text: string;
  /** Puts it into the file. */
  readonly edit: TextEdit;
  readonly brought: Brought;
  /** The file as it is read with it, and the bitmap in it. */
  readonly file: BitmapFile;
  readonly bitmap: Bitmap;
}

/** Refused is what gives no bitmap, in words; what is given has been read back, in its place in the file. */
export function newPicture(file: BitmapFile, art: Art, wanted: NewPicture): Written | Refused {
  const taken = nameRefused(file, wanted.name);
  if (taken !== undefined) return { refused: taken };
  const words = wordsFor(file, art, wanted.words);
  if ("refused" in words) return words;
  const meant = meaningOf(file, words.words);
  const known = "refused" in meant ? meaningOf(file, words.words, 32) : meant;
  if ("refused" in known) return meant as Refused;
  if (known.frames !== art.pictures.length)
    return {
      refused: `the annotation speaks of ${known.frames} frames, and there ${art.pictures.length === 1 ? "is 1 picture" : `are ${art.pictures.length} pictures`}`,
    };
  const { width, height, format, cap, drive } = known;
  const held = wanted.paletteFormat ?? (FORMATS.get("rgb888") as Format);
  const brought = bringIn(art.pictures, { width, height, format, cap, drive, paletteFormat: held }, wanted.choices);
  if ("refused" in brought) return brought;
  const plain = resolveFile(readSource("", { target: file.source.target }), file.file, file.known);
  for (const home of [file, plain]) {
    const written = inStyleOf(home, file, { art, wanted, brought, words: words.words, held });
    if (!("refused" in written) || home === plain) return written;
  }
  return { refused: `${wanted.name} can't be written` };
}

/** The words with the size of the pictures, their number and their characters, where they are not said. */
function wordsFor(
  file: BitmapFile,
  { pictures, points }: Pick<Art, "pictures" | "points">,
  given: string,
): { readonly words: string } | Refused {
  const [first] = pictures;
  if (!first) return { refused: "there is no picture" };
  const { options, rest } = partedWords(given);
  const has = (key: string) => new RegExp(`(?:^|\\s)${key}=`).test(options);
  const panel = options.split(/\s+/).some((word) => file.known.names.has(word));
  const sized = panel || /(?:^|\s)\d+x\d+(?:\s|$)/.test(options);
  const more: string[] = [];
  if (pictures.length > 1 && !has("frames")) more.push(`frames=${pictures.length}`);
  if (points && !has("first") && !has("chars")) {
    const characters = charactersInWords(points);
    if ("refused" in characters) return characters;
    for (const word of characters.values()) if (word !== undefined) more.push(word);
  }
  if (has("palette") || has("widths"))
    return { refused: "`palette=` and `widths=` name arrays that are made here, so they can't be given" };
  return { words: [...(sized ? [] : [`${first.width}x${first.height}`]), options, ...more].join(" ").trim() + rest };
}

/** Options, and the free text that may end them. */
function partedWords(words: string): { readonly options: string; readonly rest: string } {
  const [, options = "", rest = ""] = /^(.*?)((?:^|\s)--(?:\s.*)?)?$/s.exec(words.trim()) ?? [];
  return { options: options.trim(), rest };
}

interface Parts {
  readonly art: Art;
  readonly wanted: NewPicture;
  readonly brought: Brought;
  readonly words: string;
  readonly held: Format;
}

function inStyleOf(
  home: BitmapFile,
  file: BitmapFile,
  { art, wanted, brought, words, held }: Parts,
): Written | Refused {
  const { text } = file.source;
  const eol = eolOf(text);
  const place = placeNear(file.source, wanted.offset);
  const { indent } = place;
  const offset = home === file ? place.span.start : 0;
  const values = (frame: number, index: number) => (brought.frames[frame] as Pixels)[index] as number;
  const made = makeBitmap(home, { words, name: wanted.name, offset, indent, eol, pixels: values });
  if ("refused" in made) return made;
  const before: string[] = [];
  const own: string[] = [];
  if (brought.palette) {
    const name = freeName(text, `${wanted.name}_colours`);
    const colours = brought.palette.map((rgb) => packRgb(held, rgb));
    const pack = held.depth > 16 ? "each" : "rows";
    const statement = makeNumbers(home, { name, values: colours, format: held, pack, offset, indent, eol });
    before.push(`// @palette ${held.name}${eol}${indent}${statement}`);
    own.push(`palette=${name}`);
  }
  const widths = art.widths && new Set(art.widths).size > 1 ? art.widths : undefined;
  if (widths) {
    const name = freeName(text, `${wanted.name}_widths`);
    const format = FORMATS.get("gray8") as Format;
    before.push(makeNumbers(home, { name, values: widths, format, offset, indent, eol }));
    own.push(`widths=${name}`);
  }
  const { options, rest } = partedWords(words);
  const annotation = `// @bitmap ${[options, ...own].join(" ")}${rest}`;
  const body = [...before, `${annotation}${eol}${indent}${made.statement}`].join(eol + eol + indent);
  const { edit } = placed(place, body, eol);
  const read = readIn(applyEdits(text, [edit]), file, wanted.name, brought, widths);
  if (!read) return { refused: `${wanted.name} would not be read as it was meant` };
  return {
    text: `${before.map((part) => part + eol + eol).join("")}${annotation}${eol}${made.statement}${eol}`,
    edit,
    brought,
    ...read,
  };
}

/** The file with the bitmap in it; undefined where it is not what was brought in. */
function readIn(
  text: string,
  file: BitmapFile,
  name: string,
  brought: Brought,
  widths: readonly number[] | undefined,
): { readonly file: BitmapFile; readonly bitmap: Bitmap } | undefined {
  const read = reopened(file, text);
  if (read.problems.length > file.problems.length) return undefined;
  const bitmap = read.bitmaps.find((b) => b.array.name === name);
  const colours = bitmap?.palette ? Array.from(bitmap.palette.colours) : undefined;
  if (!bitmap || String(colours) !== String(brought.palette) || String(bitmap.widths) !== String(widths))
    return undefined;
  const same = brought.frames.every((values, frame) =>
    pixelsOf(bitmap, frame)?.every((value, i) => value === values[i]),
  );
  return same && bitmap.frames === brought.frames.length ? { file: read, bitmap } : undefined;
}
