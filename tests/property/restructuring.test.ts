/** Frames and sizes of random documents: each change is refused or read back as the model says, and touches nothing beside. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { openText } from "../../shared/bitmap/open.ts";
import type { Bitmap, BitmapFile } from "../../shared/bitmap/resolve.ts";
import type { Restructuring } from "../../shared/bitmap/restructure/change.ts";
import { restructure } from "../../shared/bitmap/restructure/restructure.ts";
import { checkFile } from "../../shared/checks/all.ts";
import { storedBits } from "../../shared/source/arrays.ts";
import { applyEdits } from "../../shared/source/text.ts";
import { runs } from "../support/runs.ts";
import type { ArrayPlan } from "./documents.ts";
import { documents } from "./documents.ts";
import { allPixels } from "./pixels.ts";
import { render } from "./render.ts";

const worldOf = (file: string) => ({ reopen: (text: string) => openText(text, file), findings: checkFile });

/** Half of the documents hold arrays as most people write them. */
const texts = fc.tuple(documents(2), fc.boolean()).map(([plan, plain]) => {
  const simple = plan.arrays.map(
    (array): ArrayPlan => ({
      ...array,
      shape: "flat",
      declared: array.declared === "expression" ? "empty" : array.declared,
      choices: { ...array.choices, skip: undefined, lead: undefined },
    }),
  );
  return render(plain ? { ...plan, arrays: simple } : plan);
});

const frameChanges = fc.array(fc.oneof(fc.nat(5), fc.constant("dark" as const)), { minLength: 1, maxLength: 5 });
const side = fc.integer({ min: -3, max: 3 });
const sizes = fc.record({ kind: fc.constant("size" as const), left: side, top: side, right: side, bottom: side });
const changes = fc.oneof(
  { weight: 4, arbitrary: frameChanges.map((order) => ({ kind: "frames" as const, order })) },
  { weight: 5, arbitrary: sizes },
  { weight: 1, arbitrary: fc.integer({ min: 1, max: 1e6 }).map((n) => ({ kind: "speed" as const, fps: n / 1000 })) },
);

/** The change as the bitmap can take it: frames that it has. */
function fitted(change: Restructuring, { frames }: Bitmap): Restructuring {
  if (change.kind !== "frames") return change;
  return { kind: "frames", order: change.order.map((f) => (f === "dark" ? f : f % frames)) };
}

/** What the frames must be after it: plain arithmetic on places. */
function wanted(bitmap: Bitmap, change: Restructuring): number[] {
  const { width: w, height: h, frames } = bitmap;
  const pixels = allPixels(bitmap);
  if (change.kind === "frames")
    return change.order.flatMap((f) =>
      f === "dark" ? new Array<number>(w * h).fill(0) : pixels.slice(f * w * h, (f + 1) * w * h),
    );
  if (change.kind === "speed") return pixels;
  const { left, top, right, bottom } = change;
  const [across, down] = [w + left + right, h + top + bottom];
  return Array.from({ length: frames * across * down }, (_, i) => {
    const [x, y] = [(i % across) - left, (Math.floor(i / across) % down) - top];
    const frame = Math.floor(i / (across * down));
    return x >= 0 && y >= 0 && x < w && y < h ? (pixels[(frame * h + y) * w + x] as number) : 0;
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

test("frames and sizes are read back as wanted, or the change is refused", () => {
  const done = { frames: 0, size: 0, speed: 0 };
  fc.assert(
    fc.property(texts, changes, ({ text, file }, asked) => {
      const before = openText(text, file);
      before.bitmaps.forEach((bitmap, index) => {
        const change = fitted(asked, bitmap);
        const changed = restructure(before, bitmap, change, worldOf(file));
        if ("refused" in changed) {
          expect(changed.refused).not.toBe("");
          return;
        }
        const written = applyEdits(text, changed.edits);
        const after = openText(written, file);
        const now = after.bitmaps[index] as Bitmap;
        expect([now.why, now.array.name, now.format.name]).toEqual([undefined, bitmap.array.name, bitmap.format.name]);
        if (change.kind === "speed") expect(now.options.fps).toBe(change.fps);
        expect(allPixels(now)).toEqual(wanted(bitmap, change));
        const at = before.source.arrays.indexOf(bitmap.array);
        expect(others(after, at)).toEqual(others(before, at));
        expect(outside(written, now)).toEqual(outside(text, bitmap));
        done[change.kind]++;
      });
    }),
    { numRuns: runs(800) },
  );
  expect(Math.min(...Object.values(done))).toBeGreaterThanOrEqual(runs(60));
});
