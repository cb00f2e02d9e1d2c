/** PBM, PGM, PPM and PAM, plain and raw (netpbm's pbm(5), pgm(5), ppm(5), pam(5)). */
import type { RgbaPicture } from "../pixels/rgba.ts";
import { samplesFor, sizeRefused } from "../pixels/rgba.ts";

type Refused = { readonly refused: string };

export function isNetpbm(bytes: Uint8Array): boolean {
  return bytes[0] === 0x50 && (bytes[1] ?? 0) >= 0x31 && (bytes[1] ?? 0) <= 0x37 && isSpaceOrHash(bytes[2]);
}

/** The first picture of the file. Samples stay as they are, up to a maxval of 65535. In PBM 1 is black. */
export function readNetpbm(bytes: Uint8Array): RgbaPicture | Refused {
  const kind = Number(String.fromCharCode(bytes[1] ?? 0));
  const header = kind === 7 ? pamHeader(bytes) : plainHeader(bytes, kind);
  if ("refused" in header) return { refused: `the P${kind} file can't be read: ${header.refused}` };
  const wrong = sizeRefused(header.width, header.height);
  if (wrong !== undefined) return { refused: `the P${kind} file can't be read: ${wrong}` };
  const { most } = header;
  if (!(most >= 1 && most <= 65_535)) return { refused: `the P${kind} file can't be read: its maxval is ${most}` };
  const samples = kind <= 3 ? plainSamples(bytes, header, kind) : rawSamples(bytes, header, kind);
  if ("refused" in samples) return { refused: `the P${kind} file ${samples.refused}` };
  const above = samples.find((sample) => sample > most);
  if (above !== undefined) return { refused: `the P${kind} file is damaged: ${above} is above its maxval of ${most}` };
  return rgbaOf(header, samples, kind === 1 || kind === 4);
}

interface Header {
  readonly width: number;
  readonly height: number;
  /** The maxval. */
  readonly most: number;
  /** Samples of a pixel: grey, with alpha, colours, with alpha. */
  readonly depth: number;
  /** Where the samples begin. */
  readonly at: number;
}

type Samples = Uint8Array | Uint16Array;

/** Numbers parted by white space and comments, then one white-space character. */
function plainHeader(bytes: Uint8Array, kind: number): Header | Refused {
  const numbers: number[] = [];
  let at = 2;
  const wanted = kind === 1 || kind === 4 ? 2 : 3;
  while (numbers.length < wanted) {
    at = afterSpace(bytes, at);
    const [value, end] = numberAt(bytes, at);
    if (end === at)
      return { refused: at >= bytes.length ? "its header ends early" : "its header is no list of numbers" };
    numbers.push(value);
    at = end;
  }
  const [width = 0, height = 0, most = 1] = numbers;
  return { width, height, most, depth: kind % 3 === 0 ? 3 : 1, at: at + 1 };
}

/** Lines of a word and a value, up to ENDHDR. */
function pamHeader(bytes: Uint8Array): Header | Refused {
  const fields = new Map<string, string>();
  let at = 2;
  for (;;) {
    while (at < bytes.length && bytes[at] !== 10) at++;
    const start = at + 1;
    let end = start;
    while (end < bytes.length && bytes[end] !== 10) end++;
    if (end >= bytes.length || end - start > 1000) return { refused: "its header has no end" };
    const line = String.fromCharCode(...bytes.subarray(start, end)).trim();
    at = end;
    if (line === "ENDHDR") break;
    const [, word = "", value = ""] = /^([A-Z]+)\s+(.*)$/.exec(line) ?? [];
    if (word !== "" && !fields.has(word)) fields.set(word, value);
  }
  const number = (word: string) => (/^\d{1,9}$/.test(fields.get(word) ?? "") ? Number(fields.get(word)) : 0);
  const depth = number("DEPTH");
  if (depth < 1 || depth > 4) return { refused: `its pixels have ${depth} samples, and 1 to 4 are read` };
  return { width: number("WIDTH"), height: number("HEIGHT"), most: number("MAXVAL"), depth, at: at + 1 };
}

function plainSamples(
  bytes: Uint8Array,
  { width, height, most, depth, at: from }: Header,
  kind: number,
): Samples | Refused {
  const out = storeFor(width * height * depth, most);
  let at = from;
  for (let i = 0; i < out.length; i++) {
    at = afterSpace(bytes, at);
    // The digits of a plain PBM need no space between them.
    const bit = kind === 1 && (bytes[at] === 0x30 || bytes[at] === 0x31);
    const [value, end] = bit ? [(bytes[at] as number) - 0x30, at + 1] : numberAt(bytes, at);
    if (end === at && at < bytes.length) return { refused: "is damaged: its pixels are not all numbers" };
    if (end === at) return { refused: "ends early: some rows of pixels are missing" };
    if (value > most) return { refused: `is damaged: ${value} is above its maxval of ${most}` };
    out[i] = value;
    at = end;
  }
  return out;
}

function rawSamples(bytes: Uint8Array, { width, height, most, depth, at }: Header, kind: number): Samples | Refused {
  const out = storeFor(width * height * depth, most);
  const size = most > 255 ? 2 : 1;
  const stride = kind === 4 ? Math.ceil(width / 8) : width * depth * size;
  if (bytes.length < at + stride * height) return { refused: "ends early: some rows of pixels are missing" };
  for (let i = 0; i < out.length; i++) {
    if (kind === 4) {
      const [x, y] = [i % width, Math.floor(i / width)];
      out[i] = ((bytes[at + y * stride + (x >> 3)] as number) >> (7 - (x & 7))) & 1;
    } else if (size === 1) out[i] = bytes[at + i] as number;
    else out[i] = (bytes[at + 2 * i] as number) * 256 + (bytes[at + 2 * i + 1] as number);
  }
  return out;
}

/** Grey to three like channels, missing alpha to full; a PBM's 1 is black. */
function rgbaOf({ width, height, most, depth }: Header, samples: Samples, bits: boolean): RgbaPicture {
  const data = samplesFor(width, height, most);
  const alpha = depth === 2 || depth === 4;
  for (let i = 0, from = 0; i < data.length; i += 4, from += depth) {
    for (let c = 0; c < 3; c++) {
      const sample = samples[from + (depth > 2 ? c : 0)] as number;
      data[i + c] = bits ? 1 - sample : sample;
    }
    data[i + 3] = alpha ? (samples[from + depth - 1] as number) : most;
  }
  return { width, height, most, data };
}

function storeFor(count: number, most: number): Samples {
  return most > 255 ? new Uint16Array(count) : new Uint8Array(count);
}

function isSpaceOrHash(byte: number | undefined): boolean {
  return byte === 0x23 || isSpace(byte);
}

function isSpace(byte: number | undefined): boolean {
  return byte === 32 || (byte !== undefined && byte >= 9 && byte <= 13);
}

function afterSpace(bytes: Uint8Array, from: number): number {
  let at = from;
  for (;;) {
    while (isSpace(bytes[at])) at++;
    if (bytes[at] !== 0x23) return at;
    while (at < bytes.length && bytes[at] !== 10 && bytes[at] !== 13) at++;
  }
}

function numberAt(bytes: Uint8Array, from: number): [value: number, end: number] {
  let value = 0;
  let at = from;
  for (; (bytes[at] ?? 0) >= 0x30 && (bytes[at] ?? 0) <= 0x39; at++)
    value = Math.min(1e9, value * 10 + (bytes[at] as number) - 0x30);
  return [value, at];
}
