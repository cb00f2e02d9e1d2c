/** What the text is told of the pixel cursor, of the frame and of the selection. */
import type { Place } from "../shared/protocol/webview.ts";
import { selectedByUser } from "./selection/told.ts";
import type { Action, State } from "./state.ts";

/** Moves of the user; those of the extension and of the text are known there. */
const BY_USER: readonly Action["type"][] = ["move", "begin", "drag", "end", "drop", "frame"];

/**
 * Where the user moves the pixel cursor, the text cursor follows: after the stroke, not while it is drawn. Undefined
 * where there is nothing to follow; `pixels` are those that are selected, where the user has selected others.
 */
export function toldOf(
  action: Action,
  before: State,
  state: State,
): { readonly place: Place; readonly pixels?: readonly number[] } | undefined {
  if (state.stroke || state.grip || state.playing || !state.shown) return undefined;
  const place = { frame: state.frame, ...state.cursor };
  const pixels = selectedByUser(action, before, state);
  if (pixels) return { place, pixels };
  const settled = before.pending !== undefined && state.pending === undefined;
  const ended = before.stroke !== undefined || before.grip !== undefined;
  const moved = state.cursor !== before.cursor || state.frame !== before.frame || ended;
  return moved && (settled || BY_USER.includes(action.type)) ? { place } : undefined;
}
