import type { PixelChange } from "../bitmap/edit.ts";
import { editPixels } from "../bitmap/edit.ts";
import type { Bitmap } from "../bitmap/resolve.ts";
import { pixelsOf } from "../bitmap/resolve.ts";
import { elementOfSlot, elementSpan } from "../source/arrays.ts";
import type { BitmapFinding, Fix, Rule } from "./rules.ts";
import { bitmapOf, counted, MOST_FINDINGS, withRest } from "./rules.ts";

/** Pixels brighter than the cap, after what `drive` leaves of them. One finding for each run of them on a line. */
export const overCap: Rule = {
  codes: ["over-cap"],
  doc: "A pixel is brighter than the cap of its bitmap or panel allows.",
  checkBitmap: (text, bitmap) => {
    const limit = highest(bitmap);
    if (limit === undefined || bitmap.why !== undefined || !bitmap.layout) return [];
    const findings: BitmapFinding[] = [];
    let more = 0;
    for (let frame = 0; frame < bitmap.frames; frame++) {
      const pixels = pixelsOf(bitmap, frame);
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
    return withRest(findings, more);
  },
  fixes: (file, finding) => {
    const bitmap = bitmapOf(file, finding);
    const limit = bitmap && highest(bitmap);
    if (!bitmap || limit === undefined) return [];
    const { frame, first, last } = finding.data as { frame: number; first: number; last: number };
    const text = file.source.text;
    const here = (value: number) => Math.min(value, limit);
    const peak = peakOf(bitmap);
    const scaled = (value: number) => Math.min(limit, Math.round((value * limit) / peak));
    return [
      fix("clamp", `Clamp to ${limit}`, text, bitmap, changesOf(bitmap, here, { frame, first, last })),
      fix("clamp-array", `Clamp all of ${bitmap.array.name} to ${limit}`, text, bitmap, changesOf(bitmap, here)),
      fix(
        "scale-array",
        `Scale ${bitmap.array.name} from ${peak} down to ${limit}`,
        text,
        bitmap,
        changesOf(bitmap, scaled),
      ),
    ].filter((f) => f !== undefined);
  },
};

/** Highest raw value whose driven value is within the cap; undefined without a cap, or with one that nothing exceeds. */
export function highest(bitmap: Bitmap): number | undefined {
  const { cap, drive, format } = bitmap;
  if (cap === undefined) return undefined;
  const limit = Math.floor(cap / drive + 1e-9);
  return limit >= format.most ? undefined : limit;
}

function peakOf(bitmap: Bitmap): number {
  let peak = 0;
  for (let frame = 0; frame < bitmap.frames; frame++)
    for (const v of pixelsOf(bitmap, frame) ?? []) peak = Math.max(peak, v);
  return peak;
}

function findingFor(
  text: string,
  bitmap: Bitmap,
  frame: number,
  first: number,
  last: number,
  pixels: ArrayLike<number>,
): BitmapFinding[] {
  const { array, layout, width, cap, drive } = bitmap;
  if (!layout) return [];
  const { element } = layout.table(frame);
  const spans = [];
  let peak = 0;
  for (let i = first; i <= last; i++) {
    peak = Math.max(peak, pixels[i] as number);
    const at = elementOfSlot(array, element[i] as number);
    // An inverted pixel may be bright where nothing is written.
    if (at >= 0) spans.push(elementSpan(array, at));
  }
  const start = spans.length > 0 ? Math.min(...spans.map((s) => s.start)) : array.nameSpan.start;
  const end = spans.length > 0 ? Math.max(...spans.map((s) => s.end)) : array.nameSpan.end;
  const apart = /[\r\n]/.test(text.slice(start, end));
  const where = `${first % width},${Math.floor(first / width)}${bitmap.frames > 1 ? ` in frame ${frame}` : ""}`;
  const driven = drive < 1 ? ` (driven at ${Math.round(peak * drive * 10) / 10})` : "";
  const message =
    first === last
      ? `Pixel ${where} is ${peak}${driven}, over the cap of ${cap}.`
      : `${counted(last - first + 1, "pixel")} from ${where} reach ${peak}${driven}, over the cap of ${cap}.`;
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

function changesOf(
  bitmap: Bitmap,
  map: (value: number) => number,
  only?: { frame: number; first: number; last: number },
): PixelChange[] {
  const changes: PixelChange[] = [];
  for (let frame = only?.frame ?? 0; frame <= (only?.frame ?? bitmap.frames - 1); frame++) {
    const pixels = pixelsOf(bitmap, frame) ?? [];
    for (let i = only?.first ?? 0; i <= (only?.last ?? pixels.length - 1); i++) {
      const before = pixels[i] as number;
      const value = map(before);
      if (value !== before) changes.push({ frame, x: i % bitmap.width, y: Math.floor(i / bitmap.width), value });
    }
  }
  return changes;
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
