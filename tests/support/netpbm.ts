import { execFile } from "node:child_process";
import { promisify } from "node:util";

const run = promisify(execFile);

/** A bilevel picture, row by row; 1 = ink (black in PBM, foreground in XBM). */
export interface Bilevel {
  readonly width: number;
  readonly height: number;
  readonly ink: Uint8Array;
}

/** What netpbm's `xbmtopbm` reads in an X bitmap file. */
export async function readXbm(file: string): Promise<Bilevel> {
  const { stdout } = await run("xbmtopbm", [file], { encoding: "buffer", maxBuffer: 1 << 26 });
  return parsePbm(stdout);
}

/** Reads one raw PBM image (magic `P4`; netpbm's pbm(5): rows padded to bytes, most significant bit left, 1 = black). */
export function parsePbm(data: Uint8Array): Bilevel {
  const header = /^P4\s+(?:#[^\n]*\n\s*)*(\d+)\s+(?:#[^\n]*\n\s*)*(\d+)\s/.exec(Buffer.from(data).toString("latin1"));
  if (!header) throw new Error("not a raw PBM image");
  const width = Number(header[1]);
  const height = Number(header[2]);
  const stride = Math.ceil(width / 8);
  const rows = data.subarray(header[0].length);
  if (rows.length !== stride * height) throw new Error(`${rows.length} bytes of pixels for ${width}x${height}`);
  const bit = (x: number, y: number) => ((rows[y * stride + (x >> 3)] ?? 0) >> (7 - (x & 7))) & 1;
  const ink = Uint8Array.from({ length: width * height }, (_, i) => bit(i % width, Math.floor(i / width)));
  return { width, height, ink };
}
