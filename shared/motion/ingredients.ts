/** The image and the mask of a motion: bitmaps of the file by their names, and fields. */
import { withPanelsAround } from "../bitmap/panels.ts";
import type { Bitmap, BitmapFile } from "../bitmap/resolve.ts";
import { pixelsOf, resolveFile } from "../bitmap/resolve.ts";
import { greyOf, isColour } from "../pixels/formats.ts";
import type { MotionOptions } from "../pixels/motionOptions.ts";
import { FIELDS } from "../pixels/motionOptions.ts";
import { nearest } from "../pixels/words.ts";
import type { Word } from "../source/annotationSyntax.ts";
import type { BoundAnnotation, SourceFile } from "../source/read.ts";
import type { FieldKind } from "./kernel/fields.ts";
import { fieldOf } from "./kernel/fields.ts";
import type { MotionProblem } from "./problem.ts";
import { at, USUAL } from "./problem.ts";

/** A frame of a bitmap. */
export interface Ingredient {
  readonly bitmap: Bitmap;
  readonly frame: number;
  /** The text of the file that it stands in. */
  readonly text: string;
}

/** Included files as they were last read, with the panels that the file around them knows. */
const known = new WeakMap<SourceFile, BitmapFile>();

interface Around {
  readonly bitmap: Bitmap;
  readonly text: string;
}

/** The bitmaps of a file, then those of the files that it includes. */
export function bitmapsAround({ bitmaps, source, known: panels }: BitmapFile): Around[] {
  const included = [...source.included].flatMap(([id, file]) => {
    const before = known.get(file);
    const own = (before && withPanelsAround(before, panels)) ?? resolveFile(file, id, panels);
    known.set(file, own);
    return own.bitmaps.map((bitmap) => ({ bitmap, text: file.text }));
  });
  return [...bitmaps.map((bitmap) => ({ bitmap, text: source.text })), ...included];
}

interface Size {
  readonly width: number;
  readonly height: number;
}

interface Image {
  readonly found?: Ingredient;
  readonly size?: Size;
  readonly levels?: Uint8Array;
  /** What it is uncovered over: the glyph before it, where a function changes the glyphs of a set. */
  readonly under?: Uint8Array;
  readonly problems: readonly MotionProblem[];
}

/** The image, whose size and scale are those of the array that holds the frames. */
export function imageFor(
  file: BitmapFile,
  { image }: MotionOptions,
  words: ReadonlyMap<string, Word>,
  { markerSpan }: BoundAnnotation,
  target: Bitmap | undefined,
): Image {
  const word = words.get("image");
  if (!word || image === undefined) {
    const said = "An @motion needs `image=` with the name of the bitmap that is uncovered.";
    return { problems: word ? [] : [at(markerSpan, said)] };
  }
  const found = named(file, image, word, [], target);
  if ("wrong" in found) return { problems: [found.wrong] };
  const { bitmap, frame } = found;
  const { width, height, format, array } = bitmap;
  const pixels = pixelsOf(bitmap, frame);
  if (target && (target.width !== width || target.height !== height)) {
    const said = `${array.name} is ${width}×${height}, and ${target.array.name} is ${target.width}×${target.height}.`;
    return { problems: [at(word, said)] };
  }
  if (target && target.format.full !== format.full) {
    const said = `${array.name} is ${format.name} and ${target.array.name} is ${target.format.name}: their levels differ.`;
    return { problems: [at(word, said)] };
  }
  const wrongTarget = target && refusedAs(target);
  if (wrongTarget !== undefined) return { problems: [at(markerSpan, wrongTarget)] };
  const levels = Uint8Array.from(pixels ?? []);
  const isSet = bitmap.options.first !== undefined || bitmap.options.chars !== undefined;
  if (target || !isSet || bitmap.frames < 2 || /\]$/.test(image))
    return { found, size: { width, height }, levels, problems: [] };
  const next = Uint8Array.from(pixelsOf(bitmap, 1) ?? []);
  return { found: { ...found, frame: 1 }, size: { width, height }, levels: next, under: levels, problems: [] };
}

interface Mask {
  readonly found?: Ingredient;
  readonly values?: Uint8Array;
  readonly problems: readonly MotionProblem[];
}

/** The mask's values from 0 to 255, whatever its format. Nothing for an image whose size is not known. */
export function maskFor(
  file: BitmapFile,
  options: MotionOptions,
  words: ReadonlyMap<string, Word>,
  size: Size | undefined,
): Mask {
  const { mask = USUAL.mask, angle = USUAL.angle, seed = USUAL.seed } = options;
  const word = words.get("mask");
  const kind = FIELDS.find((field) => field === mask);
  if (!word || kind) return fieldMask(kind ?? USUAL.mask, angle, seed, size);
  const found = named(file, mask, word, FIELDS, undefined);
  if ("wrong" in found) return { problems: [found.wrong] };
  const { bitmap, frame } = found;
  const { width, height, format, array } = bitmap;
  if (!size) return { found, problems: [] };
  if (width !== size.width || height !== size.height) {
    const said = `The mask ${array.name} is ${width}×${height}, and the image is ${size.width}×${size.height}.`;
    return { problems: [at(word, said)] };
  }
  const pixels = pixelsOf(bitmap, frame) ?? [];
  return { found, values: Uint8Array.from(pixels, (value) => greyOf(format, value)), problems: [] };
}

function fieldMask(kind: FieldKind, angle: number, seed: number, size: Size | undefined): Mask {
  return size ? { values: fieldOf(size.width, size.height, { kind, angle, seed }), problems: [] } : { problems: [] };
}

/** The bitmap of a name, or a frame of it. */
function named(
  file: BitmapFile,
  text: string,
  word: Word,
  besides: readonly string[],
  target: Bitmap | undefined,
): Ingredient | { readonly wrong: MotionProblem } {
  const span = { start: word.valueStart, end: word.end };
  const [, base = text, frameText] = /^(.*)\[(\d+)\]$/.exec(text) ?? [];
  const around = bitmapsAround(file);
  const exact = around.find((b) => b.bitmap.array.name === text);
  const { bitmap, text: source } = exact ?? around.find((b) => b.bitmap.array.name === base) ?? {};
  const frame = exact || frameText === undefined ? 0 : Number(frameText);
  if (!bitmap || source === undefined) {
    const names = [
      ...besides,
      ...around
        .map((b) => b.bitmap)
        .filter((b) => b !== target)
        .map((b) => b.array.name),
    ];
    const near = nearest(base, names);
    const unmarked = file.source.arrays.some((a) => a.name === base);
    const why = unmarked
      ? "is an array without a @bitmap"
      : "is not a bitmap of this file or of a header that it includes";
    return { wrong: at(span, `\`${base}\` ${why}.${near === undefined ? "" : ` Did you mean \`${near}\`?`}`, near) };
  }
  if (bitmap === target)
    return { wrong: at(span, `${text} is the array that holds the frames; it can't be an ingredient.`) };
  const refused = refusedAs(bitmap);
  if (refused !== undefined) return { wrong: at(span, refused) };
  if (frame >= bitmap.frames)
    return { wrong: at(span, `${base} has ${bitmap.frames} frame${bitmap.frames === 1 ? "" : "s"}, numbered from 0.`) };
  return { bitmap, frame, text: source };
}

/** Why a bitmap can take no part in a motion. */
function refusedAs({ array, format, why }: Bitmap): string | undefined {
  if (why !== undefined) return `${array.name} has no picture: ${why}.`;
  if (isColour(format))
    return `${array.name} is ${format.name}: motions are computed of levels, in \`mono1\` and the greys.`;
  return undefined;
}
