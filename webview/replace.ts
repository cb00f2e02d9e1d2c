/** One value in place of another, everywhere or where it is selected, as one stroke; pure. */
import * as l10n from "@vscode/l10n";
import { countsOf, mostUsed } from "./light.ts";
import { pictureOf } from "./picture.ts";
import { queued } from "./queue.ts";
import { notPainted } from "./refusal.ts";
import { putDown } from "./selection/moving.ts";
import { inSelection, type Selection } from "./selection/selection.ts";
import type { State } from "./state.ts";
import type { Marks } from "./tools/tools.ts";
import { valueName } from "./values.ts";
import { pixelCount } from "./words.ts";

export type ReplaceAction =
  /** Which value is to be replaced by the chosen one; none: no more. */
  | { readonly type: "replacing"; readonly value: number | undefined }
  | { readonly type: "replace"; readonly frames: "one" | "all" };

export function replaceReduce(state: State, action: ReplaceAction): State {
  const { replacing: from, ...rest } = state;
  if (action.type === "replacing") return action.value === undefined ? rest : { ...state, replacing: action.value };
  const { shown, level, frame, selection } = state;
  if (!shown || from === undefined) return state;
  const refused = notPainted(state);
  if (refused !== undefined) return { ...state, note: refused };
  const { stroke: _, ...still } = rest;
  // What floats is part of the picture that is seen.
  const idle = putDown(still);
  const frames = action.frames === "one" ? [frame] : [...shown.frames.keys()];
  const marks = new Map(frames.map((at) => [at, marksOf(pictureOf(idle, at), selection, from, level)]));
  const after = queued({ ...idle, playing: false }, marks);
  if (after.queue === idle.queue) {
    const note = selection ? l10n.t("Nothing to replace in the selection") : l10n.t("Nothing to replace");
    return { ...state, note };
  }
  const count = [...marks.values()].reduce((sum, { size }) => sum + size, 0);
  const [before, now] = [valueName(shown.bitmap, from), valueName(shown.bitmap, level)];
  const note = selection
    ? l10n.t("{0} of the selection: {1} replaced by {2}", pixelCount(count), before, now)
    : l10n.t("{0}: {1} replaced by {2}", pixelCount(count), before, now);
  return { ...after, note };
}

/** How many of the pixels that can be replaced have each value: of the selected ones, where some are selected. */
export function replaceableIn(pixels: Uint32Array, selection: Selection | undefined): Map<number, number> {
  return countsOf(selection ? pixels.filter((_, index) => inSelection({ selection }, index)) : pixels);
}

/**
 * The value to begin with: that under the pixel cursor. Where that is the chosen one already, or the cursor is outside of
 * what is selected, the one that most others have.
 */
export function replacedFirst(state: State): number {
  const { shown, cursor, frame, level, selection } = state;
  const pixels = pictureOf(state, frame);
  const at = cursor.y * (shown?.bitmap.width ?? 1) + cursor.x;
  const here = pixels[at] ?? 0;
  if (here !== level && inSelection(state, at)) return here;
  return mostUsed(replaceableIn(pixels, selection), 2).find((value) => value !== level) ?? here;
}

function marksOf(pixels: Uint32Array, selection: Selection | undefined, from: number, to: number): Marks {
  const marks = new Map<number, number>();
  for (const [index, value] of pixels.entries())
    if (value === from && inSelection({ selection }, index)) marks.set(index, to);
  return marks;
}
