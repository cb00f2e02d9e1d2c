/** PNG and APNG bytes of grey or RGB pictures. Encoding is pngjs; the animation chunks follow PNG Third Edition §11.3. */
import { crc32 } from "node:zlib";
import { PNG } from "pngjs";

/** An 8-bit picture: 1 (grey) or 3 (RGB) bytes a pixel, row by row. */
export interface Raster {
  readonly width: number;
  readonly height: number;
  readonly channels: 1 | 3;
  readonly data: Uint8Array;
}

/** Repeats each pixel `scale` times in both directions. `scale` is a whole number from 1. */
export function enlarge(raster: Raster, scale: number): Raster {
  if (scale === 1) return raster;
  const { width, height, channels, data } = raster;
  const out = new Uint8Array(width * height * channels * scale * scale);
  const rowBytes = width * scale * channels;
  for (let y = 0; y < height; y++) {
    const row = y * scale * rowBytes;
    for (let x = 0; x < width; x++) {
      const from = (y * width + x) * channels;
      for (let k = 0; k < scale; k++) {
        const to = row + (x * scale + k) * channels;
        for (let c = 0; c < channels; c++) out[to + c] = data[from + c] as number;
      }
    }
    for (let k = 1; k < scale; k++) out.copyWithin(row + k * rowBytes, row, row + rowBytes);
  }
  return { width: width * scale, height: height * scale, channels, data: out };
}

/** A PNG file. */
export function encodePng(raster: Raster): Uint8Array {
  const colorType = raster.channels === 1 ? 0 : 2;
  const png = new PNG({ width: raster.width, height: raster.height });
  png.data = Buffer.from(raster.data.buffer, raster.data.byteOffset, raster.data.byteLength);
  return PNG.sync.write(png, { colorType, inputColorType: colorType, inputHasAlpha: false, bitDepth: 8 });
}

/** An animated PNG that loops for ever; `fps` frames a second. All frames have one size. A single frame gives a PNG. */
export function encodeApng(frames: readonly Raster[], fps: number): Uint8Array {
  const [first, ...others] = frames;
  if (!first) throw new RangeError("an animation needs a frame");
  if (others.length === 0) return encodePng(first);
  const out: Buffer[] = [];
  const start = chunksOf(encodePng(first));
  let sequence = 0;
  const control = () => {
    const data = Buffer.alloc(26);
    data.writeUInt32BE(sequence++, 0);
    data.writeUInt32BE(first.width, 4);
    data.writeUInt32BE(first.height, 8);
    // Delay as a fraction of a second: 100/(100·fps), rounded to what 16 bits hold.
    data.writeUInt16BE(100, 20);
    data.writeUInt16BE(Math.min(65535, Math.max(1, Math.round(fps * 100))), 22);
    return chunk("fcTL", data);
  };
  const animation = Buffer.alloc(8);
  animation.writeUInt32BE(frames.length, 0);
  out.push(Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]));
  for (const { type, data } of start) {
    if (type === "IDAT" && !out.some((b) => b.subarray(4, 8).toString("latin1") === "fcTL")) {
      out.push(chunk("acTL", animation), control());
    }
    if (type !== "IEND") out.push(chunk(type, data));
  }
  for (const frame of others) {
    out.push(control());
    for (const { type, data } of chunksOf(encodePng(frame))) {
      if (type !== "IDAT") continue;
      const number = Buffer.alloc(4);
      number.writeUInt32BE(sequence++, 0);
      out.push(chunk("fdAT", Buffer.concat([number, data])));
    }
  }
  out.push(chunk("IEND", Buffer.alloc(0)));
  return Buffer.concat(out);
}

function chunksOf(file: Uint8Array): { type: string; data: Buffer }[] {
  const bytes = Buffer.from(file.buffer, file.byteOffset, file.byteLength);
  const chunks: { type: string; data: Buffer }[] = [];
  for (let at = 8; at < bytes.length; ) {
    const length = bytes.readUInt32BE(at);
    chunks.push({ type: bytes.toString("latin1", at + 4, at + 8), data: bytes.subarray(at + 8, at + 8 + length) });
    at += length + 12;
  }
  return chunks;
}

function chunk(type: string, data: Buffer): Buffer {
  const out = Buffer.alloc(data.length + 12);
  out.writeUInt32BE(data.length, 0);
  out.write(type, 4, "latin1");
  data.copy(out, 8);
  out.writeUInt32BE(crc32(out.subarray(4, 8 + data.length)), data.length + 8);
  return out;
}
