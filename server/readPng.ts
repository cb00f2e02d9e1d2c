/** PNG files to exact samples (W3C PNG Third Edition). pngjs unpacks the pixels; what it leaves open is settled here. */
import { crc32, inflateSync } from "node:zlib";
import { PNG } from "pngjs";
import type { RgbaPicture } from "../shared/pixels/rgba.ts";
import { MOST_PIXELS, samplesFor, sizeRefused } from "../shared/pixels/rgba.ts";

type Refused = { readonly refused: string };

interface Chunk {
  readonly type: string;
  readonly data: Buffer;
  /** With its length and check sum. */
  readonly whole: Buffer;
}

const SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);

/** Channels and allowed depths by colour type (11.2.1, table 7). */
const COLOUR_TYPES: Readonly<Record<number, { readonly channels: number; readonly depths: readonly number[] }>> = {
  0: { channels: 1, depths: [1, 2, 4, 8, 16] },
  2: { channels: 3, depths: [8, 16] },
  3: { channels: 1, depths: [1, 2, 4, 8] },
  4: { channels: 2, depths: [8, 16] },
  6: { channels: 4, depths: [8, 16] },
};

export function isPng(bytes: Uint8Array): boolean {
  return SIGNATURE.equals(bytes.subarray(0, 8));
}

/** Whether a PNG file that can be read holds an animation beside its picture (Third Edition, 11.3.6.1: before the pixels). */
export function isAnimated(bytes: Uint8Array): boolean {
  const file = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  for (let at = 8; at + 8 <= file.length; at += 12 + file.readUInt32BE(at)) {
    const type = file.toString("latin1", at + 4, at + 8);
    if (type === "acTL") return true;
    if (type === "IDAT") return false;
  }
  return false;
}

/**
 * The picture in a PNG file: all colour types, depths and interlacing, transparency (`tRNS`) as alpha. 16-bit samples
 * stay as they are, depths below 8 and palettes become 8 bits, which is exact (13.12). `gAMA` and other ancillary chunks
 * are not looked at. Refused in words are larger pictures, and files that are damaged or end early.
 */
export function readPng(bytes: Uint8Array, mostPixels = MOST_PIXELS): RgbaPicture | Refused {
  const file = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const first = headerOf(file);
  if ("refused" in first) return first;
  const tooLarge = sizeRefused(first.width, first.height, mostPixels);
  if (tooLarge !== undefined) return { refused: `the PNG file can't be read: ${tooLarge}` };
  const chunks = chunksOf(file);
  if ("refused" in chunks) return chunks;
  const wrong = dataRefused(first, chunks);
  if (wrong !== undefined) return { refused: wrong };
  try {
    const key = first.colourType === 3 ? undefined : keyOf(first, chunks);
    const kept = chunks.filter(({ type }) => /^(?:IHDR|PLTE|IDAT|IEND)$/.test(type) || (type === "tRNS" && !key));
    const read = PNG.sync.read(Buffer.concat([SIGNATURE, ...kept.map(({ whole }) => whole)]), { skipRescale: true });
    // With that option 16-bit samples come as they are, in a typed array of their own, which the types don't say.
    return scaled(first, read.data as Buffer | Uint16Array, key);
  } catch (error) {
    return damaged(error instanceof Error ? error.message : String(error));
  }
}

function damaged(how: string): Refused {
  return { refused: `the PNG file is damaged: ${how}` };
}

interface Header {
  readonly width: number;
  readonly height: number;
  readonly depth: number;
  readonly colourType: number;
  readonly interlaced: boolean;
}

function headerOf(file: Buffer): Header | Refused {
  if (!isPng(file)) return { refused: "it is no PNG file" };
  if (file.length < 33) return { refused: "the PNG file ends early: its header is not there" };
  if (file.readUInt32BE(8) !== 13 || file.toString("latin1", 12, 16) !== "IHDR")
    return damaged("it does not begin with a header");
  const sum = sumRefused(file.subarray(8, 33), "IHDR");
  if (sum) return sum;
  const [depth = 0, colourType = 0, compression, filter, interlace = 0] = file.subarray(24, 29);
  if (!COLOUR_TYPES[colourType]?.depths.includes(depth))
    return damaged(`there is no colour type ${colourType} with ${depth} bits`);
  if (compression !== 0 || filter !== 0 || interlace > 1) return damaged("its method of packing pixels is unknown");
  return {
    width: file.readUInt32BE(16),
    height: file.readUInt32BE(20),
    depth,
    colourType,
    interlaced: interlace === 1,
  };
}

