/** What the extension shows, and what of the state goes on with it; pure. */
import * as l10n from "@vscode/l10n";
import type { BitmapIdentity } from "../shared/bitmap/edit.ts";
import type { Place, Shown } from "../shared/protocol/webview.ts";
import { arrived, sameArray } from "./frameEditing.ts";
import { motionFor } from "./motion.ts";
import { sameBitmap } from "./picture.ts";
import { settled } from "./queue.ts";
import type { State } from "./state.ts";
import { withoutStroke } from "./stroke.ts";
import { nearestIn } from "./tools/shapes.ts";
import { firstValue } from "./values.ts";

export function show(state: State, shown: Shown): State {
  const { why, replacing, ...rest } = state;
  const { bitmap } = shown;
  const known = state.shown !== undefined && sameBitmap(state.shown.bitmap.identity, bitmap.identity);
  // Also with other frames or another size, of which undo is one.
  const same = state.shown !== undefined && sameArray(state.shown.bitmap.identity, bitmap.identity);
  const moved = <T extends { readonly identity: BitmapIdentity }>(one: T): T =>
    sameBitmap(one.identity, bitmap.identity) ? { ...one, identity: bitmap.identity } : one;
  const fits =
    state.level >= 0 && state.level <= bitmap.most && (known || state.shown?.bitmap.format === bitmap.format);
  // With no picture before, a level given from outside (kept from last time) stays if the format has it.
  const kept = state.shown === undefined && state.level >= 0 && state.level <= bitmap.most;
  const base: State = { ...rest, shown, level: fits || kept ? state.level : firstValue(bitmap) };
  const next: State = {
    ...(known || !state.stroke ? base : withoutStroke(base)),
    queue: settled(state.queue.map(moved), shown),
    ...(state.pending ? { pending: moved(state.pending) } : {}),
    motion: motionFor(state.motion, state.shown?.bitmap, bitmap, same || state.shown === undefined),
    frame: Math.min(same || state.shown === undefined ? state.frame : 0, bitmap.frames - 1),
    playing: state.playing && known && bitmap.frames > 1,
    note: noteFor(state, known, why !== undefined),
    ...(known && replacing !== undefined ? { replacing } : {}),
  };
  return arrived({ ...next, cursor: nearestIn(bitmap, state.cursor) });
}

function noteFor(state: State, known: boolean, wasAway: boolean): string {
  if (!known && state.stroke) return l10n.t("stroke dropped: another bitmap is shown");
  return known && !wasAway ? state.note : "";
}

/** The last picture stays with cursor, tool and frame: often the array is only half typed. */
export function nothing(state: State, why: string): State {
  return {
    ...withoutStroke(state),
    why,
    playing: false,
    queue: state.queue.filter((s) => s.answered === undefined),
    note: state.stroke ? l10n.t("stroke dropped") : state.note,
  };
}

/** Where the text cursor was put; who paints is not disturbed. */
export function hostCursor(state: State, place: Place): State {
  if (!state.shown || state.stroke || state.grip) return state;
  return toFrame({ ...state, cursor: nearestIn(state.shown.bitmap, place) }, place.frame);
}

export function toFrame(state: State, frame: number): State {
  const last = (state.shown?.bitmap.frames ?? 1) - 1;
  const next = Math.max(0, Math.min(last, frame));
  return next === state.frame ? state : { ...withoutStroke(state), frame: next };
}
