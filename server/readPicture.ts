/** Bytes of a picture or a font, told apart by how they begin, never by a name's ending. */
import { gunzipSync } from "node:zlib";
import type { Source } from "../shared/image/art.ts";
import { isBdf, readBdf } from "../shared/image/bdf.ts";
import type { Font } from "../shared/image/font.ts";
import { isNetpbm, readNetpbm } from "../shared/image/netpbm.ts";
import { isPsf, readPsf } from "../shared/image/psf.ts";
import { isXbm, readXbm } from "../shared/image/xbm.ts";
import type { RgbaPicture } from "../shared/pixels/rgba.ts";
import { MOST_PIXELS } from "../shared/pixels/rgba.ts";
import { isAnimated, isPng, readPng } from "./readPng.ts";

type Refused = { readonly refused: string };

/** Larger files are not read: 128 MiB, also unpacked. */
export const MOST_BYTES = 1 << 27;

/** How files begin that other programs turn into PNG (their formats' own specifications). */
const OTHERS: readonly (readonly [begin: RegExp, what: string])[] = [
  [/^\xff\xd8\xff/, "a JPEG picture"],
  [/^GIF8[79]a/, "a GIF picture"],
  [/^BM/, "a BMP picture"],
  [/^RIFF....WEBP/s, "a WebP picture"],
  [/^(?:II\*|MM.\*)/s, "a TIFF picture"],
  [/^.fcp/s, "a PCF font"],
  [/^(?:\xef\xbb\xbf)?\s*(?:<\?xml[^>]*>\s*)?(?:<!--[\s\S]*?-->\s*)*<svg/, "an SVG drawing"],
];

/** Refused in words is what is no picture or font that is known here, and what its reader refuses. */
export function readPicture(bytes: Uint8Array, mostPixels = MOST_PIXELS): Source | Refused {
  if (bytes.length === 0) return { refused: "the file is empty" };
  if (bytes.length > MOST_BYTES) return { refused: `the file has ${bytes.length} bytes; up to ${MOST_BYTES} are read` };
  if (bytes[0] === 0x1f && bytes[1] === 0x8b) return unzipped(bytes, mostPixels);
  if (isPng(bytes)) return pictured(readPng(bytes, mostPixels), isAnimated(bytes) ? FIRST_ONLY : undefined);
  if (isNetpbm(bytes)) return pictured(readNetpbm(bytes));
  if (isPsf(bytes)) return lettered(readPsf(bytes));
  const text = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString("latin1");
  if (isBdf(text)) return lettered(readBdf(text));
  if (isXbm(text)) return pictured(readXbm(text));
  const [, what] = OTHERS.find(([begin]) => begin.test(text.slice(0, 4096))) ?? [];
  const known = "PNG, PBM, PGM, PPM, PAM, XBM, BDF or PSF";
  return {
    refused: what
      ? `it is ${what}: save it as PNG first`
      : `it is neither a picture nor a font that can be read (${known})`,
  };
}

function unzipped(bytes: Uint8Array, mostPixels: number): Source | Refused {
  try {
    const inside = gunzipSync(bytes, { maxOutputLength: MOST_BYTES });
    if (inside[0] === 0x1f && inside[1] === 0x8b) return { refused: "it is packed twice" };
    return readPicture(inside, mostPixels);
  } catch (error) {
    const large = (error as NodeJS.ErrnoException).code === "ERR_BUFFER_TOO_LARGE";
    return {
      refused: large ? `more than ${MOST_BYTES} bytes are packed in it` : "the packed file is damaged or ends early",
    };
  }
}

const FIRST_ONLY = "of the animation only the still picture is taken";

function pictured(read: RgbaPicture | Refused, note?: string): Source | Refused {
  return "refused" in read ? read : { kind: "picture", picture: read, ...(note ? { note } : {}) };
}

function lettered(read: Font | Refused): Source | Refused {
  return "refused" in read ? read : { kind: "font", font: read };
}
