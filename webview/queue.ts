/** Finished strokes, one after the other, until the document shows them; pure. */
import * as l10n from "@vscode/l10n";
import type { BitmapIdentity } from "../shared/bitmap/edit.ts";
import type { Shown } from "../shared/protocol/webview.ts";
import { pictureOf, sameBitmap } from "./picture.ts";
import type { State } from "./state.ts";
import type { Marks } from "./tools/tools.ts";

/** A finished stroke, kept on the picture until the document shows it. */
export interface Sent {
  readonly id: number;
  readonly identity: BitmapIdentity;
  /** Columns of its bitmap, by which pixels are counted: another one may be shown when it is sent. */
  readonly width: number;
  /** What changes in each frame that it is about. */
  readonly parts: readonly {
    readonly frame: number;
    readonly marks: Marks;
    /** The values before the stroke, as they were when it ended. */
    readonly before: Marks;
  }[];
  /** The version that has it. */
  readonly answered?: number;
}

export type QueueAction =
  | { readonly type: "answered"; readonly id: number; readonly version: number }
  | { readonly type: "refused"; readonly id: number; readonly reason: string };

/** One stroke more, of marks by frame; the same state where nothing would change. */
export function queued(state: State, marks: ReadonlyMap<number, Marks>): State {
  const { shown } = state;
  if (!shown) return state;
  const parts: Sent["parts"][number][] = [];
  for (const [frame, wanted] of marks) {
    const pixels = pictureOf({ shown, queue: state.queue }, frame);
    const changed = [...wanted].filter(([index, value]) => pixels[index] !== value);
    if (changed.length === 0) continue;
    const before = new Map(changed.map(([index]) => [index, pixels[index] ?? 0]));
    parts.push({ frame, marks: new Map(changed), before });
  }
  if (parts.length === 0) return state;
  const { identity, width } = shown.bitmap;
  const id = state.lastId + 1;
  return { ...state, lastId: id, queue: [...state.queue, { id, identity, width, parts }] };
}

export function reduceQueue(state: State, action: QueueAction): State {
  const { id } = action;
  if (action.type === "answered") {
    const queue = state.queue.map((s) => (s.id === id ? { ...s, answered: action.version } : s));
    return { ...state, queue: settled(queue, state.shown) };
  }
  const queue = state.queue.filter((s) => s.id !== id);
  return { ...state, queue, note: l10n.t("Not painted: {0}", action.reason) };
}

/** The strokes that the shown document does not have yet. */
export function settled(queue: readonly Sent[], shown: Shown | undefined): readonly Sent[] {
  return queue.filter((s) => {
    if (s.answered === undefined) return true;
    return shown !== undefined && sameBitmap(s.identity, shown.bitmap.identity) && shown.version < s.answered;
  });
}
