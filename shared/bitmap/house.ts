/** The house style of a file: how it declares its bitmaps and spells their numbers, so that a new one looks alike. */
import type { Format } from "../pixels/formats.ts";
import { isWhole } from "../pixels/layout.ts";
import type { Options } from "../pixels/options.ts";
import { elementSpan } from "../source/arrays.ts";
import type { LiteralStyle } from "../source/literals.ts";
import { literalStyle } from "../source/literals.ts";
import { indentAt } from "../source/scan.ts";
import type { IntType } from "../source/types.ts";
import type { Declaration } from "./declaration.ts";
import { declarationOf } from "./declaration.ts";
import type { Bitmap, BitmapFile } from "./resolve.ts";

export interface House {
  readonly type: IntType;
  /** Before and behind the name, without the brackets (see `Declaration`). */
  readonly head: string;
  readonly tail: string;
  /** The size is left to the compiler: `[]`. */
  readonly open: boolean;
  readonly literal: LiteralStyle;
  /** Columns of a number at least. */
  readonly width: number;
  /** What rows are set in by. */
  readonly indent: string;
  /** A comma follows the last number. */
  readonly trailing: boolean;
}

interface Wanted {
  readonly format: Format;
  readonly pack: NonNullable<Options["pack"]>;
  /** Highest value that will be written. */
  readonly most: number;
  /** Whether values other than 0 will be. */
  readonly lit: boolean;
}

/** Bitmaps that are looked at to find one that is alike. */
const MOST_MODELS = 5000;

type Model = { readonly bitmap: Bitmap; readonly declaration: Declaration };

/** Takes after the bitmap of the same format and packing nearest above the offset, else after any; else plain C. */
export function houseOf(file: BitmapFile, offset: number, wanted: Wanted): House {
  const { text } = file.source;
  const model = modelFor(file, offset, wanted);
  const alike = model && isAlike(model.bitmap, wanted) ? model.bitmap : undefined;
  const bits = alike?.array.type?.bits ?? elementBits(wanted);
  const { head, tail } = (model && declaredLike(model, bits, alike !== undefined)) ?? plain(file, bits, model);
  const own = model && bodyStyle(text, model.bitmap);
  const spelling = alike ? own?.literal : undefined;
  const literal = spelling ?? defaultLiteral(wanted, bits, own?.literal);
  const padded = literal.base === 10 && (alike ? own?.padded : true);
  return {
    type: { kind: "int", bits, signed: alike?.array.type?.signed ?? false },
    head,
    tail,
    open: model !== undefined && /^\[\s*\]/.test(model.declaration.dimensions.trim()),
    literal,
    width: padded ? String(wanted.most).length : 0,
    indent: own?.indent ?? indentIn(text),
    trailing: own?.trailing ?? true,
  };
}

