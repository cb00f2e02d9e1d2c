/** Pixels of a bitmap as an array of their own, in the style of the file that they come from. */
import type { Options } from "../pixels/options.ts";
import { nextName } from "../source/identifiers.ts";
import { eolOf } from "../source/text.ts";
import type { Refused } from "./make.ts";
import { makeBitmap } from "./make.ts";
import { openText } from "./open.ts";
import type { Bitmap, BitmapFile } from "./resolve.ts";
import { pixelsOf } from "./resolve.ts";

/** Options that say how pixels become elements. They are written out, as no panel goes along with the text. */
const ARRANGING = ["pack", "bits", "pad", "spare", "bytes", "scan", "from", "light"] as const;

/** Raw values, width·height of them, row by row. */
interface Copied {
  readonly width: number;
  readonly height: number;
  readonly pixels: ArrayLike<number>;
}

/**
 * Annotation and statement for pixels of the bitmap's format. The text stands for itself, so it can be pasted into any
 * file; only a palette is named and not brought along.
 */
export function copiedText(file: BitmapFile, bitmap: Bitmap, copied: Copied): string | Refused {
  const { format, options, cap, drive, invert } = bitmap;
  const size = `${copied.width}x${copied.height} ${format.name}`;
  const arranged = ARRANGING.filter((key) => options[key] !== undefined).map((key) => `${key}=${options[key]}`);
  const more = [
    ...(invert ? ["invert"] : []),
    ...(cap === undefined ? [] : [`cap=${cap}`]),
    ...(drive < 1 ? [`drive=${Number((100 * drive).toFixed(4))}%`] : []),
  ];
  // What arranges a whole bitmap need not fit a part of it, and a declaration that is half typed makes a bad model.
  const plain = openText("", file.file, { target: file.source.target });
  const name = nextName(file.source.text, plainName(bitmap.array.name));
  const tries = [file, plain].flatMap((home) => [[...arranged, ...more], more, []].map((words) => ({ home, words })));
  let refused: Refused = { refused: `${bitmap.array.name} can't be copied` };
  for (const { home, words } of tries) {
    const text = written(home, bitmap, [size, ...words].join(" "), name, copied);
    if (typeof text !== "string") refused = text;
    else if (isReadBack(text, file, copied)) return text;
  }
  return refused;
}

function written(home: BitmapFile, { array, options }: Bitmap, words: string, name: string, { pixels }: Copied) {
  const made = makeBitmap(home, {
    name,
    words,
    offset: array.base + 1,
    pixels: (_frame, index) => pixels[index] ?? 0,
  });
  if ("refused" in made) return made;
  const eol = eolOf(home.source.text);
  return `${made.annotation}${paletteWord(options)}${eol}${made.statement}${eol}`;
}

function isReadBack(text: string, { file, source }: BitmapFile, { width, height, pixels }: Copied): boolean {
  const [read, another] = openText(text, file, { target: source.target }).bitmaps;
  if (!read || another || read.why !== undefined || read.width !== width || read.height !== height) return false;
  const found = pixelsOf(read, 0);
  return found?.every((value, i) => value === pixels[i]) ?? false;
}

function paletteWord({ palette }: Options): string {
  return palette === undefined || palette === "head" ? "" : ` palette=${palette}`;
}

/** Lists inside of others are named by the way to them, which is no name for an array. */
function plainName(name: string): string {
  return /^[A-Za-z_]\w*/.exec(name)?.[0] ?? "picture";
}
