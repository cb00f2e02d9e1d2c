/** Keys of the grid: the pixel cursor and the tool in hand; pure. */
import * as l10n from "@vscode/l10n";
import { earlyText } from "../drawing.ts";
import { stepOf, turnOf } from "../look.ts";
import { refusal } from "../painting.ts";
import type { Action, State } from "../state.ts";
import { nearestIn, type Point, type Size } from "../tools/shapes.ts";
import { toolOf } from "../tools/tools.ts";
import { ARROWS, type Key, type KeyRow } from "./key.ts";
import { selectionGridKey } from "./selection.ts";

export const GRID_ROWS: readonly KeyRow[] = [
  {
    shown: l10n.t("arrows"),
    does: l10n.t("move the pixel cursor, or what floats"),
    own: { on: "grid", keys: ["ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown"] },
  },
  {
    shown: l10n.t("Home, End"),
    does: l10n.t("first and last of the row; with Ctrl first and last pixel"),
    own: { on: "grid", keys: ["Home", "End", "Ctrl+Home", "Ctrl+End"] },
  },
  {
    shown: l10n.t("Space, Enter"),
    does: l10n.t(
      "use the tool; Line, Box, Oval, Gradient and Select: press at both ends; on selected pixels: move them with the arrows, and again to put them down",
    ),
    own: { on: "grid", keys: [" ", "Enter"] },
  },
];

/** Keys of the grid. */
export function keyAction(key: Key, state: State): Action[] {
  const { shown, stroke, cursor, frame } = state;
  if (!shown || key.altKey) return [];
  const own = selectionGridKey(key, state);
  if (own) return own;
  const text = earlyText(key, state);
  if (text) return [text];
  const to = target(key, cursor, shown.bitmap, turnOf(shown.bitmap, state.view));
  if (to) return [stroke ? { type: "drag", to } : { type: "move", to }];
  if (key.ctrlKey || key.metaKey) return [];
  switch (key.key) {
    case "PageUp":
      return [{ type: "frame", frame: frame - 1 }];
    case "PageDown":
      return [{ type: "frame", frame: frame + 1 }];
    case " ":
    case "Enter":
      if (key.repeat) return [];
      if (stroke) return [{ type: "end" }];
      if (toolOf(state.tool).typed) return [{ type: "begin", at: cursor }];
      // What can't be painted says so itself.
      return toolOf(state.tool).twoPresses && refusal(state) === undefined
        ? [
            { type: "begin", at: cursor },
            { type: "say", note: l10n.t("{0} starts here: move and press Space again", toolOf(state.tool).word) },
          ]
        : [{ type: "begin", at: cursor }, { type: "end" }];
    default:
      return [];
  }
}

/** Arrows go where they point on the screen, also where the display is turned. */
function target(key: Key, at: Point, size: Size, turn: number): Point | undefined {
  const far = key.ctrlKey || key.metaKey;
  const go = (x: number, y: number, steps: number) => {
    const step = stepOf({ x, y }, turn);
    return nearestIn(size, { x: at.x + step.x * steps, y: at.y + step.y * steps });
  };
  const arrow = ARROWS[key.key];
  if (arrow) return far ? undefined : go(arrow.x, arrow.y, 1);
  const all = size.width + size.height;
  const end = key.key === "Home" ? -1 : key.key === "End" ? 1 : undefined;
  return end && go(end, far ? end : 0, all);
}
