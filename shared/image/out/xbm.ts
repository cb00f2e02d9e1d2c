/**
 * An X bitmap file (Xlib manual, XReadBitmapFile): C text, bits from the least significant, rows padded to bytes, 1 is
 * the foreground.
 */

/** Bytes to a line of the text. */
const PER_LINE = 12;

/** `name` is the C name that the three of the file are made from; any pixel but 0 is foreground. */
export function xbmOf(name: string, width: number, height: number, pixels: ArrayLike<number>): string {
  const stride = Math.ceil(width / 8);
  const bytes = new Uint8Array(stride * height);
  for (let i = 0; i < width * height; i++) {
    const x = i % width;
    const at = Math.floor(i / width) * stride + (x >> 3);
    if (pixels[i]) bytes[at] = (bytes[at] as number) | (1 << (x & 7));
  }
  const lines: string[] = [];
  for (let at = 0; at < bytes.length; at += PER_LINE) {
    lines.push(`   ${Array.from(bytes.subarray(at, at + PER_LINE), hex).join(", ")}`);
  }
  return `#define ${name}_width ${width}\n#define ${name}_height ${height}\nstatic unsigned char ${name}_bits[] = {\n${lines.join(",\n")} };\n`;
}

function hex(byte: number): string {
  return `0x${byte.toString(16).padStart(2, "0")}`;
}
