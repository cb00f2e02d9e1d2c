/** An edge as it is being moved about on the page, and what of it differs from the words of the annotation. */
import { edgeOf, MOST_SOFT } from "../../shared/motion/kernel/edge.ts";
import type { Moving } from "../../shared/motion/kernel/frame.ts";
import { byCount, byStep, MOST_POSITION, orderOf, type Timeline } from "../../shared/motion/kernel/timeline.ts";
import type { MotionInfo } from "../../shared/protocol/lsp.ts";

/** What can be dragged or typed; all whole numbers. */
export type Part = "soft" | "rim" | "level" | "from" | "to" | "step";
export const PARTS: readonly Part[] = ["soft", "rim", "level", "from", "to", "step"];

export type Draft = Readonly<Record<Exclude<Part, "step">, number>> & {
  /** Missing where the motion goes by `seconds`. */
  readonly step?: number;
  readonly ease: MotionInfo["ease"];
  readonly loop: MotionInfo["loop"];
};

export function draftOf({ soft, rim, level, from, to, step, ease, loop }: MotionInfo): Draft {
  return { soft, rim, level, from, to, ease, loop, ...(step === undefined ? {} : { step }) };
}

/** The draft with another value of a part, the nearest that it can have. The rim stays within the soft edge. */
export function withPart(draft: Draft, part: Part, wanted: number, cap: number): Draft {
  const value = Math.round(wanted);
  const within = (least: number, most: number) => Math.min(most, Math.max(least, value));
  switch (part) {
    case "soft":
      return { ...draft, soft: within(draft.rim, MOST_SOFT) };
    case "rim":
      return { ...draft, rim: within(0, draft.soft) };
    case "level":
      return { ...draft, level: within(0, cap) };
    case "from":
    case "to":
      return { ...draft, [part]: within(-MOST_POSITION, MOST_POSITION) };
    case "step":
      return { ...draft, step: within(1, 2 * MOST_POSITION) };
  }
}

/** The words that write the draft, by option; none where nothing differs. */
export function wordsFor(info: MotionInfo, draft: Draft): Record<string, string> {
  const before = draftOf(info);
  const words: Record<string, string> = {};
  for (const key of [...PARTS, "ease", "loop"] as const) {
    const value = draft[key];
    if (value !== undefined && value !== before[key]) words[key] = String(value);
  }
  return words;
}

/** Positions and order of the draft. */
function timelineOf({ count }: MotionInfo, { from, to, step, ease, loop }: Draft): Timeline {
  const way = { from, to, ease };
  return { positions: step === undefined ? byCount(way, count) : byStep(way, step), loop };
}

/** The motion as the kernel computes it. */
export function movingOf(info: MotionInfo, width: number, height: number, draft: Draft): Moving {
  return {
    width,
    height,
    image: Uint8Array.from(info.image),
    mask: Uint8Array.from(info.mask),
    edge: edgeOf(draft.soft, draft.rim, draft.level),
    cap: info.cap,
    timeline: timelineOf(info, draft),
  };
}

/** Where the edge stands in a frame of the run. */
export function positionAt({ timeline }: Pick<Moving, "timeline">, frame: number): number {
  const order = orderOf(timeline);
  return timeline.positions[order[Math.min(frame, order.length - 1)] ?? 0] ?? 0;
}
