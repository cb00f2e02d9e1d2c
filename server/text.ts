/** Bytes to text and back without losing a byte. */

export interface Decoded {
  readonly text: string;
  /** How the bytes were read, so that they can be written back the same. */
  readonly encoding: "utf-8" | "latin1" | "utf-16";
}

/** UTF-16 by its byte order mark, or by the zero bytes that every other character of source text then has. */
function isUtf16(bytes: Uint8Array): boolean {
  const [a, b] = bytes;
  if ((a === 0xff && b === 0xfe) || (a === 0xfe && b === 0xff)) return true;
  const length = Math.min(bytes.length, 1024);
  let zeros = 0;
  for (let i = 0; i < length; i++) if (bytes[i] === 0) zeros++;
  return length >= 8 && zeros > length / 3;
}

/** UTF-8 where the bytes are that (a BOM stays as U+FEFF); else each byte as one character, so that none is lost. Empty for UTF-16. */
export function decodeText(bytes: Uint8Array): Decoded {
  // No compiler reads UTF-16 source, and as single bytes it would look empty: the text is not taken apart.
  if (isUtf16(bytes)) return { text: "", encoding: "utf-16" };
  try {
    return { text: new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes), encoding: "utf-8" };
  } catch {
    return {
      text: Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString("latin1"),
      encoding: "latin1",
    };
  }
}

/** The bytes of a text as they were read; throws a RangeError for a character that single bytes don't hold. */
export function encodeText(text: string, encoding: Decoded["encoding"]): Uint8Array {
  if (encoding !== "latin1") return Buffer.from(text, "utf8");
  if (/[^\0-\xff]/.test(text))
    throw new RangeError("the file is not UTF-8, and the text has characters beyond single bytes");
  return Buffer.from(text, "latin1");
}
