/**
 * Where each pixel of a frame sits in the elements of an array.
 *
 * Packed pixels (fewer than 8 bits, sharing elements) form a stream of bits. The stream takes the bytes of an element
 * in `bytes` order and the pixels of a byte in `bits` order; the bits inside one pixel keep their order. Each line (row,
 * column or band of 8 rows) starts afresh as `pad` says. Whole pixels (8 bits and more, or one to an element) follow
 * each other in `scan` order.
 */
import type { Format } from "./formats.ts";
import type { Options } from "./options.ts";

/** Another picture that the array holds: that of a driver's canvas, from which the pixels are taken. */
interface DriverOrder {
  readonly width: number;
  readonly height: number;
  /** y · width + x on that canvas for each pixel, row by row. */
  readonly index: Uint32Array;
  /** Tells it from any other. */
  readonly key: string;
}

/** All that decides where pixels sit. */
export interface Arrangement {
  readonly width: number;
  readonly height: number;
  readonly frames: number;
  readonly format: Format;
  readonly elementBits: 8 | 16 | 32 | 64;
  readonly pack: NonNullable<Options["pack"]>;
  readonly bits: NonNullable<Options["bits"]>;
  readonly pad: NonNullable<Options["pad"]>;
  readonly spare: NonNullable<Options["spare"]>;
  readonly bytes: NonNullable<Options["bytes"]>;
  readonly scan: NonNullable<Options["scan"]>;
  readonly from: NonNullable<Options["from"]>;
  readonly skip: number;
  readonly lead: number;
  /** The array is stored in the order of the driver: everything else then speaks of the driver's canvas. */
  readonly driver?: DriverOrder | undefined;
}

/** Element and lowest bit of each pixel of one frame, row by row from the top left. */
interface FrameTable {
  readonly element: Uint32Array;
  readonly shift: Uint8Array;
}

export interface Layout extends Arrangement {
  /** Elements that the whole bitmap takes, `skip` and `lead` included. */
  readonly elements: number;
  /** Elements of one frame with its `lead`; 0 where frames do not start on an element (`pad=none`). */
  readonly frameElements: number;
  /** Elements that one pixel takes, 1 for all pixels that fit in one. */
  readonly span: number;
  /** Each pixel has its elements to itself. */
  readonly alone: boolean;
  /** Elements of one line, where lines start on an element; 0 elsewhere. */
  readonly lineElements: number;
  /** Lines of one frame: rows, columns or bands. */
  readonly lines: number;
  readonly table: (frame: number) => FrameTable;
}

/** Whether pixels are whole: 8 bits and more, or one to an element. */
export function isWhole(format: Format, pack: Arrangement["pack"]): boolean {
  return pack === "each" || format.depth >= 8;
}

const MOST_KEPT = 64;
const kept = new Map<string, Layout>();

/**
 * Lays a bitmap out in elements; a reason where the pixels do not fit the element width. Bitmaps arranged alike share
 * one layout and its tables; the ones used last are kept.
 */
export function layOut(a: Arrangement): Layout | { readonly why: string } {
  const key = [
    a.width,
    a.height,
    a.frames,
    a.format.name,
    a.elementBits,
    a.pack,
    a.bits,
    a.pad,
    a.spare,
    a.bytes,
    a.scan,
    a.from,
    a.skip,
    a.lead,
    a.driver?.key,
  ].join(" ");
  const known = kept.get(key);
  const layout = known ?? newLayout(a);
  if ("why" in layout) return layout;
  if (known) kept.delete(key);
  else if (kept.size >= MOST_KEPT)
    for (const oldest of kept.keys()) {
      kept.delete(oldest);
      break;
    }
  kept.set(key, layout);
  return layout;
}

/** The steps from pixel to pixel, line to line and frame to frame, in bits where not said otherwise. */
export interface Measures {
  /** Pixels across and down: of the driver's canvas where the array is in its order. */
  readonly width: number;
  readonly height: number;
  /** Pixels are whole, and each has its elements to itself. */
  readonly whole: boolean;
  readonly unit: number;
  readonly byColumns: boolean;
  readonly bands: boolean;
  readonly lines: number;
  readonly stride: number;
  readonly frameBits: number;
  /** Frames do not start on an element. */
  readonly flowing: boolean;
  /** Unused bits before a line's pixels. */
  readonly spareBits: number;
}

