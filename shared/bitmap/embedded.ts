/**
 * Arrays that hold something else than plain pixels: whole files by the signature they begin with, and run lengths by
 * what they add up to. Their numbers are no picture, and painting in them would break them.
 */
import type { Layout } from "../pixels/layout.ts";
import type { ElementBits } from "../pixels/picture.ts";
import type { SourceArray } from "../source/arrays.ts";

/**
 * Signatures: PNG (W3C PNG Third Edition, 5.2), JPEG (ITU-T T.81, B.1.1.3: SOI and the marker after it), GIF (GIF89a,
 * 17), LZ4 (LZ4 Frame Format 1.6: magic 0x184D2204, little-endian).
 */
const SIGNATURES: readonly { readonly what: string; readonly bytes: readonly number[] }[] = [
  { what: "a PNG file", bytes: [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a] },
  { what: "a JPEG file", bytes: [0xff, 0xd8, 0xff] },
  { what: "a GIF file", bytes: [0x47, 0x49, 0x46, 0x38, 0x37, 0x61] },
  { what: "a GIF file", bytes: [0x47, 0x49, 0x46, 0x38, 0x39, 0x61] },
  { what: "an LZ4 frame", bytes: [0x04, 0x22, 0x4d, 0x18] },
];

/** A quick test of the first element, before all are looked at. */
export function mayHoldFile(array: SourceArray): boolean {
  const first = array.given > 0 ? array.list?.values[array.first] : undefined;
  return SIGNATURES.some(({ bytes }) => bytes[0] === first);
}

/** Bytes that a file of these kinds has at least; shorter arrays only look like one. */
const LEAST = 15;

/** What the elements hold instead of plain pixels, in words; undefined for what may be pixels. */
export function holdsInstead(bits: ElementBits, layout: Layout | undefined): string | undefined {
  if (!(bits instanceof Uint8Array)) return undefined;
  // An array that has just the length of its picture is taken at its word, but for the long signatures.
  const exact = layout !== undefined && bits.length === layout.elements;
  for (const { what, bytes } of SIGNATURES) {
    if (exact && bytes.length < 6) continue;
    if (bits.length >= LEAST && bytes.every((byte, i) => bits[i] === byte)) return `it holds ${what}, not plain pixels`;
  }
  if (!layout || layout.skip > 0 || layout.lead > 0 || bits.length >= layout.elements) return undefined;
  const pixels = layout.width * layout.height * layout.frames;
  return isRunLengths(bits, [pixels, layout.elements])
    ? "it holds run lengths (pairs of a count and a value), not plain pixels"
    : undefined;
}

/** Fewer pairs than this add up to a picture's size by chance. */
const LEAST_PAIRS = 6;

/**
 * Pairs of count and value, either first, whose counts add up to the picture, and where neighbours differ, or the
 * first of them would have been longer. Common practice, no source.
 */
function isRunLengths(bits: Uint8Array, wholes: readonly number[]): boolean {
  if (bits.length < 2 * LEAST_PAIRS || bits.length % 2 !== 0) return false;
  return [0, 1].some((offset) => {
    let sum = 0;
    for (let i = 0; i < bits.length; i += 2) {
      const count = bits[i + offset] as number;
      if (count === 0) return false;
      const [value, next] = [bits[i + 1 - offset], bits[i + 3 - offset]];
      if (value === next && count < 127) return false;
      sum += count;
    }
    return wholes.includes(sum);
  });
}
