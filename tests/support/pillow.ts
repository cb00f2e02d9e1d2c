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

/** Decodes all pictures in one process; throws what Pillow says where it can't. Debian's own Python has the package. */
export function decodeRaw(pictures: readonly RawPicture[]): Promise<Rgb[]> {
  return new Promise((resolve, reject) => {
    const child = spawn("/usr/bin/python3", ["-c", SCRIPT], { stdio: ["pipe", "pipe", "pipe"] });
    const stdout: Buffer[] = [];
    const stderr: Buffer[] = [];
    child.stdout.on("data", (part: Buffer) => stdout.push(part));
    child.stderr.on("data", (part: Buffer) => stderr.push(part));
    child.on("error", reject);
    child.on("close", (code) => {
      if (code === 0) resolve(JSON.parse(Buffer.concat(stdout).toString("utf8")) as Rgb[]);
      else reject(new Error(Buffer.concat(stderr).toString("utf8")));
    });
    child.stdin.end(JSON.stringify(pictures));
  });
}
