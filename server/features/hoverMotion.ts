/** What a hover on an `@motion`, or on the function that computes one, says: it plays, with its facts. */
import type { BitmapFile } from "../../shared/bitmap/resolve.ts";
import { counted } from "../../shared/checks/rules.ts";
import { bytesOfFrame, endsOf, firmwareBytes } from "../../shared/motion/facts.ts";
import { judge } from "../../shared/motion/judged.ts";
import { framesOf } from "../../shared/motion/kernel/frame.ts";
import { orderOf } from "../../shared/motion/kernel/timeline.ts";
import type { Motion } from "../../shared/motion/resolve.ts";
import { MARKER_DOCS } from "./annotationDocs.ts";
import { hoverPicture, type Played } from "./hoverPicture.ts";

const LOOPS = { once: "once", around: "again and again", "there-and-back": "there and back" } as const;

/** Markdown. */
export function describeMotion(motion: Motion, picture: boolean): string {
  const { moving, name, target, image, fps, problems } = motion;
  const parts = [`**\`@motion\`** · \`${name}\``];
  const shown = target ?? image?.bitmap;
  if (!moving || !shown) {
    parts.push(MARKER_DOCS.motion, ...problems.map((p) => `- ${p.message}`));
    return parts.join("\n\n");
  }
  const frames = framesOf(moving);
  const order = orderOf(moving.timeline);
  const pixels = (frame: number) => frames[order[frame] as number] as Uint8Array;
  const drawn = picture ? hoverPicture(shown, { frames: order.length, pixels, fps }) : undefined;
  if (drawn?.markdown) parts.push(drawn.markdown);
  const { positions, loop } = moving.timeline;
  const { dark, shown: lit } = endsOf(moving);
  const seconds = fps === undefined ? "" : ` (${Math.round((100 * order.length) / fps) / 100} s)`;
  const facts = [
    ...(drawn?.notes ?? []),
    `${counted(order.length, "frame")}, ${LOOPS[loop]}${seconds}: the edge goes from ${positions[0]} to ${positions.at(-1)}`,
    `With this mask all is dark from ${dark} on, and all is shown up to ${lit}`,
    `Sums are held at ${moving.cap}`,
    sizes(motion, order.length),
    ...(motion.glyphs ? ["Changes one glyph of the set into another; shown is the first into the second"] : []),
  ];
  return [...parts, facts.map((fact) => `- ${fact}`).join("\n")].join("\n\n");
}

/** The run that an array holds once each frame; undefined where its frames stand in order, or are out of date. */
export function runOf(file: BitmapFile, motion: Motion): Played | undefined {
  const judged = judge(file, motion);
  if (!judged || judged.stale || judged.order.length === motion.target?.frames) return undefined;
  const { frames, order } = judged;
  return { frames: order.length, pixels: (n) => frames[order[n] as number] as Uint8Array, fps: motion.fps };
}

/** A line for the hover on the array that holds the frames. */
export function motionFact(motion: Motion): string {
  const count = motion.moving ? orderOf(motion.moving.timeline).length : 0;
  return `- Frames of an \`@motion\`: ${sizes(motion, count)}`;
}

function sizes(motion: Motion, frames: number): string {
  const { target, image } = motion;
  const shown = target ?? image?.bitmap;
  const baked = shown ? frames * bytesOfFrame(shown) : 0;
  return `${baked} bytes of flash baked, ${firmwareBytes(motion)} and a function in firmware`;
}
