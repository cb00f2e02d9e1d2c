/** Arrays to pictures and back: raw pixel values of one frame, row by row. */
import type { Layout } from "./layout.ts";

export type ElementBits = Uint8Array | Uint16Array | Uint32Array | BigUint64Array;

/** Raw pixel values, width·height of them, row by row from the top left. */
export type Pixels = Uint8Array | Uint16Array | Uint32Array;

/** New, empty pixels for a frame of this layout. */
function emptyPixels(layout: Pick<Layout, "width" | "height" | "format">): Pixels {
  const count = layout.width * layout.height;
  const { depth } = layout.format;
  return depth <= 8 ? new Uint8Array(count) : depth <= 16 ? new Uint16Array(count) : new Uint32Array(count);
}

/** The pixels of a frame. Elements that the array does not have count as 0. `invert` turns every value over. */
export function unpack(bits: ElementBits, layout: Layout, frame: number, invert: boolean): Pixels {
  const out = emptyPixels(layout);
  const { element, shift } = layout.table(frame);
  const { most } = layout.format;
  const lit = layout.pack === "each" && layout.format.kind === "mono";
  for (let i = 0; i < out.length; i++) {
    const value = pixelAt(bits, layout, element[i] as number, shift[i] as number, lit);
    out[i] = invert ? most - value : value;
  }
  return out;
}

/** One pixel of a frame, counted row by row from the top left. */
export function pixelOf(bits: ElementBits, layout: Layout, frame: number, index: number, invert: boolean): number {
  const { element, shift } = layout.table(frame);
  const lit = layout.pack === "each" && layout.format.kind === "mono";
  const value = pixelAt(bits, layout, element[index] as number, shift[index] as number, lit);
  return invert ? layout.format.most - value : value;
}

function pixelAt(bits: ElementBits, layout: Layout, element: number, shift: number, lit: boolean): number {
  const { most } = layout.format;
  if (layout.span > 1) {
    let value = 0;
    for (let k = 0; k < layout.span; k++) {
      const part = layout.bytes === "le" ? layout.span - 1 - k : k;
      value = value * 2 ** layout.elementBits + Number(bits[element + part] ?? 0);
    }
    return value;
  }
  const word = bits[element];
  if (word === undefined) return 0;
  if (typeof word === "bigint") {
    if (lit) return word === 0n ? 0 : 1;
    return swapIfLittle(Number((word >> BigInt(shift)) & BigInt(most)), layout);
  }
  if (lit) return word === 0 ? 0 : 1;
  return swapIfLittle((word >>> shift) & most, layout);
}

/** `bytes=le` on a pixel of several bytes that stands in one element swaps its bytes. */
function swapIfLittle(value: number, layout: Layout): number {
  if (layout.bytes !== "le" || layout.format.depth <= 8) return value;
  return layout.format.depth === 16
    ? ((value & 0xff) << 8) | (value >> 8)
    : ((value & 0xff) << 16) | (value & 0xff00) | (value >> 16);
}

/** Sets one pixel in the elements given by `read`; calls `write` for each element that gets other bits. */
export function setPixel(
  layout: Layout,
  frame: number,
  index: number,
  raw: number,
  invert: boolean,
  read: (element: number) => bigint,
  write: (element: number, bits: bigint) => void,
): void {
  const { most, kind } = layout.format;
  const value = invert ? most - raw : raw;
  const table = layout.table(frame);
  const element = table.element[index] as number;
  if (layout.span > 1) {
    for (let k = 0; k < layout.span; k++) {
      const part = layout.bytes === "le" ? k : layout.span - 1 - k;
      write(element + part, BigInt(Math.floor(value / 2 ** (k * layout.elementBits)) % 2 ** layout.elementBits));
    }
    return;
  }
  const before = read(element);
  if (layout.pack === "each" && kind === "mono") {
    // Any value but 0 is lit already and stays as it is spelt.
    if ((before !== 0n) !== (value !== 0)) write(element, BigInt(value));
    return;
  }
  if (layout.alone && kind !== "rgb") {
    write(element, BigInt(swapIfLittle(value, layout)));
    return;
  }
  // Bits beside a colour in a wide element may be in use, such as a fourth channel: they stay.
  const shift = BigInt(table.shift[index] as number);
  const mask = BigInt(most) << shift;
  write(element, (before & ~mask) | (BigInt(swapIfLittle(value, layout)) << shift));
}

/** A bit of an element that belongs to no pixel, yet is set. `element` is the index in the array. */
export interface StrayBits {
  readonly element: number;
  /** The element with those bits cleared. */
  readonly cleared: bigint;
}

/** The elements of the whole bitmap that have bits set outside all pixels (the unused ends of rows and bands). */
export function strayBits(bits: ElementBits, layout: Layout): StrayBits[] {
  const { width, height, frames, format, elementBits } = layout;
  // Beside a lone grey or index its element has no bits to spare: a higher number is out of range.
  if (layout.alone) return format.kind === "rgb" && format.depth < elementBits ? besideColours(bits, layout) : [];
  const framed = layout.frameElements > 0;
  const dataElements = framed ? layout.frameElements - layout.lead : layout.elements;
  if (framed && width * height * format.depth === dataElements * elementBits) return [];
  const stray: StrayBits[] = [];
  const all = (1n << BigInt(elementBits)) - 1n;
  const inspect = (used: Map<number, bigint>, move: number) => {
    for (const [at, mask] of used) {
      const word = BigInt(bits[at + move] ?? 0);
      if ((word & ~mask & all) !== 0n) stray.push({ element: at + move, cleared: word & mask });
    }
  };
  if (framed) {
    // All frames have their pixels at the same places.
    const used = new Map<number, bigint>();
    for (let i = 0; i < dataElements; i++) used.set(layout.skip + layout.lead + i, 0n);
    addUsed(used, layout, 0);
    for (let frame = 0; frame < frames; frame++) inspect(used, frame * layout.frameElements);
  } else {
    const used = new Map<number, bigint>();
    for (let frame = 0; frame < frames; frame++) addUsed(used, layout, frame);
    inspect(used, 0);
  }
  return stray;
}

/** Bits above colours that have wider elements to themselves. */
function besideColours(bits: ElementBits, layout: Layout): StrayBits[] {
  const { most } = layout.format;
  const stray: StrayBits[] = [];
  for (let frame = 0; frame < layout.frames; frame++) {
    for (const element of layout.table(frame).element) {
      const word = bits[element] ?? 0;
      if (word > most) stray.push({ element, cleared: BigInt(word) & BigInt(most) });
    }
  }
  return stray;
}

function addUsed(used: Map<number, bigint>, layout: Layout, frame: number): void {
  const { element, shift } = layout.table(frame);
  const one = BigInt(layout.format.most);
  for (let i = 0; i < element.length; i++) {
    const at = element[i] as number;
    used.set(at, (used.get(at) ?? 0n) | (one << BigInt(shift[i] as number)));
  }
}

/** The highest of any number of values, 0 for none: more than a call takes arguments. */
export function highestOf(values: ArrayLike<number>): number {
  let most = 0;
  for (let i = 0; i < values.length; i++) most = Math.max(most, values[i] as number);
  return most;
}