function chunksOf(file: Buffer): Chunk[] | Refused {
  const chunks: Chunk[] = [];
  for (let at = 8; at < file.length; ) {
    const type = file.length >= at + 8 ? file.toString("latin1", at + 4, at + 8) : "";
    const end = type === "" ? Number.POSITIVE_INFINITY : at + 12 + file.readUInt32BE(at);
    if (end > file.length) return { refused: `the PNG file ends early${type === "" ? "" : `, in its chunk ${type}`}` };
    const whole = file.subarray(at, end);
    const wrong = sumRefused(whole, type);
    if (wrong) return wrong;
    chunks.push({ type, data: whole.subarray(8, -4), whole });
    if (type === "IEND") return chunks;
    at = end;
  }
  return { refused: "the PNG file ends early: its last chunk is missing" };
}

function sumRefused(whole: Buffer, type: string): Refused | undefined {
  const right = crc32(whole.subarray(4, -4)) === whole.readUInt32BE(whole.length - 4);
  return right ? undefined : damaged(`the check sum of its chunk ${/^\w{4}$/.test(type) ? type : "type"} is wrong`);
}

/** What would make the pixels' data unsafe or useless to unpack. */
function dataRefused(header: Header, chunks: readonly Chunk[]): string | undefined {
  const data = chunks.filter(({ type }) => type === "IDAT").map((chunk) => chunk.data);
  const unknown = chunks.find(({ type }) => /^[A-Z]/.test(type) && !/^(?:IHDR|PLTE|IDAT|IEND)$/.test(type));
  if (unknown) return damaged(`its chunk ${unknown.type} is unknown`).refused;
  if (data.length === 0) return damaged("it has no pixels").refused;
  if (header.colourType === 3 && !chunks.some(({ type }) => type === "PLTE"))
    return damaged("its palette is missing").refused;
  const size = unpackedSize(header);
  try {
    // A few bytes can stand for many: no more is unpacked than the picture takes.
    const unpacked = inflateSync(Buffer.concat(data), { maxOutputLength: size });
    return unpacked.length < size ? `the PNG file ends early: some rows of pixels are missing` : undefined;
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === "ERR_BUFFER_TOO_LARGE") return damaged("it holds more data than its pixels take").refused;
    if (code === "Z_BUF_ERROR") return "the PNG file ends early: some rows of pixels are missing";
    return damaged("its pixels can't be unpacked").refused;
  }
}

/** Bytes of all rows with their filter types; those of the seven passes where it is interlaced (8.2). */
function unpackedSize({ width, height, depth, colourType, interlaced }: Header): number {
  const bits = depth * (COLOUR_TYPES[colourType]?.channels ?? 4);
  const rows = (w: number, h: number) => (w < 1 || h < 1 ? 0 : h * (1 + Math.ceil((w * bits) / 8)));
  if (!interlaced) return rows(width, height);
  // First column and row of each pass, and how far apart they are.
  const passes = [
    [0, 0, 8, 8],
    [4, 0, 8, 8],
    [0, 4, 4, 8],
    [2, 0, 4, 4],
    [0, 2, 2, 4],
    [1, 0, 2, 2],
    [0, 1, 1, 2],
  ] as const;
  return passes.reduce(
    (sum, [x, y, dx, dy]) => sum + rows(Math.ceil((width - x) / dx), Math.ceil((height - y) / dy)),
    0,
  );
}

/** The one grey or colour that is transparent (11.3.1.1); pngjs would drop its value. */
function keyOf({ colourType }: Header, chunks: readonly Chunk[]): number[] | undefined {
  const data = chunks.find(({ type }) => type === "tRNS")?.data;
  const samples = colourType === 0 ? 1 : colourType === 2 ? 3 : 0;
  if (!data || samples === 0 || data.length < 2 * samples) return undefined;
  const key = Array.from({ length: samples }, (_, i) => data.readUInt16BE(2 * i));
  return samples === 1 ? [...key, ...key, ...key] : key;
}

function scaled(
  { width, height, depth, colourType }: Header,
  read: Buffer | Uint16Array,
  key: number[] | undefined,
): RgbaPicture {
  const most = depth === 16 ? 65_535 : 255;
  const factor = depth < 8 && colourType !== 3 ? 255 / (2 ** depth - 1) : 1;
  const data = samplesFor(width, height, most);
  for (let i = 0; i < data.length; i += 4) {
    for (let c = 0; c < 4; c++) data[i + c] = factor * (read[i + c] as number);
    if (key?.every((sample, c) => read[i + c] === sample)) data[i + 3] = 0;
  }
  return { width, height, most, data };
}
