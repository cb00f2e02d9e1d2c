/** How firmware reads a pixel of a bitmap, as an expression in C. */
import type { Bitmap } from "../../bitmap/resolve.ts";
import type { Layout } from "../../pixels/layout.ts";

export interface Reader {
  /** The expression asks for columns and rows, not for the pixel's number alone. */
  readonly placed: boolean;
  /**
   * The level of a pixel: `$i` its number row by row, `$x` and `$y` its place. `start` is the first byte of the frame,
   * as an expression in C.
   */
  readonly expression: (start: string) => string;
}

/** Reads one byte of flash, or of memory where the array is not kept in flash. */
export function byteAt(flash: boolean, pointer: string, index: string): string {
  return flash ? `pgm_read_byte(${pointer} + ${index})` : `${pointer}[${index}]`;
}

/** Whether the array is kept where AVR's load instruction can't read it. */
export function inFlash(text: string, { array }: Pick<Bitmap, "array">): boolean {
  return /\bPROGMEM\b/.test(text.slice(array.declaration.start, array.base));
}

/** Why firmware of ours can't read the bitmap; else how it does. Pixels must lie in bytes, from the top left. */
export function readerFor(bitmap: Bitmap, flash: boolean): Reader | { readonly refused: string } {
  const { array, layout, format, invert } = bitmap;
  const { name, type } = array;
  if (!/^[A-Za-z_]\w*$/.test(name)) return { refused: `${name} is part of a larger initialiser` };
  if (layout?.elementBits !== 8 || type?.bits !== 8)
    return { refused: `the elements of ${name} are not bytes: convert it first` };
  const packed = packedAt(layout);
  const found = layout.alone ? { element: (i: number) => i, shift: () => 0, index: "$i", by: "" } : packed;
  if (!found || layout.frameElements === 0 || !holds(layout, found))
    return { refused: `${name} is packed in a way that the function does not read: convert it first` };
  const { index, by } = found;
  const expression = (start: string) => {
    const byte = byteAt(flash, start, index);
    const level = by === "" ? byte : `((${byte} >> (${by})) & ${format.most})`;
    return invert ? `(uint8_t)(${format.most} - ${level})` : level;
  };
  return { placed: by !== "", expression };
}

interface Place {
  readonly element: (i: number) => number;
  readonly shift: (i: number) => number;
  /** The same as expressions in C. */
  readonly index: string;
  readonly by: string;
}

function packedAt({ pack, width, bits, lineElements, format: { depth } }: Layout): Place | undefined {
  const each = 8 / depth;
  const x = (i: number) => i % width;
  const y = (i: number) => Math.floor(i / width);
  const [log, mask] = [Math.log2(each), each - 1];
  const shifted = (along: string) => {
    const nth = depth === 1 ? `(${along} & ${mask})` : `(${along} & ${mask}) * ${depth}`;
    return bits === "msb" ? `${8 - depth} - ${nth}` : nth;
  };
  const shift = (along: number) => (bits === "msb" ? 8 - depth - (along % each) * depth : (along % each) * depth);
  if (pack === "rows")
    return {
      element: (i) => y(i) * lineElements + Math.floor(x(i) / each),
      shift: (i) => shift(x(i)),
      index: `$y * ${lineElements} + ($x >> ${log})`,
      by: shifted("$x"),
    };
  if (pack === "columns")
    return {
      element: (i) => x(i) * lineElements + Math.floor(y(i) / each),
      shift: (i) => shift(y(i)),
      index: `$x * ${lineElements} + ($y >> ${log})`,
      by: shifted("$y"),
    };
  if (pack === "pages" && depth === 1)
    return {
      element: (i) => Math.floor(y(i) / 8) * width + x(i),
      shift: (i) => shift(y(i)),
      index: `($y >> 3) * ${width} + $x`,
      by: shifted("$y"),
    };
  return undefined;
}

/** Whether every pixel of a frame stands where the formula says. */
function holds(layout: Layout, place: Pick<Place, "element" | "shift">): boolean {
  const { element, shift } = layout.table(0);
  const first = layout.skip + layout.lead;
  for (let i = 0; i < element.length; i++)
    if (element[i] !== first + place.element(i) || shift[i] !== place.shift(i)) return false;
  return true;
}

/** The number of the element in which a frame's pixels begin. */
export function startOf({ layout }: Bitmap, frame: number): number {
  return layout ? layout.skip + frame * layout.frameElements + layout.lead : 0;
}
