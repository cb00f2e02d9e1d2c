import { execFile, spawn } from "node:child_process";
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

/** Runs a filter of netpbm, or another program, on bytes. */
export function filtered(program: string, args: readonly string[], input: Uint8Array): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const child = spawn(program, args, { stdio: ["pipe", "pipe", "pipe"] });
    const stdout: Buffer[] = [];
    const stderr: Buffer[] = [];
    child.stdout.on("data", (part: Buffer) => stdout.push(part));
    child.stderr.on("data", (part: Buffer) => stderr.push(part));
    child.on("error", reject);
    child.on("close", (code) => {
      if (code === 0) resolve(Buffer.concat(stdout));
      else reject(new Error(`${program} ${args.join(" ")}: ${Buffer.concat(stderr).toString("utf8")}`));
    });
    child.stdin.end(input);
  });
}

/** A picture as PAM, with as many samples a pixel as are given (netpbm's pam(5)). */
export function pamOf(
  width: number,
  height: number,
  depth: 1 | 2 | 3 | 4,
  most: number,
  samples: ArrayLike<number>,
): Uint8Array {
  const type = { 1: "GRAYSCALE", 2: "GRAYSCALE_ALPHA", 3: "RGB", 4: "RGB_ALPHA" }[depth];
  const head = `P7\nWIDTH ${width}\nHEIGHT ${height}\nDEPTH ${depth}\nMAXVAL ${most}\nTUPLTYPE ${type}\nENDHDR\n`;
  const wide = most > 255;
  const body = Buffer.alloc(samples.length * (wide ? 2 : 1));
  for (let i = 0; i < samples.length; i++) {
    if (wide) body.writeUInt16BE(samples[i] as number, 2 * i);
    else body[i] = samples[i] as number;
  }
  return Buffer.concat([Buffer.from(head, "latin1"), body]);
}
