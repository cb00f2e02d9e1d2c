/** Motions baked into the arrays of random documents: refused with a reason, or read back with nothing else changed. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { openText } from "../../shared/bitmap/open.ts";
import { pixelsOf } from "../../shared/bitmap/resolve.ts";
import { checkFile } from "../../shared/checks/all.ts";
import { bake, bakedFrames } from "../../shared/motion/bake.ts";
import { firmware } from "../../shared/motion/firmware/place.ts";
import { motionsOf } from "../../shared/motion/resolve.ts";
import { storedBits } from "../../shared/source/arrays.ts";
import { applyEdits } from "../../shared/source/text.ts";
import { runs } from "../support/runs.ts";
import { documents } from "./documents.ts";
import { render } from "./render.ts";

const words = fc
  .record({
    mask: fc.constantFrom("radial", "linear angle=90", "angular", "diamond", "noise seed=4"),
    soft: fc.nat(80),
    step: fc.integer({ min: 60, max: 400 }),
    loop: fc.constantFrom("once", "around", "there-and-back"),
  })
  .map(({ mask, soft, step, loop }) => `mask=${mask} soft=${soft} step=${step} loop=${loop}`);

/** The document with an image of the array's size and format before it, and a motion on the array. */
function withMotion(text: string, more: string, at: number): { text: string; name: string } | undefined {
  const file = openText(text, "motions.h");
  const grey = file.bitmaps.filter((b) => b.annotation && (b.format.kind === "gray" || b.format.kind === "mono"));
  const target = grey[at % Math.max(1, grey.length)];
  const annotation = target?.annotation;
  if (!target || !annotation || annotation.arrays.length !== 1) return undefined;
  const { width, height, format } = target;
  const image = Array.from({ length: width * height }, (_, i) => (i * 7) % (format.most + 1));
  const pack = format.depth < 8 ? " pack=each" : "";
  const art = `// @bitmap ${width}x${height} ${format.name}${pack}\nconst uint8_t motion_image[${image.length}] = { ${image.join(", ")} };\n`;
  // Behind what stands there, as further words of the comment: it binds to the same array.
  const marked = applyEdits(text, [
    { start: annotation.end, end: annotation.end, text: ` @motion image=motion_image ${more}` },
  ]);
  return { text: art + marked, name: target.array.name };
}

test("frames are read back as computed, or the bake is refused; other arrays and words stay", () => {
  let baked = 0;
  let tried = 0;
  fc.assert(
    fc.property(documents(2).map(render), words, fc.nat(5), fc.boolean(), ({ text }, more, at, share) => {
      const made = withMotion(text, more, at);
      const before = made && openText(made.text, "motions.h");
      const motion = before && motionsOf(before).find((m) => m.target?.array.name === made.name);
      if (!before || !motion?.moving) return;
      tried++;
      const wanted = share && motion.moving.timeline.loop === "there-and-back";
      const result = bake(before, motion, wanted);
      if ("refused" in result) {
        expect(result.refused).toMatch(/\S/);
        return;
      }
      baked++;
      const after = openText(applyEdits(made.text, result.edits), "motions.h");
      const now = motionsOf(after).find((m) => m.target?.array.name === made.name);
      const frames = bakedFrames(motion, wanted);
      expect(now?.target?.frames).toBe(frames.length);
      frames.forEach((pixels, i) => {
        expect([...((now?.target && pixelsOf(now.target, i)) ?? [])]).toEqual([...pixels]);
      });
      // No finding says that it is out of date, and baking again changes nothing.
      expect(checkFile(after).filter((f) => f.code === "motion" && /holds|hold what/.test(f.message))).toEqual([]);
      const again = now && bake(after, now, wanted);
      expect(again && "edits" in again && again.edits).toEqual([]);
      const others = (file: typeof after) =>
        file.source.arrays
          .filter((a) => a.name !== made.name && a.name !== `${made.name}_order` && a.nameSpan.end < a.base)
          .map((a) => `${a.name} ${storedBits(a)}`);
      expect(others(after)).toEqual(others(before));
      // The function either has a reason not to be, or is read back as what its annotation says.
      const written = firmware(after, now as NonNullable<typeof now>);
      if ("refused" in written) return;
      const computed = openText(applyEdits(after.source.text, written.edits), "motions.h");
      expect(checkFile(computed).filter((f) => f.code === "motion" && f.message.includes("is not what"))).toEqual([]);
    }),
    { numRuns: runs(300) },
  );
  expect(baked).toBeGreaterThan(tried / 4);
  expect(tried).toBeGreaterThan(10);
});
