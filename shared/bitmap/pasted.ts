/** A picture out of text that somebody pastes: an array with or without an annotation, or only its numbers. */
import { holding } from "../light/panelIndex.ts";
import type { SourceArray } from "../source/arrays.ts";
import { elementSpan, storedValues } from "../source/arrays.ts";
import { openText } from "./open.ts";
import type { Bitmap, BitmapFile } from "./resolve.ts";
import { pixelsOf } from "./resolve.ts";
import { CLEAR, suggest, unannotated } from "./suggest.ts";

/** Raw values, width·height of them, row by row. */
export interface Pasted {
  readonly width: number;
  readonly height: number;
  readonly pixels: readonly number[];
  /** What the values mean; missing for plain numbers. */
  readonly bitmap?: Bitmap;
}

type Refused = { readonly refused: string };

/** Pasted text is no program: more than this many characters are not read. */
const MOST = 1 << 24;
/** The name under which the text includes the file that it is pasted into. */
const HOME = "the file itself";
const PASTED = "the pasted text";

/**
 * The first picture in the text. Names, panels and macros are those of the file that it is pasted into. The first frame
 * of several; numbers without an annotation make rows as they stand on lines, or else of `width` pixels.
 */
export function pasted(text: string, home: BitmapFile, width: number): Pasted | Refused {
  if (text.trim() === "") return { refused: "The clipboard holds no text and no picture." };
  if (text.length > MOST) return { refused: "The text on the clipboard is too long for a picture." };
  const whole = read(text, home);
  const [bitmap] = [...whole.bitmaps].sort((a, b) => Number(a.why !== undefined) - Number(b.why !== undefined));
  if (bitmap) return ofBitmap(bitmap);
  const [problem] = whole.problems;
  if (problem) return { refused: `The text on the clipboard has a mistake: ${problem.message}` };
  const [array] = unannotated(whole);
  if (!array) return bare(text, home, width);
  const [offer] = suggest(whole, array);
  if (offer && offer.confidence >= CLEAR) return ofBitmap(offer.bitmap);
  return byLines(whole, array, width);
}

function read(text: string, home: BitmapFile): BitmapFile {
  const { target, text: known } = home.source;
  const includes = (name: string) => (name === HOME ? { id: HOME, text: known } : undefined);
  const panels = holding(home.known);
  return openText(`#include "${HOME}"\n${text}`, home.file, { target, panels, includes, id: PASTED });
}

function ofBitmap(bitmap: Bitmap): Pasted | Refused {
  const { width, height, array, why } = bitmap;
  const pixels = pixelsOf(bitmap, 0);
  if (!pixels || why !== undefined)
    return { refused: `${array.name} on the clipboard has no picture: ${why ?? "its values are not known"}.` };
  return { width, height, pixels: Array.from(pixels), bitmap };
}

/** Numbers without a declaration around them. */
function bare(text: string, home: BitmapFile, width: number): Pasted | Refused {
  const file = read(`int64_t pasted[] = {\n${text}\n};`, home);
  const array = file.source.arrays.find((a) => a.name === "pasted");
  const start = text.trim().split(/\r?\n/, 1)[0]?.slice(0, 40) ?? "";
  if (!array || array.readOnly !== undefined || array.given === 0)
    return { refused: `“${start}” on the clipboard is neither an array of numbers nor a picture.` };
  return byLines(file, array, width);
}

function byLines({ source: { text } }: BitmapFile, array: SourceArray, known: number): Pasted | Refused {
  const values = storedValues(array);
  if (!values || values.length === 0)
    return {
      refused: `The values of ${array.name} on the clipboard are not known${array.readOnly ? `: ${array.readOnly}` : ""}.`,
    };
  const numbers = values.map(Number);
  const below = numbers.find((value) => value < 0);
  if (below !== undefined) return { refused: `${below} on the clipboard is no level: levels are 0 and more.` };
  const counts = countsByLine(text, array);
  const [first = 0] = counts;
  const even = counts.length > 1 && counts.every((count) => count === first);
  const width = even ? first : numbers.length % known === 0 ? known : counts.length === 1 ? first : 0;
  if (width === 0 || numbers.length % width !== 0)
    return {
      refused: `The ${numbers.length} numbers on the clipboard make no rows: their lines differ, and they are no rows of ${known} pixels.`,
    };
  return { width, height: numbers.length / width, pixels: numbers };
}

/** How many elements begin on each line that has any. */
function countsByLine(text: string, array: SourceArray): number[] {
  const counts: number[] = [];
  let end = -1;
  for (let i = 0; i < array.given; i++) {
    const { start } = elementSpan(array, i);
    if (end < 0 || text.slice(end, start).includes("\n")) counts.push(0);
    counts[counts.length - 1] = (counts.at(-1) as number) + 1;
    end = start;
  }
  return counts;
}
