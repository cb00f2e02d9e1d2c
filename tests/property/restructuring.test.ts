/** Frames and sizes of random documents: each change is refused or read back as the model says, and touches nothing beside. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { characterOf } from "../../shared/bitmap/glyphs.ts";
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

/** Glyph sets whose characters and widths are told: printable characters, so that all can be listed. */
const sets = fc.record({
  points: fc.uniqueArray(fc.integer({ min: 0x21, max: 0x7e }), { minLength: 1, maxLength: 6 }),
  run: fc.boolean(),
  nested: fc.boolean(),
  eol: fc.constantFrom("\n", "\r\n"),
  perLine: fc.boolean(),
});

const quoted = (points: readonly number[]) =>
  points.map((p) => String.fromCodePoint(p).replace(/["\\]/, (c) => `\\${c}`)).join("");

test("glyphs keep their characters and widths wherever they go, and new ones get characters of their own", () => {
  let kept = 0;
  fc.assert(
    fc.property(sets, frameChanges, ({ points: any, run, nested, eol, perLine }, asked) => {
      const points = run ? any.map((_, i) => (any[0] as number) + i) : any;
      const word = run ? `first=U+${points[0]?.toString(16).padStart(4, "0")}` : `chars="${quoted(points)}"`;
      const rows = points.map((p, i) => {
        const numbers = `0x${(p & 0x7f).toString(16).padStart(2, "0")}, 0x${(i + 1).toString(16).padStart(2, "0")}`;
        return nested ? `{${numbers}}` : numbers;
      });
      const list = perLine ? `${eol}  ${rows.join(`,${eol}  `)}${eol}` : rows.join(", ");
      const widths = points.map((_, i) => (i % 7) + 1);
      const size = nested ? `[${points.length}][2]` : "[]";
      const text = [
        `const uint8_t wide[${points.length}] = {${widths.join(", ")}};`,
        `// @bitmap 8x2 mono1 frames=${points.length} ${word} widths=wide`,
        `const uint8_t font${size} = {${list}};`,
        "int after;",
      ].join(eol);
      const file = openText(text, "font.h");
      const [bitmap] = file.bitmaps;
      if (!bitmap) throw new Error(text);
      const order = asked.map((f) => (f === "dark" ? f : f % points.length));
      const changed = restructure(file, bitmap, { kind: "frames", order }, worldOf("font.h"));
      if ("refused" in changed) throw new Error(`${text}\n${changed.refused}`);
      const written = applyEdits(text, changed.edits);
      const after = openText(written, "font.h");
      const [now] = after.bitmaps;
      if (!now) throw new Error(written);
      const told = order.map((_, i) => characterOf(now.options, i));
      expect(new Set(told).size).toBe(order.length);
      order.forEach((frame, i) => {
        if (frame === "dark") return;
        expect(now.widths?.[i]).toBe(widths[frame]);
        if (order.indexOf(frame) !== i) return;
        kept++;
        expect(told[i]).toBe(points[frame]);
      });
      expect(allPixels(now)).toEqual(wanted(bitmap, { kind: "frames", order }));
      expect(checkFile(after)).toEqual(
        checkFile(after).filter(({ code }) => ["uniform", "flashing", "memory"].includes(code)),
      );
      expect(written.endsWith(`${eol}int after;`)).toBe(true);
    }),
    { numRuns: runs(300) },
  );
  expect(kept).toBeGreaterThanOrEqual(runs(200));
});