function modelFor(file: BitmapFile, offset: number, wanted: Wanted): Model | undefined {
  const { bitmaps } = file;
  let below = bitmaps.findIndex((b) => b.array.base >= offset);
  if (below < 0) below = bitmaps.length;
  let any: Model | undefined;
  // Upwards from the offset, then down from it: most files hold a model next to it.
  for (let step = 0; step < Math.min(bitmaps.length, MOST_MODELS); step++) {
    const bitmap = bitmaps[step < below ? below - 1 - step : step];
    if (!bitmap?.annotation || !bitmap.array.type || bitmap.array.type.truth) continue;
    if (bitmap.array.type.signed && wanted.lit) continue;
    const alike = isAlike(bitmap, wanted);
    if (any && !alike) continue;
    const declaration = declarationOf(file.source.text, bitmap.array);
    if (!declaration || /[\r\n/#]/.test(declaration.head + declaration.tail)) continue;
    if (alike) return { bitmap, declaration };
    any = { bitmap, declaration };
  }
  return any;
}

function isAlike(bitmap: Bitmap, { format, pack }: Wanted): boolean {
  return bitmap.layout !== undefined && bitmap.format.name === format.name && bitmap.layout.pack === pack;
}

/** The least element that holds a pixel of its own; bytes where pixels share elements or take several. */
function elementBits({ format, pack }: Wanted): IntType["bits"] {
  if (format.depth === 16) return 16;
  return format.depth > 16 && pack === "each" ? 32 : 8;
}

const TYPES = /\b(?:u?int(?:8|16|32|64)_t|byte|word)\b/g;

/** The model's words, with the element type that is needed; undefined where its type can't be replaced. */
function declaredLike(
  { bitmap, declaration }: Model,
  bits: number,
  same: boolean,
): { head: string; tail: string } | undefined {
  const { head, tail } = declaration;
  if (same || (bitmap.array.type?.bits === bits && !bitmap.array.type.signed)) return { head, tail };
  const types = head.match(TYPES) ?? [];
  return types.length === 1 ? { head: head.replace(TYPES, `uint${bits}_t`), tail } : undefined;
}

/** Without a model: const data, in flash where the file is built for AVR and has the word for it. */
function plain(file: BitmapFile, bits: number, model: Model | undefined): { head: string; tail: string } {
  const { text, target } = file.source;
  const header = /\.(?:h|hh|hpp|hxx)$/i.test(file.file);
  const sketch = /\.(?:ino|pde)$/i.test(file.file);
  const flash = model
    ? /\bPROGMEM\b/.test(model.declaration.head + model.declaration.tail)
    : target === "avr" && (sketch || /^[ \t]*#[ \t]*include[ \t]*<avr\/pgmspace\.h>/m.test(text));
  const isStatic = model ? /\bstatic\b/.test(model.declaration.head) : header;
  return { head: `${isStatic ? "static " : ""}const uint${bits}_t `, tail: `${flash ? " PROGMEM" : ""} = ` };
}

/** Literals that are looked at to learn a style. */
const MOST_LOOKED_AT = 256;

/** How the numbers of a bitmap are spelt and set, as far as they tell. */
export function bodyStyle(text: string, { array, format, layout }: Bitmap) {
  const node = array.list?.nodes[0];
  if (!node) return undefined;
  let literal: LiteralStyle | undefined;
  let upper: boolean | undefined;
  let longest = 0;
  for (let i = 0; i < Math.min(array.given, MOST_LOOKED_AT); i++) {
    const { start, end } = elementSpan(array, i);
    const style = literalStyle(text.slice(start, end));
    longest = Math.max(longest, end - start);
    if (!style || (literal && style.digits === "0")) continue;
    if (!literal || literal.digits === "0") literal = style;
    if (style.base === 16 && /[a-f]/i.test(style.digits)) upper ??= style.digits === style.digits.toUpperCase();
  }
  const open = array.base + node.open;
  const close = array.base + node.close;
  const body = text.slice(open + 1, Math.min(close, open + 4000));
  const end = text.slice(Math.max(open + 1, close - 400), close);
  const padded = layout !== undefined && isWhole(format, layout.pack) && isPadded(body);
  const [, row, number = ""] = /[\r\n]([ \t]+)(\w*)/.exec(body) ?? [];
  const outer = indentAt(text, open);
  // In columns, a short number has spaces before it that are no indentation.
  const spaces = padded && row && number !== "" ? row.slice(0, Math.max(0, row.length + number.length - longest)) : row;
  return {
    literal: literal && { ...literal, sign: "", ...(upper === undefined ? {} : { upper }) },
    padded,
    indent: spaces?.startsWith(outer) ? spaces.slice(outer.length) : undefined,
    trailing: /,\s*$/.test(end.replace(/\/\*[\s\S]*?\*\/|\/\/[^\r\n]*/g, "")),
  };
}

/** Whether numbers of a list are set in columns. */
export function isPadded(body: string): boolean {
  return /,[ ]{2,}\d/.test(body.slice(0, 4000));
}

/** Packed bits and colours in hexadecimal, levels in decimal. */
export function defaultLiteral(
  { format, pack }: Pick<Wanted, "format" | "pack">,
  bits: number,
  other: LiteralStyle | undefined,
): LiteralStyle {
  const decimal = isWhole(format, pack) && format.kind !== "rgb";
  if (decimal) return { sign: "", prefix: "", base: 10, digits: "0", suffix: "" };
  const upper = other?.base === 16 && /[a-f]/.test(other.digits) ? {} : { upper: true };
  return { sign: "", prefix: "0x", base: 16, digits: "0".repeat(bits / 4), suffix: "", ...upper };
}

/** What the file's lines are set in by: a tab, or as many spaces as the least indented line. */
export function indentIn(text: string): string {
  return /^(?:\t| {2,8})(?=[^\s*])/m.exec(text.slice(0, 20_000))?.[0] ?? "  ";
}
