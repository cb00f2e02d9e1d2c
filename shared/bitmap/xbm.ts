/** XBM: `NAME_width`, `NAME_height` and `NAME_bits[]` say all there is to say (Xlib manual, XReadBitmapFile). */

import { FORMATS } from "../pixels/formats.ts";
import type { Options } from "../pixels/options.ts";
import type { SourceArray } from "../source/arrays.ts";
import type { SourceFile } from "../source/read.ts";

/** The options of an XBM array: rows padded to bytes, the least significant bit leftmost, 1 is lit. */
export function xbmOptions(source: SourceFile, array: SourceArray): Options | undefined {
  const prefix = /^(.*_)?bits$/.exec(array.name);
  if (!prefix) return undefined;
  const width = sizeOf(source, `${prefix[1] ?? ""}width`);
  const height = sizeOf(source, `${prefix[1] ?? ""}height`);
  const format = FORMATS.get("mono1");
  if (width === undefined || height === undefined || !format) return undefined;
  return { width, height, format, pack: "rows", bits: "lsb" };
}

function sizeOf(source: SourceFile, name: string): number | undefined {
  const body = source.macros.get(name)?.body ?? "";
  const value = /^(?:\d+|0[xX][0-9a-fA-F]+)$/.test(body) ? Number(body) : Number.NaN;
  return value >= 1 && value <= 65535 ? value : undefined;
}
