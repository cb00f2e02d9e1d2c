/** Whether two pictures of the page look alike, and a picture of where they do not. */
import { crc32, deflateSync } from "node:zlib";
import { PNG } from "pngjs";

/** Channels further apart than this, of 255, are another colour; less is how the edges of letters are smoothed. */
const APART = 40;
/** A window on the picture in which so many pixels have another colour holds a change that is to be seen. */
const WINDOW = 16;
const STEP = WINDOW / 2;
const MOST_IN_WINDOW = 12;

export interface Comparison {
  /** Pixels of another colour in the window that has most of them, 0 where the pictures are the same. */
  readonly worst: number;
  /** What is to be seen, in words; undefined where they look alike. */
  readonly why?: string;
  /** The reference, faintly, with what differs in red; of pictures that differ and are of one size. */
  readonly difference?: PNG;
}

/** The reference first. Windows overlap by half, so that any mark of eight pixels lies in one of them whole. */
export function comparePictures(wanted: PNG, got: PNG): Comparison {
  const { width, height } = wanted;
  if (got.width !== width || got.height !== height)
    return { worst: Number.POSITIVE_INFINITY, why: `${got.width}×${got.height} instead of ${width}×${height} pixels` };
  const [across, down] = [Math.ceil(width / STEP), Math.ceil(height / STEP)];
  const cells = new Uint16Array(across * down);
  for (let i = 0; i < width * height; i++) {
    if (!differs(wanted.data, got.data, 4 * i)) continue;
    const cell = Math.floor(Math.floor(i / width) / STEP) * across + Math.floor((i % width) / STEP);
    cells[cell] = (cells[cell] ?? 0) + 1;
  }
  let [worst, at] = [0, 0];
  for (let i = 0; i < cells.length; i++) {
    const right = (i + 1) % across === 0 ? [i] : [i, i + 1];
    const inWindow = right.reduce((sum, cell) => sum + (cells[cell] ?? 0) + (cells[cell + across] ?? 0), 0);
    if (inWindow > worst) [worst, at] = [inWindow, i];
  }
  if (worst <= MOST_IN_WINDOW) return { worst };
  const [x, y] = [(at % across) * STEP, Math.floor(at / across) * STEP];
  const why = `${worst} pixels differ in the ${WINDOW}×${WINDOW} at ${x},${y}`;
  return { worst, why, difference: differenceOf(wanted, got) };
}

function differenceOf({ width, height, data }: PNG, got: PNG): PNG {
  const made = new PNG({ width, height });
  for (let at = 0; at < data.length; at += 4) {
    const apart = differs(data, got.data, at);
    const faint = [0, 1, 2].map((c) => 96 + (data[at + c] ?? 0) / 4);
    made.data.set(apart ? [255, 0, 0, 255] : [...faint, 255], at);
  }
  return made;
}

function differs(one: Uint8Array, other: Uint8Array, at: number): boolean {
  for (let c = at; c < at + 3; c++) if (Math.abs((one[c] ?? 0) - (other[c] ?? 0)) > APART) return true;
  return false;
}

/** One below the other. */
export function stacked(pictures: readonly PNG[]): PNG {
  const width = Math.max(...pictures.map((one) => one.width));
  const whole = new PNG({ width, height: pictures.reduce((sum, one) => sum + one.height, 0) });
  let y = 0;
  for (const one of pictures) {
    PNG.bitblt(one, whole, 0, 0, one.width, one.height, 0, y);
    y += one.height;
  }
  return whole;
}

/** As a small file: indexed colours, each channel in nine levels, which is less than is told apart. */
export function smallPng({ width, height, data }: PNG): Buffer {
  const colours = new Map<number, number>();
  const rows = Buffer.alloc(height * (width + 1));
  for (let i = 0; i < width * height; i++) {
    const at = 4 * i;
    const colour = (coarse(data[at]) << 16) | (coarse(data[at + 1]) << 8) | coarse(data[at + 2]);
    const index = colours.get(colour) ?? colours.size;
    colours.set(colour, index);
    // Each row begins with its filter: none.
    rows[Math.floor(i / width) * (width + 1) + 1 + (i % width)] = index;
  }
  if (colours.size > 256) throw new Error(`${colours.size} colours are more than an index of eight bits can mean`);
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  // Eight bits to an index, colour type 3.
  header.set([8, 3], 8);
  const palette = Buffer.from([...colours.keys()].flatMap((c) => [c >> 16, (c >> 8) & 255, c & 255]));
  const image = deflateSync(rows, { level: 9, memLevel: 9 });
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  const chunks = [chunk("IHDR", header), chunk("PLTE", palette), chunk("IDAT", image), chunk("IEND", Buffer.alloc(0))];
  return Buffer.concat([signature, ...chunks]);
}

function coarse(channel = 0): number {
  return Math.min(255, Math.round(channel / 32) * 32);
}

/** PNG Third Edition, 5.3: length, type, data, and the CRC of type and data. */
function chunk(type: string, data: Buffer): Buffer {
  const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
  const body = Buffer.concat([Buffer.from(type, "latin1"), data]);
  length.writeUInt32BE(data.length);
  sum.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, sum]);
}
