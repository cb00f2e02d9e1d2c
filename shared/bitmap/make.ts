/** New bitmaps: from the words of an annotation and a name to the text of annotation and array. */
import type { PanelIndex } from "../light/panelIndex.ts";
import { holding } from "../light/panelIndex.ts";
import type { Layout } from "../pixels/layout.ts";
import type { Options } from "../pixels/options.ts";
import { setPixel } from "../pixels/picture.ts";
import type { ElementLine } from "../source/emit.ts";
import { emitLines } from "../source/emit.ts";
import { nameProblem } from "../source/identifiers.ts";
import type { LiteralStyle } from "../source/literals.ts";
import { outlineOf } from "../source/outline.ts";
import { readSource } from "../source/read.ts";
import { spellIn } from "../source/rewrite.ts";
import { eolOf } from "../source/text.ts";
import type { IntType } from "../source/types.ts";
import { codeInWords } from "./glyphs.ts";
import type { House } from "./house.ts";
import { houseOf } from "./house.ts";
import { readsBack } from "./readsBack.ts";
import type { Bitmap, BitmapFile } from "./resolve.ts";
import { resolveFile } from "./resolve.ts";

/** More elements than that are no artwork that anyone keeps as text: 1,048,576. */
const MOST_ELEMENTS = 1 << 20;

export interface Made {
  /** The annotation's comment, without a line break. */
  readonly annotation: string;
  /** The statement, from its first word to the semicolon. */
  readonly statement: string;
  /** Where the name stands in it. */
  readonly nameAt: number;
  readonly elements: number;
  /** Rows, columns or bands of a frame. */
  readonly lines: number;
  readonly bitmap: Bitmap;
}

export type Refused = { readonly refused: string };

/** What the words of an annotation mean with elements of a width. The panels are those that the file knows. */
export function meaningOf(file: BitmapFile, words: string, bits: IntType["bits"] = 8): Bitmap | Refused {
  if (/[\r\n]/.test(words) || /\\\s*$/.test(words)) return { refused: "An annotation stands on one line." };
  return understood(words, bits, holding(file.known));
}

/** The words are read like those of any annotation: on an array made for the purpose. */
function understood(words: string, bits: IntType["bits"], panels: PanelIndex): Bitmap | Refused {
  const source = readSource(`// @bitmap ${words}\nuint${bits}_t made[] = {};`, { target: "host" });
  const { bitmaps, problems } = resolveFile(source, "", panels);
  const [annotation, another] = source.annotations;
  if (!annotation || another) return { refused: "Only the words of one @bitmap can stand here." };
  if (annotation.words.some((w) => w.text === "entries"))
    return { refused: "`entries` is for a table of structs, which can't be made here." };
  const [problem] = problems;
  const [bitmap] = bitmaps;
  if (problem || !bitmap) return { refused: problem?.message ?? "These words give no bitmap." };
  if (!bitmap.layout) return { refused: `These words give no bitmap: ${bitmap.why}.` };
  return bitmap;
}

/** Why a name can't be given to a new array of the file; undefined for one that can. */
export function nameRefused(file: BitmapFile, name: string): string | undefined {
  const { text, macros, arrays } = file.source;
  const problem = nameProblem(name);
  if (problem !== undefined) return problem;
  const macro = macros.has(name) || new RegExp(`^[ \\t]*#[ \\t]*define[ \\t]+${name}\\b`, "m").test(text);
  if (!macro && arrays.every((a) => a.name !== name) && !outlineOf(file.source).names.has(name)) return undefined;
  return `\`${name}\` is already taken in this file.`;
}

export interface MakeRequest {
  readonly words: string;
  readonly name: string;
  /** Where it will stand: the style is that of the bitmap nearest above. */
  readonly offset: number;
  readonly indent?: string;
  readonly eol?: string;
  readonly head?: { readonly text: string; readonly type: IntType };
  /** Most elements to write out. */
  readonly limit?: number;
  readonly pixels?: (frame: number, index: number) => number;
}

/**
 * The text of a new bitmap in the file's house style. Its pixels are all 0 (with `invert` its elements are not), or
 * those of `pixels`, which gives the raw value by frame and index.
 * `head` are declaration words that are already typed, with the element width that they mean. The name is not judged.
 * Where a half-typed declaration has made a style that can't be read back (see `readsBack`), it is plain C instead.
 */
export function makeBitmap(file: BitmapFile, request: MakeRequest): Made | Refused {
  const made = inStyleOf(file, file, request);
  // Without a name there is nothing to read: then only the words are judged.
  if ("refused" in made || request.name === "" || readsBack(file, request, made)) return made;
  const bare = readSource("", { target: file.source.target });
  return inStyleOf(file, resolveFile(bare, file.file), request);
}

