/** Conversions of random documents: each is refused or re-read as the wanted picture, and touches nothing beside. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { conversionsOf, convert } from "../../shared/bitmap/convert/convert.ts";
import { openText } from "../../shared/bitmap/open.ts";
import type { Bitmap, BitmapFile } from "../../shared/bitmap/resolve.ts";
import { checkFile } from "../../shared/checks/all.ts";
import { rgbOf } from "../../shared/pixels/colour.ts";
import { storedBits } from "../../shared/source/arrays.ts";
import { applyEdits } from "../../shared/source/text.ts";
import { runs } from "../support/runs.ts";
import type { ArrayPlan } from "./documents.ts";
import { documents } from "./documents.ts";
import { allPixels } from "./pixels.ts";
import { render } from "./render.ts";

const worldOf = (file: string) => ({ reopen: (text: string) => openText(text, file), findings: checkFile });

/** Half of the documents hold arrays as most people write them, whose declarations can follow any conversion. */
const texts = fc.tuple(documents(2), fc.boolean()).map(([plan, plain]) => {
  const simple = plan.arrays.map(
    (array): ArrayPlan => ({
      ...array,
      signed: false,
      shape: "flat",
      declared: array.declared === "expression" ? "empty" : array.declared,
      choices: { ...array.choices, skip: undefined, lead: undefined },
    }),
  );
  return render(plain ? { ...plan, arrays: simple } : plan);
});

/** Pixel (x, y) of the turned picture, by where it was before: plain arithmetic on places. */
const SOURCES: Readonly<Record<string, (x: number, y: number, w: number, h: number) => [number, number]>> = {
  "turn:clockwise": (x, y, _w, h) => [y, h - 1 - x],
  "turn:anticlockwise": (x, y, w) => [w - 1 - y, x],
  "turn:half": (x, y, w, h) => [w - 1 - x, h - 1 - y],
  "turn:left-right": (x, y, w) => [w - 1 - x, y],
  "turn:top-bottom": (x, y, _w, h) => [x, h - 1 - y],
};

/** What the picture must be after a conversion that keeps the format. */
function expectedPixels(bitmap: Bitmap, id: string): number[] {
  const { width: w, height: h, frames } = bitmap;
  const source = SOURCES[id];
  const pixels = allPixels(bitmap);
  if (!source) return pixels;
  const across = /clockwise/.test(id) ? h : w;
  return Array.from({ length: frames * w * h }, (_, i) => {
    const frame = Math.floor(i / (w * h));
    const [x, y] = [(i % (w * h)) % across, Math.floor((i % (w * h)) / across)];
    const [fromX, fromY] = source(x, y, w, h);
    return pixels[frame * w * h + fromY * w + fromX] as number;
  });
}

/** What the file holds beside one array. */
function others(file: BitmapFile, but: number): unknown {
  return file.source.arrays.filter((_, i) => i !== but).map((a) => [a.name, a.count, String(storedBits(a))]);
}

/** The text before the annotation or statement, and behind the statement. */
function outside(text: string, { array, annotation }: Bitmap): [string, string] {
  const start = Math.min(annotation?.comment.start ?? Number.POSITIVE_INFINITY, array.declaration.start);
  return [text.slice(0, start), text.slice(array.declaration.end)];
}

const KEPT = /^(?:pack|scan|bits|invert|width|turn|literal|lines)\b/;

test("a conversion that keeps the format shows the same picture, or the turned one", () => {
  const done = new Map<string, number>();
  fc.assert(
    fc.property(texts, fc.nat(), ({ text, file }, pick) => {
      const before = openText(text, file);
      before.bitmaps.forEach((bitmap, index) => {
        const offered = conversionsOf(before, bitmap).filter(({ id }) => KEPT.test(id));
        // A few of each: all of them would take long.
        for (const { id } of offered.filter((_, i) => (i + pick) % 3 === 0)) {
          const converted = convert(before, bitmap, id, worldOf(file));
          if ("refused" in converted) continue;
          const written = applyEdits(text, converted.edits);
          const after = openText(written, file);
          const now = after.bitmaps[index] as Bitmap;
          expect(now.why).toBeUndefined();
          expect([now.array.name, allPixels(now)]).toEqual([bitmap.array.name, expectedPixels(bitmap, id)]);
          const at = before.source.arrays.indexOf(bitmap.array);
          expect(others(after, at)).toEqual(others(before, at));
          expect(outside(written, now)).toEqual(outside(text, bitmap));
          const kind = id.replace(/:.*/, "");
          done.set(kind, (done.get(kind) ?? 0) + 1);
        }
      });
    }),
    { numRuns: runs(200) },
  );
  for (const kind of ["pack", "scan", "bits", "invert", "width", "turn", "literal"])
    expect([kind, done.get(kind) ?? 0]).toEqual([kind, expect.toSatisfy((n: number) => n >= runs(10))]);
});

