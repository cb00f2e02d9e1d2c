/** Arrays that are no plain pixels: whole picture files, compressed data, and tables that only look like pictures. */
import type { Subject } from "./subject.ts";
import { speaksOfCompression, speaksOfPictures, speaksOfTables } from "./vocabulary.ts";

/** First bytes of file formats: W3C PNG §5.2; ITU-T T.81 (JPEG) B.1; GIF89a §17; LZ4 frame format 1.6 §"General structure"; RFC 1952 (gzip) §2.3.1; PSF2 (Linux kbd). The rest are common practice, no source. */
const SIGNATURES: readonly (readonly number[])[] = [
  [0x89, 0x50, 0x4e, 0x47],
  [0xff, 0xd8, 0xff],
  [0x47, 0x49, 0x46, 0x38],
  [0x04, 0x22, 0x4d, 0x18],
  [0x1f, 0x8b, 0x08],
  [0x72, 0xb5, 0x4a, 0x86],
  [0x52, 0x49, 0x46, 0x46],
  [0x71, 0x6f, 0x69, 0x66],
  [0x50, 0x4b, 0x03, 0x04],
  [0x28, 0xb5, 0x2f, 0xfd],
];

/** Whether words or values say that this array holds a whole file or compressed data. */
export function isPackedOrFile(subject: Subject): boolean {
  const said = subject.comments.map((c) => c.text).join("\n");
  if (speaksOfCompression(said) || isFile(subject)) return true;
  return subject.words.some((w) => /^(?:rle|lz4|lzss|packed|compressed|png|jpe?g|gif)$/.test(w));
}

/** Whether words say that this is a table of something else. */
export function isTable({ sort, comments }: Subject): boolean {
  if (sort === "table") return true;
  const said = comments.map((c) => c.text).join("\n");
  // A name that says icon outweighs a comment that speaks of a sequence it is shown in.
  return sort !== "picture" && speaksOfTables(said) && !(sort === "motif" && speaksOfPictures(said));
}

/** A whole file of some format: pictures of another kind, or compressed data. */
function isFile({ bits, size, count }: Subject): boolean {
  if (size !== 8) return false;
  if (SIGNATURES.some((s) => s.every((byte, i) => bits[i] === byte))) return true;
  const little = Number(bits[2] ?? 0) + 256 * Number(bits[3] ?? 0) + 65536 * Number(bits[4] ?? 0);
  return bits[0] === 0x42 && bits[1] === 0x4d && little === count;
}

/** Whether pairs of a count and a value add up to so many pixels: run-length data that happen to fit otherwise too. */
export function countsUpTo({ bits, size, count }: Subject, pixels: number): boolean {
  if (size !== 8 || count % 2 !== 0 || count < 8) return false;
  let even = 0;
  let odd = 0;
  for (let i = 0; i < count; i += 2) {
    if (bits[i] === 0) even = Number.NaN;
    if (bits[i + 1] === 0) odd = Number.NaN;
    even += Number(bits[i]);
    odd += Number(bits[i + 1]);
  }
  return even === pixels || odd === pixels;
}

/** Values that speak against one number a pixel: each occurs once, or they have a sign. */
export function isOrderedTable({ bits, count, array }: Subject): boolean {
  if (array.type?.signed && array.type.bits === 8) return true;
  const seen = new Set<number | bigint>();
  for (let i = 0; i < count; i++) seen.add(bits[i] as number);
  return count >= 9 && seen.size >= Math.min(count, 256) * 0.97;
}
