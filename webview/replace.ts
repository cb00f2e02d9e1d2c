/** One value in place of another everywhere, as one stroke; pure. */
import * as l10n from "@vscode/l10n";
import { pictureOf } from "./picture.ts";
import type { Part, Sent, State } from "./state.ts";
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
  if (shown.readOnly) return { ...state, note: l10n.t("Not painted: this document can’t be changed") };
  if (state.why !== undefined) return { ...state, note: l10n.t("Not painted: {0}", state.why) };
  const { stroke: _, ...idle } = rest;
  const frames = action.frames === "one" ? [frame] : [...shown.frames.keys()];
  const parts = frames.map((at) => partOf(idle, at, from, level)).filter(({ marks }) => marks.size > 0);
  const [first, ...more] = parts;
  if (!first || from === level) return { ...state, note: l10n.t("Nothing to replace") };
  const id = state.lastId + 1;
  const sent: Sent = { id, identity: shown.bitmap.identity, ...first, ...(more.length > 0 ? { more } : {}) };
  const count = parts.reduce((sum, { marks }) => sum + marks.size, 0);
  const [before, after] = [valueName(shown.bitmap, from), valueName(shown.bitmap, level)];
  const note = l10n.t("{0}: {1} replaced by {2}", pixelCount(count), before, after);
  return { ...idle, playing: false, lastId: id, queue: [...state.queue, sent], note };
}

function partOf(state: Pick<State, "shown" | "queue">, frame: number, from: number, to: number): Part {
  const marks = new Map<number, number>();
  const before = new Map<number, number>();
  for (const [index, value] of pictureOf(state, frame).entries()) {
    if (value !== from) continue;
    marks.set(index, to);
    before.set(index, value);
  }
  return { frame, marks, before };
}
