/** What the check of a motion has to compute. It is kept while image, mask, array and words stay the same. */
import { identityOf } from "../bitmap/edit.ts";
import type { Bitmap, BitmapFile } from "../bitmap/resolve.ts";
import type { Initialiser } from "../source/initialiser.ts";
import { holds, holdsAt, inOrder, isShared } from "./bake.ts";
import type { Ends, Sums } from "./facts.ts";
import { endsOf, sumsAbove } from "./facts.ts";
import type { Moving } from "./kernel/frame.ts";
import { framesOf } from "./kernel/frame.ts";
import { orderOf } from "./kernel/timeline.ts";
import type { Motion } from "./resolve.ts";

export interface Judged {
  readonly ends: Ends;
  readonly sums: Sums | undefined;
  /** The array does not hold the frames: how many it should, and the first that differs (all before are right). */
  readonly stale: { readonly frames: number; readonly first: number } | undefined;
  /** Frames one way, and the order in which they are shown. */
  readonly frames: readonly Uint8Array[];
  readonly order: readonly number[];
}

interface Kept {
  readonly key: string;
  readonly lists: readonly (Initialiser | undefined)[];
  readonly judged: Judged;
}

const known = new WeakMap<Initialiser, Kept[]>();
/** Motions of one image that are kept. */
const MOST_KEPT = 8;

/** undefined for a motion with something wrong. */
export function judge(file: BitmapFile, motion: Motion): Judged | undefined {
  const { moving, image, mask, target, options } = motion;
  const list = image?.bitmap.array.list;
  if (!moving || !image || !list) return undefined;
  const shared = isShared(file, motion);
  const { timeline, edge, cap } = moving;
  const place = (b: Bitmap | undefined) => b && [b.array.node, b.array.first, identityOf(b).structure];
  const key = JSON.stringify([
    options,
    [...timeline.positions],
    [edge.soft, edge.rim, edge.level, cap, shared],
    [image.frame, mask?.frame],
    [place(image.bitmap), place(mask?.bitmap), place(target)],
  ]);
  const lists = [list, mask?.bitmap.array.list, target?.array.list];
  const kept = known.get(list) ?? [];
  const before = kept.find((k) => k.key === key && k.lists.every((one, i) => one === lists[i]));
  if (before) return before.judged;
  const judged = compute(motion, shared);
  known.set(list, [{ key, lists, judged }, ...kept].slice(0, MOST_KEPT));
  return judged;
}

function compute(motion: Motion, shared: boolean): Judged {
  const { moving, target, image } = motion as Motion & { moving: NonNullable<Motion["moving"]> };
  const frames = framesOf(moving);
  const order = orderOf(moving.timeline);
  const most = (target ?? image?.bitmap)?.format.most ?? 255;
  return {
    ends: endsOf(moving),
    sums: sumsAbove(moving, most),
    stale: target && staleIn(moving, target, shared, frames),
    frames,
    order,
  };
}

function staleIn(moving: Moving, target: Bitmap, shared: boolean, there: readonly Uint8Array[]): Judged["stale"] {
  const wanted = inOrder(moving, there, shared);
  if (holds(target, wanted)) return undefined;
  // Firmware may turn back by itself, without a table.
  if (!shared && holds(target, there)) return undefined;
  const first = wanted.findIndex((frame, i) => i >= target.frames || !holdsAt(target, i, frame));
  return { frames: wanted.length, first };
}
