/** One value in place of another everywhere, as one stroke; pure. */
import * as l10n from "@vscode/l10n";
import { pictureOf } from "./picture.ts";
import { queued } from "./queue.ts";
import { notPainted } from "./refusal.ts";
import { putDown } from "./selection/moving.ts";
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
  const { shown, level, frame } = state;
  if (!shown || from === undefined) return state;
  const refused = notPainted(state);
  if (refused !== undefined) return { ...state, note: refused };
  const { stroke: _, ...still } = rest;
  // What floats is part of the picture that is seen.
  const idle = putDown(still);
  const frames = action.frames === "one" ? [frame] : [...shown.frames.keys()];
  const marks = new Map(frames.map((at) => [at, marksOf(pictureOf(idle, at), from, level)]));
  const after = queued({ ...idle, playing: false }, marks);
  if (after.queue === idle.queue) return { ...state, note: l10n.t("Nothing to replace") };
  const count = [...marks.values()].reduce((sum, { size }) => sum + size, 0);
  const [before, now] = [valueName(shown.bitmap, from), valueName(shown.bitmap, level)];
  return { ...after, note: l10n.t("{0}: {1} replaced by {2}", pixelCount(count), before, now) };
}

function marksOf(pixels: Uint32Array, from: number, to: number): Marks {
  const marks = new Map<number, number>();
  for (const [index, value] of pixels.entries()) if (value === from) marks.set(index, to);
  return marks;
}
