/**
 * Pictures that are written are read back by netpbm (PNG, PBM, PGM, PPM, XBM) and by Pillow (APNG), and compared with
 * the numbers that the source was written with: not with what we read ourselves.
 */
import { execFile, spawn } from "node:child_process";
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { PictureFormat } from "../../server/pictureFile.ts";
import { pictureFile } from "../../server/pictureFile.ts";
import { openText } from "../../shared/bitmap/open.ts";
import { arrayText } from "../support/arrayText.ts";

const run = promisify(execFile);
let folder = "";
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "dotwright-out-"));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

/** Noise that is the same in every run: the example generator of ISO C (C17 7.22.2). */
function noise(count: number, most: number): number[] {
  let next = count;
  return Array.from({ length: count }, () => {
    next = (Math.imul(next, 1103515245) + 12345) >>> 0;
    return (next >>> 8) % (most + 1);
  });
}

const [W, H, FRAMES] = [13, 7, 3];

/** Fields of a colour from the high bit; eight bits a channel by W3C PNG §13.12, round(255 · v / most). */
const FIELDS: Readonly<Record<string, readonly (readonly [shift: number, most: number])[]>> = {
  rgb332: [
    [5, 7],
    [2, 7],
    [0, 3],
  ],
  rgb565: [
    [11, 31],
    [5, 63],
    [0, 31],
  ],
  rgb888: [
    [16, 255],
    [8, 255],
    [0, 255],
  ],
};
const BED = noise(256, 0xffffff);

const FORMATS = [
  ["mono1", 1],
  ["gray2", 3],
  ["gray4", 15],
  ["gray8", 255],
  ["rgb332", 255],
  ["rgb565", 0xffff],
  ["rgb888", 0xffffff],
  ["palette1", 1],
  ["palette2", 3],
  ["palette4", 15],
  ["palette8", 255],
] as const;

/** One pixel an element, so that the numbers of the source are the pixels. */
function bitmapOf(format: string, most: number) {
  const values = noise(W * H * FRAMES, most);
  const bits = most > 0xffff ? 32 : most > 255 ? 16 : 8;
  const indexed = format.startsWith("palette");
  const words = `${W}x${H} ${format} frames=${FRAMES} fps=8 pack=each${indexed ? " palette=bed" : ""}`;
  const palette = indexed
    ? `// @palette rgb888 pack=each\nconst uint32_t bed[${most + 1}] = { ${BED.slice(0, most + 1).join(", ")} };\n`
    : "";
  const elements = Buffer.alloc((values.length * bits) / 8);
  values.forEach((v, i) => void elements.writeUIntBE(v, (i * bits) / 8, bits / 8));
  const text = `${palette}// @bitmap ${words}\n${arrayText(elements, bits, "noise")}`;
  const bitmap = openText(text, "noise.h").bitmaps[0];
  if (!bitmap || bitmap.why !== undefined) throw new Error(`${words}: ${bitmap?.why ?? "no bitmap"}`);
  const rgb = (v: number): number[] => {
    if (indexed) return [(BED[v] ?? 0) >> 16, ((BED[v] ?? 0) >> 8) & 255, (BED[v] ?? 0) & 255];
    const fields = FIELDS[format];
    if (!fields) return Array<number>(3).fill(Math.round((255 * v) / most));
    return fields.map(([shift, top]) => Math.round((255 * ((v >>> shift) & top)) / top));
  };
  const frame = (i: number) => values.slice(i * W * H, (i + 1) * W * H);
  return { bitmap, frame, rgb };
}

function bytesOf(made: ReturnType<typeof pictureFile>): Uint8Array {
  if ("refused" in made) throw new Error(made.refused);
  return made.bytes;
}

interface Plain {
  readonly magic: string;
  readonly width: number;
  readonly height: number;
  readonly samples: readonly number[];
}

/** What netpbm's own readers make of a file, as the plain text formats of pbm(5), pgm(5) and ppm(5). */
async function readPlain(name: string, format: PictureFormat): Promise<Plain> {
  const file = join(folder, name);
  const raw = { encoding: "buffer", maxBuffer: 1 << 26 } as const;
  let read = file;
  if (format === "png" || format === "xbm") {
    const { stdout } = await run(format === "png" ? "pngtopam" : "xbmtopbm", [file], raw);
    read = `${file}.pnm`;
    await writeFile(read, stdout);
  }
  const { stdout } = await run("pnmtoplainpnm", [read]);
  const [magic = "", width, height, ...rest] = stdout.split(/\s+/);
  const bits = magic === "P1" ? [...rest.join("")] : rest.slice(1);
  return { magic, width: Number(width), height: Number(height), samples: bits.filter((s) => s !== "").map(Number) };
}

