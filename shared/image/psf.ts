/** Console fonts: PSF 1 and 2 (the kbd package's psf.h and its "psf" documentation: header, glyphs, Unicode table). */
import type { Font, Glyph } from "./font.ts";
import { MOST_GLYPHS } from "./font.ts";

type Refused = { readonly refused: string };

export function isPsf(bytes: Uint8Array): boolean {
  return isFirst(bytes) || isSecond(bytes);
}

const isFirst = (bytes: Uint8Array) => bytes[0] === 0x36 && bytes[1] === 0x04;
const isSecond = (bytes: Uint8Array) =>
  bytes[0] === 0x72 && bytes[1] === 0xb5 && bytes[2] === 0x4a && bytes[3] === 0x86;

/** Rows are padded to bytes, the leftmost pixel highest. Without a Unicode table glyphs are known by their number. */
export function readPsf(bytes: Uint8Array): Font | Refused {
  const header = isFirst(bytes) ? firstHeader(bytes) : secondHeader(bytes);
  if (!header) return { refused: "the PSF font ends early: its header is not whole" };
  const { at, count, size, width, height } = header;
  if (count < 1 || count > MOST_GLYPHS || width < 1 || height < 1 || width > 255 || height > 255)
    return { refused: `the PSF font can't be read: it has ${count} glyphs of ${width}×${height}` };
  const stride = Math.ceil(width / 8);
  if (size < stride * height)
    return { refused: `the PSF font is damaged: ${size} bytes are no ${width}×${height} glyph` };
  if (bytes.length < at + count * size) return { refused: "the PSF font ends early: some glyphs are missing" };
  const points = header.table ? pointsIn(bytes.subarray(at + count * size), count, isFirst(bytes)) : undefined;
  const glyphs = Array.from({ length: count }, (_, i): Glyph => {
    const start = at + i * size;
    const ink = Uint8Array.from({ length: width * height }, (_, p) => {
      const [x, y] = [p % width, Math.floor(p / width)];
      return ((bytes[start + y * stride + (x >> 3)] as number) >> (7 - (x & 7))) & 1;
    });
    return { points: points ? (points[i] ?? []) : [i], advance: width, ink };
  });
  return { width, height, glyphs, outside: [] };
}

interface Header {
  readonly at: number;
  readonly count: number;
  /** Bytes of a glyph. */
  readonly size: number;
  readonly width: number;
  readonly height: number;
  readonly table: boolean;
}

function firstHeader(bytes: Uint8Array): Header | undefined {
  const [, , mode, size] = bytes;
  if (mode === undefined || size === undefined) return undefined;
  return { at: 4, count: mode & 1 ? 512 : 256, size, width: 8, height: size, table: (mode & 6) !== 0 };
}

function secondHeader(bytes: Uint8Array): Header | undefined {
  if (bytes.length < 32) return undefined;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const field = (i: number) => view.getUint32(4 * i, true);
  return {
    at: field(2),
    count: field(4),
    size: field(5),
    height: field(6),
    width: field(7),
    table: (field(3) & 1) !== 0,
  };
}

/** For each glyph its code points up to the first sequence of several; the rest of the entry is passed over. */
function pointsIn(table: Uint8Array, count: number, first: boolean): number[][] {
  const out: number[][] = [];
  if (first) {
    // Little-endian 16-bit words; FFFE begins a sequence, FFFF ends an entry.
    for (let i = 0, own: number[] = [], taking = true; i + 1 < table.length && out.length < count; i += 2) {
      const word = (table[i] as number) + 256 * (table[i + 1] as number);
      if (word === 0xffff) {
        out.push(own);
        own = [];
        taking = true;
      } else if (word === 0xfffe) taking = false;
      else if (taking) own.push(word);
    }
    return out;
  }
  // UTF-8; FE begins a sequence, FF ends an entry.
  for (let start = 0; start < table.length && out.length < count; ) {
    const found = table.indexOf(0xff, start);
    const end = found < 0 ? table.length : found;
    const sequence = table.subarray(start, end).indexOf(0xfe);
    out.push(pointsOfUtf8(table.subarray(start, sequence < 0 ? end : start + sequence)));
    start = end + 1;
  }
  return out;
}

function pointsOfUtf8(bytes: Uint8Array): number[] {
  const points: number[] = [];
  for (let i = 0; i < bytes.length; ) {
    const lead = bytes[i++] as number;
    const more = lead < 0x80 ? 0 : lead < 0xe0 ? 1 : lead < 0xf0 ? 2 : 3;
    let point = more === 0 ? lead : lead & (0x3f >> more);
    for (let k = 0; k < more; k++) point = (point << 6) | ((bytes[i++] ?? 0) & 0x3f);
    points.push(point);
  }
  return points;
}
