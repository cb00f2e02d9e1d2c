/** A whole bitmap as an array of its own in any format and packing, in the style of its file. */
import type { Format } from "../pixels/formats.ts";
import { FORMATS, isColour } from "../pixels/formats.ts";
import { isWhole } from "../pixels/layout.ts";
import { nextName } from "../source/identifiers.ts";
import { eolOf } from "../source/text.ts";
import { converter, lost } from "./convert/levels.ts";
import type { Refused } from "./make.ts";
import { makeBitmap, meaningOf } from "./make.ts";
import { openText } from "./open.ts";
import type { Bitmap, BitmapFile } from "./resolve.ts";
import { pixelsOf } from "./resolve.ts";

/** What a copy can be made as. */
export interface CopyChoice {
  readonly format: string;
  /** Format and packing, as the annotation has them after the size. */
  readonly words: string;
  /** How pixels become elements, in words. */
  readonly packing: string;
  /** Pixels that look otherwise in it. */
  readonly lost: number;
}

/** More pixels than that are not written out as text: 262,144. */
const MOST_PIXELS = 1 << 18;

/** Every format with every packing that it can have; the bitmap's own format first. */
export function copyChoices(bitmap: Bitmap): CopyChoice[] {
  if (bitmap.why !== undefined) return [];
  const own = bitmap.format;
  const formats = [own, ...[...FORMATS.values()].filter((f) => f !== own && f.kind !== "palette")];
  return formats.flatMap((format) => {
    if (format !== own && own.kind === "palette" && !bitmap.palette) return [];
    const looks = { format, cap: capIn(bitmap, format), drive: bitmap.drive, palette: bitmap.palette };
    const count = format === own ? 0 : lost(bitmap, looks);
    return packings(format).map(([word, packing]) => ({
      format: format.name,
      words: `${format.name}${word}`,
      packing,
      lost: count,
    }));
  });
}

const PACKED = [
  ["", "along rows, the first pixel in the highest bits"],
  [" bits=lsb", "along rows, the first pixel in the lowest bits"],
  [" pack=columns", "down columns, the top pixel in the lowest bits"],
  [" pack=columns bits=msb", "down columns, the top pixel in the highest bits"],
  [" pack=pages", "down columns of bands of 8 rows, the top pixel in the lowest bits"],
  [" pack=pages bits=msb", "down columns of bands of 8 rows, the top pixel in the highest bits"],
  [" pack=each", "an element for each pixel"],
] as const;

const WHOLE = [
  ["", "row by row"],
  [" scan=columns", "column by column"],
  [" scan=serpentine", "row by row, every second one backwards"],
] as const;

const SWAPPED = [" bytes=le", "row by row, the low byte first"] as const;

function packings(format: Format) {
  if (!isWhole(format, "rows")) return PACKED;
  return format.depth > 8 ? [...WHOLE, SWAPPED] : WHOLE;
}

/**
 * Annotation and statement for all frames of a bitmap, with `words` after the size: a format and how its pixels become
 * elements. The cap follows the scale of the format. Refused where the words make no bitmap of that size, where the
 * pixels have no meaning in the format, or where the text would not be read back as the same picture.
 */
export function copiedAs(file: BitmapFile, bitmap: Bitmap, words: string): string | Refused {
  const { array, width, height, frames, why } = bitmap;
  if (why !== undefined) return { refused: `${array.name} has no picture: ${why}` };
  if (width * height * frames > MOST_PIXELS) return { refused: `${array.name} has more than ${MOST_PIXELS} pixels` };
  const asked = meaningOf(file, `${width}x${height} ${words}`);
  const wide = "refused" in asked ? meaningOf(file, `${width}x${height} ${words}`, 32) : asked;
  if ("refused" in wide) return asked as Refused;
  if (wide.frames !== 1 || wide.width !== width || wide.height !== height)
    return {
      refused: "The size, the frames and the panel are those of the bitmap: give a format and how it is packed.",
    };
  const { format } = wide;
  if (format.kind === "palette" && format !== bitmap.format)
    return { refused: `${array.name} has no palette of ${format.name}; a conversion in the editor can make one` };
  if (bitmap.format.kind === "palette" && format !== bitmap.format && !bitmap.palette)
    return { refused: `the palette of ${array.name} is not known, so its colours are not` };
  const cap = wide.cap ?? capIn(bitmap, format);
  const full = [
    `${width}x${height}`,
    words.trim(),
    ...own(bitmap, format, words),
    ...(cap === undefined || wide.cap !== undefined ? [] : [`cap=${cap}`]),
  ].join(" ");
  return written(file, bitmap, full, { ...wide, cap, drive: bitmap.drive });
}

/** Words that belong to the picture and not to its format. */
function own(bitmap: Bitmap, format: Format, given: string): string[] {
  const { options, frames, drive, light } = bitmap;
  const words: string[] = [];
  if (frames > 1) words.push(`frames=${frames}`);
  if (options.fps !== undefined) words.push(`fps=${options.fps}`);
  for (const key of ["first", "chars"]) {
    const word = bitmap.words.get(key);
    if (word) words.push(word.text);
  }
  const usual = isColour(format) ? "srgb" : "linear";
  if (light !== usual && !/\blight=/.test(given)) words.push(`light=${light}`);
  if (drive < 1) words.push(`drive=${Number((100 * drive).toFixed(4))}%`);
  return words;
}

function capIn({ cap, format: before }: Bitmap, format: Format): number | undefined {
  if (cap === undefined || format.kind === "mono") return undefined;
  return before === format ? cap : Math.floor((cap * format.full) / before.full);
}

function written(file: BitmapFile, bitmap: Bitmap, words: string, to: Bitmap): string | Refused {
  const value = converter(bitmap, to);
  const frames = Array.from({ length: bitmap.frames }, (_, frame) =>
    Array.from(pixelsOf(bitmap, frame) ?? [], to.format === bitmap.format ? (v) => v : value),
  );
  const plain = openText("", file.file, { target: file.source.target });
  const { array, palette, options } = bitmap;
  const name = nextName(file.source.text, /^[A-Za-z_]\w*/.exec(array.name)?.[0] ?? "picture");
  // A palette is named and not brought along.
  const named = to.format === bitmap.format && palette && options.palette !== "head" ? ` palette=${palette.name}` : "";
  const pixels = (frame: number, index: number) => frames[frame]?.[index] ?? 0;
  let refused: Refused = { refused: `${array.name} can't be copied as ${words}` };
  // A declaration that is half typed makes a bad model: then it is plain C.
  for (const home of [file, plain]) {
    const made = makeBitmap(home, { name, words, offset: array.base + 1, pixels });
    if ("refused" in made) {
      refused = made;
      continue;
    }
    const eol = eolOf(home.source.text);
    const text = `${made.annotation}${named}${eol}${made.statement}${eol}`;
    if (readsBack(text, file, frames)) return text;
  }
  return refused;
}

function readsBack(text: string, { file, source }: BitmapFile, frames: readonly (readonly number[])[]): boolean {
  const [read, another] = openText(text, file, { target: source.target }).bitmaps;
  if (!read || another || read.why !== undefined || read.frames !== frames.length) return false;
  return frames.every((pixels, frame) => {
    const found = pixelsOf(read, frame);
    return found?.length === pixels.length && pixels.every((value, i) => value === found[i]);
  });
}
