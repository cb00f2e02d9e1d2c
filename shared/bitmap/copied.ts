/** Pixels of a bitmap as an array of their own, in the style of the file that they come from. */
import type { Options } from "../pixels/options.ts";
import { nextName } from "../source/identifiers.ts";
import { eolOf } from "../source/text.ts";
import type { Refused } from "./make.ts";
import { makeBitmap } from "./make.ts";
import type { Bitmap, BitmapFile } from "./resolve.ts";

/** Options that say how pixels become elements. They are written out, as no panel goes along with the text. */
const ARRANGING = ["pack", "bits", "pad", "spare", "bytes", "scan", "from", "light"] as const;

/**
 * Annotation and statement for `pixels`: raw values of the bitmap's format, width·height of them, row by row. The text
 * stands for itself, so it can be pasted into any file; only a palette is named and not brought along.
 */
export function copiedText(
  file: BitmapFile,
  bitmap: Bitmap,
  { width, height, pixels }: { readonly width: number; readonly height: number; readonly pixels: ArrayLike<number> },
): string | Refused {
  const { array, format, options, cap, drive, invert } = bitmap;
  const size = `${width}x${height} ${format.name}`;
  const arranged = ARRANGING.filter((key) => options[key] !== undefined).map((key) => `${key}=${options[key]}`);
  const more = [
    ...(invert ? ["invert"] : []),
    ...(cap === undefined ? [] : [`cap=${cap}`]),
    ...(drive < 1 ? [`drive=${Number((100 * drive).toFixed(4))}%`] : []),
  ];
  const text = file.source.text;
  const request = {
    name: nextName(text, plainName(array.name)),
    offset: array.base + 1,
    pixels: (_frame: number, index: number) => pixels[index] ?? 0,
  };
  // What arranges a whole bitmap need not fit a part of it.
  const first = makeBitmap(file, { ...request, words: [size, ...arranged, ...more].join(" ") });
  const made = "refused" in first ? makeBitmap(file, { ...request, words: [size, ...more].join(" ") }) : first;
  if ("refused" in made) return made;
  const eol = eolOf(text);
  return `${made.annotation}${paletteWord(options)}${eol}${made.statement}${eol}`;
}

function paletteWord({ palette }: Options): string {
  return palette === undefined || palette === "head" ? "" : ` palette=${palette}`;
}

/** Lists inside of others are named by the way to them, which is no name for an array. */
function plainName(name: string): string {
  return /^[A-Za-z_]\w*/.exec(name)?.[0] ?? "picture";
}
