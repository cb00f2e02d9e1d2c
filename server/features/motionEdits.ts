/** `dotwright/changeMotion` and `dotwright/bake`, and what a painter is told of a motion. */
import { identityOf, sameIn } from "../../shared/bitmap/edit.ts";
import { reopened } from "../../shared/bitmap/open.ts";
import type { Bitmap, BitmapFile } from "../../shared/bitmap/resolve.ts";
import { bake, isShared } from "../../shared/motion/bake.ts";
import { judge } from "../../shared/motion/judged.ts";
import { orderOf } from "../../shared/motion/kernel/timeline.ts";
import { USUAL } from "../../shared/motion/problem.ts";
import type { Motion } from "../../shared/motion/resolve.ts";
import { motionsOf, usualEnds } from "../../shared/motion/resolve.ts";
import { changeMotion as wordEdits } from "../../shared/motion/words.ts";
import { rowOf } from "../../shared/pixels/options.ts";
import type { LspParams, LspReply, MotionInfo } from "../../shared/protocol/lsp.ts";
import { applyEdits } from "../../shared/source/text.ts";
import type { Parsed } from "../documents.ts";
import { edited } from "./edited.ts";

const motionOf = (file: BitmapFile, bitmap: Bitmap): Motion | undefined =>
  motionsOf(file).find((m) => m.target === bitmap);

/** undefined for a bitmap without a motion, or with one that is not whole. */
export function motionInfo(file: BitmapFile, bitmap: Bitmap): MotionInfo | undefined {
  const motion = motionOf(file, bitmap);
  const { moving, options, words } = motion ?? {};
  if (!motion || !moving || !options) return undefined;
  const { soft, rim, level } = moving.edge;
  const ends = usualEnds(options);
  const { seconds, step = USUAL.step, ease = USUAL.ease } = options;
  return {
    words: Object.fromEntries([...(words ?? [])].map(([key, word]) => [key, word.value ?? ""])),
    image: Array.from(moving.image),
    mask: Array.from(moving.mask),
    soft,
    rim,
    level,
    from: options.from ?? ends.from,
    to: options.to ?? ends.to,
    ...(seconds === undefined ? { step } : {}),
    count: moving.timeline.positions.length,
    ease,
    loop: moving.timeline.loop,
    cap: moving.cap,
    bakes: isShared(file, motion) ? moving.timeline.positions.length : orderOf(moving.timeline).length,
    stale: judge(file, motion)?.stale !== undefined,
  };
}

/** Refuses what `edited` refuses, words that are none of a motion, and those with which it would not be whole. */
export function changeMotion(
  parsed: Parsed,
  params: LspParams<"dotwright/changeMotion">,
): LspReply<"dotwright/changeMotion"> {
  return edited(parsed, params, (file, bitmap) => {
    const motion = motionOf(file, bitmap);
    if (!motion) return { refused: `${bitmap.array.name} has no @motion` };
    const changes = new Map<string, string | undefined>();
    for (const [key, value] of Object.entries(params.words)) {
      const row = rowOf("motion", key);
      if (!row || row.flag) return { refused: `\`${key}\` is not an option of @motion` };
      if (value !== null && row.parse(value) === undefined)
        return { refused: `\`${value}\` is not a value of \`${key}\`: ${row.form}` };
      changes.set(key, value === null ? undefined : `${key}=${value}`);
    }
    const edits = wordEdits(file.source.text, motion, changes);
    const after = motionsOf(reopened(file, applyEdits(file.source.text, edits)));
    const now = after[motionsOf(file).indexOf(motion)];
    if (now?.moving) return { edits };
    return { refused: now?.problems[0]?.message ?? "the motion would not be whole" };
  });
}

/** Refuses what `edited` and `bake` refuse. */
export function bakeMotion(parsed: Parsed, params: LspParams<"dotwright/bake">): LspReply<"dotwright/bake"> {
  return edited(
    parsed,
    params,
    (file, bitmap) => {
      const motion = motionOf(file, bitmap);
      if (!motion) return { refused: `${bitmap.array.name} has no @motion` };
      const baked = bake(file, motion);
      if ("refused" in baked) return baked;
      const after = reopened(file, applyEdits(file.source.text, baked.edits));
      const now = sameIn(after, bitmap.array);
      return now ? { edits: baked.edits, now } : { refused: `${bitmap.array.name} would not be found again` };
    },
    ({ now }) => ({ identity: identityOf(now) }),
  );
}
