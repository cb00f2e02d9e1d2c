/** X bitmaps as pictures: read as any source, by the sizes that they define (Xlib manual, XReadBitmapFile). */
import { openText } from "../bitmap/open.ts";
import { pixelsOf } from "../bitmap/resolve.ts";
import type { RgbaPicture } from "../pixels/rgba.ts";
import { MOST_PIXELS, samplesFor, sizeRefused } from "../pixels/rgba.ts";

export function isXbm(text: string): boolean {
  return /^[ \t]*#[ \t]*define[ \t]+\w*width[ \t]+\d/m.test(text.slice(0, 4096));
}

/** The first bitmap of the file; its set bits are white, as they are lit everywhere else here. */
export function readXbm(text: string): RgbaPicture | { readonly refused: string } {
  const size = (word: string) =>
    Number(new RegExp(`^[ \\t]*#[ \\t]*define[ \\t]+\\w*${word}[ \\t]+(\\d{1,9})`, "m").exec(text)?.[1] ?? 0);
  const wrong = sizeRefused(size("width"), size("height"), MOST_PIXELS);
  if (wrong !== undefined) return { refused: `the X bitmap can't be read: ${wrong}` };
  const bitmap = openText(text, "picture.xbm", { target: "host" }).bitmaps[0];
  const pixels = bitmap && pixelsOf(bitmap, 0);
  if (!pixels) return { refused: `the X bitmap can't be read: ${bitmap?.why ?? "it has no list of bits"}` };
  if (bitmap.layout && bitmap.array.given < bitmap.layout.elements)
    return { refused: "the X bitmap ends early: some rows of pixels are missing" };
  const { width, height } = bitmap;
  const data = samplesFor(width, height, 255);
  pixels.forEach((lit, i) => {
    data.fill(lit ? 255 : 0, 4 * i, 4 * i + 3);
    data[4 * i + 3] = 255;
  });
  return { width, height, most: 255, data };
}
