export interface Chunk {
  readonly type: string;
  readonly data: Buffer;
  /** As stored, and as computed from type and data. */
  readonly crc: readonly [stored: number, computed: number];
}

const SIGNATURE = "89504e470d0a1a0a";

/** The chunks of a PNG file (PNG Third Edition, 5.3); throws where the signature or a length is wrong. */
export function chunksOf(file: Uint8Array): Chunk[] {
  const bytes = Buffer.from(file);
  if (bytes.toString("hex", 0, 8) !== SIGNATURE) throw new Error("no PNG signature");
  const chunks: Chunk[] = [];
  for (let at = 8; at < bytes.length; ) {
    const length = bytes.readUInt32BE(at);
    const end = at + 12 + length;
    if (end > bytes.length) throw new Error(`the chunk at ${at} ends after the file`);
    chunks.push({
      type: bytes.toString("latin1", at + 4, at + 8),
      data: bytes.subarray(at + 8, end - 4),
      crc: [bytes.readUInt32BE(end - 4), crcOf(bytes.subarray(at + 4, end - 4))],
    });
    at = end;
  }
  return chunks;
}

/** CRC-32 bit by bit (PNG Third Edition, 5.5 and annex D: reflected polynomial EDB88320). */
export function crcOf(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let k = 0; k < 8; k++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}