describe.each(FORMATS)("%s", (format, most) => {
  const { bitmap, frame, rgb } = bitmapOf(format, most);
  const kind = bitmap.format.kind;
  const written = async (as: PictureFormat, scale?: number) => {
    const name = `${format}.${as}`;
    await writeFile(join(folder, name), bytesOf(pictureFile(bitmap, { format: as, look: "values", frame: 1, scale })));
    return readPlain(name, as);
  };

  it("is the same picture in a PNG that netpbm reads", async () => {
    const { width, height, samples, magic } = await written("png");
    expect([width, height]).toEqual([W, H]);
    // netpbm makes of a PNG whatever holds it: bits, greys or colours.
    const wanted = frame(1).map(rgb);
    if (magic === "P1") expect(samples).toEqual(wanted.map(([r]) => (r === 0 ? 1 : 0)));
    else if (magic === "P2") expect(samples).toEqual(wanted.map(([r]) => r));
    else expect(samples).toEqual(wanted.flat());
  });

  it("is the same picture in a PPM", async () => {
    expect(await written("ppm")).toEqual({ magic: "P3", width: W, height: H, samples: frame(1).flatMap(rgb) });
  });

  if (kind === "gray")
    it("is the array's own numbers in a PGM", async () => {
      expect(await written("pgm")).toEqual({ magic: "P2", width: W, height: H, samples: frame(1) });
    });

  if (kind === "mono")
    it("is the array's own bits in a PBM, where 1 is black, and in an XBM, where 1 is ink", async () => {
      // netpbm takes a PGM of two levels for a PBM.
      expect(await written("pgm")).toEqual({ magic: "P1", width: W, height: H, samples: frame(1).map((v) => 1 - v) });
      expect(await written("pbm")).toEqual({ magic: "P1", width: W, height: H, samples: frame(1).map((v) => 1 - v) });
      expect(await written("xbm")).toEqual({ magic: "P1", width: W, height: H, samples: frame(1) });
      const twice = await written("pbm", 2);
      expect([twice.width, twice.height]).toEqual([2 * W, 2 * H]);
      expect(twice.samples.filter((_, i) => Math.floor(i / (2 * W)) % 2 === 1 && i % 2 === 1)).toEqual(
        frame(1).map((v) => 1 - v),
      );
    });

  it("is refused in words where the file could not hold it", () => {
    const refusedIn = (["xbm", "pbm", "pgm", "ppm"] as const).filter(
      (as) => "refused" in pictureFile(bitmap, { format: as, look: "values" }),
    );
    expect(refusedIn).toEqual(kind === "mono" ? [] : kind === "gray" ? ["xbm", "pbm"] : ["xbm", "pbm", "pgm"]);
  });
});

const PILLOW = `
import json, sys
from PIL import Image
out = []
for name in json.load(sys.stdin):
    image = Image.open(name)
    frames = []
    for i in range(image.n_frames):
        image.seek(i)
        frames.append({"duration": image.info["duration"], "rgb": list(image.convert("RGB").tobytes())})
    out.append({"size": image.size, "loop": image.info["loop"], "frames": frames})
json.dump(out, sys.stdout)
`;

interface Moving {
  readonly size: readonly number[];
  readonly loop: number;
  readonly frames: readonly { readonly duration: number; readonly rgb: readonly number[] }[];
}

/** Animations as Pillow reads them (Pillow handbook, "APNG sequences"). */
function readMoving(names: readonly string[]): Promise<Moving[]> {
  return new Promise((resolve, reject) => {
    const child = spawn("/usr/bin/python3", ["-c", PILLOW], { stdio: ["pipe", "pipe", "pipe"] });
    const [stdout, stderr]: [Buffer[], Buffer[]] = [[], []];
    child.stdout.on("data", (part: Buffer) => stdout.push(part));
    child.stderr.on("data", (part: Buffer) => stderr.push(part));
    child.on("error", reject);
    child.on("close", (code) => {
      if (code === 0) resolve(JSON.parse(Buffer.concat(stdout).toString("utf8")) as Moving[]);
      else reject(new Error(Buffer.concat(stderr).toString("utf8")));
    });
    child.stdin.end(JSON.stringify(names.map((name) => join(folder, name))));
  });
}

it("an APNG has every frame, as long as its speed says, and loops for ever", async () => {
  for (const [format, most] of FORMATS) {
    const made = pictureFile(bitmapOf(format, most).bitmap, { format: "apng", look: "values" });
    await writeFile(join(folder, `${format}.apng`), bytesOf(made));
  }
  const fast = pictureFile(bitmapOf("mono1", 1).bitmap, { format: "apng", look: "panel", scale: 6, fps: 25 });
  await writeFile(join(folder, "fast.apng"), bytesOf(fast));
  const [last, ...read] = await readMoving(["fast.apng", ...FORMATS.map(([format]) => `${format}.apng`)]);
  expect(read).toHaveLength(FORMATS.length);
  FORMATS.forEach(([format, most], i) => {
    const { frame, rgb } = bitmapOf(format, most);
    const frames = [0, 1, 2].map((f) => ({ duration: 125, rgb: frame(f).flatMap(rgb) }));
    expect(read[i], format).toEqual({ size: [W, H], loop: 0, frames });
  });
  expect(last).toMatchObject({ size: [6 * W, 6 * H], frames: [{ duration: 40 }, { duration: 40 }, { duration: 40 }] });
});
