/** A lightness table as a C array in the style of a file. */
import type { TableSize } from "../light/lightnessTable.ts";
import { lightnessTable } from "../light/lightnessTable.ts";
import type { Format } from "../pixels/formats.ts";
import { FORMATS } from "../pixels/formats.ts";
import { eolOf } from "../source/text.ts";
import { houseOf } from "./house.ts";
import { emitValues } from "./make.ts";
import type { BitmapFile } from "./resolve.ts";

const PER_LINE = 16;

/** The comment that says what it is, and the statement. `offset` is where it will stand. */
export function lightnessArray(
  file: BitmapFile,
  name: string,
  size: TableSize,
  place: { readonly offset: number; readonly indent: string } = { offset: 0, indent: "" },
): string {
  const values = lightnessTable(size);
  const most = values[values.length - 1] as number;
  // A format with elements of the width that duties need: bytes, or 16 bits.
  const format = FORMATS.get(size.to > 8 ? "rgb565" : "gray8") as Format;
  const house = houseOf(file, place.offset, { format, pack: "rows", most, lit: true });
  const eol = eolOf(file.source.text);
  const lines = Array.from({ length: Math.ceil(values.length / PER_LINE) }, (_, i) => ({
    first: i * PER_LINE,
    count: Math.min(PER_LINE, values.length - i * PER_LINE),
  }));
  const bits = size.to > 8 ? 16 : 8;
  const style = {
    ...house,
    type: { kind: "int", bits, signed: false } as const,
    literal: { sign: "", prefix: "", base: 10, digits: "0", suffix: "" } as const,
    width: String(most).length,
  };
  const list = emitValues(lines, style, place.indent, eol, (i) => BigInt(values[i] as number));
  const note = `// Duty of ${values.length} levels that are even to the eye (CIE 1976 lightness), ${most} at most.`;
  const count = house.open ? "" : values.length;
  return `${note}${eol}${place.indent}${house.head}${name}[${count}]${house.tail}{${eol}${list}${eol}${place.indent}};`;
}
