/** Pictures turned and mirrored, with their size. */
import { editPixels } from "../edit.ts";
import type { Bitmap } from "../resolve.ts";
import type { Plan, Target } from "./plan.ts";
import { aim, planOf } from "./plan.ts";
import type { Refused, Subject } from "./subject.ts";
import { framesOf } from "./subject.ts";
import type { Turn } from "./turn.ts";
import { isQuarter, TURNS, turned } from "./turn.ts";
import type { Built } from "./verify.ts";
import { expectedAs } from "./verify.ts";

export function orientationPlans(s: Subject): Plan[] {
  const { bitmap } = s;
  const { width, height, panel } = bitmap;
  const plans: Plan[] = [];
  for (const [turn, title] of TURNS) {
    const swaps = isQuarter(turn) && width !== height;
    // The glyphs' widths lie along what was the width.
    if (isQuarter(turn) && bitmap.widths) continue;
    if (!swaps) {
      plans.push({ id: `turn:${turn}`, kind: "orientation", title, build: () => inItsPlace(s, turn) });
      continue;
    }
    const { width: across = height, height: down = width } = panel?.options ?? {};
    if (!bitmap.annotation || height > across || width > down) continue;
    const target: Target = {
      words: new Map([["size", `${height}x${width}`]]),
      pixels: (frames) => frames.map((pixels) => turned(pixels, width, height, turn)),
    };
    const now = aim(s, target);
    if (now) plans.push(planOf(s, "orientation", `turn:${turn}`, title, target, now));
  }
  return plans;
}

/** A picture that keeps its size is painted over, so that comments and their drawings stay with it. */
function inItsPlace(s: Subject, turn: Turn): Built | Refused {
  const { bitmap, text, array, type } = s;
  const { width, height } = bitmap;
  const frames = framesOf(s).map((pixels) => turned(pixels, width, height, turn));
  const changes = frames.flatMap((pixels, frame) =>
    Array.from(pixels, (value, i) => ({ frame, x: i % width, y: Math.floor(i / width), value })),
  );
  const painted = editPixels(text, bitmap as Bitmap, changes);
  if ("refused" in painted) return painted;
  return { edits: painted.edits, expected: [expectedAs(array, bitmap, type.bits, frames)] };
}
