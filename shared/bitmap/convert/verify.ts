/** Every conversion is read back before it is given out. */

import type { Pixels } from "../../pixels/picture.ts";
import type { SourceArray } from "../../source/arrays.ts";
import { elementValue } from "../../source/arrays.ts";
import type { TextEdit } from "../../source/text.ts";
import { applyEdits } from "../../source/text.ts";
import { stored } from "../../source/types.ts";
import { sameIn } from "../edit.ts";
import type { Bitmap, BitmapFile } from "../resolve.ts";
import { pixelsOf } from "../resolve.ts";

/** What must be read from the converted text. */
interface Expected {
  readonly name: string;
  /** Which of the arrays of that name. */
  readonly ordinal: number;
  readonly width: number;
  readonly height: number;
  readonly format: string;
  readonly elementBits: number;
  readonly frames: readonly Pixels[];
}

/** The array that has its name, with pictures of the size and format of a bitmap. */
export function expectedAs(
  { name, ordinal }: Pick<SourceArray, "name" | "ordinal">,
  { width, height, format }: Pick<Bitmap, "width" | "height" | "format">,
  elementBits: number,
  frames: readonly Pixels[],
): Expected {
  return { name, ordinal, width, height, format: format.name, elementBits, frames };
}

export interface Built {
  readonly edits: readonly TextEdit[];
  readonly expected: readonly Expected[];
}

/** What reads a text as the file was read, and what judges it. */
export interface World {
  readonly reopen: (text: string) => BitmapFile;
  readonly findings: (file: BitmapFile) => readonly { readonly code: string }[];
}

const JUDGED = ["annotation", "unknown-panel", "length", "row-shape", "padding-bits", "unreadable", "over-cap"];

/** Why the converted text is not what was wanted; undefined where it is. */
export function wrongAfter(file: BitmapFile, built: Built, world: World): string | undefined {
  return wrongIn(world.reopen(applyEdits(file.source.text, built.edits)), file, built, world);
}

/** The same for a text that has been read already. */
export function wrongIn(
  after: BitmapFile,
  file: BitmapFile,
  { expected }: Pick<Built, "expected">,
  world: World,
): string | undefined {
  for (const wanted of expected) {
    const { name } = wanted;
    const bitmap = sameIn(after, { name, ordinal: wanted.ordinal });
    if (!bitmap || bitmap.why !== undefined) return `${name} would not be read back`;
    if (!matches(bitmap, wanted)) return `${name} would not show the same picture`;
    if (negatives(bitmap) && !file.bitmaps.some((b) => b.array.name === name && negatives(b)))
      return `the elements of ${name} are signed, and have no room for the highest bit`;
  }
  const [before, now] = [countsOf(world.findings(file)), countsOf(world.findings(after))];
  const more = JUDGED.find((code) => (now.get(code) ?? 0) > (before.get(code) ?? 0));
  return more === undefined ? undefined : `there would be a new finding \`${more}\``;
}

function matches(bitmap: Bitmap, wanted: Expected): boolean {
  const { width, height, frames, format, array } = bitmap;
  if (width !== wanted.width || height !== wanted.height || frames !== wanted.frames.length) return false;
  if (format.name !== wanted.format || array.type?.bits !== wanted.elementBits) return false;
  return wanted.frames.every((pixels, frame) => {
    const read = pixelsOf(bitmap, frame);
    return read?.length === pixels.length && pixels.every((value, i) => value === read[i]);
  });
}

/** Braces in C++ take no literal that a signed element can't hold (C++17 [dcl.init.list], narrowing). */
function negatives({ array }: Bitmap): boolean {
  const { type } = array;
  if (!type?.signed) return false;
  for (let i = 0; i < array.given; i++) if (stored(elementValue(array, i), type) < 0n) return true;
  return false;
}

function countsOf(findings: readonly { readonly code: string }[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const { code } of findings) counts.set(code, (counts.get(code) ?? 0) + 1);
  return counts;
}