export function measure(a: Arrangement): Measures {
  const { elementBits: size } = a;
  const { width, height } = a.driver ?? a;
  const { depth } = a.format;
  const whole = isWhole(a.format, a.pack);
  // Several whole pixels share an element only where they fill it.
  const alone = a.pack === "each" || depth >= size || size % depth !== 0;
  const unit = whole ? (alone ? Math.max(size, depth) : depth) : depth;
  const byColumns = whole ? a.scan === "columns" || a.scan === "serpentine-columns" : a.pack === "columns";
  const bands = !whole && a.pack === "pages";
  const lines = bands ? Math.ceil(height / 8) : byColumns ? width : height;
  const lineBits = (bands ? width * 8 : byColumns ? height : width) * unit;
  const grain = { element: size, byte: 8, 16: 16, 32: 32, frame: 1, none: 1 }[a.pad];
  const stride = Math.ceil(lineBits / grain) * grain;
  const spareBits = a.spare === "first" ? stride - lineBits : 0;
  const flowing = a.pad === "none";
  return { width, height, whole, unit, byColumns, bands, lines, stride, frameBits: lines * stride, flowing, spareBits };
}

function newLayout(a: Arrangement): Layout | { readonly why: string } {
  const { elementBits: size } = a;
  const { depth } = a.format;
  if (a.pack === "each" && depth > size)
    return { why: `a pixel of ${depth} bits does not fit in an element of ${size} bits` };
  if (depth > size && depth % size !== 0)
    return { why: `pixels of ${depth} bits do not divide into elements of ${size} bits` };
  const { width, height, whole, unit, byColumns, bands, lines, stride, frameBits, flowing, spareBits } = measure(a);
  const frameElements = flowing ? 0 : a.lead + Math.ceil(frameBits / size);
  const elements =
    a.skip + (flowing ? Math.ceil((a.frames * (a.lead * size + frameBits)) / size) : a.frames * frameElements);
  const span = depth > size ? depth / size : 1;
  const aligned = stride % size === 0;

  const bitOf = (u: number, v: number): number => {
    if (bands) {
      const unused = a.spare === "first" && v >= height - (height % 8) ? 8 - (height % 8) : 0;
      return (v >> 3) * stride + u * 8 * depth + ((v & 7) + unused) * depth;
    }
    const line = byColumns ? u : v;
    let place = byColumns ? v : u;
    const back = whole && (a.scan === "serpentine" || a.scan === "serpentine-columns") && line % 2 === 1;
    if (back) place = (byColumns ? height : width) - 1 - place;
    return line * stride + spareBits + place * unit;
  };

  const shiftOf = (bit: number): number => {
    const inside = bit % size;
    if (whole) {
      if (unit >= size) return 0;
      return a.bytes === "le" ? inside : size - inside - depth;
    }
    const byte = inside >> 3;
    const base = (a.bytes === "le" ? byte : size / 8 - 1 - byte) * 8;
    return base + (a.bits === "msb" ? 8 - (inside & 7) - depth : inside & 7);
  };

  const build = (start: number): FrameTable => {
    const element = new Uint32Array(a.width * a.height);
    const shift = new Uint8Array(a.width * a.height);
    const right = a.from.endsWith("right");
    const bottom = a.from.startsWith("bottom");
    const put = (i: number, x: number, y: number) => {
      const bit = start + bitOf(right ? width - 1 - x : x, bottom ? height - 1 - y : y);
      element[i] = Math.floor(bit / size);
      shift[i] = shiftOf(bit);
    };
    if (a.driver) for (const [i, cell] of a.driver.index.entries()) put(i, cell % width, Math.floor(cell / width));
    else for (let y = 0, i = 0; y < height; y++) for (let x = 0; x < width; x++, i++) put(i, x, y);
    return { element, shift };
  };

  const first = (frame: number): number =>
    flowing
      ? (a.skip + a.lead) * size + frame * (a.lead * size + frameBits)
      : (a.skip + frame * frameElements + a.lead) * size;

  const built = new Map<number, FrameTable>();
  const table = (frame: number): FrameTable => {
    const known = built.get(frame);
    if (known) return known;
    let made: FrameTable;
    if (flowing || frame === 0) made = build(first(frame));
    else {
      // All frames look alike: the first one, moved on.
      const zero = table(0);
      const move = frame * frameElements;
      made = { element: zero.element.map((e) => e + move), shift: zero.shift };
    }
    // A long animation is read frame by frame; only the frame at hand and the first are kept.
    for (const key of built.keys()) if (key !== 0) built.delete(key);
    built.set(frame, made);
    return made;
  };
  const lineElements = aligned && !flowing ? stride / size : 0;
  return { ...a, elements, frameElements, span, alone: whole && unit >= size, lineElements, lines, table };
}
