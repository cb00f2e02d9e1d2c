// Makes the README's pictures of those that `npx vitest run --project editor looks` leaves in `tests/out`: cut out and
// written with a palette of at most 256 colours, into `client/pictures`. To be run by hand when the looks change.
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { deflateSync } from "node:zlib";
import { PNG } from "pngjs";

const root = fileURLToPath(new URL("../", import.meta.url));
/** Bytes that a picture may have. */
const MOST = 60_000;

/** The picture, which one it is cut from, and where: left, top, width and height in a window of 1400×900. */
const PICTURES = [
  ["source", "editor-hover-name-light", [348, 92, 760, 480]],
  ["paint", "editor-paint-dark", [348, 36, 1052, 640]],
  ["frames", "editor-frames-hc-dark", [874, 92, 526, 786]],
];

mkdirSync(join(root, "client/pictures"), { recursive: true });
for (const [name, from, box] of PICTURES) {
  const bytes = paletted(cut(PNG.sync.read(readFileSync(join(root, `tests/out/${from}.png`))), box));
  console.log(`client/pictures/${name}.png: ${bytes.length} bytes`);
  if (bytes.length > MOST) throw new Error(`${name} has more than ${MOST} bytes`);
  writeFileSync(join(root, `client/pictures/${name}.png`), bytes);
}

function cut(whole, [left, top, width, height]) {
  const part = new PNG({ width, height });
  PNG.bitblt(whole, part, left, top, width, height, 0, 0);
  return part;
}

/** A PNG (ISO/IEC 15948) of colour type 3: the 256 most frequent colours, and for others the nearest of these. */
function paletted({ width, height, data }) {
  const counts = new Map();
  const colourAt = (at) => (data[at] << 16) | (data[at + 1] << 8) | data[at + 2];
  for (let at = 0; at < data.length; at += 4) counts.set(colourAt(at), (counts.get(colourAt(at)) ?? 0) + 1);
  const palette = [...counts]
    .sort((a, b) => b[1] - a[1])
    .slice(0, 256)
    .map(([colour]) => colour);
  const indexes = new Map(palette.map((colour, index) => [colour, index]));
  const indexOf = (colour) => {
    const known = indexes.get(colour);
    if (known !== undefined) return known;
    const distances = palette.map((other) => distance(colour, other));
    const nearest = distances.indexOf(Math.min(...distances));
    indexes.set(colour, nearest);
    return nearest;
  };
  const rows = Buffer.alloc((width + 1) * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) rows[y * (width + 1) + 1 + x] = indexOf(colourAt((y * width + x) * 4));
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header.set([8, 3, 0, 0, 0], 8);
  const colours = Buffer.from(palette.flatMap(channels));
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([
    signature,
    chunk("IHDR", header),
    chunk("PLTE", colours),
    chunk("IDAT", deflateSync(rows, { level: 9 })),
    chunk("IEND", Buffer.alloc(0)),
  ]);
}

function channels(colour) {
  return [colour >> 16, (colour >> 8) & 255, colour & 255];
}

function distance(a, b) {
  const other = channels(b);
  return channels(a).reduce((sum, value, i) => sum + (value - other[i]) ** 2, 0);
}

function chunk(type, data) {
  const named = Buffer.concat([Buffer.from(type, "latin1"), data]);
  const length = Buffer.alloc(4);
  length.writeUInt32BE(data.length);
  const check = Buffer.alloc(4);
  check.writeUInt32BE(crc(named));
  return Buffer.concat([length, named, check]);
}

/** CRC-32 as in ISO/IEC 15948, annex D. */
function crc(bytes) {
  let rest = 0xffffffff;
  for (const byte of bytes) {
    rest ^= byte;
    for (let bit = 0; bit < 8; bit++) rest = rest & 1 ? (rest >>> 1) ^ 0xedb88320 : rest >>> 1;
  }
  return (rest ^ 0xffffffff) >>> 0;
}
