/** Palettes: the colours of arrays marked `@palette FORMAT`, and which of them a bitmap's indices mean. */
import { rgbOf } from "../pixels/colour.ts";
import type { Format } from "../pixels/formats.ts";
import type { Layout } from "../pixels/layout.ts";
import { layOut } from "../pixels/layout.ts";
import type { Options, ParsedAnnotation, WordProblem } from "../pixels/options.ts";
import { unpack } from "../pixels/picture.ts";
import { nearest } from "../pixels/words.ts";
import type { Word } from "../source/annotationSyntax.ts";
import type { SourceArray } from "../source/arrays.ts";
import type { BoundAnnotation, SourceFile } from "../source/read.ts";
import { elementsOfArray } from "./elements.ts";
import { problem } from "./problem.ts";

export interface Palette {
  readonly name: string;
  readonly array: SourceArray;
  readonly format: Format;
  /** The colours as a picture one row high. */
  readonly layout: Layout;
  /** 0xRRGGBB, by index; at most 256. */
  readonly colours: Uint32Array;
  /** Raw values of the colours. */
  readonly values: ArrayLike<number>;
}

/** Colours that an index can reach. */
const MOST_COLOURS = 256;

/** `misfit`: the annotation is at fault, not the array. */
type Read = Palette | { readonly why: string; readonly misfit: boolean };

interface Marked {
  readonly index: number;
  readonly array: SourceArray;
  readonly read: Read;
}

/** The arrays of a file that are marked as palettes. */
export interface Palettes {
  /** All of them, as far as their colours are known. */
  readonly all: readonly Palette[];
  /** The palette that `palette=` names, for the array with this index; a problem where there is none. */
  readonly find: (options: Options, words: ReadonlyMap<string, Word>, array: number) => Found;
  readonly problems: readonly WordProblem[];
}

type Found = { readonly palette?: Palette; readonly problem?: WordProblem };

export function palettesOf(source: SourceFile, parsed: ReadonlyMap<BoundAnnotation, ParsedAnnotation>): Palettes {
  const marked: Marked[] = [];
  const problems: WordProblem[] = [];
  const heads = headsOf(parsed);
  for (const [annotation, { options, words }] of parsed) {
    const { format } = options;
    if (annotation.marker !== "palette" || !format) continue;
    const wrong = misfit(options);
    if (wrong) problems.push(problem(words.get("pack") ?? annotation.markerSpan, wrong));
    else {
      for (const index of annotation.arrays) {
        const array = source.arrays[index] as SourceArray;
        const head = heads.get(index);
        const read = colours(array, format, options, Math.min(array.count, head ?? array.count));
        marked.push({ index, array, read });
        // What is wrong with a head is said where `palette=head` stands.
        if ("why" in read && read.misfit && head === undefined)
          problems.push(problem(words.get("format") ?? annotation.markerSpan, read.why));
      }
    }
  }

  const find: Palettes["find"] = (options, words, index) => {
    const word = words.get("palette");
    // The value, not the key, is what a suggestion replaces.
    const wrong = (message: string, suggestion?: string): Found =>
      word ? { problem: problem({ start: word.valueStart, end: word.end }, message, suggestion) } : {};
    const name = options.palette;
    if (name === undefined) return {};
    if (name === "head") {
      const entry = marked.find((m) => m.index === index);
      if (!entry) return wrong("`palette=head` needs a @palette before the same array, such as `// @palette rgb565`.");
      if (!options.skip) return wrong("`palette=head` needs `skip=`: the elements passed over are the colours.");
      if (!("why" in entry.read)) return { palette: entry.read };
      return entry.read.misfit ? wrong(entry.read.why) : {};
    }
    const entry = marked.find((m) => m.array.name === name);
    if (entry) {
      if (!("why" in entry.read)) return { palette: entry.read };
      return wrong(`The colours of ${name} are not known: ${entry.read.why}.`.replace(/\.\.$/, "."));
    }
    if (source.arrays.some((a) => a.name === name))
      return wrong(`${name} is not marked as a palette: put \`// @palette rgb565\`, or the format it has, before it.`);
    const near = nearest(name, [...marked.map((m) => m.array.name), "head"]);
    return wrong(`No palette ${name} is in this file.${near ? ` Did you mean ${near}?` : ""}`, near);
  };

  const all = marked.flatMap(({ read }) => ("why" in read ? [] : [read]));
  return { all, find, problems };
}

/** Arrays that are bitmaps themselves, with the elements before their pixels: only those can be colours. */
function headsOf(parsed: ReadonlyMap<BoundAnnotation, ParsedAnnotation>): Map<number, number> {
  const heads = new Map<number, number>();
  for (const [{ marker, arrays }, { options }] of parsed)
    if (marker === "bitmap") for (const index of arrays) heads.set(index, options.skip ?? 0);
  return heads;
}

function misfit({ pack, format }: Options): string | undefined {
  if (pack !== "columns" && pack !== "pages") return undefined;
  return `\`pack=${pack}\` can't be used on a palette of ${format?.name}: colours stand in one row.`;
}

/** The colours in the first `until` elements, or why there are none. */
function colours(array: SourceArray, format: Format, options: Options, until: number): Read {
  if (!array.type || array.readOnly !== undefined)
    return { why: array.readOnly ?? "its element type is not known", misfit: false };
  const arrangement = {
    width: 1,
    height: 1,
    frames: 1,
    format,
    elementBits: array.type.bits,
    pack: options.pack ?? "rows",
    bits: "msb",
    pad: "none",
    spare: "last",
    bytes: options.bytes ?? "be",
    scan: "rows",
    from: "top-left",
    skip: options.skip ?? 0,
    lead: 0,
  } as const;
  const one = layOut(arrangement);
  if ("why" in one) return { why: `The palette ${array.name} can't be read: ${one.why}.`, misfit: true };
  const elements = until - arrangement.skip;
  const perElement = one.alone ? 1 / one.span : one.elementBits / format.depth;
  const count = Math.floor(elements * perElement);
  if (count < 1 || (one.span > 1 && elements % one.span !== 0)) {
    const needs = one.span > 1 ? `each colour of ${format.name} takes ${one.span}` : "a palette needs one at least";
    return { why: `${Math.max(0, elements)} elements of ${array.name} are colours, and ${needs}.`, misfit: true };
  }
  const layout = layOut({ ...arrangement, width: Math.min(count, MOST_COLOURS) });
  const bits = elementsOfArray(array);
  if ("why" in layout || !bits) return { why: "its values are not known", misfit: false };
  const values = unpack(bits, layout, 0, false);
  return {
    name: array.name,
    array,
    format,
    layout,
    values,
    colours: Uint32Array.from(values, (value) => rgbOf(format, value)),
  };
}
