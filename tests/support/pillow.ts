/** Pictures as Pillow's raw decoders read them (Debian python3-pil; Pillow handbook, "Writing your own image plugin", The raw decoder). */
import { spawn } from "node:child_process";

/** What Pillow is to decode: bytes of a picture in a mode, by a raw mode; then turned, flipped, or put together. */
export interface RawPicture {
  readonly mode: "1" | "L" | "P" | "RGB";
  readonly raw: string;
  /** Of each band as it is decoded, before it is transposed. */
  readonly size: readonly [width: number, height: number];
  /** One band, or several that stand under each other. */
  readonly bands: readonly string[];
  /** Names of Pillow's `Image.Transpose`, applied to each band in this order. */
  readonly turns?: readonly string[];
  /** Red, green and blue of each index, for mode P. */
  readonly palette?: readonly number[];
}

/** Three bytes a pixel, row by row. */
export interface Rgb {
  readonly width: number;
  readonly height: number;
  readonly data: readonly number[];
}

const SCRIPT = `
import json, sys
from PIL import Image
out = []
for p in json.load(sys.stdin):
    bands = []
    for hexed in p["bands"]:
        image = Image.frombytes(p["mode"], tuple(p["size"]), bytes.fromhex(hexed), "raw", p["raw"])
        if p.get("palette"):
            image.putpalette(p["palette"])
        for turn in p.get("turns", []):
            image = image.transpose(getattr(Image.Transpose, turn))
        bands.append(image.convert("RGB"))
    width, height = bands[0].size
    whole = Image.new("RGB", (width, height * len(bands)))
    for i, band in enumerate(bands):
        whole.paste(band, (0, i * height))
    out.append({"width": whole.width, "height": whole.height, "data": list(whole.tobytes())})
json.dump(out, sys.stdout)
`;

/** Decodes all pictures in one process; throws what Pillow says where it can't. */
export async function decodeRaw(pictures: readonly RawPicture[]): Promise<Rgb[]> {
  return JSON.parse(await asked(SCRIPT, pictures)) as Rgb[];
}

const OVALS = `
import json, sys
from PIL import Image, ImageDraw
given = json.load(sys.stdin)
out = []
for width, height in given["sizes"]:
    image = Image.new("L", (width, height))
    box = (0, 0, width - 1, height - 1)
    ImageDraw.Draw(image).ellipse(box, **({"fill": 1} if given["filled"] else {"outline": 1, "width": 1}))
    out.append(list(image.tobytes()))
json.dump(out, sys.stdout)
`;

/** Pillow's ellipse in each box of so many pixels: 1 for each of its pixels, row by row. */
export async function drawnOvals(
  sizes: readonly (readonly [width: number, height: number])[],
  filled: boolean,
): Promise<Uint8Array[]> {
  const drawn = JSON.parse(await asked(OVALS, { sizes, filled })) as number[][];
  return drawn.map((pixels) => Uint8Array.from(pixels));
}

/** What a script answers to JSON. Debian's own Python has the package. */
function asked(script: string, given: unknown): Promise<string> {
  return new Promise((resolve, reject) => {
    const child = spawn("/usr/bin/python3", ["-c", script], { stdio: ["pipe", "pipe", "pipe"] });
    const stdout: Buffer[] = [];
    const stderr: Buffer[] = [];
    child.stdout.on("data", (part: Buffer) => stdout.push(part));
    child.stderr.on("data", (part: Buffer) => stderr.push(part));
    child.on("error", reject);
    child.on("close", (code) => {
      if (code === 0) resolve(Buffer.concat(stdout).toString("utf8"));
      else reject(new Error(Buffer.concat(stderr).toString("utf8")));
    });
    child.stdin.end(JSON.stringify(given));
  });
}
