/** Bytes to text and back without losing a byte. */

export interface Decoded {
  readonly text: string;
  /** How the bytes were read, so that they can be written back the same. */
  readonly encoding: "utf-8" | "latin1";
}

/** UTF-8 where the bytes are that (a BOM stays as U+FEFF); else each byte as one character, so that none is lost. */
export function decodeText(bytes: Uint8Array): Decoded {
  try {
    return { text: new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes), encoding: "utf-8" };
  } catch {
    return {
      text: Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString("latin1"),
      encoding: "latin1",
    };
  }
}
