import type { Bitmap, BitmapFile } from "../../shared/bitmap/resolve.ts";
import { suggest, unannotated } from "../../shared/bitmap/suggest.ts";
import type { SourceArray } from "../../shared/source/arrays.ts";
import { storedValues } from "../../shared/source/arrays.ts";
import { lineAt, lineStarts } from "../../shared/source/text.ts";
import type { Target } from "../../shared/source/types.ts";
import type { Command, Print } from "./command.ts";
import { needPaths } from "./command.ts";
import { forEachFile, shownPath } from "./files.ts";

interface ListedBitmap {
  readonly width: number;
  readonly height: number;
  readonly frames: number;
  readonly format: string;
  readonly pack: string;
  readonly bits: string;
  readonly cap?: number;
  /** The cap by night. */
  readonly night?: number;
  /** Share of full scale that is driven, where that is not all of it. */
  readonly drive?: number;
  /** Its values are no light of their own. */
  readonly mask?: true;
  /** It is stored in the order of its panel's driver. */
  readonly order?: "driver";
  readonly fps?: number;
  readonly panel?: string;
  readonly invert?: true;
  /** The array that holds its colours. */
  readonly palette?: string;
}

interface ListedArray {
  readonly file: string;
  /** 1-based, of the name. */
  readonly line: number;
  readonly name: string;
  /** 0 where the element type is not known. */
  readonly elementBits: number;
  readonly signed: boolean;
  /** Declared number of elements; null for `[]`. */
  readonly declared: number | null;
  readonly given: number;
  readonly values?: (number | string)[];
  readonly readOnly?: string;
  readonly bitmap?: ListedBitmap;
  /** What the array may be that has no annotation, best first; only where there is evidence. */
  readonly offers?: readonly { readonly words: string; readonly evidence: string }[];
}

interface ListOptions {
  readonly all: boolean;
  readonly values: boolean;
  readonly json: boolean;
  readonly target: Target | undefined;
}

export const listCommand: Command = {
  name: "list",
  usage: "[--all] [--values] [--json] PATH…",
  doc: "the bitmaps in these files and folders; with --all every array of numbers",
  options: { all: "flag", values: "flag", json: "flag" },
  run(paths, { all, values, json }, target, print) {
    needPaths(paths);
    return list(paths, { all: all === true, values: values === true, json: json === true, target }, print);
  },
};

/** Prints the arrays of the files; only bitmaps unless `all` is set. */
async function list(paths: readonly string[], options: ListOptions, print: Print): Promise<number> {
  const arrays: ListedArray[] = [];
  const visit = (file: BitmapFile, unread: string | undefined) => {
    if (unread !== undefined) process.stderr.write(`${shownPath(file.file)}: ${unread}\n`);
    arrays.push(...listFile(file, options));
  };
  await forEachFile(paths, options.target, visit, { onlyPictures: !options.all });
  if (options.json) print(`${JSON.stringify({ arrays })}\n`);
  else for (const array of arrays) print(`${line(array)}\n`);
  return 0;
}

function listFile(file: BitmapFile, options: ListOptions): ListedArray[] {
  const starts = lineStarts(file.source.text);
  const bitmaps = new Map<SourceArray, Bitmap>();
  for (const bitmap of file.bitmaps) if (!bitmaps.has(bitmap.array)) bitmaps.set(bitmap.array, bitmap);
  const free = new Set(options.all ? unannotated(file) : []);
  // A table of pointers is listed as the frames that it leads to.
  const tables = new Map([...bitmaps.keys()].filter((a) => a.parts).map((a) => [a.nameSpan.start, a]));
  return file.source.arrays
    .map((array) => tables.get(array.nameSpan.start) ?? array)
    .filter((array) => options.all || bitmaps.has(array))
    .map((array) => {
      const bitmap = bitmaps.get(array);
      const values = options.values ? storedValues(array) : undefined;
      const readOnly = array.readOnly ?? array.fixed ?? bitmap?.why;
      const offers = free.has(array) ? suggest(file, array) : [];
      return {
        file: shownPath(file.file),
        line: lineAt(starts, array.nameSpan.start) + 1,
        name: array.name,
        elementBits: array.type?.bits ?? 0,
        signed: array.type?.signed ?? false,
        declared: declaredCount(array),
        given: array.given,
        ...(values ? { values } : {}),
        ...(readOnly === undefined ? {} : { readOnly }),
        ...(bitmap ? { bitmap: listBitmap(bitmap) } : {}),
        ...(offers.length > 0 ? { offers: offers.map(({ words, evidence }) => ({ words, evidence })) } : {}),
      };
    });
}

function declaredCount(array: SourceArray): number | null {
  if (array.dimensions.length === 0) return array.type && array.list ? array.count : null;
  return array.dimensions.some((d) => d.size === undefined)
    ? null
    : array.dimensions.reduce((product, d) => product * (d.size as number), 1);
}

function listBitmap(bitmap: Bitmap): ListedBitmap {
  const { width, height, frames, format, layout, options, cap, night, drive } = bitmap;
  return {
    width,
    height,
    frames,
    format: format.name,
    pack: layout?.pack ?? options.pack ?? "rows",
    bits: layout?.bits ?? options.bits ?? "msb",
    ...(cap === undefined ? {} : { cap }),
    ...(night === undefined ? {} : { night }),
    ...(drive < 1 ? { drive } : {}),
    ...(bitmap.mask ? { mask: true as const } : {}),
    ...(options.order === "driver" ? { order: "driver" as const } : {}),
    ...(options.fps === undefined ? {} : { fps: options.fps }),
    ...(bitmap.panel ? { panel: bitmap.panel.name } : {}),
    ...(bitmap.invert ? { invert: true as const } : {}),
    ...(bitmap.palette ? { palette: bitmap.palette.name } : {}),
  };
}

function line(a: ListedArray): string {
  const what = a.bitmap
    ? `${a.bitmap.width}×${a.bitmap.height} ${a.bitmap.format}${a.bitmap.frames > 1 ? `, ${a.bitmap.frames} frames` : ""}`
    : "numbers";
  const type = a.elementBits ? `${a.given} × ${a.elementBits} bits` : `${a.given} elements`;
  const values = a.values ? `\n  ${a.values.join(" ")}` : "";
  const readOnly = a.readOnly ? `; read-only: ${a.readOnly}` : "";
  const offer = a.offers?.[0];
  const looks = offer ? `; looks like ${offer.words}: ${offer.evidence}` : "";
  return `${a.file}:${a.line}: ${a.name}: ${what}; ${type}${readOnly}${looks}${values}`;
}
