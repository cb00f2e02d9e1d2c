import type { Bitmap } from "../bitmap/resolve.ts";
import { pixelsOf } from "../bitmap/resolve.ts";
import type { Pixels } from "../pixels/picture.ts";
import { inRamFindings, inRamFix } from "./inRam.ts";
import type { BitmapFinding, Rule } from "./rules.ts";
import { counted } from "./rules.ts";
import { smallerFormat } from "./smaller.ts";

/** Memory that a bitmap could do without: frames that are the same, bits that its values do not need, RAM. */
export const memory: Rule = {
  codes: ["memory"],
  doc: "A bitmap takes more memory than its pictures need.",
  /** The finding's `data.convert` names the conversion that mends it, which is worked out when it is asked for. */
  checkBitmap: (_text, bitmap) => {
    const { why, layout, array } = bitmap;
    if (why !== undefined || !layout || !array.type || array.given < array.count) return [];
    return [...sameFrames(bitmap), ...tooLarge(bitmap)];
  },
  check: inRamFindings,
  fixes: (file, finding) => (finding.data.ram === undefined ? [] : inRamFix(file, finding)),
};

/** Frames of an animation that come twice could be shown twice. Glyphs that look alike are other characters. */
function sameFrames(bitmap: Bitmap): BitmapFinding[] {
  const { array, frames, layout, options } = bitmap;
  if (frames < 2 || options.first !== undefined || options.chars || !layout || !array.type) return [];
  /** The frames that differ from all before them, by a sum of their pixels. */
  const bySum = new Map<number, number[]>();
  const again: [number, number][] = [];
  for (let frame = 0; frame < frames; frame++) {
    const pixels = pixelsOf(bitmap, frame);
    if (!pixels) return [];
    const sum = sumOf(pixels);
    const alike = bySum.get(sum) ?? [];
    const before = alike.find((other) => same(pixels, pixelsOf(bitmap, other)));
    if (before === undefined) bySum.set(sum, [...alike, frame]);
    else again.push([frame, before]);
  }
  const [one] = again;
  // An animation that is all one picture is the business of `uniform`, or not drawn yet.
  if (!one || again.length === frames - 1) return [];
  const bytes = (again.length * layout.frameElements * array.type.bits) / 8;
  const which =
    again.length === 1
      ? `Frame ${one[0]} of ${array.name} is the same as frame ${one[1]}`
      : `${again.length} of the ${frames} frames of ${array.name} are the same as frames before them, such as ${one[0]} and ${one[1]}`;
  return [found(bitmap, `${which}: ${counted(bytes, "byte")} could be saved by showing a frame again.`)];
}

/** Frames that differ seldom have the same sum (the multiplier is that of FNV-1a). */
function sumOf(pixels: Pixels): number {
  let sum = 0x811c9dc5;
  for (let i = 0; i < pixels.length; i++) sum = Math.imul(sum ^ (pixels[i] as number), 0x01000193);
  return sum;
}

function same(a: Pixels, b: Pixels | undefined): boolean {
  if (!b) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}

/** More bits a pixel than its levels or colours need. */
function tooLarge(bitmap: Bitmap): BitmapFinding[] {
  const { array } = bitmap;
  const now = array.type ? (array.count * array.type.bits) / 8 : 0;
  const smaller = smallerFormat(bitmap, now);
  if (!smaller) return [];
  const { name } = smaller.format;
  const palette = smaller.format.kind === "palette" ? " with its palette" : "";
  const message = `${array.name} ${smaller.why}: \`${name}\` would take ${counted(smaller.bytes, "byte")}${palette} instead of ${now}. The refactoring to ${name} loses nothing.`;
  return [found(bitmap, message, { convert: `format:${name}` })];
}

function found({ array }: Bitmap, message: string, data: BitmapFinding["data"] = {}): BitmapFinding {
  return { code: "memory", severity: "information", message, span: array.nameSpan, data };
}
