/** Frames added, copied, taken away and moved, as the page asks for it and until the document shows it; pure. */
import * as l10n from "@vscode/l10n";
import type { BitmapIdentity } from "../shared/bitmap/edit.ts";
import type { Restructuring } from "../shared/bitmap/restructure/change.ts";
import type { Shown } from "../shared/protocol/webview.ts";
import { whyNot } from "./refusal.ts";

/** A change of the array's structure on its way. */
export interface Pending {
  readonly change: Restructuring;
  /** The array that it is about: another one may be shown when it is asked for. */
  readonly identity: BitmapIdentity;
  /** The frame to show after it, and what to say then. */
  readonly frame: number;
  readonly note: string;
  /** The version that has it. */
  readonly answered?: number;
}

interface Frames {
  readonly shown?: Shown;
  readonly frame: number;
}

export type FrameAction =
  /** Another structure is wanted; strokes that wait go first. */
  | { readonly type: "restructure"; readonly change: Restructuring; readonly frame: number; readonly note: string }
  | { readonly type: "restructured"; readonly version: number }
  | { readonly type: "notRestructured"; readonly reason: string };

interface Restructured extends Frames {
  readonly pending?: Pending;
  readonly playing: boolean;
  readonly why?: string;
  readonly note: string;
}

export function reduceFrames<S extends Restructured>(state: S, action: FrameAction): S {
  const { shown, pending, why } = state;
  switch (action.type) {
    case "restructure": {
      if (!shown) return state;
      const refused = whyNot({ shown, ...(why === undefined ? {} : { why }) });
      if (refused !== undefined) return { ...state, note: l10n.t("Not changed: {0}", refused) };
      // One after the other: what is asked next is meant for the frames that will be there.
      if (pending) return state;
      const { change, frame, note } = action;
      return { ...state, playing: false, pending: { change, frame, note, identity: shown.bitmap.identity } };
    }
    case "restructured":
      return pending ? arrived({ ...state, pending: { ...pending, answered: action.version } }) : state;
    case "notRestructured":
      return { ...without(state), note: l10n.t("Not changed: {0}", action.reason) };
  }
}

/** Once the document shows the change: the frame that it is about is at hand. */
export function arrived<S extends Restructured>(state: S): S {
  const { pending, shown } = state;
  if (pending?.answered === undefined || !shown || shown.version < pending.answered) return state;
  const rest = without(state);
  if (!sameArray(shown.bitmap.identity, pending.identity)) return rest;
  return { ...rest, frame: Math.min(pending.frame, shown.bitmap.frames - 1), note: pending.note };
}

function without<S extends Restructured>(state: S): S {
  const { pending: _, ...rest } = state;
  return rest as S;
}

/** Whether two identities mean one array, also where its structure has changed. */
export function sameArray(a: BitmapIdentity, b: BitmapIdentity): boolean {
  return a.name === b.name && (a.ordinal === b.ordinal || a.siblings !== b.siblings);
}

type Restructure = Extract<FrameAction, { type: "restructure" }>;

const frames = (order: readonly (number | "dark")[], frame: number, note: string): Restructure => ({
  type: "restructure",
  change: { kind: "frames", order },
  frame,
  note,
});

const all = (count: number): number[] => Array.from({ length: count }, (_, i) => i);

/** A dark frame, or a copy, behind the one at hand. */
export function added({ shown, frame }: Frames, what: "dark" | "copy"): Restructure | undefined {
  if (!shown) return undefined;
  const { frames: count, frameNames } = shown.bitmap;
  const order: (number | "dark")[] = all(count);
  order.splice(frame + 1, 0, what === "dark" ? "dark" : frame);
  if (frameNames) return frames(order, frame + 1, addedToSet(frameNames[frame] ?? "", what));
  const note =
    what === "dark"
      ? l10n.t("dark frame added as {0} of 0–{1}", frame + 1, count)
      : l10n.t("frame {0} copied to {1} of 0–{2}", frame, frame + 1, count);
  return frames(order, frame + 1, note);
}

/** Of a set: a frame of its array, or an array of its own. */
function addedToSet(name: string, what: "dark" | "copy"): string {
  return what === "dark"
    ? l10n.t("a dark one added behind {0}; tables that list the arrays stay as they are", name)
    : l10n.t("{0} copied behind it; tables that list the arrays stay as they are", name);
}

/** undefined where only one frame is left. */
export function removed({ shown, frame }: Frames): Restructure | undefined {
  const count = shown?.bitmap.frames ?? 0;
  if (count < 2) return undefined;
  const note =
    count === 2
      ? l10n.t("frame {0} deleted, 1 is left", frame)
      : l10n.t("frame {0} deleted, {1} are left", frame, count - 1);
  return frames(
    all(count).filter((f) => f !== frame),
    Math.min(frame, count - 2),
    note,
  );
}

/** undefined where it would stay where it is. */
export function movedTo({ shown }: Frames, from: number, to: number): Restructure | undefined {
  const { frames: count = 0, frameNames } = shown?.bitmap ?? {};
  const at = Math.max(0, Math.min(count - 1, to));
  if (at === from || count < 2) return undefined;
  const order = all(count).filter((f) => f !== from);
  order.splice(at, 0, from);
  const [here, there] = [frameNames?.[from], frameNames?.[at]];
  if (here !== undefined && there !== undefined) {
    const next = Math.abs(at - from) === 1;
    const note = next
      ? l10n.t("{0} and {1} have changed places", here, there)
      : l10n.t("what {0} held is in {1} now; those between have moved by one", here, there);
    return frames(order, at, note);
  }
  return frames(order, at, l10n.t("frame {0} moved to {1} of 0–{2}", from, at, count - 1));
}
