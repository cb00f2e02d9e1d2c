/** Arrays of plain numbers that go with a bitmap (glyph widths, a palette's colours), in the file's own style. */
import type { Format } from "../pixels/formats.ts";
import type { Options } from "../pixels/options.ts";
import { eolOf } from "../source/text.ts";
import { houseOf } from "./house.ts";
import { emitValues } from "./make.ts";
import type { BitmapFile } from "./resolve.ts";

export interface Numbers {
  readonly name: string;
  readonly values: readonly number[];
  /** What they are spelt like, one to an element. */
  readonly format: Format;
  readonly pack?: NonNullable<Options["pack"]>;
  /** Where they will stand: the style is that of the bitmap nearest above. */
  readonly offset: number;
  readonly indent?: string;
  readonly eol?: string;
}

const PER_LINE = 16;

/** The statement, from its first word to the semicolon. */
export function makeNumbers(file: BitmapFile, numbers: Numbers): string {
  const { name, values, format, pack = "rows", offset, indent = "" } = numbers;
  const most = values.reduce((highest, value) => Math.max(highest, value), 0);
  const house = houseOf(file, offset, { format, pack, most, lit: true });
  const eol = numbers.eol ?? eolOf(file.source.text);
  const lines = Array.from({ length: Math.ceil(values.length / PER_LINE) }, (_, i) => ({
    first: i * PER_LINE,
    count: Math.min(PER_LINE, values.length - i * PER_LINE),
  }));
  const list = emitValues(lines, house, indent, eol, (element) => BigInt(values[element] ?? 0));
  return `${house.head}${name}[${house.open ? "" : values.length}]${house.tail}{${eol}${list}${eol}${indent}};`;
}
