import type { PixelChange } from "../bitmap/edit.ts";
import { editPixels } from "../bitmap/edit.ts";
import type { Bitmap } from "../bitmap/resolve.ts";
import { pixelsOf } from "../bitmap/resolve.ts";
import type { Way } from "../light/dim.ts";
import { highest } from "../light/limit.ts";
import { hexOf, levelOf, rgbOf } from "../pixels/colour.ts";
import { isColour } from "../pixels/formats.ts";
import type { Pixels } from "../pixels/picture.ts";
import { elementOfSlot, elementSpan } from "../source/arrays.ts";
import { EYES } from "./cautions.ts";
import { changesOf } from "./changes.ts";
import { dimmedTo } from "./dimming.ts";
import type { BitmapFinding, Fix, Rule } from "./rules.ts";
import { bitmapOf, counted, MOST_FINDINGS, withoutTwins, withRest } from "./rules.ts";

/**
 * Pixels brighter than the cap, after what `drive` leaves of them. One finding for each run of them on a line. The
 * level of a colour is its brightest channel in eight bits.
 */
export const overCap: Rule = {
  codes: ["over-cap"],
  doc: "A pixel is brighter than the cap of its bitmap or panel allows.",
  checkBitmap: (text, bitmap) => {
    const limit = highest(bitmap);
    if (limit === undefined || bitmap.why !== undefined || !bitmap.layout) return [];
    const findings: BitmapFinding[] = [];
    let more = 0;
    for (let frame = 0; frame < bitmap.frames; frame++) {
      const pixels = levelsOf(bitmap, frame);
      if (!pixels) return [];
      for (let i = 0; i < pixels.length; i++) {
        if ((pixels[i] as number) <= limit) continue;
        const first = i;
        const row = Math.floor(i / bitmap.width);
        while (i + 1 < pixels.length && (pixels[i + 1] as number) > limit && Math.floor((i + 1) / bitmap.width) === row)
          i++;
        if (findings.length >= MOST_FINDINGS) {
          more++;
          continue;
        }
        findings.push(...findingFor(text, bitmap, frame, first, i, pixels));
      }
    }
    const [first] = findings;
    // Once for an array is enough.
    if (first) findings[0] = { ...first, message: `${first.message} ${EYES}` };
    return withRest(findings, more);
  },
  fixes: (file, finding) => {
    const bitmap = bitmapOf(file, finding);
    const limit = bitmap && highest(bitmap);
    if (!bitmap || limit === undefined) return [];
    // The colours of a palette may serve other bitmaps too: which of them to change is not for a fix to say.
    if (bitmap.format.kind === "palette") return [];
    const { frame, first, last } = finding.data as { frame: number; first: number; last: number };
    const { name } = bitmap.array;
    const peak = peakOf(bitmap);
    const offer = (kind: string, title: string, way: Way, only?: { frame: number; first: number; last: number }) =>
      fix(kind, title, file.source.text, bitmap, capChanges(bitmap, way, limit, peak, only));
    const down = `Scale ${name} from ${peak} down to ${limit}`;
    const clamps = [
      offer("clamp", `Clamp to ${limit}`, "clamp", { frame, first, last }),
      offer("clamp-array", `Clamp all of ${name} to ${limit}`, "clamp"),
    ].filter((f) => f !== undefined);
    const scales = [offer("scale-array", down, "linear"), offer("even-array", `${down}, evenly to the eye`, "even")];
    return [...clamps, ...withoutTwins(scales)];
  },
};

/** The levels of a frame, pixel by pixel: mono and grey values themselves, without a copy. */
function levelsOf(bitmap: Bitmap, frame: number): Pixels | undefined {
  const { format, palette } = bitmap;
  const pixels = pixelsOf(bitmap, frame);
  if (!pixels || !isColour(format)) return pixels;
  return Uint8Array.from(pixels, (value) => levelOf(format, value, palette?.colours));
}

/** The pixels that change so that none is over the limit: all of the bitmap, or `only` some of a frame. */
export function capChanges(
  bitmap: Bitmap,
  way: Way,
  limit: number,
  peak = peakOf(bitmap),
  only?: { frame: number; first: number; last: number },
): PixelChange[] {
  return changesOf(bitmap, dimmedTo(bitmap, way, peak, limit), only);
}

/** The highest level of all frames. */
export function peakOf(bitmap: Bitmap): number {
  let peak = 0;
  for (let frame = 0; frame < bitmap.frames; frame++)
    for (const level of levelsOf(bitmap, frame) ?? []) peak = Math.max(peak, level);
  return peak;
}

function findingFor(
  text: string,
  bitmap: Bitmap,
  frame: number,
  first: number,
  last: number,
  levels: ArrayLike<number>,
): BitmapFinding[] {
  const { array, layout, width, cap, drive, format } = bitmap;
  if (!layout) return [];
  const { element } = layout.table(frame);
  const spans = [];
  let peak = 0;
  for (let i = first; i <= last; i++) {
    peak = Math.max(peak, levels[i] as number);
    const at = elementOfSlot(array, element[i] as number);
    // An inverted pixel may be bright where nothing is written.
    if (at >= 0) spans.push(elementSpan(array, at));
  }
  const start = spans.length > 0 ? Math.min(...spans.map((s) => s.start)) : array.nameSpan.start;
  const end = spans.length > 0 ? Math.max(...spans.map((s) => s.end)) : array.nameSpan.end;
  const apart = /[\r\n]/.test(text.slice(start, end));
  const where = `${first % width},${Math.floor(first / width)}${bitmap.frames > 1 ? ` in frame ${frame}` : ""}`;
  const driven = drive < 1 ? ` (driven at ${Math.round(peak * drive * 10) / 10})` : "";
  const colour = isColour(format);
  const one = colour ? colourAt(bitmap, frame, first, peak) : `is ${peak}`;
  const message =
    first === last
      ? `Pixel ${where} ${one}${driven}, over the cap of ${cap}.`
      : `${counted(last - first + 1, "pixel")} from ${where} reach ${peak}${colour ? " in a channel" : ""}${driven}, over the cap of ${cap}.`;
  return [
    {
      code: "over-cap",
      severity: "warning",
      message,
      span: apart && spans[0] ? spans[0] : { start, end },
      data: { frame, first, last },
    },
  ];
}

function colourAt(bitmap: Bitmap, frame: number, index: number, level: number): string {
  const value = pixelsOf(bitmap, frame)?.[index] ?? 0;
  return `is ${hexOf(rgbOf(bitmap.format, value, bitmap.palette?.colours))}, a channel of ${level}`;
}

function fix(
  kind: string,
  title: string,
  text: string,
  bitmap: Bitmap,
  changes: readonly PixelChange[],
): Fix | undefined {
  const edited = editPixels(text, bitmap, changes);
  if ("refused" in edited || edited.edits.length === 0) return undefined;
  return { kind, title, edits: edited.edits, ...(kind === "clamp" ? { preferred: true } : {}) };
}