/** What a viewer of the picture sees: colours on a screen; indices where their colours are not known. */
function shown(bitmap: Bitmap): number[] {
  const { format, palette } = bitmap;
  const pixels = allPixels(bitmap);
  return format.kind === "palette" && !palette ? pixels : pixels.map((v) => rgbOf(format, v, palette?.colours));
}

test("another format without a warned loss shows the same colours, and converts back to them", () => {
  let same = 0;
  let back = 0;
  let other = 0;
  fc.assert(
    fc.property(texts, fc.nat(), ({ text, file }, pick) => {
      const before = openText(text, file);
      before.bitmaps.forEach((bitmap, index) => {
        const offered = conversionsOf(before, bitmap).filter(({ kind }) => kind === "format");
        for (const { id, title } of offered.filter((_, i) => (i + pick) % 2 === 0)) {
          const converted = convert(before, bitmap, id, worldOf(file));
          if ("refused" in converted) continue;
          const written = applyEdits(text, converted.edits);
          const after = openText(written, file);
          const now = after.bitmaps[index] as Bitmap;
          expect([now.why, now.format.name]).toEqual([undefined, id.replace("format:", "")]);
          expect([now.width, now.height, now.frames]).toEqual([bitmap.width, bitmap.height, bitmap.frames]);
          const changed = shown(now).filter((rgb, i) => rgb !== shown(bitmap)[i]).length;
          const mono = bitmap.format.kind === "mono" || now.format.kind === "mono";
          const warned = Number(/: (\d+) of \d+ pixels?/.exec(title)?.[1] ?? 0);
          // Without a cap, lit is full light in every format, so that the count is that of other colours.
          if (!mono || now.cap === undefined) expect([id, warned]).toEqual([id, changed]);
          if (warned > 0) {
            other++;
            continue;
          }
          same++;
          const again = convert(after, now, `format:${bitmap.format.name}`, worldOf(file));
          if ("refused" in again) continue;
          back++;
          const restored = openText(applyEdits(written, again.edits), file).bitmaps[index] as Bitmap;
          expect(shown(restored)).toEqual(shown(bitmap));
        }
      });
    }),
    { numRuns: runs(120) },
  );
  expect(Math.min(same, back, other)).toBeGreaterThanOrEqual(runs(30));
});

test("frames apart are the frames of the array, and joined again they are the array", () => {
  let split = 0;
  let joined = 0;
  fc.assert(
    fc.property(texts, ({ text, file }) => {
      const before = openText(text, file);
      for (const bitmap of before.bitmaps) {
        const offered = conversionsOf(before, bitmap).some(({ id }) => id === "frames:split");
        const apart = offered ? convert(before, bitmap, "frames:split", worldOf(file)) : undefined;
        if (!apart || "refused" in apart) continue;
        split++;
        const written = applyEdits(text, apart.edits);
        const after = openText(written, file);
        const parts = after.bitmaps.filter(({ array }) => !before.bitmaps.some((b) => b.array.name === array.name));
        expect(parts.length).toBe(bitmap.frames);
        expect(parts.flatMap(allPixels)).toEqual(allPixels(bitmap));
        const first = parts[0] as Bitmap;
        const again = convert(after, first, "frames:join", worldOf(file));
        if ("refused" in again) continue;
        joined++;
        const whole = openText(applyEdits(written, again.edits), file);
        const now = whole.bitmaps[before.bitmaps.indexOf(bitmap)] as Bitmap;
        expect([now.frames, allPixels(now)]).toEqual([bitmap.frames, allPixels(bitmap)]);
        const at = before.source.arrays.indexOf(bitmap.array);
        expect(others(whole, at)).toEqual(others(before, at));
      }
    }),
    { numRuns: runs(300) },
  );
  expect(Math.min(split, joined)).toBeGreaterThanOrEqual(runs(20));
});
