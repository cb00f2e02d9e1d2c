/** What the text is told of the selection; pure. */
import type { Action, State } from "../state.ts";
import { indexesOf } from "./selection.ts";

/**
 * The selected pixels, where the user has changed them here or has gone with them to another frame; none for a
 * selection let go. Undefined where the text has nothing to follow.
 */
export function selectedByUser(
  action: Action,
  before: State,
  { selection, float, frame, shown }: State,
): number[] | undefined {
  if (["show", "nothing", "hostCursor", "selectText"].includes(action.type)) return undefined;
  if (shown !== before.shown || (!selection && !before.selection)) return undefined;
  // While a rectangle is drawn or pixels float there is none yet: then what was before it counts.
  if (selection === before.selection && frame === before.frame && !before.grip) return undefined;
  if (!selection) return float || before.float || before.grip ? undefined : [];
  return indexesOf(selection);
}