function inStyleOf(file: BitmapFile, home: BitmapFile, request: MakeRequest): Made | Refused {
  const { words, name, offset, indent = "", head } = request;
  const first = meaningOf(file, words);
  // Words that ask for more than a byte to a pixel have no layout in bytes.
  const known = "refused" in first ? meaningOf(file, words, 32) : first;
  if ("refused" in known) return first as Refused;
  const pack = known.layout?.pack ?? "rows";
  const { format, invert } = known;
  const most = Math.floor((known.cap ?? format.most) / known.drive);
  const lit = invert || request.pixels !== undefined;
  const house = houseOf(home, offset, { format, pack, most: Math.min(most, format.most), lit });
  const type = head?.type ?? house.type;
  const bitmap = meaningOf(file, words, type.bits);
  if ("refused" in bitmap) return bitmap;
  const layout = bitmap.layout as Layout;
  const limit = request.limit ?? MOST_ELEMENTS;
  if (layout.elements > limit)
    return { refused: `That would be an array of ${layout.elements} elements; at most ${limit} are written out.` };
  const eol = request.eol ?? eolOf(file.source.text);
  const before = head?.text ?? house.head;
  const flash = /\bPROGMEM\b/.test(before) ? house.tail.replace(/ ?\bPROGMEM\b/, "") : house.tail;
  const opening = `${before}${name}[${house.open ? "" : layout.elements}]${flash}{${eol}`;
  const list = emitList(bitmap, inType(house, type), indent, eol, request.pixels);
  return {
    annotation: `// @bitmap ${words.trim()}`,
    statement: `${opening}${list}${eol}${indent}};`,
    nameAt: before.length,
    elements: layout.elements,
    lines: layout.lines,
    bitmap,
  };
}

/** How the numbers of a list are spelt and set. */
export type ListStyle = Pick<House, "type" | "literal" | "width" | "indent" | "trailing">;

/** The rows of a list of dark or given pixels, one row, column or band of the picture to a line. */
export function emitList(
  bitmap: Bitmap,
  house: House,
  indent: string,
  eol: string,
  pixels?: (frame: number, index: number) => number,
): string {
  const layout = bitmap.layout as Layout;
  const values = bitmap.invert || pixels ? elementsFor(layout, bitmap.invert, pixels) : undefined;
  const lines = linesOf(layout, bitmap.options);
  return emitValues(lines, house, indent, eol, values && ((element) => values.get(element) ?? 0n));
}

/** Lines of numbers; `bits` gives each element's bit pattern, and is left out where all are 0. */
export function emitValues(
  lines: readonly ElementLine[],
  style: ListStyle,
  indent: string,
  eol: string,
  bits: ((element: number) => bigint) | undefined,
): string {
  const { literal, type, width, trailing } = style;
  const spell = (value: bigint) => spellElement(literal, value, type);
  return emitLines(lines, {
    indent: indent + style.indent,
    eol,
    width,
    trailing,
    zero: spell(0n),
    spell: bits && ((element) => spell(bits(element))),
  });
}

/** Spells the value that an element's bit pattern stands for. */
export function spellElement(literal: LiteralStyle, bits: bigint, type: IntType): string {
  return spellIn(literal, type.signed ? BigInt.asIntN(type.bits, bits) : BigInt.asUintN(type.bits, bits), type);
}

/** The style for elements of another width: literals of full width stay so. */
function inType(house: House, type: IntType): House {
  const { literal } = house;
  const full = (bits: number) => (literal.base === 16 ? bits / 4 : bits);
  const scaled = literal.base !== 10 && literal.digits.length === full(house.type.bits);
  return { ...house, type, literal: scaled ? { ...literal, digits: "0".repeat(full(type.bits)) } : literal };
}

/** The elements that hold these pixels; without any, those of a dark picture. */
function elementsFor(
  layout: Layout,
  invert: boolean,
  pixels: (frame: number, index: number) => number = () => 0,
): Map<number, bigint> {
  const values = new Map<number, bigint>();
  const read = (element: number) => values.get(element) ?? 0n;
  const write = (element: number, bits: bigint) => void values.set(element, bits);
  for (let frame = 0; frame < layout.frames; frame++) {
    for (let i = 0; i < layout.width * layout.height; i++)
      setPixel(layout, frame, i, pixels(frame, i), invert, read, write);
  }
  return values;
}

/** Elements to a line where the picture's own lines say nothing. */
const USUAL = 16;

/** The lines of a whole list; `named` puts the name of each of several frames in a comment. */
export function linesOf(layout: Layout, options: Options, named = true): ElementLine[] {
  const { frames, lead, skip, frameElements, elements } = layout;
  const lines: ElementLine[] = [];
  const put = (first: number, end: number, perLine: number) => {
    for (let at = first; at < end; at += perLine) lines.push({ first: at, count: Math.min(perLine, end - at) });
  };
  put(0, skip, USUAL);
  if (frameElements === 0) {
    put(skip, elements, USUAL);
    return lines;
  }
  const perLine = perLineOf(layout);
  for (let frame = 0; frame < frames; frame++) {
    const start = skip + frame * frameElements;
    const before = lines.length;
    put(start, start + lead, USUAL);
    put(start + lead, start + frameElements, perLine);
    const line = lines[before];
    if (frames === 1 || !line || !named) continue;
    const only = lines.length === before + 1;
    lines[before] = { ...line, [only ? "behind" : "above"]: frameName(frame, options) };
  }
  return lines;
}

/** Elements to a line of the source. */
export function perLineOf({ lineElements, lines, pack, scan }: Layout): number {
  if (lineElements === 0) return USUAL;
  // Columns of one element each stand side by side: a line for each would be a single number.
  const columns = pack === "columns" || scan.endsWith("columns");
  return columns && lineElements === 1 ? Math.min(lines, USUAL) : lineElements;
}

/** The character of a glyph, as the code point where it can't be shown in a comment; else the frame's number. */
export function frameName(frame: number, { first, chars }: Options): string {
  const point = chars ? chars[frame] : first === undefined ? undefined : first + frame;
  if (point === undefined || point > 0x10ffff) return `frame ${frame}`;
  const glyph = String.fromCodePoint(point);
  if (glyph === "'" || glyph === "\\") return `'\\${glyph}'`;
  return point >= 0x20 && point < 0x7f ? `'${glyph}'` : codeInWords(point);
}
